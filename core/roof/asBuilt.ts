// In: a roof's spec as drawn and how far each edge stands from there, as measured on site. Out: the spec as built.
// Promise: an edge that nobody measured keeps its line; a corner between two such edges keeps its place.
import type { RoofPoint } from '../geometry/points';
import { GRID_MM } from '../geometry/tolerances';
import type { RingSpec, RoofSpec } from './types';

/** How much further out than drawn the roof reaches at the edge's start and at its end, mm; less than zero where it
 * stops short. */
export interface MeasuredEdge {
  readonly edge: string;
  readonly from: number;
  readonly to: number;
}

export function asBuilt(spec: RoofSpec, measured: readonly MeasuredEdge[]): RoofSpec {
  const byEdge = new Map(measured.map((one) => [one.edge, one]));
  return {
    ...spec,
    outline: moved(spec.outline, byEdge),
    openings: spec.openings.map((opening) => ({ ...opening, ...moved(opening, byEdge) })),
  };
}

type Side = readonly [RoofPoint, RoofPoint];

//        b'─────── the side of the edge as measured
//   b ─ ─│─ ─ ─ ─  as drawn            A corner is where the lines of its two edges meet. Edges nearly in line
//        │                             have no such place: there it is half way between their ends.
function moved(
  { corners, edges }: RingSpec,
  measured: ReadonlyMap<string, MeasuredEdge>,
): Pick<RingSpec, 'corners' | 'edges'> {
  const count = corners.length;
  const own = edges.map(({ id }) => measured.get(id));
  if (own.every((one) => one === undefined)) return { corners, edges };
  const sides = corners.map((from, i): Side =>
    outwards([from, corners[(i + 1) % count] as RoofPoint], own[i]),
  );
  return {
    edges,
    corners: corners.map((corner, i) => {
      const before = (i + count - 1) % count;
      if (own[i] === undefined && own[before] === undefined) return corner;
      return meet(sides[before] as Side, sides[i] as Side);
    }),
  };
}

/** Left of the way from corner to corner is membrane, so the right is out. */
function outwards([a, b]: Side, measured: MeasuredEdge | undefined): Side {
  const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
  if (!measured || length === 0) return [a, b];
  const [x, y] = [(b[1] - a[1]) / length, -(b[0] - a[0]) / length];
  return [
    [a[0] + x * measured.from, a[1] + y * measured.from],
    [b[0] + x * measured.to, b[1] + y * measured.to],
  ];
}

/** Below this sine two edges are nearly in line, and a small offset would throw their corner far off. */
const NEARLY_IN_LINE_SINE = 0.05;

function meet([a, b]: Side, [c, d]: Side): RoofPoint {
  const [ux, uy, vx, vy] = [b[0] - a[0], b[1] - a[1], d[0] - c[0], d[1] - c[1]];
  const cross = ux * vy - uy * vx;
  if (Math.abs(cross) < NEARLY_IN_LINE_SINE * Math.hypot(ux, uy) * Math.hypot(vx, vy))
    return onGrid([(b[0] + c[0]) / 2, (b[1] + c[1]) / 2]);
  const t = ((c[0] - a[0]) * vy - (c[1] - a[1]) * vx) / cross;
  return onGrid([a[0] + t * ux, a[1] + t * uy]);
}

const onGrid = ([x, y]: RoofPoint): RoofPoint => [
  Math.round(x / GRID_MM) * GRID_MM,
  Math.round(y / GRID_MM) * GRID_MM,
];
