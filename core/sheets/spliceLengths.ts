// In: lengths, a roll and the lap, the least piece. Out: the pieces they are made of and the rolls these come from,
// where nothing says where on a roof they lie, so that no stagger binds. Promise: rolls are tried from the bound
// upwards, and of the ways found the one with the fewest rolls, then the fewest joints, is kept.
import { splicedBound } from './bounds';
import {
  QUICK_SPLICE,
  spliceInto,
  splicePlain,
  type Splice,
  type SpliceEffort,
  type SpliceRules,
} from './spliceRuns';

export interface Spliced extends Splice {
  readonly bound: number;
}

/** Work one attempt may do, counted in search steps. */
const SPLICE_WORK = 4_000_000;
/** From quick to thorough. */
const EFFORTS: readonly SpliceEffort[] = [
  QUICK_SPLICE,
  { shares: [0.1, 0.5, 1], moreRolls: 1, groupWork: 20_000 },
  { shares: [0.5, 1], moreRolls: 6, groupWork: 20_000 },
  { shares: [1], moreRolls: 8, groupWork: 20_000 },
  { shares: [0.05, 0.2, 0.5, 0.8, 1], moreRolls: 2, groupWork: 40_000 },
];

export function spliceLengths(lengths: readonly number[], rules: SpliceRules): Spliced {
  const bound = splicedBound(lengths, rules.roll, rules.lap);
  const plain = splicePlain(lengths, rules);
  for (let rolls = bound; rolls < plain.rolls; rolls++) {
    for (const effort of EFFORTS) {
      const splice = spliceInto(lengths, rolls, rules, effort, { left: SPLICE_WORK });
      if (splice) return { ...splice, bound };
    }
  }
  return { ...plain, bound };
}
