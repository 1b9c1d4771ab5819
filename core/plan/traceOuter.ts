// In: the drawn part and a point. Out: the outer boundary of what hangs together around the point, bridged gaps included.
// The border of the sheet hangs round everything and is passed over.
import type { PagePoint, PageRing } from '../geometry/points';
import { ringBounds, ringHolds, signedArea } from '../geometry/ring';
import type { Arrangement } from './arrangement';
import type { PageIndex } from './pageIndex';
import { edgeAlong, RAYS, rayHits } from './rays';
import type { StrokeKinds } from './strokeKinds';
import { walkFace } from './walkFace';
import type { Cycle } from './walkFace';

export function findOuter({
  page,
  strokes,
  arrangement,
  at,
}: {
  readonly page: PageIndex;
  readonly strokes: StrokeKinds;
  readonly arrangement: Arrangement;
  readonly at: PagePoint;
}): { readonly cycle: Cycle } | { readonly refusal: string } {
  const { pieces, kinds } = strokes;
  let largest: Cycle | null = null;
  let frames = 0;
  // A ray leaves what hangs together through its outer boundary: the last line of it that the ray meets, unless it
  // leaves through a bridged gap, which another ray does not meet.
  for (const [n, ray] of RAYS.entries()) {
    if (n >= RAYS_ENOUGH && largest) break;
    const known = new Set<number>();
    const hits = [...rayHits(page, (k) => kinds[k] === 0, at, ray)];
    for (const { segment, spot } of hits.reverse()) {
      if (known.has(pieces.pieceOf[segment] ?? -1)) continue;
      const edge = edgeAlong(arrangement, segment, spot, ray);
      const walked = edge && walkFace(arrangement, [edge[1], edge[0]]);
      if (!walked) continue;
      for (const [from] of walked.passed)
        for (const k of arrangement.through(from)) known.add(pieces.pieceOf[k] ?? -1);
      for (const cycle of walked.cycles) {
        if (!(cycle.area < 0) || !ringHolds(cycle.ring, at)) continue;
        const ring = [...cycle.ring].reverse();
        if (isBorder(ring, page.linework)) frames++;
        else if (!largest || -cycle.area > largest.area)
          largest = { nodes: [...cycle.nodes].reverse(), ring, area: -cycle.area };
      }
    }
  }
  if (largest) return { cycle: largest };
  return {
    refusal:
      frames > 0
        ? 'only the border of the sheet lies round it: pick a point inside the drawn part'
        : 'no drawn part closes round it: allow wider gaps, or pick a point inside the drawn part',
  };
}

/** So many rays that found a boundary are believed. */
const RAYS_ENOUGH = 2;
const FRAME_SHARE = 0.5;
const FRAME_FILLS_BOX = 0.95;

/** The border of a sheet: round half of the page or more, and all but a rectangle, since folding marks and tabs make
 * small notches. */
export function isBorder(ring: PageRing, page: { readonly width: number; readonly height: number }): boolean {
  const { x, y } = ringBounds([ring]);
  const area = Math.abs(signedArea(ring));
  return (
    area > FRAME_SHARE * page.width * page.height && area > FRAME_FILLS_BOX * (x[1] - x[0]) * (y[1] - y[0])
  );
}
