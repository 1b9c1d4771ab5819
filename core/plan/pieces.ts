// In: a page's lines and which of them count. Out: what hangs together, line by line, where they touch or cross.
import { buildBoxIndex } from '../geometry/boxIndex';
import type { Box, BoxIndex } from '../geometry/boxIndex';
import { touches } from './contact';
import type { PageIndex } from './pageIndex';

/** Packed, so that it can be found in one thread and used in another. */
export interface PieceData {
  readonly count: number;
  /** Per segment; −1 where the segment does not count. */
  readonly pieceOf: Int32Array;
  /** Per piece: left, bottom, right, top; the segment furthest left and that end of it; how many segments. */
  readonly boxes: Float64Array;
  readonly leftmost: Uint32Array;
  readonly sizes: Uint32Array;
}

export interface Pieces {
  readonly count: number;
  readonly pieceOf: Int32Array;
  readonly data: PieceData;
  boxOf(piece: number): Box;
  /** The longer side of its box. */
  sizeOf(piece: number): number;
  segmentsIn(piece: number): number;
  /** The segment, and its end 0 or 1, that lies furthest left. */
  leftmostOf(piece: number): readonly [segment: number, end: 0 | 1];
  indexOf(pieces: readonly number[]): BoxIndex;
}

/** `known` is what was found before among some of the segments, −1 for the others. */
export function findPieces(
  index: PageIndex,
  kinds: Uint8Array,
  samePoint: number,
  known: Int32Array | null = null,
): Pieces {
  const { segments } = index.linework;
  const total = kinds.length;
  const parent = Int32Array.from({ length: total }, (_, k) => k);
  if (known) rejoin(parent, kinds, known);
  for (let k = 0; k < total; k++) {
    if (kinds[k] !== 0 || (known?.[k] ?? -1) >= 0) continue;
    const x0 = Math.min(segments[4 * k] ?? 0, segments[4 * k + 2] ?? 0) - samePoint;
    const x1 = Math.max(segments[4 * k] ?? 0, segments[4 * k + 2] ?? 0) + samePoint;
    const y0 = Math.min(segments[4 * k + 1] ?? 0, segments[4 * k + 3] ?? 0) - samePoint;
    const y1 = Math.max(segments[4 * k + 1] ?? 0, segments[4 * k + 3] ?? 0) + samePoint;
    // Where lines are dense nearly all neighbours hang together already: the root is looked up once, not per pair.
    let own = rootOf(parent, k);
    index.boxes.each([x0, y0, x1, y1], (t) => {
      if (kinds[t] !== 0 || (t <= k && (known?.[t] ?? -1) < 0) || parent[t] === own) return;
      const other = rootOf(parent, t);
      if (other === own || !touches(segments, k, t, samePoint)) return;
      parent[Math.max(own, other)] = Math.min(own, other);
      own = Math.min(own, other);
    });
  }
  return openPieces(gather(segments, kinds, parent));
}

function rejoin(parent: Int32Array, kinds: Uint8Array, known: Int32Array): void {
  const first = new Map<number, number>();
  for (let k = 0; k < kinds.length; k++) {
    const piece = known[k] ?? -1;
    if (piece < 0 || kinds[k] !== 0) continue;
    const root = first.get(piece);
    if (root === undefined) first.set(piece, k);
    else parent[k] = root;
  }
}

function rootOf(parent: Int32Array, k: number): number {
  let at = k;
  for (;;) {
    const up = parent[at] ?? at;
    if (up === at) return at;
    const further = parent[up] ?? up;
    parent[at] = further;
    at = further;
  }
}

function gather(segments: Float64Array, kinds: Uint8Array, parent: Int32Array): PieceData {
  const pieceOf = new Int32Array(kinds.length).fill(-1);
  let count = 0;
  for (let k = 0; k < kinds.length; k++)
    if (kinds[k] === 0) {
      const root = rootOf(parent, k);
      // A root is the least of its piece, so it has come before.
      pieceOf[k] = root === k ? count++ : (pieceOf[root] ?? 0);
    }
  const boxes = new Float64Array(4 * count);
  const leftmost = new Uint32Array(2 * count);
  const sizes = new Uint32Array(count);
  for (let piece = 0; piece < count; piece++) boxes.set(NO_BOX, 4 * piece);
  for (let k = 0; k < kinds.length; k++) {
    const piece = pieceOf[k] ?? -1;
    if (piece < 0) continue;
    sizes[piece] = (sizes[piece] ?? 0) + 1;
    for (let end = 0; end < 2; end++) {
      const x = segments[4 * k + 2 * end] ?? 0;
      const y = segments[4 * k + 2 * end + 1] ?? 0;
      if (x < (boxes[4 * piece] ?? 0)) {
        boxes[4 * piece] = x;
        leftmost[2 * piece] = k;
        leftmost[2 * piece + 1] = end;
      }
      boxes[4 * piece + 1] = Math.min(boxes[4 * piece + 1] ?? 0, y);
      boxes[4 * piece + 2] = Math.max(boxes[4 * piece + 2] ?? 0, x);
      boxes[4 * piece + 3] = Math.max(boxes[4 * piece + 3] ?? 0, y);
    }
  }
  return { count, pieceOf, boxes, leftmost, sizes };
}

const NO_BOX = [Infinity, Infinity, -Infinity, -Infinity];

export function openPieces(data: PieceData): Pieces {
  const { boxes, leftmost, sizes } = data;
  const boxOf = (piece: number): Box => [
    boxes[4 * piece] ?? 0,
    boxes[4 * piece + 1] ?? 0,
    boxes[4 * piece + 2] ?? 0,
    boxes[4 * piece + 3] ?? 0,
  ];
  return {
    count: data.count,
    pieceOf: data.pieceOf,
    data,
    boxOf,
    sizeOf: (piece) =>
      Math.max(
        (boxes[4 * piece + 2] ?? 0) - (boxes[4 * piece] ?? 0),
        (boxes[4 * piece + 3] ?? 0) - (boxes[4 * piece + 1] ?? 0),
      ),
    segmentsIn: (piece) => sizes[piece] ?? 0,
    leftmostOf: (piece) => [leftmost[2 * piece] ?? 0, leftmost[2 * piece + 1] === 1 ? 1 : 0],
    indexOf: (list) => buildBoxIndex(list.length, (n) => boxOf(list[n] ?? 0)),
  };
}
