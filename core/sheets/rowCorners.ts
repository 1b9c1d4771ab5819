// In: the ground of a field and of the rows along edges that it ends on. Out: the places on its border where a lap of
// its own would make four sheets at a point. Promise: every corner of the rows' ground and every end of a lap between
// rows that lies on the field's border.
//
//   E1-C01 │ E1-C02      ╷ C06     Where E1's lap ends on the field none of its laps may end.
//   ───────┴─────────────┼────
//            ▲           │ C07
import type { FramePoint, RoofPoint, RoofRing } from '../geometry/points';
import { distance, nearestOn } from '../geometry/ring';
import { chords, packRegion } from '../geometry/strips';
import { ringToFrame, toRoof } from './frame';
import type { Frame } from './types';

type Region = readonly RoofRing[];

/** Rows along one edge, or the courses of a field. */
export interface LappedGround {
  readonly ground: Region;
  readonly frame: Frame;
  /** Of the middle of each lap between its courses, ascending. */
  readonly levels: readonly number[];
}

/** Corners that rounding to the grid took apart are one, mm. */
const CORNER_MM = 1;

export function rowCorners(field: Region, rows: readonly LappedGround[]): RoofPoint[] {
  return onBorder(
    rows.flatMap((row) => [...row.ground.flat(), ...lapEnds(row)]),
    field,
  );
}

/** Where the field's own laps end on rows. */
export const lapEndsOnRows = (field: LappedGround, rows: readonly LappedGround[]): RoofPoint[] =>
  onBorder(
    lapEnds(field),
    rows.flatMap(({ ground }) => ground),
  );

function lapEnds({ ground, frame, levels }: LappedGround): RoofPoint[] {
  const lines = Float64Array.from(levels);
  return chords(packRegion(ground.map((ring) => ringToFrame(frame, ring))), lines).flatMap((spans, i) =>
    spans.flat().map((u) => toRoof(frame, [u, lines[i] as number] satisfies FramePoint)),
  );
}

function onBorder(points: readonly RoofPoint[], region: Region): RoofPoint[] {
  const sides = region.flatMap((ring) =>
    ring.map((from, i) => [from, ring[(i + 1) % ring.length] as RoofPoint] as const),
  );
  return points.filter((point) =>
    sides.some(([a, b]) => distance(point, nearestOn(point, a, b)) <= CORNER_MM),
  );
}
