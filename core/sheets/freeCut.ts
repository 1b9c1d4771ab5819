// In: a run on the grid, the stretches that its joints keep off, and the rules. Out: lengths of its pieces from its low
// end, wherever they come from, or null where there are none. Promise: the fewest pieces whose joints keep clear.
import { leastPieces } from './bounds';
import { placeJoints } from './placeJoints';
import { keptWithin, type RunInPlace, type StaggerRules, type Stretch } from './slide';

/** Pieces above the fewest before a run counts as not to be cut. */
const MOST_MORE = 4;

/** Piece lengths from the run's low end, each as long as it may be, the fewest that keep every joint clear. */
export function freeCut(
  run: RunInPlace,
  forbidden: readonly Stretch[],
  rules: StaggerRules,
): number[] | null {
  const { roll, lap } = rules;
  if (run.length <= roll) return [run.length];
  const kept = keptWithin(run, forbidden);
  const fewest = leastPieces(run.length, roll, lap);
  for (let pieces = fewest; pieces <= fewest + MOST_MORE; pieces++) {
    const whole = Array.from({ length: pieces }, () => ({ most: roll, wanted: roll }));
    const found = placeJoints(run, whole, kept, rules);
    if (found) return found;
  }
  return null;
}
