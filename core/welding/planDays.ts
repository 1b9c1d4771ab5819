// In: the work in the order of laying, the crew's hours, a calendar and what a person moved. Out: days. Promise:
// every sheet and run is in exactly one day, no day is over its hours (or a finding says which piece of work alone
// is), a day ends within a course only where no day holds the whole of it, and every day opens with its test strips.
import type { Rates } from '../rates/schema';
import { workingDates, type Calendar } from './calendar';
import { dueStrips } from './strips';
import type { Finding } from '../verify/types';
import type { DayTask, RoofDays, WorkDay } from './types';
import { crewHours } from './weldSpeed';
import { TASKS, type WorkPiece } from './workLoads';

/** A course that a person moved: its pieces of work wait for this day. */
export interface MovedCourse {
  readonly roof: string;
  readonly course: number;
  readonly day: number;
}

export interface DayRules {
  readonly rates: Rates;
  readonly calendar: Calendar;
  readonly moved: readonly MovedCourse[];
}

export interface DayPlan {
  readonly days: readonly WorkDay[];
  readonly byRoof: readonly RoofDays[];
  readonly findings: readonly Finding[];
  readonly leastDays: number;
}

/** Days are filled as far as they go, in the order of laying. For a given order no plan that ends its days on the
 * same places has fewer: by any evening this one is at least as far. */
export function planDays(pieces: readonly WorkPiece[], rules: DayRules): DayPlan {
  const { labour, welding } = rules.rates;
  const capacity = 60 * crewHours(labour.crew * welding.crews, 1, labour.dayHours, welding.availability);
  const machineCapacity = 60 * labour.dayHours;
  const waits = new Map(rules.moved.map(({ roof, course, day }) => [`${roof}/${course}`, day]));
  const waitOf = (piece: WorkPiece | undefined) => (piece ? (waits.get(keyOf(piece)) ?? 1) : 1);
  const reach = {
    waitOf,
    oversized: coursesOverADay(pieces, rules.rates, capacity),
    capacity,
    machineCapacity,
    rates: rules.rates,
  };
  const findings: Finding[] = [];
  const closed: { number: number; pieces: readonly WorkPiece[]; stays: boolean }[] = [];
  const startedOn = new Map<string, number>();
  let number = 1;
  let start = 0;
  while (start < pieces.length) {
    number = Math.max(number, waitOf(pieces[start]));
    const end = farthestEnd(pieces, start, { ...reach, number });
    const day = pieces.slice(start, Math.max(end, start + 1));
    if (end === start) findings.push(tooLong(day[0] as WorkPiece, number, capacity));
    for (const piece of day) if (!startedOn.has(keyOf(piece))) startedOn.set(keyOf(piece), number);
    closed.push({ number, pieces: day, stays: start + day.length < pieces.length });
    start += day.length;
    number++;
  }
  const dates = workingDates(rules.calendar, number - 1);
  const days = closed.map(({ number: n, pieces: own, stays }) =>
    makeDay(own, {
      number: n,
      date: dates[n - 1] ?? null,
      stays,
      capacity,
      machineCapacity,
      rates: rules.rates,
    }),
  );
  findings.push(...acrossCourses(days));
  return {
    days,
    byRoof: roofShares(closed, days),
    findings: [...findings, ...movedTooEarly(rules.moved, startedOn)],
    leastDays: leastDays(pieces, capacity, machineCapacity),
  };
}

const keyOf = ({ roof, course }: WorkPiece) => `${roof}/${course}`;

interface Reach {
  readonly number: number;
  readonly waitOf: (piece: WorkPiece | undefined) => number;
  /** Courses that no day holds: within these a day may end. */
  readonly oversized: ReadonlySet<string>;
  readonly capacity: number;
  readonly machineCapacity: number;
  readonly rates: Rates;
}

/** One past the last piece of the fullest day that starts here: on a whole course if any such end fits. */
function farthestEnd(pieces: readonly WorkPiece[], start: number, reach: Reach): number {
  const { machines } = reach.rates.welding;
  const busy = new Float64Array(machines.length);
  let persons = 0;
  let byHand = false;
  let whole = start;
  let part = start;
  for (let k = start; k < pieces.length; k++) {
    const piece = pieces[k] as WorkPiece;
    if (k > start && reach.waitOf(piece) > reach.number) break;
    persons += piece.total;
    piece.machineMinutes.forEach((minutes, m) => (busy[m] = (busy[m] ?? 0) + minutes));
    byHand ||= piece.runs.some((run) => run.machine === null);
    if (persons > reach.capacity) break;
    const own = dayOverhead(busy, byHand, reach.rates);
    if (busy.some((minutes, m) => minutes + (own.machine[m] ?? 0) > reach.machineCapacity)) break;
    const seal = k + 1 < pieces.length ? sealMinutes(piece.open, reach.rates) : 0;
    if (persons + own.persons + seal > reach.capacity) continue;
    part = k + 1;
    if (piece.closesCourse || reach.oversized.has(keyOf(piece))) whole = k + 1;
  }
  return whole > start ? whole : part;
}

function coursesOverADay(pieces: readonly WorkPiece[], rates: Rates, capacity: number): ReadonlySet<string> {
  const courses = new Map<string, { persons: number; busy: Float64Array; open: number }>();
  for (const piece of pieces) {
    if (!piece.sheet) continue;
    const course = courses.get(keyOf(piece)) ?? {
      persons: 0,
      busy: new Float64Array(rates.welding.machines.length),
      open: 0,
    };
    courses.set(keyOf(piece), course);
    course.persons += piece.total;
    piece.machineMinutes.forEach((minutes, m) => (course.busy[m] = (course.busy[m] ?? 0) + minutes));
    course.open = piece.open;
  }
  const over = new Set<string>();
  for (const [key, { persons, busy, open }] of courses) {
    const own = dayOverhead(busy, true, rates);
    const full = busy.some((minutes, m) => minutes + (own.machine[m] ?? 0) > 60 * rates.labour.dayHours);
    if (full || persons + own.persons + sealMinutes(open, rates) > capacity) over.add(key);
  }
  return over;
}

interface Overhead {
  /** Person-minutes of strips, heating up and cooling. */
  readonly persons: number;
  readonly strips: number;
  readonly heat: number;
  /** The same on each machine's own clock. */
  readonly machine: readonly number[];
}

function dayOverhead(busy: Float64Array, byHand: boolean, { welding, speeds }: Rates): Overhead {
  const heat = welding.warmUp + welding.cooling;
  const each = (1 + welding.longBreaks) * speeds.perTestStrip;
  const used = busy.reduce((count, minutes) => count + (minutes > 0 ? 1 : 0), 0);
  const strips = used * each + (byHand ? speeds.perTestStrip : 0);
  const machine = Array.from(busy, (minutes) => (minutes > 0 ? each + heat : 0));
  return { persons: strips + used * heat, strips, heat: used * heat, machine };
}

const sealMinutes = (open: number, { welding }: Rates) => open / 1000 / welding.nightSeal;

interface DayFrame {
  readonly number: number;
  readonly date: string | null;
  readonly stays: boolean;
  readonly capacity: number;
  readonly machineCapacity: number;
  readonly rates: Rates;
}

function makeDay(pieces: readonly WorkPiece[], frame: DayFrame): WorkDay {
  const { rates } = frame;
  const runs = pieces.flatMap((piece) => piece.runs);
  const busy = new Float64Array(rates.welding.machines.length);
  for (const piece of pieces)
    piece.machineMinutes.forEach((minutes, m) => (busy[m] = (busy[m] ?? 0) + minutes));
  const byHand = runs.some((run) => run.machine === null);
  const own = dayOverhead(busy, byHand, rates);
  const last = pieces.at(-1) as WorkPiece;
  const open = frame.stays ? last.open : 0;
  const lastSheet = pieces.filter((piece) => piece.sheet !== null).at(-1) ?? last;
  const metres = (mm: number) => (mm / 1000).toFixed(1);
  const tasks: DayTask[] = TASKS.map((name, at) => ({
    name,
    minutes: pieces.reduce((sum, piece) => sum + (piece.minutes[at] ?? 0), 0),
    formula: 'person-minutes of the sheets and runs of this day',
  }));
  const seal = sealMinutes(open, rates);
  tasks.push(
    {
      name: 'Test strips',
      minutes: own.strips,
      formula: `${Math.round(own.strips / (rates.speeds.perTestStrip || 1))} × ${rates.speeds.perTestStrip} min`,
    },
    {
      name: 'Heating up and cooling',
      minutes: own.heat,
      formula: `${rates.welding.warmUp} + ${rates.welding.cooling} min for each machine in use`,
    },
    {
      name: 'Closing for the night',
      minutes: seal,
      formula: `${metres(open)} m ÷ ${rates.welding.nightSeal} m/min`,
    },
  );
  return {
    number: frame.number,
    date: frame.date,
    sheets: pieces.flatMap(({ roof, sheet, course }) => (sheet ? [{ roof, sheet: sheet.id, course }] : [])),
    runs: runs.map((run) => run.id),
    tasks: tasks.filter((task) => task.minutes > 0),
    minutes: tasks.reduce((sum, task) => sum + task.minutes, 0),
    capacity: frame.capacity,
    machineMinutes: Array.from(busy, (minutes, m) => minutes + (own.machine[m] ?? 0)),
    machineCapacity: frame.machineCapacity,
    strips: dueStrips(busy, runs, rates),
    night:
      open > 0
        ? {
            length: open,
            roof: last.roof,
            course: lastSheet.course,
            whole: last.closesCourse,
            cutBack: open * rates.welding.nightCutBack,
          }
        : null,
    weld: runs.reduce((sum, run) => sum + run.length, 0),
    area: pieces.reduce((sum, piece) => sum + piece.area, 0),
  };
}

/** A day on two roofs is shared by the work that each takes. */
function roofShares(
  closed: readonly { readonly pieces: readonly WorkPiece[] }[],
  days: readonly WorkDay[],
): RoofDays[] {
  const roofs = new Map<string, { -readonly [K in keyof RoofDays]: RoofDays[K] }>();
  closed.forEach(({ pieces }, k) => {
    const day = days[k] as WorkDay;
    const minutes = (name: string) => day.tasks.find((task) => task.name === name)?.minutes ?? 0;
    const total = pieces.reduce((sum, piece) => sum + piece.total, 0);
    const shares = new Map<string, number>();
    for (const piece of pieces)
      shares.set(
        piece.roof,
        (shares.get(piece.roof) ?? 0) + (total > 0 ? piece.total / total : 1 / pieces.length),
      );
    for (const [roof, share] of shares) {
      const sum = roofs.get(roof) ?? {
        roof,
        days: 0,
        stripMinutes: 0,
        strips: 0,
        heatMinutes: 0,
        sealMinutes: 0,
        seal: 0,
        cutBack: 0,
      };
      roofs.set(roof, sum);
      sum.days += 1;
      sum.stripMinutes += share * minutes('Test strips');
      sum.strips += share * day.strips.length;
      sum.heatMinutes += share * minutes('Heating up and cooling');
      if (day.night?.roof !== roof) continue;
      sum.sealMinutes += minutes('Closing for the night');
      sum.seal += day.night.length;
      sum.cutBack += day.night.cutBack;
    }
  });
  return [...roofs.values()];
}

/** All work over what one day holds, people and each machine apart; without the days' own time, so never too high. */
function leastDays(pieces: readonly WorkPiece[], capacity: number, machineCapacity: number): number {
  const persons = pieces.reduce((sum, piece) => sum + piece.total, 0);
  const machines = pieces[0]?.machineMinutes.length ?? 0;
  const busiest = Array.from({ length: machines }, (_, m) =>
    pieces.reduce((sum, piece) => sum + (piece.machineMinutes[m] ?? 0), 0),
  );
  const days = [persons / capacity, ...busiest.map((minutes) => minutes / machineCapacity)];
  return Math.max(0, ...days.map((count) => Math.ceil(count - 1e-9)));
}

const OWN = 'only what can be closed the same day is opened (common practice, no source)';

function tooLong(piece: WorkPiece, day: number, capacity: number): Finding {
  const what = piece.sheet?.id ?? piece.runs[0]?.seam ?? '';
  const hours = (minutes: number) => (minutes / 60).toFixed(1);
  return {
    rule: 'work-over-a-day',
    severity: 'error',
    roof: piece.roof,
    at: piece.runs[0]?.from ?? null,
    ids: [what],
    message: `${what} with its welds takes ${hours(piece.total)} person-hours, and with test strips, heating up and closing it does not fit day ${day} of ${hours(capacity)}. Give the day more people, machines or hours, or cut shorter sheets.`,
    source: OWN,
  };
}

/** One finding a roof, however many evenings. */
function acrossCourses(days: readonly WorkDay[]): Finding[] {
  const byRoof = new Map<string, WorkDay[]>();
  for (const day of days)
    if (day.night && !day.night.whole)
      byRoof.set(day.night.roof, [...(byRoof.get(day.night.roof) ?? []), day]);
  return [...byRoof].map(([roof, evenings]) => {
    const numbers = evenings.map((day) => day.number);
    const said =
      numbers.length <= 3 ? numbers.join(', ') : `${numbers[0]}, ${numbers[1]} … ${numbers.at(-1)}`;
    return {
      rule: 'closed-across-a-course',
      severity: 'advice',
      roof,
      at: null,
      ids: evenings.map((day) => day.sheets.at(-1)?.sheet ?? ''),
      message: `${numbers.length} evening(s) end within a course (day ${said}): such a course takes more than a day, so the night's closing crosses it at an end lap. More people or a second machine would close it whole.`,
      source: 'a day is closed on a side lap (common practice, no source)',
    };
  });
}

function movedTooEarly(moved: readonly MovedCourse[], startedOn: ReadonlyMap<string, number>): Finding[] {
  return moved.flatMap(({ roof, course, day }) => {
    const really = startedOn.get(`${roof}/${course}`);
    if (really === undefined || really <= day) return [];
    return [
      {
        rule: 'moved-too-early',
        severity: 'warning' as const,
        roof,
        at: null,
        ids: [],
        message: `Course ${course} cannot be laid on day ${day}: the courses under it and the hours before it fill the days up to ${really - 1}. It stays on day ${really}. Move it later, or give the days more people or hours.`,
        source: 'the lower course first, and no day over its hours',
      },
    ];
  });
}
