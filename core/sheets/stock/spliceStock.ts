// In: lengths that may be joined, a roll and its lap, a solver. Out: a proved bound on rolls, and groups of lengths
// with the rolls each takes that meet it, where found. Promise: few distinct lengths are a matter of counting more
// than of fitting, and there the linear program over groups of up to so many rolls tells; groups larger than that are
// held by their share, so the bound holds for them too.
import { leastPieces, remainderOf } from '../bounds';
import { dive } from './dive';
import { openGroupProgram } from './program';
import { provePrices } from './proof';
import type { Solver } from './solver';
import { groupsOf, mergeLengths, splicedSizes } from './stock';

export interface GroupedStock {
  readonly bound: number;
  /** Numbers of the lengths that make up each group; null where no way to the target was found. */
  readonly groups: readonly { readonly members: readonly number[]; readonly rolls: number }[] | null;
}

/** Rolls in the largest group that is looked at on its own: the fewer the lengths, the larger the groups that they
 * need to come out even. */
const largestGroup = (distinct: number) => Math.min(60, Math.max(12, Math.floor(120 / distinct)));
const EXACT_WORK = 3_000_000;
const QUICK_WORK = 10_000_000;
const PROOF_WORK = 3_000_000;
const DIVE = { aside: 4, programs: 300 };
/** Nodes of the search in whole numbers where the dive finds nothing. */
const NODES = 400;

export function groupStock(
  lengths: readonly number[],
  { roll, lap }: { readonly roll: number; readonly lap: number },
  least: number,
  solver: Solver,
): GroupedStock {
  const kept = lengths.map((length) => leastPieces(length, roll, lap) - 1);
  const rests = lengths.map((length) => remainderOf(length, roll, lap));
  const keptRolls = kept.reduce((sum, k) => sum + k, 0);
  const { stock, members } = mergeLengths(
    rests,
    splicedSizes(roll, lap, largestGroup(new Set(rests).size)),
    'endless',
  );
  const program = openGroupProgram(stock, [], solver, {
    exact: { left: EXACT_WORK },
    quick: { left: QUICK_WORK },
  });
  try {
    const root = program.solve(stock.wanted, 'all');
    const proof = root && provePrices(stock, root.prices, { left: PROOF_WORK });
    const bound = Math.max(least, keptRolls + (proof?.bound ?? 0));
    const target = bound - keptRolls;
    const dived = dive(stock, program, target, () => null, DIVE);
    const whole = dived ? null : program.solveWhole(stock.wanted, NODES, target + 1 / 2);
    const found = dived ?? (whole && groupsOf(stock, whole, program.patterns));
    if (!found) return { bound, groups: null };
    const dealt = members.map(() => 0);
    const groups = found.map(({ counts, cost }) => {
      const own = counts.flatMap((n, i) => {
        const from = dealt[i] as number;
        dealt[i] = from + n;
        return (members[i] as readonly number[]).slice(from, from + n);
      });
      return { members: own, rolls: cost + own.reduce((sum, i) => sum + (kept[i] as number), 0) };
    });
    return { bound, groups };
  } finally {
    program.close();
  }
}
