// What a person does with a traced shape before taking it: joins a neighbour to it, draws it in to the inner face of
// its parapet, or takes a closed path of the drawing as it is. In page points.
import { addRings } from '../geometry/clipping';
import type { PagePoint, PageRing } from '../geometry/points';
import { ringHolds, signedArea } from '../geometry/ring';
import { segmentAt } from './pageIndex';
import type { PathShape } from './paths';
import type { Region } from './traceRegion';
import type { Linework } from './types';
import { corneredRing } from './walkFace';

/** Boolean operations work on a grid meant for millimetres: a thousandth of a point is one step of it. */
const FINER = 100;
/** In points: how far a joined corner may lie from the traced one and still be it. */
const SAME_CORNER = 0.005;
/** In points: how far off the line of its neighbours a corner may lie and still be none. */
const STRAIGHT = 0.05;

/** The two shapes as one, the line between them dropped; or why they are two. */
export function joinShapes(a: Region, b: Region): { readonly region: Region } | { readonly refusal: string } {
  const joined = addRings([a.outline.map(finer)], [b.outline.map(finer)]).map((ring) =>
    ring.map(([x, y]) => restored([x / FINER, y / FINER], [a.outline, b.outline])),
  );
  const outer = joined.filter((ring) => signedArea(ring) > 0);
  const [outline] = outer;
  if (!outline || outer.length > 1)
    return { refusal: 'the two shapes share no line: click in one that touches the first' };
  const enclosed = joined.filter((ring) => signedArea(ring) < 0 && -signedArea(ring) > STRAIGHT);
  return {
    region: {
      outline: corneredRing(outline, STRAIGHT),
      openings: [...a.openings, ...b.openings, ...enclosed],
      closedGaps: [...a.closedGaps, ...b.closedGaps],
      openGaps: [...a.openGaps, ...b.openGaps],
      smallMarks: a.smallMarks + b.smallMarks,
      closedBy: a.closedBy === 'all lines' ? a.closedBy : b.closedBy,
    },
  };
}

/** Each side moved inward by the thickness, corners mitred; null where a side is too short for it.
 *
 *     ┌──────────┐
 *     │ ┌──────┐ │   thickness between the two
 *     │ │inner │ │
 */
export function innerFace(outline: PageRing, thickness: number): PageRing | null {
  const count = outline.length;
  const at = (k: number): PagePoint => outline[(k + count) % count] as PagePoint;
  const moved = outline.map((corner, k): PagePoint => {
    const before = unit(at(k - 1), corner);
    const after = unit(corner, at(k + 1));
    // Left of the direction of travel is inside.
    const sine = before[0] * after[1] - before[1] * after[0];
    const cosine = before[0] * after[0] + before[1] * after[1];
    if (Math.abs(sine) < 1e-6) return [corner[0] - after[1] * thickness, corner[1] + after[0] * thickness];
    const along = (thickness * (1 - cosine)) / sine;
    return [
      corner[0] - after[1] * thickness + after[0] * along,
      corner[1] + after[0] * thickness + after[1] * along,
    ];
  });
  const turned = moved.some((corner, k) => {
    const next = moved[(k + 1) % count] as PagePoint;
    const was = unit(at(k), at(k + 1));
    return (next[0] - corner[0]) * was[0] + (next[1] - corner[1]) * was[1] <= 0;
  });
  return turned || signedArea(moved) <= 0 ? null : moved;
}

/** The smallest closed path round the point, counter-clockwise. */
export function closedPathAround(
  linework: Linework,
  paths: readonly PathShape[],
  hidden: Uint8Array | null,
  at: PagePoint,
): PageRing | null {
  let best: PageRing | null = null;
  let least = Infinity;
  for (const { first, count, box, closed } of paths) {
    if (!closed || hidden?.[first] === 1) continue;
    if (!(box[0] < at[0] && box[2] > at[0] && box[1] < at[1] && box[3] > at[1])) continue;
    const ring = Array.from({ length: count }, (_, k): PagePoint => {
      const [x, y] = segmentAt(linework.segments, first + k);
      return [x, y];
    });
    const area = signedArea(ring);
    if (area === 0 || Math.abs(area) >= least || !ringHolds(ring, at)) continue;
    least = Math.abs(area);
    best = area > 0 ? ring : ring.reverse();
  }
  return best && corneredRing(best, STRAIGHT);
}

function finer([x, y]: PagePoint): readonly [number, number] {
  return [x * FINER, y * FINER];
}

/** Rounding is undone where the corner was there before. */
function restored([x, y]: PagePoint, rings: readonly PageRing[]): PagePoint {
  for (const ring of rings)
    for (const corner of ring)
      if (Math.abs(corner[0] - x) < SAME_CORNER && Math.abs(corner[1] - y) < SAME_CORNER) return corner;
  return [x, y];
}

function unit(a: PagePoint, b: PagePoint): PagePoint {
  const length = Math.hypot(b[0] - a[0], b[1] - a[1]) || 1;
  return [(b[0] - a[0]) / length, (b[1] - a[1]) / length];
}
