// The check that anyone can make of a cutting bound's prices: one knapsack, in whole numbers. It shares nothing with
// the way the prices are found.

/** Prices are multiples of this part of a roll. */
export const PRICE_UNIT = 2 ** 30;

/** The greatest worth, in units, of any set of the lengths that fits the room; lengths and room whole numbers. Each
 * length as often as there is demand for it. */
export function worthiestSet(
  lengths: readonly number[],
  wanted: readonly number[],
  prices: readonly number[],
  room: number,
): bigint {
  const units = prices.map((price) => {
    const unit = price * PRICE_UNIT;
    if (!Number.isInteger(unit)) throw new Error(`price ${price} is no multiple of 2⁻³⁰`);
    return unit;
  });
  // Sums stay far below 2⁵³, so that plain numbers are exact.
  const best = new Float64Array(room + 1);
  lengths.forEach((length, i) => {
    const price = units[i] as number;
    for (let copy = 0; copy < (wanted[i] as number) && (copy + 1) * length <= room; copy++)
      for (let r = room; r >= length; r--)
        best[r] = Math.max(best[r] as number, (best[r - length] as number) + price);
  });
  return BigInt(best[room] as number);
}

/** The demand's worth in rolls, rounded up, in whole numbers. */
export function worthInRolls(wanted: readonly number[], prices: readonly number[]): number {
  const total = prices.reduce(
    (sum, price, i) => sum + BigInt(price * PRICE_UNIT) * BigInt(wanted[i] as number),
    0n,
  );
  const unit = BigInt(PRICE_UNIT);
  return Number((total + unit - 1n) / unit);
}
