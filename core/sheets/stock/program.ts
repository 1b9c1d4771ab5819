// In: a stock and the solver. Out: the linear program over groups at its best, by column generation (Gilmore and
// Gomory 1961, 1963): solve over the groups known, ask for the worthiest at the prices found, until none is worth
// more than it costs. Kept open, so that what is left of the demand can be solved again from where it stood.
import type { Work } from '../fill';
import type { OpenProgram, ProgramSolution, Solver } from './solver';
import type { Pattern, Stock } from './stock';
import { worthiest } from './worthiest';

export interface GroupProgram {
  readonly patterns: readonly Pattern[];
  /** The best for a demand, of which only groups within the demand are used: over all groups, or over those that a
   * quick look finds. Null where the work ran out or the solver gave up. */
  solve(wanted: readonly number[], over: 'all' | 'found'): ProgramSolution | null;
  /** The best whole numbers over the groups known, below a cost, within so many nodes. */
  solveWhole(wanted: readonly number[], nodes: number, below: number): readonly number[] | null;
  close(): void;
}

/** Groups are taken in while they are worth this much more than they cost. */
const WORTH_TAKING = 2 ** -30;
/** Length of the lists of a quick look. */
const QUICK = 500;

export function openGroupProgram(
  stock: Stock,
  known: readonly Pattern[],
  solver: Solver,
  { exact, quick }: { readonly exact: Work; readonly quick: Work },
): GroupProgram {
  const program = solver.open(stock.wanted);
  const patterns: Pattern[] = [];
  const fixed = sharesBeyond(stock);
  program.add(fixed);
  const seen = new Set<string>();
  const take = (fresh: readonly Pattern[]) => {
    const added = fresh.filter(({ counts, cost }) => {
      const key = `${cost}:${counts.join()}`;
      if (seen.has(key)) return false;
      seen.add(key);
      return true;
    });
    patterns.push(...added);
    program.add(added.map(columnOf));
    return added.length;
  };
  take(singles(stock));
  take(known);
  const allow = (wanted: readonly number[], shares: number) => {
    program.changeRows(wanted);
    program.changeMost([
      ...fixed.map(() => shares),
      ...patterns.map(({ counts }) => (counts.every((n, i) => n <= (wanted[i] as number)) ? Infinity : 0)),
    ]);
  };
  return {
    patterns,
    solve: (wanted, over) => {
      allow(wanted, Infinity);
      let longest = QUICK;
      for (;;) {
        const solved = program.solve();
        if (!solved) return null;
        const fresh = worthiest(stock, wanted, solved.prices, 1, WORTH_TAKING, {
          longest,
          work: longest === QUICK ? quick : exact,
        });
        if (!fresh) return null;
        if (take(fresh) > 0) continue;
        if (over === 'found' || longest === Infinity)
          return { ...solved, amounts: solved.amounts.slice(fixed.length) };
        longest = Infinity;
      }
    },
    solveWhole: (wanted, nodes, below) => {
      // Shares of groups beyond the largest are no groups that anyone could cut.
      allow(wanted, 0);
      return program.solveWhole(nodes, below)?.slice(fixed.length) ?? null;
    },
    close: () => program.close(),
  };
}

type Column = Parameters<OpenProgram['add']>[0][number];

const columnOf = ({ counts, cost }: Pattern): Column => {
  const rows = counts.flatMap((n, i) => (n > 0 ? [i] : []));
  return { cost, rows, values: rows.map((i) => counts[i] as number) };
};

/** A length in a group beyond the largest size costs at least its share of the largest. */
function sharesBeyond({ lengths, beyond }: Stock): Column[] {
  if (beyond === null) return [];
  return lengths.map((length, i) => ({
    cost: beyond * length,
    rows: [i],
    values: [1],
  }));
}

/** Each length alone, as often as it fits the least size that holds it. */
function singles({ lengths, wanted, sizes }: Stock): Pattern[] {
  return lengths.flatMap((length, i): Pattern[] => {
    const size = sizes.find(({ room }) => room >= length);
    if (!size) return [];
    const counts = (n: number) => lengths.map((_, j) => (j === i ? n : 0));
    const most = Math.min(wanted[i] as number, Math.floor(size.room / length));
    return [1, most].map((n) => ({ counts: counts(n), cost: size.cost }));
  });
}
