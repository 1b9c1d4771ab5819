// Boolean operations on an integer grid: the only file that knows clipper-lib. Coordinates go in and come out in
// millimetres and are snapped to GRID_MM; what lies beyond its fast range is refused.
import ClipperLib from 'clipper-lib';
import type { PointIn, Ring } from './points';
import { FARTHEST_MM, GRID_MM } from './tolerances';

type Rings<S extends string> = readonly Ring<PointIn<S>>[];

/** Everything inside any of the rings (each taken alone, whichever way it runs). */
export function uniteRings<S extends string>(rings: Rings<S>): Rings<S> {
  return run(ClipperLib.ClipType.ctUnion, rings.map(anticlockwise), []);
}

/** `subject` with its holes (outer rings counter-clockwise, holes clockwise) joined with every ring of `added`. */
export function addRings<S extends string>(subject: Rings<S>, added: Rings<S>): Rings<S> {
  return run(ClipperLib.ClipType.ctUnion, subject, added.map(anticlockwise));
}

export function subtractRings<S extends string>(subject: Rings<S>, taken: Rings<S>): Rings<S> {
  return run(ClipperLib.ClipType.ctDifference, subject, taken.map(anticlockwise));
}

export function intersectRings<S extends string>(subject: Rings<S>, other: Rings<S>): Rings<S> {
  return run(ClipperLib.ClipType.ctIntersection, subject, other.map(anticlockwise));
}

function run<S extends string>(type: ClipperLib.ClipType, subject: Rings<S>, clip: Rings<S>): Rings<S> {
  const clipper = new ClipperLib.Clipper();
  clipper.AddPaths(subject.map(toGrid), ClipperLib.PolyType.ptSubject, true);
  if (clip.length > 0) clipper.AddPaths(clip.map(toGrid), ClipperLib.PolyType.ptClip, true);
  const solution: ClipperLib.Paths = [];
  const fill = ClipperLib.PolyFillType.pftNonZero;
  clipper.Execute(type, solution, fill, fill);
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
  let twice = 0;
  ring.forEach((a, i) => {
    const b = ring[(i + 1) % ring.length] as PointIn<S>;
    twice += a[0] * b[1] - a[1] * b[0];
  });
  return twice < 0 ? [...ring].reverse() : ring;
}
