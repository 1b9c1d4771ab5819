// In: a stock, its program and how many rolls it shall take. Out: groups that cover the demand for no more, or null
// where none were found. Promise: what is found covers the demand exactly; not finding proves nothing.
//
// The program is solved, whole parts of its amounts are taken, then the group nearest above, and what is left of the
// demand is solved again; a branch ends when what is taken and the least for the rest exceed the target. Other groups
// than the nearest are tried in the order of how often the search has turned aside (Harvey and Ginsberg 1995).
import type { Pattern, Stock } from './stock';
import type { GroupProgram } from './program';

/** A way to cover what is left of a demand without the program, or null where it takes more than `most`. */
export type Complete = (wanted: readonly number[], most: number) => readonly Pattern[] | null;

export interface DiveLimits {
  /** Times the search may turn aside on one way down. */
  readonly aside: number;
  /** Programs solved in all. */
  readonly programs: number;
}

export function dive(
  stock: Stock,
  program: GroupProgram,
  target: number,
  complete: Complete,
  limits: DiveLimits,
): readonly Pattern[] | null {
  let left = limits.programs;
  const taken: Pattern[] = [];
  const takeWhole = (wanted: number[], amounts: readonly number[]): number => {
    let cost = 0;
    amounts.forEach((amount, p) => {
      const pattern = program.patterns[p] as Pattern;
      for (let n = Math.floor(amount + NEARLY); n > 0 && fits(pattern, wanted); n--) {
        subtract(wanted, pattern);
        taken.push(pattern);
        cost += pattern.cost;
      }
    });
    return cost;
  };
  const search = (before: readonly number[], spent: number, aside: number): boolean => {
    if (left-- <= 0) return false;
    const solved = program.solve(before, 'found');
    if (!solved || spent + Math.ceil(solved.value - NEARLY) > target) return false;
    const mark = taken.length;
    const wanted = [...before];
    const cost = spent + takeWhole(wanted, solved.amounts);
    if (wanted.every((n) => n === 0)) return true;
    const rest = complete(wanted, target - cost);
    if (rest) {
      taken.push(...rest);
      return true;
    }
    const next = solved.amounts
      .map((amount, p) => ({
        pattern: program.patterns[p] as Pattern,
        part: amount - Math.floor(amount + NEARLY),
      }))
      .filter(({ pattern, part }) => part > NEARLY && fits(pattern, wanted))
      .sort((a, b) => b.part - a.part)
      .slice(0, aside + 1);
    for (const [turn, { pattern }] of next.entries()) {
      const after = [...wanted];
      subtract(after, pattern);
      taken.push(pattern);
      if (after.every((n) => n === 0) && cost + pattern.cost <= target) return true;
      if (search(after, cost + pattern.cost, aside - turn)) return true;
      taken.pop();
    }
    taken.length = mark;
    return false;
  };
  for (let aside = 0; aside <= limits.aside && left > 0; aside++)
    if (search(stock.wanted, 0, aside)) return taken;
  return null;
}

/** What a solver's amounts may be off by. */
const NEARLY = 2 ** -18;

const fits = ({ counts }: Pattern, wanted: readonly number[]) =>
  counts.every((n, i) => n <= (wanted[i] as number));

function subtract(wanted: number[], { counts }: Pattern): void {
  counts.forEach((n, i) => {
    wanted[i] = (wanted[i] as number) - n;
  });
}
