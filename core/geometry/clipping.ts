// Boolean operations on an integer grid: the only file that knows clipper-lib. Coordinates go in and come out in
// millimetres and are snapped to GRID_MM; what lies beyond its fast range is refused.
import ClipperLib from 'clipper-lib';
import type { PointIn, Ring } from './points';
import { signedArea } from './ring';
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

/** Every ring of `other` counts as filled, whichever way round it runs. */
function combine<S extends string>(subject: Rings<S>, other: Rings<S>, kind: ClipperLib.ClipType): Rings<S> {
  const clipper = new ClipperLib.Clipper();
  clipper.AddPaths(subject.map(toGrid), ClipperLib.PolyType.ptSubject, true);
  clipper.AddPaths(other.map(anticlockwise).map(toGrid), ClipperLib.PolyType.ptClip, true);
  const solution: ClipperLib.Paths = [];
  const fill = ClipperLib.PolyFillType.pftNonZero;
  clipper.Execute(kind, solution, fill, fill);
  return solution.map((path) => path.map(({ X, Y }) => [X * GRID_MM, Y * GRID_MM] as PointIn<S>));
}

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
