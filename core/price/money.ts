// Decimal money. The only folder that knows the decimal library; a float becomes money only through a named
// rounding of a quantity.
import { Decimal } from 'decimal.js';

export type Money = Decimal;

/** A decimal string such as "148.50". */
export function money(text: string): Money {
  return new Decimal(text);
}

/** Half away from zero at the currency's minor unit: once a line. */
export function roundToMinor(amount: Money, minorDigits: number): Money {
  return amount.toDecimalPlaces(minorDigits, Decimal.ROUND_HALF_UP);
}

export function writeMoney(amount: Money, minorDigits: number): string {
  return amount.toFixed(minorDigits);
}

/** Hours or square metres as they are billed: hundredths, half up. */
export function toBillableHundredths(measured: number): Money {
  return new Decimal(measured).toDecimalPlaces(2, Decimal.ROUND_HALF_UP);
}

export function sumMoney(amounts: readonly Money[]): Money {
  return amounts.reduce((sum, amount) => sum.plus(amount), new Decimal(0));
}

/** Splits an amount by weights into whole minor units whose sum is the amount: every share is cut down, then what
 * is left goes out one unit at a time, largest remainder first, earlier share first on a tie. */
export function allocate(amount: Money, weights: readonly number[], minorDigits: number): Money[] {
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  if (!(total > 0) || weights.some((weight) => weight < 0))
    throw new RangeError('an amount cannot be split by weights that come to nothing');
  const unit = new Decimal(10).pow(-minorDigits);
  const exact = weights.map((weight) => amount.times(weight).div(total));
  const shares = exact.map((share) => share.div(unit).trunc().times(unit));
  const order = exact
    .map((share, i) => ({ i, left: share.minus(shares[i] as Money).abs() }))
    .sort((a, b) => b.left.comparedTo(a.left) || a.i - b.i);
  const step = amount.isNegative() ? unit.negated() : unit;
  let left = amount.minus(sumMoney(shares)).div(unit).abs().round().toNumber();
  for (let k = 0; left > 0; k++, left--) {
    const { i } = order[k % order.length] as { i: number };
    shares[i] = (shares[i] as Money).plus(step);
  }
  return shares;
}
