// An index of segments, x1, y1, x2, y2 of each, that answers like one of boxes. A long slanted segment has several
// boxes, one a stretch, so that a question asked far from it does not find it. Promise: each segment is told once.
import { buildBoxIndex, openBoxIndex } from './boxIndex';
import type { Box, BoxIndex } from './boxIndex';

export function buildSegmentIndex(segments: Float64Array): BoxIndex {
  const stretches = cutUp(segments);
  if (!stretches) return buildBoxIndex(segments.length / 4, (k) => boxOf(segments, k, 0, 1));
  const { owner, nth, of } = stretches;
  const index = buildBoxIndex(owner.length, (n) => boxOf(segments, owner[n] ?? 0, nth[n] ?? 0, of[n] ?? 1));
  return byOwner(segments, stretches, index);
}

/** What `data` of another such index was made from must be the same segments. */
export function openSegmentIndex(segments: Float64Array, data: ArrayBuffer | null): BoxIndex {
  const stretches = cutUp(segments);
  const index = openBoxIndex(stretches ? stretches.owner.length : segments.length / 4, data);
  return stretches ? byOwner(segments, stretches, index) : index;
}

/** In the segments' own unit, points on a page: a stretch is at most so wide or so tall, whichever is less. */
const STRETCH = 64;
const MOST_STRETCHES = 64;

interface Stretches {
  /** Per box: its segment, which stretch of it, and of how many. */
  readonly owner: Uint32Array;
  readonly nth: Uint8Array;
  readonly of: Uint8Array;
}

/** Null where every segment is one stretch. */
function cutUp(segments: Float64Array): Stretches | null {
  const count = segments.length / 4;
  let total = 0;
  for (let k = 0; k < count; k++) total += stretchesOf(segments, k);
  if (total === count) return null;
  const owner = new Uint32Array(total);
  const nth = new Uint8Array(total);
  const of = new Uint8Array(total);
  for (let k = 0, n = 0; k < count; k++) {
    const parts = stretchesOf(segments, k);
    for (let part = 0; part < parts; part++, n++) {
      owner[n] = k;
      nth[n] = part;
      of[n] = parts;
    }
  }
  return { owner, nth, of };
}

function stretchesOf(s: Float64Array, k: number): number {
  const wide = Math.abs((s[4 * k + 2] ?? 0) - (s[4 * k] ?? 0));
  const tall = Math.abs((s[4 * k + 3] ?? 0) - (s[4 * k + 1] ?? 0));
  return Math.min(MOST_STRETCHES, Math.max(1, Math.ceil(Math.min(wide, tall) / STRETCH)));
}

/** Where one stretch ends the next begins, to the last bit. */
function boxOf(s: Float64Array, k: number, nth: number, of: number): Box {
  const x = (n: number): number => placeAt(s[4 * k] ?? 0, s[4 * k + 2] ?? 0, n, of);
  const y = (n: number): number => placeAt(s[4 * k + 1] ?? 0, s[4 * k + 3] ?? 0, n, of);
  const [x1, y1, x2, y2] = [x(nth), y(nth), x(nth + 1), y(nth + 1)];
  return [Math.min(x1, x2), Math.min(y1, y2), Math.max(x1, x2), Math.max(y1, y2)];
}

function placeAt(from: number, to: number, n: number, of: number): number {
  return n === 0 ? from : n === of ? to : from + ((to - from) * n) / of;
}

function byOwner(segments: Float64Array, { owner, nth, of }: Stretches, index: BoxIndex): BoxIndex {
  // Stretches that meet a box follow each other, so that the first of them stands for the segment.
  const isFirst = (n: number, [left, bottom, right, top]: Box): boolean => {
    const part = nth[n] ?? 0;
    if (part === 0) return true;
    const [x0, y0, x1, y1] = boxOf(segments, owner[n] ?? 0, part - 1, of[n] ?? 1);
    return x1 < left || x0 > right || y1 < bottom || y0 > top;
  };
  return {
    count: segments.length / 4,
    data: index.data,
    search: (box) => index.search(box).flatMap((n) => (isFirst(n, box) ? [owner[n] ?? 0] : [])),
    each: (box, visit) => index.each(box, (n) => isFirst(n, box) && visit(owner[n] ?? 0)),
  };
}
