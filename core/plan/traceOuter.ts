// In: the drawn part and a point. Out: the outer boundary of what hangs together around the point. The border of the
// sheet hangs round everything and is passed over.
import type { PagePoint, PageRing } from '../geometry/points';
import { ringBounds, ringHolds } from '../geometry/ring';
import type { Arrangement } from './arrangement';
import type { PageIndex } from './pageIndex';
import type { StrokeKinds } from './strokeKinds';
import { edgeFacing, walkFace } from './walkFace';
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
  const { width, height } = page.linework;
  const around: Cycle[] = [];
  let frames = 0;
  const known = new Set<number>();
  for (let piece = 0; piece < pieces.count; piece++) {
    const [x0, y0, x1, y1] = pieces.boxOf(piece);
    if (known.has(piece) || !(x0 < at[0] && x1 > at[0] && y0 < at[1] && y1 > at[1])) continue;
    const [segment, end] = pieces.leftmostOf(piece);
    if (kinds[segment] !== 0) continue;
    const cuts = arrangement.nodesOn(segment);
    const node = (end === 0 ? cuts[0] : cuts.at(-1))?.node;
    const edge = node === undefined ? null : edgeFacing(arrangement, node, Math.PI);
    const walked = edge && walkFace(arrangement, edge);
    if (!walked) continue;
    for (const [from] of walked.passed)
      for (const k of arrangement.through(from)) known.add(pieces.pieceOf[k] ?? -1);
    for (const cycle of walked.cycles) {
      if (!(cycle.area < 0) || !ringHolds(cycle.ring, at)) continue;
      const ring = [...cycle.ring].reverse();
      if (isFrame(ring, -cycle.area, width * height)) frames++;
      else around.push({ nodes: [...cycle.nodes].reverse(), ring, area: -cycle.area });
    }
  }
  const largest = around.reduce<Cycle | null>(
    (best, cycle) => (best && best.area >= cycle.area ? best : cycle),
    null,
  );
  if (largest) return { cycle: largest };
  return {
    refusal:
      frames > 0
        ? 'only the border of the sheet lies round it: pick a point inside the drawn part'
        : 'no drawn part closes round it: allow wider gaps, or pick a point inside the drawn part',
  };
}

const FRAME_SHARE = 0.5;
const FRAME_FILLS_BOX = 0.95;

/** Round half of the page or more, and all but a rectangle: folding marks and tabs make small notches. */
function isFrame(ring: PageRing, area: number, page: number): boolean {
  const { x, y } = ringBounds([ring]);
  return area > FRAME_SHARE * page && area > FRAME_FILLS_BOX * (x[1] - x[0]) * (y[1] - y[0]);
}
