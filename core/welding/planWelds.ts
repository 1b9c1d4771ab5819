// In: seams, details and speeds. Out: the weld runs in the order of laying, each by machine or by hand, with its
// time. Promise: every metre of seam is in exactly one run, and a run's time is its length over its speed plus what
// is listed beside it.
import type { Details } from '../details/types';
import type { RoofPoint } from '../geometry/points';
import { distance } from '../geometry/ring';
import { LEAST_MACHINE_LAP_MM } from '../rates/practice';
import type { Rates } from '../rates/schema';
import type { Edge, Roof } from '../roof/types';
import type { EndLap, Seams, SideLap } from '../seams/types';
import type { WeldKind, WeldMethod, WeldPlan, WeldRun } from './types';

export interface WeldInput {
  readonly roof: Roof;
  readonly seams: Seams;
  readonly details: Details;
}

/** Hand weld of a moulded corner, mm: 0.5–0.6 m (common practice, no source). */
export const CORNER_WELD_MM = 550;
/** Hand weld round a T-joint patch of 110 mm, mm (common practice, no source). */
export const PATCH_WELD_MM = 345;

type Speeds = Rates['speeds'];

export function planWelds(roofs: readonly WeldInput[], speeds: Speeds): WeldPlan {
  const drafts = roofs.flatMap((input) => [...fieldWelds(input), ...detailWelds(input)]);
  const runs: WeldRun[] = [];
  let last: WeldRun | null = null;
  for (const draft of drafts) {
    const speed = speedOf(draft, speeds);
    // Machines weld parallel laps the same way, so the way back to the next start is walked.
    const walk =
      last && last.roof === draft.roof && last.method === draft.method ? distance(last.to, draft.from) : 0;
    // Written out: a thousand spread copies are a tenth of the time that a drag has.
    const run: WeldRun = {
      id: `W${String(runs.length + 1).padStart(3, '0')}`,
      order: runs.length + 1,
      roof: draft.roof,
      kind: draft.kind,
      method: draft.method,
      seam: draft.seam,
      course: draft.course,
      from: draft.from,
      to: draft.to,
      length: draft.length,
      speed,
      weldMinutes: draft.length / 1000 / speed,
      setupMinutes: draft.method === 'machine' ? speeds.setupPerSeam : 0,
      walkMinutes: walk / 1000 / speeds.walking,
    };
    runs.push(run);
    last = run;
  }
  const minutes = (method: WeldMethod) =>
    runs
      .filter((run) => run.method === method)
      .reduce((sum, run) => sum + run.weldMinutes + run.setupMinutes + run.walkMinutes, 0);
  return { runs, machineMinutes: minutes('machine'), handMinutes: minutes('hand') };
}

type Draft = Omit<WeldRun, 'id' | 'order' | 'speed' | 'weldMinutes' | 'setupMinutes' | 'walkMinutes'>;

/** Course by course from the first: a course's own end laps, then the lap that the next course closes. */
function fieldWelds({ roof, seams }: WeldInput): Draft[] {
  const courses = new Map<number, { ends: EndLap[]; sides: SideLap[] }>();
  const at = (course: number) => {
    const entry = courses.get(course) ?? { ends: [], sides: [] };
    courses.set(course, entry);
    return entry;
  };
  for (const lap of seams.endLaps) at(lap.course).ends.push(lap);
  for (const lap of seams.sideLaps) at(lap.course + 1).sides.push(lap);
  return [...courses.keys()]
    .sort((a, b) => a - b)
    .flatMap((course) => {
      const { ends, sides } = at(course);
      return [
        ...ends.map((lap) => lapDraft(roof.id, lap, 'end-lap', course)),
        ...sides.map((lap) => lapDraft(roof.id, lap, 'side-lap', course)),
      ];
    });
}

function lapDraft(roof: string, lap: SideLap | EndLap, kind: WeldKind, course: number): Draft {
  const method: WeldMethod = lap.length >= LEAST_MACHINE_LAP_MM ? 'machine' : 'hand';
  return {
    roof,
    kind,
    method,
    seam: lap.id,
    course,
    from: lap.from,
    to: lap.to,
    length: lap.length,
  };
}

function detailWelds({ roof, seams, details }: WeldInput): Draft[] {
  const edges = new Map(roof.edges.map((edge) => [edge.id, edge]));
  const fittings = new Map(roof.fittings.map((fitting) => [fitting.id, fitting]));
  const byHand = (kind: WeldKind, seam: string, from: RoofPoint, to: RoofPoint, length: number): Draft => ({
    roof: roof.id,
    kind,
    method: 'hand',
    seam,
    course: null,
    from,
    to,
    length,
  });
  return [
    ...seams.tJoints.map((joint) => byHand('t-joint', joint.id, joint.at, joint.at, PATCH_WELD_MM)),
    ...details.flashings.map((flashing) => {
      const edge = edges.get(flashing.edge) as Edge;
      return byHand('flashing', flashing.id, edge.from, edge.to, flashing.weld);
    }),
    ...details.corners.map((corner) => byHand('corner', corner.id, corner.at, corner.at, CORNER_WELD_MM)),
    ...details.boots.map((boot) => {
      const place = (fittings.get(boot.fitting) as { at: RoofPoint }).at;
      return byHand('boot', boot.id, place, place, boot.weld);
    }),
  ];
}

function speedOf(draft: Draft, speeds: Speeds): number {
  if (draft.method === 'machine') return speeds.machine;
  return draft.kind === 'side-lap' || draft.kind === 'end-lap' ? speeds.handLap : speeds.handDetail;
}
