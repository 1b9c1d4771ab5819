// In: roofs, their weld runs and rates. Out: the work as a row of pieces in the order of laying, each a sheet with the
// laps that it closes or one detail, with its minutes by task and what it leaves open. Promise: the pieces add up to
// all laying, fastening and welding there is.
import type { Fastening } from '../fastening/types';
import type { Rates } from '../rates/schema';
import type { Sheet } from '../sheets/types';
import { minutesBeside, type WeldInput } from './planWelds';
import type { LayingOrder } from './sequence';
import type { LaidOrder } from './touched';
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
  /** Roof and course: what a person moves, and what a day is closed on. */
  readonly key: string;
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

/** A roof with its sheets in the order of laying. */
export interface OrderedInput {
  readonly input: WorkInput;
  readonly laid: LaidOrder;
}

export function workPieces(
  inputs: readonly OrderedInput[],
  plan: WeldPlan,
  rules: Omit<LoadRules, 'order'>,
): WorkPiece[] {
  const byRoof = new Map<string, Map<string, WeldRun[]>>();
  for (const run of plan.runs) {
    const bySheet = byRoof.get(run.roof) ?? new Map<string, WeldRun[]>();
    byRoof.set(run.roof, bySheet);
    const list = bySheet.get(run.after);
    if (list) list.push(run);
    else bySheet.set(run.after, [run]);
  }
  return inputs.flatMap((each) => roofPieces(each, byRoof.get(each.input.roof.id) ?? new Map(), rules));
}

function roofPieces(
  { input, laid: { sequence, rank } }: OrderedInput,
  runsAfter: ReadonlyMap<string, readonly WeldRun[]>,
  { rates, adhered }: Omit<LoadRules, 'order'>,
): WorkPiece[] {
  const { roof, layout, fastening } = input;
  const cut = layout.sheets.reduce((sum, sheet) => sum + sheet.length * sheet.width, 0);
  const inLap = lapFasteners(fastening, runsAfter);
  const atEdges = fastening.count - [...inLap.values()].reduce((sum, count) => sum + count, 0);
  const opens = openedBy(input, rank);
  const pace = { rates, adhered, factor: productivityOf(rates.welding).factor };
  const pieces: WorkPiece[] = [];
  let open = 0;
  sequence.forEach(({ sheet, towards, alone }, k) => {
    open += opens[k] as number;
    const share = (sheet.length * sheet.width) / cut;
    const laps: WeldRun[] = [];
    const details: WeldRun[] = [];
    for (const run of runsAfter.get(sheet.id) ?? []) (isLap(run) ? laps : details).push(run);
    const { course } = sheet;
    const here = {
      roof: roof.id,
      key: courseKey({ roof: roof.id, course }),
      course,
      closesCourse: sequence[k + 1]?.sheet.course !== course,
      open,
    };
    const fasteners = (inLap.get(sheet.id) ?? 0) + share * atEdges;
    const area = (share * roof.area) / 1e6;
    pieces.push(piece(here, { sheet, unroll: { towards, alone }, runs: laps, area, fasteners }, pace));
    for (const run of details)
      pieces.push(piece(here, { sheet: null, unroll: null, runs: [run], area: 0, fasteners: 0 }, pace));
  });
  return pieces;
}

export const courseKey = ({ roof, course }: Pick<WorkPiece, 'roof' | 'course'>): string =>
  `${roof}/${course}`;

const isLap = ({ kind }: WeldRun) => kind === 'side-lap' || kind === 'end-lap';

type Here = Pick<WorkPiece, 'roof' | 'key' | 'course' | 'closesCourse' | 'open'>;
type What = Pick<WorkPiece, 'sheet' | 'unroll' | 'runs' | 'area'> & { readonly fasteners: number };
type Pace = Pick<LoadRules, 'rates' | 'adhered'> & { readonly factor: number };

function piece(here: Here, what: What, { rates, adhered, factor }: Pace): WorkPiece {
  const { speeds, labour, welding } = rates;
  const { sheet, unroll, runs, area, fasteners } = what;
  // Plain lists: so many typed arrays of a dozen numbers cost more than they save.
  const machineMinutes: number[] = welding.machines.map(() => 0);
  let [byMachine, byHand, flashings, corners, probing] = [0, 0, 0, 0, 0];
  for (const run of runs) {
    if (run.machine !== null) {
      const busy = workedMinutes(run.weldMinutes, speeds.efficiency, minutesBeside(run));
      machineMinutes[run.machine] = (machineMinutes[run.machine] ?? 0) + busy * factor;
      byMachine += busy * labour.perWelder * factor;
      byHand += workedMinutes(run.handMinutes, welding.handEfficiency, 0) * labour.perWelder * factor;
    } else {
      const busy = workedMinutes(run.weldMinutes, welding.handEfficiency, minutesBeside(run));
      byHand += busy * labour.perWelder * factor;
    }
    const metres = run.length / 1000;
    probing += (metres / welding.probing + (metres / welding.repairEvery) * welding.perRepair) * factor;
    if (run.kind === 'flashing') {
      const along = Math.hypot(run.to[0] - run.from[0], run.to[1] - run.from[1]) / 1000;
      flashings += 60 * taskHours(along, labour.flashingPerM, 1) * factor;
    }
    if (run.kind === 'corner') corners += labour.perCorner * factor;
    if (run.kind === 'boot') corners += labour.perBoot * factor;
    if (run.kind === 't-joint') corners += speeds.perTJoint * factor;
  }
  const { minutesPerM2, coats } = welding.adhering;
  const minutes = byTask({
    'Laying out': 60 * taskHours(area, labour.layingPerM2, 1) * factor,
    Bonding: adhered ? area * minutesPerM2 * coats * factor : 0,
    Fastening: fasteners * labour.perFastener * factor,
    'Welding by machine': byMachine,
    'Welding by hand': byHand,
    'Setting flashings': flashings,
    'Corners, boots, T-joints': corners,
    'Probing and patching': probing,
  });
  let total = 0;
  for (const each of minutes) total += each;
  const { roof, key, course, closesCourse, open } = here;
  return {
    roof,
    key,
    course,
    closesCourse,
    open,
    sheet,
    unroll,
    runs,
    area,
    minutes,
    machineMinutes,
    total,
  };
}

/** In the order of TASKS. */
function byTask(of: Readonly<Record<Task, number>>): readonly number[] {
  return [
    of['Laying out'],
    of.Bonding,
    of.Fastening,
    of['Welding by machine'],
    of['Welding by hand'],
    of['Setting flashings'],
    of['Corners, boots, T-joints'],
    of['Probing and patching'],
  ];
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

/** By how much each sheet, by its place in the order of laying, changes the open length, mm: of the two in a lap the
 * one laid first opens it and the other closes it. */
function openedBy({ seams }: WorkInput, rank: ReadonlyMap<string, number>): Float64Array {
  const opens = new Float64Array(rank.size);
  for (const laps of [seams.sideLaps, seams.endLaps])
    for (const { between, length } of laps) {
      const [a, b] = [rank.get(between[0]) as number, rank.get(between[1]) as number];
      const [first, last] = a < b ? [a, b] : [b, a];
      opens[first] = (opens[first] as number) + length;
      opens[last] = (opens[last] as number) - length;
    }
  return opens;
}
