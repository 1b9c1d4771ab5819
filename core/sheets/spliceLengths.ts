// In: lengths, a roll and the lap, the least piece. Out: the pieces they are made of and the rolls these come from,
// where nothing says where on a roof they lie, so that no stagger binds. Promise: rolls are tried from the bound
// upwards, and of the ways found the one with the fewest rolls, then the fewest joints, is kept.
import { splicedBound } from './bounds';
import { spliceInto, splicePlain, type Splice, type SpliceRules } from './spliceRuns';

export interface Spliced extends Splice {
  readonly bound: number;
}

/** Work one attempt may do, counted in search steps. */
const SPLICE_WORK = 4_000_000;

export function spliceLengths(lengths: readonly number[], rules: SpliceRules): Spliced {
  const bound = splicedBound(lengths, rules.roll, rules.lap);
  const plain = splicePlain(lengths, rules);
  for (let rolls = bound; rolls < plain.rolls; rolls++) {
    const splice = spliceInto(lengths, rolls, rules, { left: SPLICE_WORK });
    if (splice) return { ...splice, bound };
  }
  return { ...plain, bound };
}
