// In: the outline of a face. Out: the islands in it, and those that are large enough to be openings, each once; what
// lies inside an island is part of the island.
import { ringBounds, ringHolds } from '../geometry/ring';
import { middleOf } from './dimensions';
import type { Arrangement } from './arrangement';
import type { PageIndex } from './pageIndex';
import type { StrokeKinds } from './strokeKinds';
import { SEGMENT_MARK } from './types';
import type { Linework } from './types';
import { edgeFacing, walkFace } from './walkFace';
import type { Cycle } from './walkFace';

export type Island = Cycle;

export function findIslands({
  page,
  strokes,
  arrangement,
  outline,
  face,
}: {
  readonly page: PageIndex;
  readonly strokes: StrokeKinds;
  readonly arrangement: Arrangement;
  readonly outline: Cycle;
  /** Islands that the outline's own walk has passed. */
  readonly face: readonly Island[];
}): { readonly islands: readonly Island[]; readonly openings: readonly Island[]; readonly small: number } {
  const { pieces, kinds, symbolSize } = strokes;
  const islands: Island[] = [...face];
  const known = new Set<number>();
  for (const { nodes } of [outline, ...face])
    for (const node of nodes) for (const k of arrangement.through(node)) known.add(pieces.pieceOf[k] ?? -1);
  const { x, y } = ringBounds([outline.ring]);
  const candidates: number[] = [];
  for (let piece = 0; piece < pieces.count; piece++) {
    const [x0, y0, x1, y1] = pieces.boxOf(piece);
    const inside = x0 > x[0] && x1 < x[1] && y0 > y[0] && y1 < y[1];
    if (!inside || known.has(piece)) continue;
    // A side of an island whose corners are gaps stands alone, and has no area of its own.
    const loose = Math.max(x1 - x0, y1 - y0) >= LEAST_SIDE * symbolSize;
    if (loose || (x1 - x0) * (y1 - y0) >= leastArea(symbolSize)) candidates.push(piece);
  }
  // From the left, so that what encloses comes before what it encloses.
  candidates.sort((a, b) => pieces.boxOf(a)[0] - pieces.boxOf(b)[0] || a - b);
  for (const piece of candidates) {
    if (known.has(piece)) continue;
    const [segment, end] = pieces.leftmostOf(piece);
    if (kinds[segment] !== 0) continue;
    const cuts = arrangement.nodesOn(segment);
    const node = (end === 0 ? cuts[0] : cuts.at(-1))?.node;
    if (node === undefined) continue;
    const place = arrangement.at(node);
    if (!ringHolds(outline.ring, place) || islands.some(({ ring }) => ringHolds(ring, place))) continue;
    const edge = edgeFacing(arrangement, node, Math.PI);
    const walked = edge && walkFace(arrangement, edge);
    if (!walked) continue;
    for (const [from] of walked.passed)
      for (const k of arrangement.through(from)) known.add(pieces.pieceOf[k] ?? -1);
    islands.push(...walked.cycles.filter(({ area }) => area < 0));
  }
  const openings = islands.filter((island) => isOpening(page, arrangement, island, symbolSize));
  const apart = openings.filter(
    (island) =>
      !openings.some((other) => other !== island && island.ring[0] && ringHolds(other.ring, island.ring[0])),
  );
  apart.sort((a, b) => {
    const p = ringBounds([a.ring]);
    const q = ringBounds([b.ring]);
    return p.y[0] - q.y[0] || p.x[0] - q.x[0];
  });
  return { islands, openings: apart, small: islands.length - openings.length };
}

/** A round mark up to this many symbol sizes across is a pipe or a drain, not an opening. */
const ROUND_MARK = 3;

/** In symbol sizes. */
const LEAST_SIDE = 1.5;

function leastArea(symbolSize: number): number {
  return (1.2 * symbolSize) ** 2;
}

function isOpening(
  { linework }: PageIndex,
  arrangement: Arrangement,
  island: Island,
  symbolSize: number,
): boolean {
  if (-island.area < leastArea(symbolSize) || isTag(linework, island)) return false;
  const { x, y } = ringBounds([island.ring]);
  if (Math.max(x[1] - x[0], y[1] - y[0]) > ROUND_MARK * symbolSize) return true;
  const curved = island.nodes.filter((node) =>
    arrangement.through(node).some((k) => ((linework.marks[k] ?? 0) & SEGMENT_MARK.curve) !== 0),
  );
  return curved.length <= 0.8 * island.nodes.length;
}

/** In text areas. */
const TAG_AREA = 8;

/** A frame drawn closely round a letter: a mark of a revision, a detail, an item. */
function isTag({ notes }: Linework, island: Island): boolean {
  return notes.some(
    (note) =>
      -island.area < TAG_AREA * note.height * Math.max(note.width, note.height) &&
      ringHolds(island.ring, middleOf(note)),
  );
}
