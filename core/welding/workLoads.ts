// In: roofs, their weld runs and rates. Out: the work as a row of pieces in the order of laying, each a sheet with the
// laps that it closes or one detail, with its minutes by task and what it leaves open. Promise: the pieces add up to
// all laying, fastening and welding there is.
import type { Fastening } from '../fastening/types';
import type { Rates } from '../rates/schema';
import type { Sheet } from '../sheets/types';
import { minutesBeside, type WeldInput } from './planWelds';
import { layingSequence, type LayingOrder } from './sequence';
import type { WeldPlan, WeldRun } from './types';
import { productivityOf, taskHours, workedMinutes } from './weldSpeed';

export const TASKS = [
  'Laying out',
  'Bonding',
  'Fastening',
  'Welding by machine',
  'Welding by hand',
  'Setting flashings',
  'Corners, boots, T-joints',
  'Probing and patching',
] as const;
export type Task = (typeof TASKS)[number];

export const TASK_INDEX = Object.fromEntries(TASKS.map((task, at) => [task, at])) as Readonly<
  Record<Task, number>
>;

export interface WorkInput extends WeldInput {
  readonly fastening: Fastening;
}

export interface WorkPiece {
  readonly roof: string;
  /** Set where the piece lays a sheet. */
  readonly sheet: Sheet | null;
  /** The way that it is unrolled, in degrees, and whether it is alone in its run, so that either way will do. */
  readonly unroll: { readonly towards: number; readonly alone: boolean } | null;
  readonly course: number;
  /** Whether all of the course is laid once this piece is done. */
  readonly closesCourse: boolean;
  readonly runs: readonly WeldRun[];
  /** Person-minutes, by place in TASKS. */
  readonly minutes: readonly number[];
  readonly total: number;
  readonly machineMinutes: readonly number[];
  /** mm of lap with a sheet on one side only, on this roof, once the piece is done. */
  readonly open: number;
  /** m² */
  readonly area: number;
}

export interface LoadRules {
  readonly rates: Rates;
  readonly adhered: boolean;
  readonly order: LayingOrder;
}

export function workPieces(inputs: readonly WorkInput[], plan: WeldPlan, rules: LoadRules): WorkPiece[] {
  const byRoof = new Map<string, Map<string, WeldRun[]>>();
  for (const run of plan.runs) {
    const bySheet = byRoof.get(run.roof) ?? new Map<string, WeldRun[]>();
    byRoof.set(run.roof, bySheet);
    const list = bySheet.get(run.after);
    if (list) list.push(run);
    else bySheet.set(run.after, [run]);
  }
  return inputs.flatMap((input) => roofPieces(input, byRoof.get(input.roof.id) ?? new Map(), rules));
}

function roofPieces(
  input: WorkInput,
  runsAfter: ReadonlyMap<string, readonly WeldRun[]>,
  rules: LoadRules,
): WorkPiece[] {
  const { roof, layout, seams, fastening } = input;
  const sequence = layingSequence(layout, seams, rules.order);
  const cut = layout.sheets.reduce((sum, sheet) => sum + sheet.length * sheet.width, 0);
  const inLap = lapFasteners(fastening, runsAfter);
  const atEdges = fastening.count - [...inLap.values()].reduce((sum, count) => sum + count, 0);
  const openness = opensAndCloses(input);
  const { factor } = productivityOf(rules.rates.welding);
  const pieces: WorkPiece[] = [];
  let open = 0;
  sequence.forEach(({ sheet, towards, alone }, k) => {
    open += openness(sheet.id);
    const share = (sheet.length * sheet.width) / cut;
    const runs = runsAfter.get(sheet.id) ?? [];
    const laps = runs.filter(isLap);
    const area = (share * roof.area) / 1e6;
    const fasteners = (inLap.get(sheet.id) ?? 0) + share * atEdges;
    const closesCourse = sequence[k + 1]?.sheet.course !== sheet.course;
    const here = { roof: roof.id, course: sheet.course, closesCourse, open };
    const laid = { ...here, sheet, unroll: { towards, alone }, runs: laps, area };
    pieces.push(piece(laid, rules, factor, fasteners));
    for (const run of runs)
      if (!isLap(run))
        pieces.push(piece({ ...here, sheet: null, unroll: null, runs: [run], area: 0 }, rules, factor, 0));
  });
  return pieces;
}

const isLap = ({ kind }: WeldRun) => kind === 'side-lap' || kind === 'end-lap';

type Placed = Omit<WorkPiece, 'minutes' | 'total' | 'machineMinutes'>;

function piece(placed: Placed, { rates, adhered }: LoadRules, factor: number, fasteners: number): WorkPiece {
  const { speeds, labour, welding } = rates;
  // Plain lists: so many typed arrays of a dozen numbers cost more than they save.
  const minutes: number[] = TASKS.map(() => 0);
  const machineMinutes: number[] = welding.machines.map(() => 0);
  const add = (task: Task, persons: number) => {
    const at = TASK_INDEX[task];
    minutes[at] = (minutes[at] ?? 0) + persons * factor;
  };
  add('Laying out', 60 * taskHours(placed.area, labour.layingPerM2, 1));
  if (adhered) add('Bonding', placed.area * welding.adhering.minutesPerM2 * welding.adhering.coats);
  add('Fastening', fasteners * labour.perFastener);
  for (const run of placed.runs) {
    if (run.machine !== null) {
      const busy = workedMinutes(run.weldMinutes, speeds.efficiency, minutesBeside(run));
      machineMinutes[run.machine] = (machineMinutes[run.machine] ?? 0) + busy * factor;
      add('Welding by machine', busy * labour.perWelder);
      add('Welding by hand', workedMinutes(run.handMinutes, welding.handEfficiency, 0) * labour.perWelder);
    } else {
      const busy = workedMinutes(run.weldMinutes, welding.handEfficiency, minutesBeside(run));
      add('Welding by hand', busy * labour.perWelder);
    }
    const metres = run.length / 1000;
    add(
      'Probing and patching',
      metres / welding.probing + (metres / welding.repairEvery) * welding.perRepair,
    );
    if (run.kind === 'flashing') {
      const along = Math.hypot(run.to[0] - run.from[0], run.to[1] - run.from[1]) / 1000;
      add('Setting flashings', 60 * taskHours(along, labour.flashingPerM, 1));
    }
    if (run.kind === 'corner') add('Corners, boots, T-joints', labour.perCorner);
    if (run.kind === 'boot') add('Corners, boots, T-joints', labour.perBoot);
    if (run.kind === 't-joint') add('Corners, boots, T-joints', speeds.perTJoint);
  }
  const { roof, course, closesCourse, open, sheet, unroll, runs, area } = placed;
  const total = minutes.reduce((sum, each) => sum + each, 0);
  return { roof, course, closesCourse, open, sheet, unroll, runs, area, minutes, machineMinutes, total };
}

/** Each row of fasteners in a lap is set before that lap is welded: with the sheet that closes its first lap. */
function lapFasteners(
  { rows }: Fastening,
  runsAfter: ReadonlyMap<string, readonly WeldRun[]>,
): Map<string, number> {
  const closedBy = new Map<string, string>();
  for (const [sheet, runs] of runsAfter)
    for (const run of runs) for (const seam of run.seams) closedBy.set(seam, sheet);
  const counts = new Map<string, number>();
  for (const row of rows) {
    const sheet = row.where === 'lap' ? closedBy.get(row.along[0] ?? '') : undefined;
    if (sheet !== undefined) counts.set(sheet, (counts.get(sheet) ?? 0) + row.count);
  }
  return counts;
}

/** By how much the open length changes when a sheet is laid: its first partner opens a lap, its second closes it. */
function opensAndCloses({ seams }: WorkInput): (sheet: string) => number {
  const bySheet = new Map<string, { readonly partner: string; readonly length: number }[]>();
  const note = (sheet: string, partner: string, length: number) => {
    const list = bySheet.get(sheet);
    if (list) list.push({ partner, length });
    else bySheet.set(sheet, [{ partner, length }]);
  };
  for (const { between, length } of [...seams.sideLaps, ...seams.endLaps]) {
    note(between[0], between[1], length);
    note(between[1], between[0], length);
  }
  const laid = new Set<string>();
  return (sheet) => {
    laid.add(sheet);
    return (bySheet.get(sheet) ?? []).reduce(
      (sum, { partner, length }) => sum + (laid.has(partner) ? -length : length),
      0,
    );
  };
}
