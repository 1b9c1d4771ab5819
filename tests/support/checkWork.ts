// An independent reader of a plan of work: it takes the runs and days as they stand and counts everything again its
// own way. Shares nothing with the planner but the nouns.
import type { Rates } from '../../core/rates/schema';
import type { WeldPlan, WeldRun, WorkDay, WorkPlan } from '../../core/welding/types';
import type { WorkInput } from '../../core/welding/workLoads';

/** What was planned for. */
export interface PlannedFor {
  readonly rates: Rates;
  readonly adhered: boolean;
  /** Which sheet of a side lap is to be laid first. End laps are laid under before over in either order. */
  readonly first: 'under' | 'over';
}

export function faultsOfWork(
  inputs: readonly WorkInput[],
  plan: WeldPlan,
  work: WorkPlan,
  planned: PlannedFor,
): string[] {
  return [
    ...inputs.flatMap((input) => faultsOfRuns(input, plan)),
    ...faultsOfDays(plan, work, planned.rates),
    ...inputs.flatMap((input) => faultsOfOrder(input, plan, work, planned)),
    ...faultsOfHours(inputs, plan, work, planned),
  ];
}

/** Every lap in exactly one run, and the metres of the runs are the metres of the laps, kind by kind. */
function faultsOfRuns({ roof, seams, details }: WorkInput, plan: WeldPlan): string[] {
  const faults: string[] = [];
  const own = plan.runs.filter((run) => run.roof === roof.id);
  for (const [kind, laps] of [
    ['side-lap', seams.sideLaps],
    ['end-lap', seams.endLaps],
  ] as const) {
    const runs = own.filter((run) => run.kind === kind);
    const covered = runs.flatMap((run) => run.seams).sort();
    const wanted = laps.map((lap) => lap.id).sort();
    if (covered.join() !== wanted.join()) faults.push(`${kind}: the runs do not cover each lap once`);
    const lengths = new Map(laps.map((lap) => [lap.id, lap.length]));
    for (const run of runs) {
      const sum = run.seams.reduce((total, id) => total + (lengths.get(id) ?? NaN), 0);
      if (!(Math.abs(sum - run.length) < 0.5))
        faults.push(`${run.id}: ${run.length} mm for laps of ${sum} mm`);
      if (run.byHand > run.length + 1e-6 || run.byHand < 0)
        faults.push(`${run.id}: ${run.byHand} mm by hand`);
    }
    const [a, b] = [total(runs), total(laps)];
    if (Math.abs(a - b) >= 0.5) faults.push(`${kind}: ${a} mm of runs, ${b} mm of laps`);
  }
  const flashed = total(own.filter((run) => run.kind === 'flashing'));
  const flashing = details.flashings.reduce((sum, each) => sum + each.weld, 0);
  if (Math.abs(flashed - flashing) >= 0.5)
    faults.push(`flashing: ${flashed} mm of runs, ${flashing} mm wanted`);
  return faults;
}

const total = (list: readonly { readonly length: number }[]) =>
  list.reduce((sum, each) => sum + each.length, 0);

function faultsOfDays(plan: WeldPlan, work: WorkPlan, rates: Rates): string[] {
  const faults: string[] = [];
  const listed = work.days.flatMap((day) => day.runs).sort();
  if (
    listed.join() !==
    plan.runs
      .map((run) => run.id)
      .sort()
      .join()
  )
    faults.push('a run is in no day or in two');
  const byId = new Map(plan.runs.map((run) => [run.id, run]));
  let last = 0;
  for (const day of work.days) {
    if (day.number <= last) faults.push(`day ${day.number} after day ${last}`);
    last = day.number;
    const runs = day.runs.map((id) => byId.get(id) as WeldRun);
    for (const machine of new Set(runs.flatMap((run) => (run.machine === null ? [] : [run.machine])))) {
      const own = day.strips.filter((strip) => strip.machine === machine);
      if (own[0]?.reason !== 'start of the day')
        faults.push(`day ${day.number}: machine ${machine} starts unproved`);
      const again = own.slice(1).map(({ at }) => at);
      const wanted = day.clock.worked
        .map(([from], k) => ({ from, gap: from - (day.clock.worked[k - 1]?.[1] ?? from) }))
        .filter(({ from, gap }) => gap >= 30 && lastWork(day.steps) > from)
        .map(({ from }) => from);
      if (again.join() !== wanted.join())
        faults.push(`day ${day.number}: strips after breaks at ${again.join()}, due at ${wanted.join()}`);
    }
    faults.push(...faultsOfClock(day, rates));
  }
  return faults;
}

const lastWork = (steps: WorkDay['steps']) =>
  Math.max(0, ...steps.filter(({ what }) => what === 'sheet' || what === 'detail').map(({ to }) => to));

/** The day's hours by the rates, its breaks kept, and its steps one after another within them. */
function faultsOfClock(
  { number, clock, steps, sheets, runs }: WorkDay,
  { labour, welding }: Rates,
): string[] {
  const faults: string[] = [];
  const say = (what: string) => faults.push(`day ${number}: ${what}`);
  const [hours, minutes] = welding.clock.start.split(':').map(Number);
  if (clock.start !== (hours ?? 0) * 60 + (minutes ?? 0)) say(`starts at ${clock.start}`);
  const stops = clock.pauses.filter(({ why }) => why !== 'break');
  const rests = clock.pauses.filter(({ why }) => why === 'break');
  const rested = rests.reduce((sum, { from, to }) => sum + to - from, 0);
  if (Math.abs(clock.end - clock.start - rested - 60 * labour.dayHours) > 0.001) say(`ends at ${clock.end}`);
  // Minute by minute: worked or not, never both.
  for (let at = clock.start + 0.5; at < clock.end; at++) {
    const worked = clock.worked.some(([from, to]) => at > from && at < to);
    const paused = [...stops, ...rests].some(({ from, to }) => at > from && at < to);
    if (worked === paused) say(`${at} is ${worked ? 'worked in a pause' : 'neither worked nor a pause'}`);
  }
  const laid = steps.flatMap(({ sheet }) => (sheet === null ? [] : [sheet]));
  if (laid.join() !== sheets.map(({ sheet }) => sheet).join()) say('the clock has other sheets than the day');
  if (steps.some(({ run }) => run !== null && !runs.includes(run)))
    say('the clock has a detail of another day');
  let before = clock.start;
  for (const { what, from, to } of steps) {
    if (what === 'strips again') {
      if (!clock.worked.some(([start]) => start === from)) say(`strips at ${from}, after no break`);
      continue;
    }
    if (from < before - 0.001 || to < from - 0.001) say(`${what} from ${from} to ${to} after ${before}`);
    before = to;
  }
  return faults;
}

/** The sheets of a lap in the order asked for, and every seam after both its sheets. */
function faultsOfOrder(
  { roof, seams }: WorkInput,
  plan: WeldPlan,
  work: WorkPlan,
  planned: PlannedFor,
): string[] {
  const faults: string[] = [];
  const laidAt = new Map<string, number>();
  const dayOf = new Map<string, number>();
  const weldedOn = new Map<string, number>();
  let place = 0;
  for (const day of work.days) {
    for (const { roof: on, sheet } of day.sheets)
      if (on === roof.id) {
        if (laidAt.has(sheet)) faults.push(`${sheet} is laid twice`);
        laidAt.set(sheet, place++);
        dayOf.set(sheet, day.number);
      }
    for (const run of day.runs) weldedOn.set(run, day.number);
  }
  const runOf = new Map(
    plan.runs
      .filter((run) => run.roof === roof.id)
      .flatMap((run) => run.seams.map((seam) => [seam, run] as const)),
  );
  for (const lap of [...seams.sideLaps, ...seams.endLaps]) {
    const under = lap.between[0] === lap.over ? lap.between[1] : lap.between[0];
    const [below, above] = [laidAt.get(under) ?? NaN, laidAt.get(lap.over) ?? NaN];
    const tucked = lap.kind === 'side' && planned.first === 'over';
    // The rows along an edge are laid before their field, whichever of the two lies over.
    const free = lap.kind === 'side' && lap.betweenBands === true;
    if (!free && !(tucked ? above < below : below < above))
      faults.push(
        `${lap.id}: ${under}, which goes under ${lap.over}, is not laid ${tucked ? 'after' : 'before'} it`,
      );
    const welded = weldedOn.get(runOf.get(lap.id)?.id ?? '') ?? NaN;
    for (const sheet of lap.between)
      if (!((dayOf.get(sheet) ?? NaN) <= welded)) faults.push(`${lap.id} is welded before ${sheet} is laid`);
    // Nothing is unrolled that is not welded the same day: a lap is closed on the day its second sheet is laid.
    if (!(Math.abs(welded - Math.max(...lap.between.map((sheet) => dayOf.get(sheet) ?? NaN))) < 0.5))
      faults.push(`${lap.id} stays open after both its sheets are laid`);
  }
  return faults;
}

/** Person-minutes and machine-minutes of each day, counted anew, against what a day holds. */
function faultsOfHours(
  inputs: readonly WorkInput[],
  plan: WeldPlan,
  work: WorkPlan,
  { rates, adhered }: PlannedFor,
): string[] {
  const { speeds, labour, welding } = rates;
  const { height, crowding, weather } = welding.productivity;
  const slower = height * crowding * weather;
  const byId = new Map(plan.runs.map((run) => [run.id, run]));
  const tooLong = work.findings.some((finding) => finding.rule === 'work-over-a-day');
  const faults: string[] = [];
  let counted = 0;
  const laid = new Set<string>();
  work.days.forEach((day, k) => {
    const busy = welding.machines.map(() => 0);
    const layings: number[] = [];
    let persons = 0;
    for (const id of day.runs) {
      const run = byId.get(id) as WeldRun;
      const beside =
        run.setupMinutes + run.walkMinutes + run.turnMinutes + run.slowMinutes + run.nozzleMinutes;
      const byMachine = run.method === 'machine';
      const own = run.weldMinutes / (byMachine ? speeds.efficiency : welding.handEfficiency) + beside;
      if (run.machine !== null) busy[run.machine] = (busy[run.machine] ?? 0) + own * slower;
      persons += (own + run.handMinutes / welding.handEfficiency) * labour.perWelder * slower;
      const metres = run.length / 1000;
      persons += (metres / welding.probing + (metres / welding.repairEvery) * welding.perRepair) * slower;
      if (run.kind === 'corner') persons += labour.perCorner * slower;
      if (run.kind === 'boot') persons += labour.perBoot * slower;
      if (run.kind === 't-joint') persons += speeds.perTJoint * slower;
      if (run.kind === 'flashing')
        persons +=
          (60 * labour.flashingPerM * slower * Math.hypot(run.to[0] - run.from[0], run.to[1] - run.from[1])) /
          1000;
    }
    for (const input of inputs) {
      const all = input.layout.sheets.reduce((sum, sheet) => sum + sheet.length * sheet.width, 0);
      for (const { roof, sheet } of day.sheets)
        if (roof === input.roof.id) {
          laid.add(`${roof}/${sheet}`);
          const found = input.layout.sheets.find((each) => each.id === sheet);
          const share = found ? (found.length * found.width) / all : NaN;
          const area = (share * input.roof.area) / 1e6;
          const bonding = adhered ? welding.adhering.coats * welding.adhering.minutesPerM2 : 0;
          layings.push(area * (60 * labour.layingPerM2 + bonding) * slower);
        }
    }
    persons += layings.reduce((sum, each) => sum + each, 0);
    // Fasteners are counted over all days below; here they are what is left of the day's own figure.
    const fastening = day.tasks.find((task) => task.name === 'Fastening')?.minutes ?? 0;
    counted += fastening;
    const open = inputs
      .flatMap(({ roof, seams }) =>
        [...seams.sideLaps, ...seams.endLaps].map((lap) => ({ roof: roof.id, lap })),
      )
      .filter(({ roof, lap }) => lap.between.filter((sheet) => laid.has(`${roof}/${sheet}`)).length === 1)
      .reduce((sum, { lap }) => sum + lap.length, 0);
    const seal = k + 1 < work.days.length ? open : 0;
    if (Math.abs(seal - (day.night?.length ?? 0)) >= 0.5)
      faults.push(`day ${day.number}: ${day.night?.length ?? 0} mm closed for the night, ${seal} mm open`);
    const strips = day.strips.length * speeds.perTestStrip;
    const heat = busy.filter((minutes) => minutes > 0).length * (welding.warmUp + welding.cooling);
    const people = labour.crew * welding.crews * welding.availability;
    const rest = welding.relaxing + (adhered ? welding.adhering.coats * welding.adhering.drying : 0);
    // The day's longest sheet is the one that is waited for; laying the others fills the time.
    const others = [...layings].sort((a, b) => b - a).slice(1);
    // Strips after a break come when the first sheet has long been welded.
    const proved = day.strips.filter(({ reason }) => reason !== 'after a break').length * speeds.perTestStrip;
    const meanwhile = others.reduce((sum, each) => sum + each, 0) + fastening + proved + heat;
    const waiting = layings.length === 0 ? 0 : Math.max(0, rest * people - meanwhile);
    const all = persons + fastening + strips + heat + waiting + seal / 1000 / welding.nightSeal;
    const hours = day.clock.worked.reduce((sum, [from, to]) => sum + to - from, 0);
    if (hours > 60 * labour.dayHours + 0.001) faults.push(`day ${day.number}: ${hours} min of work`);
    const capacity = people * hours;
    if (Math.abs(all - day.minutes) > 0.01)
      faults.push(`day ${day.number}: says ${day.minutes} min, is ${all}`);
    if (tooLong) return;
    if (all > capacity + 1e-6) faults.push(`day ${day.number}: ${all} of ${capacity} person-minutes`);
    const over = Math.max(...day.steps.map(({ to }) => to));
    if (over > day.clock.end + 0.001) faults.push(`day ${day.number}: ends at ${over}, not ${day.clock.end}`);
    busy.forEach((minutes, m) => {
      if (minutes > hours) faults.push(`day ${day.number}: machine ${m} runs ${minutes} min`);
    });
  });
  const wanted =
    inputs.reduce((sum, { fastening }) => sum + fastening.count, 0) * labour.perFastener * slower;
  if (Math.abs(counted - wanted) > 0.01)
    faults.push(`fastening: ${counted} min in the days, ${wanted} in all`);
  return faults;
}
