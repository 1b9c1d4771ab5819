// In: a run on the grid, the stretches that its joints keep off, and the rules. Out: lengths of its pieces from its low
// end, wherever they come from, or null where none were found. Promise: the fewest pieces whose joints keep clear.
import { leastPieces } from './bounds';
import type { RunInPlace, StaggerRules, Stretch } from './slide';

/** Starts that one run may try. */
const FREE_CUT_WORK = 4000;

/** Piece lengths from the run's low end, the fewest that keep every joint clear of the forbidden centres. */
export function freeCut(
  run: RunInPlace,
  forbidden: readonly Stretch[],
  rules: StaggerRules,
): number[] | null {
  const { roll, lap, least } = rules;
  // A start that was tried in vain with so many pieces to go is not tried again.
  const dead = new Set<string>();
  let left = FREE_CUT_WORK;
  const cut = (rest: number, start: number, k: number): number[] | null => {
    if (k === 1) return rest <= roll && rest >= least ? [rest] : null;
    const state = `${k} ${start}`;
    if (dead.has(state) || left-- <= 0) return null;
    const shortest = Math.max(least, rest + lap - ((k - 1) * roll - (k - 2) * lap));
    const longest = Math.min(roll, rest + lap - ((k - 1) * least - (k - 2) * lap));
    const centreOf = (length: number) => start + length - lap / 2;
    const lengths = [longest, shortest];
    for (const stretch of forbidden)
      for (const at of stretch) {
        lengths.push(Math.floor(at - start + lap / 2), Math.ceil(at - start + lap / 2));
      }
    const fit = lengths
      .filter((l) => l >= shortest && l <= longest && isClear(centreOf(l), forbidden))
      .sort((a, b) => b - a);
    for (const length of fit) {
      const more = cut(rest + lap - length, start + length - lap, k - 1);
      if (more) return [length, ...more];
    }
    dead.add(state);
    return null;
  };
  const k = leastPieces(run.length, roll, lap);
  for (let pieces = k; pieces <= k + 2; pieces++) {
    const found = cut(run.length, run.from, pieces);
    if (found) return found;
  }
  return null;
}

const isClear = (at: number, forbidden: readonly Stretch[]) =>
  forbidden.every(([from, to]) => at <= from || at >= to);
