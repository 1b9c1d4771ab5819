// The cutting problem in its barest form: lengths and how many of each, to be gathered into groups. A group fits one
// of the sizes; a size has room and a cost in rolls. Whole numbers of grid steps.
//
//   joints forbidden   one size: room roll, cost 1
//   joints allowed     k rolls spliced by k − 1 laps hold k·(roll − lap) + lap: room for runs, cost k

export interface Size {
  readonly room: number;
  readonly cost: number;
}

/** `reach` is the room before it was rounded down: a straight line in the cost, which room need not be. */
export interface StockSize extends Size {
  readonly reach: number;
}

export interface Stock {
  /** Distinct, longest first. */
  readonly lengths: readonly number[];
  readonly wanted: readonly number[];
  /** Least first; cost and room rise together. */
  readonly sizes: readonly StockSize[];
  /** Where groups of any more rolls are allowed beyond the largest size: the least that one of them costs for each
   * step of its length. Null where none are allowed. */
  readonly beyond: number | null;
}

/** How many of each length make up a group, and what it costs. */
export interface Pattern {
  readonly counts: readonly number[];
  readonly cost: number;
}

/** The problem, and for each length the numbers of the given ones that have it. */
export interface Merged {
  readonly stock: Stock;
  readonly members: readonly (readonly number[])[];
}

/** Equal lengths merged, everything divided by what all lengths have in common. */
export function mergeLengths(
  given: readonly number[],
  sizes: readonly Size[],
  beyond: 'endless' | 'none',
): Merged & { readonly divisor: number } {
  const byLength = new Map<number, number[]>();
  given.forEach((length, i) => {
    const list = byLength.get(length);
    if (list) list.push(i);
    else byLength.set(length, [i]);
  });
  const lengths = [...byLength.keys()].sort((a, b) => b - a);
  const divisor = lengths.reduce(commonDivisor, 0) || 1;
  const largest = sizes[sizes.length - 1] as Size;
  return {
    divisor,
    members: lengths.map((length) => byLength.get(length) ?? []),
    stock: {
      lengths: lengths.map((length) => length / divisor),
      wanted: lengths.map((length) => byLength.get(length)?.length ?? 0),
      sizes: sizes.map(({ room, cost }) => ({
        room: Math.floor(room / divisor),
        reach: room / divisor,
        cost,
      })),
      // From the room as it was given: what a division leaves over of one size does not add up in larger ones.
      beyond: beyond === 'endless' ? (largest.cost * divisor) / largest.room : null,
    },
  };
}

function commonDivisor(a: number, b: number): number {
  return b === 0 ? a : commonDivisor(b, a % b);
}

/** Sizes of one roll up to `most` rolls spliced. */
export function splicedSizes(roll: number, lap: number, most: number): Size[] {
  return Array.from({ length: most }, (_, k) => ({ room: (k + 1) * (roll - lap) + lap, cost: k + 1 }));
}

/** Amounts of groups as groups, without what exceeds the demand. */
export function groupsOf(
  stock: Pick<Stock, 'wanted'>,
  amounts: readonly number[],
  patterns: readonly Pattern[],
): Pattern[] {
  const wanted = [...stock.wanted];
  return amounts.flatMap((amount, p) =>
    Array.from({ length: amount }, (): Pattern => {
      const { counts, cost } = patterns[p] as Pattern;
      const own = counts.map((n, i) => Math.min(n, wanted[i] as number));
      own.forEach((n, i) => (wanted[i] = (wanted[i] as number) - n));
      return { counts: own, cost };
    }).filter(({ counts }) => counts.some((n) => n > 0)),
  );
}
