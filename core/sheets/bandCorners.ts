// In: the ground of bands. Out: the places on the border of one where a lap of its own would make four sheets at a point:
// the corners of the others' ground, and the ends of the laps between their courses.
//
//   E1-C01 │ E1-C02      ╷ C06     Where E1's lap ends on the field none of its laps may end.
//   ───────┴─────────────┼────
//            ▲           │ C07
import type { FramePoint, RoofPoint, RoofRing, Span } from '../geometry/points';
import { distance, nearestOn, ringBounds } from '../geometry/ring';
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

/** Corners of a band's ground and the ends of the laps between its courses. */
export const cornersOf = (band: LappedGround): RoofPoint[] => [...band.ground.flat(), ...lapEndsOf(band)];

export function lapEndsOf({ ground, frame, levels }: LappedGround): RoofPoint[] {
  const lines = Float64Array.from(levels);
  return chords(packRegion(ground.map((ring) => ringToFrame(frame, ring))), lines).flatMap((spans, i) =>
    spans.flat().map((u) => toRoof(frame, [u, lines[i] as number] satisfies FramePoint)),
  );
}

/** Those of some places that lie on the border of a region. */
export function onBorder(points: readonly RoofPoint[], region: Region): RoofPoint[] {
  const { x, y } = ringBounds(region);
  const near = points.filter((p) => isWithin(p[0], x) && isWithin(p[1], y));
  return near.filter((point) => region.some((ring) => liesOn(point, ring)));
}

const isWithin = (value: number, [from, to]: Span) => value >= from - CORNER_MM && value <= to + CORNER_MM;

const liesOn = (point: RoofPoint, ring: RoofRing) =>
  ring.some((a, i) => {
    const b = ring[(i + 1) % ring.length] as RoofPoint;
    // Most sides lie far off: looked at first, for it costs least.
    return (
      Math.min(a[0], b[0]) <= point[0] + CORNER_MM &&
      Math.max(a[0], b[0]) >= point[0] - CORNER_MM &&
      distance(point, nearestOn(point, a, b)) <= CORNER_MM
    );
  });
