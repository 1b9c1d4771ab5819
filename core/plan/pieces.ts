// In: a page's lines and which of them count. Out: what hangs together, line by line, where they touch or cross.
import { buildBoxIndex } from '../geometry/boxIndex';
import type { Box, BoxIndex } from '../geometry/boxIndex';
import { touches } from './contact';
import type { PageIndex } from './pageIndex';

export interface Pieces {
  readonly count: number;
  /** Per segment; −1 where the segment does not count. */
  readonly pieceOf: Int32Array;
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
  const join = (k: number, t: number): void => {
    const a = rootOf(parent, k);
    const b = rootOf(parent, t);
    if (a !== b && touches(segments, k, t, samePoint)) parent[Math.max(a, b)] = Math.min(a, b);
  };
  if (known) rejoin(parent, kinds, known);
  for (let k = 0; k < total; k++) {
    if (kinds[k] !== 0 || (known?.[k] ?? -1) >= 0) continue;
    const x0 = Math.min(segments[4 * k] ?? 0, segments[4 * k + 2] ?? 0) - samePoint;
    const x1 = Math.max(segments[4 * k] ?? 0, segments[4 * k + 2] ?? 0) + samePoint;
    const y0 = Math.min(segments[4 * k + 1] ?? 0, segments[4 * k + 3] ?? 0) - samePoint;
    const y1 = Math.max(segments[4 * k + 1] ?? 0, segments[4 * k + 3] ?? 0) + samePoint;
    index.boxes.each([x0, y0, x1, y1], (t) => {
      if (kinds[t] === 0 && (t > k || (known?.[t] ?? -1) >= 0)) join(k, t);
    });
  }
  return gather(segments, kinds, parent);
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

function gather(segments: Float64Array, kinds: Uint8Array, parent: Int32Array): Pieces {
  const pieceOf = new Int32Array(kinds.length).fill(-1);
  const boxes: [number, number, number, number][] = [];
  const leftmost: (readonly [number, 0 | 1])[] = [];
  const sizes: number[] = [];
  for (let k = 0; k < kinds.length; k++) {
    if (kinds[k] !== 0) continue;
    const root = rootOf(parent, k);
    if (root === k) {
      pieceOf[k] = boxes.push([Infinity, Infinity, -Infinity, -Infinity]) - 1;
      leftmost.push([k, 0]);
      sizes.push(0);
    }
    const piece = pieceOf[root] ?? 0;
    pieceOf[k] = piece;
    sizes[piece] = (sizes[piece] ?? 0) + 1;
    const box = boxes[piece] as [number, number, number, number];
    for (const end of [0, 1] as const) {
      const x = segments[4 * k + 2 * end] ?? 0;
      const y = segments[4 * k + 2 * end + 1] ?? 0;
      if (x < box[0]) {
        box[0] = x;
        leftmost[piece] = [k, end];
      }
      box[1] = Math.min(box[1], y);
      box[2] = Math.max(box[2], x);
      box[3] = Math.max(box[3], y);
    }
  }
  const boxOf = (piece: number): Box => boxes[piece] as Box;
  return {
    count: boxes.length,
    pieceOf,
    boxOf,
    sizeOf: (piece) => {
      const [x0, y0, x1, y1] = boxOf(piece);
      return Math.max(x1 - x0, y1 - y0);
    },
    segmentsIn: (piece) => sizes[piece] ?? 0,
    leftmostOf: (piece) => leftmost[piece] as readonly [number, 0 | 1],
    indexOf: (list) => buildBoxIndex(list.length, (n) => boxOf(list[n] ?? 0)),
  };
}
