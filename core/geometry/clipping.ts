// Boolean operations on an integer grid: the only file that knows clipper-lib. Coordinates go in and come out in
// millimetres and are snapped to GRID_MM; what lies beyond its fast range is refused.
import ClipperLib from 'clipper-lib';
import type { PointIn, Ring } from './points';
import { ringLength, signedArea } from './ring';
import { FARTHEST_MM, GRID_MM } from './tolerances';

type Rings<S extends string> = readonly Ring<PointIn<S>>[];

/** `subject` with its holes (outer rings counter-clockwise, holes clockwise) joined with every ring of `added`. */
export function addRings<S extends string>(subject: Rings<S>, added: Rings<S>): Rings<S> {
  return combine(subject, added, ClipperLib.ClipType.ctUnion);
}

/** What of `subject` lies in no ring of `taken`. */
export function subtractRings<S extends string>(subject: Rings<S>, taken: Rings<S>): Rings<S> {
  return combine(subject, taken, ClipperLib.ClipType.ctDifference);
}

/** What of `subject` lies in some ring of `window`. */
export function meetRings<S extends string>(subject: Rings<S>, window: Rings<S>): Rings<S> {
  return combine(subject, window, ClipperLib.ClipType.ctIntersection);
}

/** What of `subject` lies outside a region, whose holes are none of it. */
export function subtractRegion<S extends string>(subject: Rings<S>, region: Rings<S>): Rings<S> {
  return combineRegions(subject, region, ClipperLib.ClipType.ctDifference);
}

/** What of `subject` lies in a region, whose holes are none of it. */
export function meetRegions<S extends string>(subject: Rings<S>, region: Rings<S>): Rings<S> {
  return combineRegions(subject, region, ClipperLib.ClipType.ctIntersection);
}

/** A region with its holes, reaching `by` mm further everywhere, or less far where that is negative; corners stay
 * corners, the sharpest cut off at twice as far. */
export function growRegion<S extends string>(region: Rings<S>, by: number): Rings<S> {
  const fine = GRID_MM / FINER;
  const offset = new ClipperLib.ClipperOffset(SHARPEST);
  // The library takes the way round of the lowest ring for that of all, and what rounding leaves has none.
  const paths = region
    .filter(isMoreThanRounding)
    .map((ring) => ring.map(([x, y]) => ({ X: Math.round(x / fine), Y: Math.round(y / fine) })));
  offset.AddPaths(paths, ClipperLib.JoinType.jtMiter, ClipperLib.EndType.etClosedPolygon);
  const solution: ClipperLib.Paths = [];
  offset.Execute(solution, by / fine);
  return solution.map((path) => path.map(({ X, Y }) => [X * fine, Y * fine] as PointIn<S>));
}

/** Corners that moved stand on a finer grid, so that growing after shrinking is not rounded twice. */
const FINER = 100;

/** How far a corner may move against the sides beside it. */
const SHARPEST = 2;

/** Every ring of `other` counts as filled, whichever way round it runs. */
function combine<S extends string>(subject: Rings<S>, other: Rings<S>, kind: ClipperLib.ClipType): Rings<S> {
  return combineRegions(subject, other.map(anticlockwise), kind);
}

function combineRegions<S extends string>(
  subject: Rings<S>,
  other: Rings<S>,
  kind: ClipperLib.ClipType,
): Rings<S> {
  const clipper = new ClipperLib.Clipper();
  clipper.AddPaths(subject.map(toGrid), ClipperLib.PolyType.ptSubject, true);
  clipper.AddPaths(other.map(toGrid), ClipperLib.PolyType.ptClip, true);
  const solution: ClipperLib.Paths = [];
  const fill = ClipperLib.PolyFillType.pftNonZero;
  clipper.Execute(kind, solution, fill, fill);
  return solution.map(fromGrid<S>).filter(isMoreThanRounding);
}

/** Along a side that two rings share rounding leaves rings thinner than the grid: neither a part of a region nor a hole
 * in it. */
const isMoreThanRounding = (ring: Ring<readonly [number, number]>) =>
  Math.abs(signedArea(ring)) > GRID_MM * (ringLength(ring) / 2);

const fromGrid = <S extends string>(path: ClipperLib.Path) =>
  path.map(({ X, Y }) => [X * GRID_MM, Y * GRID_MM] as PointIn<S>);

function toGrid(ring: Ring<readonly [number, number]>): ClipperLib.Path {
  return ring.map(([x, y]) => {
    if (!(Math.abs(x) <= FARTHEST_MM && Math.abs(y) <= FARTHEST_MM))
      throw new RangeError(`a corner at ${x}, ${y} mm lies outside the range of boolean operations`);
    return { X: Math.round(x / GRID_MM), Y: Math.round(y / GRID_MM) };
  });
}

function anticlockwise<S extends string>(ring: Ring<PointIn<S>>): Ring<PointIn<S>> {
  return signedArea(ring) < 0 ? [...ring].reverse() : ring;
}
