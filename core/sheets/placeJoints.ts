// In: a run, how long each of its pieces may be and would best be, from the low end up, and where no joint may lie.
// Out: the pieces' lengths, or null where there are none. Promise: lengths are found wherever there are any: from the
// high end down the stretches from which the rest of the run can still be made are known exactly. Whole grid steps.
import type { RunInPlace, StaggerRules, Stretch } from './slide';

export interface PieceWanted {
  readonly most: number;
  /** The length it has if that does not hinder another; the nearest that does not is taken. */
  readonly wanted: number;
}

/** `kept` are disjoint and ascend. */
export function placeJoints(
  run: RunInPlace,
  pieces: readonly PieceWanted[],
  kept: readonly Stretch[],
  { lap, least }: Pick<StaggerRules, 'lap' | 'least'>,
): number[] | null {
  const end = run.from + run.length;
  const last = pieces.length - 1;
  // Where the piece of each number may begin, so that it and those after it reach the end.
  const begins = new Array<readonly Stretch[]>(pieces.length);
  begins[last] = [[end - (pieces[last] as PieceWanted).most, end - least]];
  for (let k = last; k > 0; k--) {
    const open = without(begins[k] as readonly Stretch[], kept, lap / 2);
    const { most } = pieces[k - 1] as PieceWanted;
    begins[k] = open;
    begins[k - 1] = merged(open.map(([from, to]): Stretch => [from + lap - most, to + lap - least]));
    if (most < least || open.length === 0) return null;
  }
  const lengths: number[] = [];
  let start = run.from;
  for (let k = 0; k < last; k++) {
    const { most, wanted } = pieces[k] as PieceWanted;
    const next = nearest(begins[k + 1] as readonly Stretch[], start + wanted - lap, [
      start + least - lap,
      start + most - lap,
    ]);
    if (next === null) return null;
    lengths.push(next + lap - start);
    start = next;
  }
  const rest = end - start;
  return rest >= least && rest <= (pieces[last] as PieceWanted).most ? [...lengths, rest] : null;
}

/** Closed stretches of starts less those whose lap centre, half a lap further, lies in an open stretch. */
function without(starts: readonly Stretch[], kept: readonly Stretch[], half: number): readonly Stretch[] {
  const left: Stretch[] = [];
  for (const [from, to] of starts) {
    let at = from;
    for (const [low, high] of kept) {
      if (high - half <= at) continue;
      if (low - half >= to) break;
      const before = Math.floor(low - half);
      if (before >= at) left.push([at, before]);
      at = Math.max(at, Math.ceil(high - half));
    }
    if (at <= to) left.push([at, to]);
  }
  return left;
}

/** Ascending closed stretches of whole steps, those that touch as one. */
function merged(stretches: readonly Stretch[]): readonly Stretch[] {
  const all: [number, number][] = [];
  for (const [from, to] of stretches) {
    const before = all[all.length - 1];
    if (before && from <= before[1] + 1) before[1] = Math.max(before[1], to);
    else all.push([from, to]);
  }
  return all;
}

/** The step nearest to `wanted` in a closed stretch and within bounds, the lower where two are as near. */
function nearest(stretches: readonly Stretch[], wanted: number, [low, high]: Stretch): number | null {
  let best: number | null = null;
  for (const [from, to] of stretches) {
    const [least, most] = [Math.max(from, low), Math.min(to, high)];
    if (least > most) continue;
    const at = Math.min(Math.max(wanted, least), most);
    if (best === null || Math.abs(at - wanted) < Math.abs(best - wanted)) best = at;
  }
  return best;
}
