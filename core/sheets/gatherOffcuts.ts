// In: pieces on their rolls. Out: the roll of each piece, so that what rolls have left comes together: few long
// offcuts serve better than many short ones. Promise: no more rolls than before and none overfull; where a piece lies
// on the roof does not hang on its roll, so nothing else changes. Counted work, the same answer every time.
//
// A piece goes over to another roll, or two change places, wherever that makes the sum of the squares of what is left
// greater: from the roll that has most left into those that have least.
import type { Work } from './fill';

export interface OnRoll {
  readonly roll: number;
  readonly length: number;
}

/** Looks at pieces and at pairs of them that one gathering may take. */
const GATHER_OFFCUTS_WORK = 200_000;

export function gatherOffcuts(pieces: readonly OnRoll[], roll: number): readonly number[] {
  const work: Work = { left: GATHER_OFFCUTS_WORK };
  const at = pieces.map((piece) => piece.roll);
  const left: number[] = [];
  for (const piece of pieces) left[piece.roll] = (left[piece.roll] ?? roll) - piece.length;
  const rolls = left.flatMap((_, k) => [k]);
  const lengthOf = (p: number) => (pieces[p] as OnRoll).length;
  const longestFirst = pieces.map((_, p) => p).sort((a, b) => lengthOf(b) - lengthOf(a) || a - b);
  const roomOn = (k: number) => left[k] as number;
  const shift = (from: number, to: number, by: number) => {
    left[from] = roomOn(from) + by;
    left[to] = roomOn(to) - by;
  };
  /** Takes length off a roll for another that has less left after it than the first then has. */
  const relieve = (from: number): boolean => {
    for (const p of longestFirst) {
      if (work.left-- <= 0) return false;
      if (at[p] !== from) continue;
      const own = lengthOf(p);
      let best: { readonly by: number; readonly to: number; readonly back: number } | null = null;
      for (const to of rolls) {
        if (to === from || roomOn(to) === roll || roomOn(to) < own || roomOn(to) >= roomOn(from) + own)
          continue;
        if (!best || roomOn(to) < roomOn(best.to)) best = { by: own, to, back: -1 };
      }
      if (!best)
        for (const q of longestFirst) {
          if (work.left-- <= 0) return false;
          const to = at[q] as number;
          const by = own - lengthOf(q);
          if (to === from || by <= 0 || roomOn(to) < by || roomOn(to) >= roomOn(from) + by) continue;
          if (!best || by > best.by) best = { by, to, back: q };
        }
      if (!best) continue;
      shift(from, best.to, best.by);
      at[p] = best.to;
      if (best.back >= 0) at[best.back] = from;
      return true;
    }
    return false;
  };
  for (let moved = true; moved && work.left > 0;) {
    moved = false;
    const mostLeftFirst = [...rolls]
      .filter((k) => roomOn(k) < roll)
      .sort((a, b) => roomOn(b) - roomOn(a) || a - b);
    for (const from of mostLeftFirst) {
      if (!relieve(from)) continue;
      moved = true;
      break;
    }
  }
  return at;
}
