// In: layouts, seams, details and rates. Out: the weld runs in the order of laying, each by machine or by hand, with
// its time. Promise: every metre of seam is in exactly one run; a run's time is its length over its speed plus what is
// listed beside it; a run comes after the sheets that it joins.
import type { Details } from '../details/types';
import type { RoofPoint } from '../geometry/points';
import { distance } from '../geometry/ring';
import type { Rates } from '../rates/schema';
import type { Edge, Roof } from '../roof/types';
import type { Seams } from '../seams/types';
import type { Layout, Sheet } from '../sheets/types';
import { blockedAlong, obstaclesOn, type Obstacles } from './clearPath';
import { endLapAlone, joinLaps, type JoinedLap } from './joinLaps';
import type { LaidSheet, LayingOrder } from './sequence';
import { laidOrder, lastSheetAlong, type SheetRows } from './touched';
import type { WeldKind, WeldMethod, WeldPlan, WeldRun } from './types';
import { machineSpeed, workedMinutes, type SheetKind } from './weldSpeed';

export interface WeldInput {
  readonly roof: Roof;
  readonly layout: Layout;
  readonly seams: Seams;
  readonly details: Details;
}

export interface WeldRules {
  readonly rates: Rates;
  readonly sheet: SheetKind;
  /** T-joints get a patch; else they are chamfered and rolled: a task, with no metres of its own. */
  readonly patches: boolean;
  readonly order: LayingOrder;
}

/** Hand weld of a moulded corner, mm: 0.5–0.6 m (common practice, no source). */
export const CORNER_WELD_MM = 550;
/** Hand weld round a T-joint patch of 110 mm, mm (common practice, no source). */
export const PATCH_WELD_MM = 345;

export function planWelds(roofs: readonly WeldInput[], rules: WeldRules): WeldPlan {
  const { speeds, welding } = rules.rates;
  const machines = welding.machines.map((_, k) => machineSpeed(rules.rates, rules.sheet, k).speed);
  const clocks = new Float64Array(machinesAtOnce(rules.rates));
  const drafts = roofs.flatMap((input) => draftRoof(input, rules));
  const runs: WeldRun[] = [];
  const last = new Map<number | null, WeldRun>();
  for (const draft of drafts) {
    const byMachine = draft.method === 'machine';
    // Machines run beside each other: whichever is free first takes the next lap.
    const machine = byMachine ? firstFree(clocks) : null;
    const forward =
      draft.forwardIfRight === ((welding.machines[machine ?? 0]?.handed ?? 'right') === 'right');
    const [from, to] = !byMachine || forward ? [draft.from, draft.to] : [draft.to, draft.from];
    const speed = byMachine
      ? (machines[machine ?? 0] as number)
      : draft.kind === 'side-lap' || draft.kind === 'end-lap'
        ? speeds.handLap
        : speeds.handDetail;
    const before = last.get(machine);
    // Parallel laps are welded the same way, so the way back to the next start is walked.
    const walk = before?.roof === draft.roof ? distance(before.to, from) : 0;
    // Written out: a thousand spread copies are a tenth of the time that a drag has.
    const run: WeldRun = {
      id: `W${String(runs.length + 1).padStart(3, '0')}`,
      order: runs.length + 1,
      roof: draft.roof,
      kind: draft.kind,
      method: draft.method,
      seam: draft.seams[0] as string,
      seams: draft.seams,
      course: draft.course,
      after: draft.after,
      machine,
      from,
      to,
      length: draft.length,
      byHand: draft.byHand,
      setDowns: draft.setDowns,
      tJoints: draft.tJoints,
      speed,
      weldMinutes: (draft.length - draft.byHand) / 1000 / speed,
      handMinutes: draft.byHand / 1000 / speeds.handLap,
      setupMinutes: byMachine ? speeds.setupPerSeam * draft.setDowns : 0,
      walkMinutes: walk / 1000 / speeds.walking,
      turnMinutes: byMachine ? welding.turning : 0,
      slowMinutes: draft.tJoints * welding.slowAtTJoint,
      nozzleMinutes: (draft.length / 1000 / welding.nozzleEvery) * welding.nozzleCleaning,
    };
    runs.push(run);
    last.set(machine, run);
    if (machine !== null)
      clocks[machine] =
        (clocks[machine] ?? 0) + workedMinutes(run.weldMinutes, speeds.efficiency, minutesBeside(run));
  }
  const sum = (method: WeldMethod, part: (run: WeldRun) => number) =>
    runs.reduce((total, run) => (run.method === method ? total + part(run) : total), 0);
  return {
    runs,
    machineMinutes: sum('machine', (run) => run.weldMinutes + minutesBeside(run)),
    handMinutes:
      sum('hand', (run) => run.weldMinutes + minutesBeside(run)) + sum('machine', (run) => run.handMinutes),
  };
}

function firstFree(clocks: Float64Array): number {
  let first = 0;
  for (let m = 1; m < clocks.length; m++) if ((clocks[m] as number) < (clocks[first] as number)) first = m;
  return first;
}

/** As many as are there and have people to run them, and never none. */
export function machinesAtOnce({ labour, welding }: Rates): number {
  const hands = Math.floor((labour.crew * welding.crews) / labour.perWelder);
  return Math.min(welding.machines.length, Math.max(1, hands));
}

/** What a run takes beside its welding. */
export function minutesBeside(run: WeldRun): number {
  return run.setupMinutes + run.walkMinutes + run.turnMinutes + run.slowMinutes + run.nozzleMinutes;
}

type Draft = Pick<
  WeldRun,
  | 'roof'
  | 'kind'
  | 'method'
  | 'seams'
  | 'course'
  | 'after'
  | 'from'
  | 'to'
  | 'length'
  | 'byHand'
  | 'setDowns'
  | 'tJoints'
> & {
  /** Whether a machine with its weld at its right hand drives from `from` to `to`. */
  readonly forwardIfRight: boolean;
};

/** Sheet by sheet in the order of laying: its end lap, the laps that it closes, then the details that it makes ready. */
function draftRoof(input: WeldInput, rules: WeldRules): Draft[] {
  const { roof, layout, seams } = input;
  const { sequence, rank, rows } = laidOrder(layout, seams, rules.order);
  const place = { roof: roof.id, obstacles: obstaclesOn(roof, rules.rates.welding), rules };
  const bySheet: Draft[][] = sequence.map(() => []);
  const closed = new Map<string, number>();
  const closedBy = ([a, b]: readonly [string, string]) => Math.max(rank.get(a) ?? 0, rank.get(b) ?? 0);
  const draft = (lap: JoinedLap) => {
    const at = closedBy(lap.between);
    for (const seam of lap.seams) closed.set(seam, at);
    const [after, over] = [sequence[at], sequence[rank.get(lap.over) ?? -1]];
    bySheet[at]?.push(draftLap(lap, (after as LaidSheet).sheet.id, (over as LaidSheet).sheet, place));
  };
  for (const lap of seams.endLaps) draft(endLapAlone(lap));
  for (const lap of joinLaps(seams.sideLaps, ({ between }) => closedBy(between))) draft(lap);
  draftDetails(input, rules, { sequence, rows, closed, bySheet });
  return bySheet.flat();
}

interface LapPlace {
  readonly roof: string;
  readonly obstacles: Obstacles;
  readonly rules: WeldRules;
}

// Written out, like every run and piece of work in this folder: copies by spreading took most of the time that laying
// a large roof anew gives to its welds.
function draftLap(lap: JoinedLap, after: string, over: Sheet, { roof, obstacles, rules }: LapPlace): Draft {
  const { welding } = rules.rates;
  const { kind, seams, course, from, to, length } = lap;
  const blocked = blockedAlong(from, to, obstacles);
  let shut = 0;
  for (const [low, high] of blocked) shut = shut + high - low;
  const byMachine = !(length - shut < welding.leastMachineLap);
  let setDowns = 0;
  if (byMachine) {
    setDowns = 1;
    const whole = distance(from, to);
    for (const [low, high] of blocked) if (low > 0 && high < whole) setDowns++;
  }
  return {
    roof,
    kind,
    method: byMachine ? 'machine' : 'hand',
    seams,
    course,
    after,
    from,
    to,
    length,
    byHand: byMachine ? Math.min(length, shut + setDowns * welding.handAtStop) : 0,
    setDowns,
    tJoints: byMachine ? seams.length - 1 : 0,
    forwardIfRight: forwardIfRight(lap, over),
  };
}

//   The machine drives on the upper sheet; the edge that it welds lies on its own side, here the right. So it drives
//   the way that has the upper sheet at its left.
function forwardIfRight({ from, to }: JoinedLap, over: Sheet): boolean {
  const [a, , c] = over.corners as readonly [RoofPoint, RoofPoint, RoofPoint];
  const [x, y] = [(a[0] + c[0]) / 2 - from[0], (a[1] + c[1]) / 2 - from[1]];
  return (to[0] - from[0]) * y - (to[1] - from[1]) * x > 0;
}

interface DetailPlace {
  readonly sequence: readonly LaidSheet[];
  readonly rows: SheetRows;
  readonly closed: ReadonlyMap<string, number>;
  readonly bySheet: readonly Draft[][];
}

function draftDetails(
  { roof, seams, details }: WeldInput,
  rules: WeldRules,
  { sequence, rows, closed, bySheet }: DetailPlace,
): void {
  const edges = new Map(roof.edges.map((edge) => [edge.id, edge]));
  const fittings = new Map(roof.fittings.map((fitting) => [fitting.id, fitting]));
  const add = (at: number, kind: WeldKind, seam: string, from: RoofPoint, to: RoofPoint, length: number) => {
    bySheet[at]?.push({
      roof: roof.id,
      kind,
      method: 'hand',
      seams: [seam],
      course: null,
      after: (sequence[at] as LaidSheet).sheet.id,
      from,
      to,
      length,
      byHand: 0,
      setDowns: 0,
      tJoints: 0,
      forwardIfRight: true,
    });
  };
  for (const joint of seams.tJoints) {
    const at = Math.max(closed.get(joint.endLap) ?? 0, closed.get(joint.sideLap) ?? 0);
    add(at, 't-joint', joint.id, joint.at, joint.at, rules.patches ? PATCH_WELD_MM : 0);
  }
  for (const { id, at: place, weld } of seams.targets)
    add(lastSheetAlong(rows, place, place), 'target', id, place, place, weld);
  for (const { id, from, to, length } of seams.slits)
    add(lastSheetAlong(rows, from, to), 'slit', id, from, to, 2 * length);
  for (const boot of details.boots) {
    const { at } = fittings.get(boot.fitting) as { at: RoofPoint };
    add(lastSheetAlong(rows, at, at), 'boot', boot.id, at, at, boot.weld);
  }
  const readyAt = new Map<string, number>();
  const sheet = rules.rates.flashingRoll.length;
  for (const flashing of details.flashings) {
    const { from, to, length } = edges.get(flashing.edge) as Edge;
    const pieces = Math.max(1, Math.ceil(length / sheet));
    for (let k = 0; k < pieces; k++) {
      const [a, b] = [between(from, to, k / pieces), between(from, to, (k + 1) / pieces)];
      const at = lastSheetAlong(rows, a, b);
      const weld = flashing.weld / pieces;
      add(at, 'flashing', pieces === 1 ? flashing.id : `${flashing.id} ${k + 1}/${pieces}`, a, b, weld);
      if (k === 0) readyAt.set(`${flashing.edge} from`, at);
      if (k === pieces - 1) readyAt.set(`${flashing.edge} to`, at);
    }
  }
  for (const corner of details.corners) {
    const [before, next] = corner.edges;
    const at = Math.max(readyAt.get(`${before} to`) ?? 0, readyAt.get(`${next} from`) ?? 0);
    add(at, 'corner', corner.id, corner.at, corner.at, CORNER_WELD_MM);
  }
}

function between(from: RoofPoint, to: RoofPoint, share: number): RoofPoint {
  if (share === 0) return from;
  if (share === 1) return to;
  return [from[0] + (to[0] - from[0]) * share, from[1] + (to[1] - from[1]) * share];
}
