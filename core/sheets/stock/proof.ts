// In: prices that a solver found, to its own precision. Out: prices that prove, exactly, how few rolls will do.
// Promise: the prices are multiples of a power of a half, small enough that sums of them as plain numbers are exact;
// no group that fits is worth more than it costs; the bound is the whole demand's worth, rounded up.
import type { Work } from '../fill';
import type { Stock } from './stock';
import { worthiest } from './worthiest';

export interface Proof {
  readonly bound: number;
  /** One for each length of the stock. */
  readonly prices: readonly number[];
}

/** Coarse prices first: they are the easiest to check by hand. */
const UNITS = [2 ** 10, 2 ** 16, 2 ** 30] as const;
/** How often prices are scaled down to hold. */
const MOST_SCALINGS = 3;

/** Null where no unit gives prices that hold within the counted work. */
export function provePrices(stock: Stock, found: readonly number[], work: Work): Proof | null {
  let best: Proof | null = null;
  const hoped = Math.ceil(worthOf(stock, found) - ROUNDING);
  for (const unit of UNITS) {
    const proof = proveIn(stock, found, unit, work);
    if (proof && (!best || proof.bound > best.bound)) best = proof;
    if (best && best.bound >= hoped) break;
  }
  return best;
}

/** A solver's last digits. */
const ROUNDING = 2 ** -20;

function proveIn(stock: Stock, found: readonly number[], unit: number, work: Work): Proof | null {
  const { lengths, wanted, beyond } = stock;
  let worth = found.map((price, i) => {
    const own = Math.floor(Math.max(0, price) * unit + unit * ROUNDING);
    // In groups beyond the largest size a length is worth no more than its share of the largest.
    return beyond === null
      ? own
      : Math.min(own, Math.floor(beyond * (lengths[i] as number) * unit * (1 - ROUNDING)));
  });
  for (let scaling = 0; scaling <= MOST_SCALINGS; scaling++) {
    const over = worthiest(stock, wanted, worth, unit, 0, { longest: Infinity, work });
    if (!over) return null;
    if (over.length === 0) {
      const total = worth.reduce((sum, w, i) => sum + w * (wanted[i] as number), 0);
      return { bound: Math.ceil(total / unit), prices: worth.map((w) => w / unit) };
    }
    const factor = Math.min(...over.map(({ cost, excess }) => (cost * unit) / (cost * unit + excess)));
    worth = worth.map((w) => Math.floor(w * factor));
  }
  return null;
}

const worthOf = ({ wanted }: Pick<Stock, 'wanted'>, prices: readonly number[]) =>
  prices.reduce((sum, price, i) => sum + price * (wanted[i] as number), 0);

/** The prices behind Martello and Toth's L2 without joints. For some α, a length over roll − α is worth a roll and one
 * under α nothing; one between is worth its share of the roll, or, in the other half of the bound, a roll where it is
 * over half of one and nothing else. Any set that fits is worth 1 at most (Fekete and Schepers 2001), and rounding
 * the prices down keeps it so. */
export function thresholdProof({ lengths, wanted, sizes }: Stock): Proof {
  const { room } = sizes[0] as Stock['sizes'][number];
  const half = room / 2;
  let best: Proof = { bound: -1, prices: [] };
  for (const alpha of [0, ...lengths.filter((length) => length <= half)])
    for (const between of ['half', 'share'] as const)
      for (const unit of UNITS) {
        const prices = lengths.map((length) => {
          if (length > room - alpha) return 1;
          if (length < alpha) return 0;
          return between === 'half' ? Number(length > half) : Math.floor((length * unit) / room) / unit;
        });
        const bound = Math.ceil(worthOf({ wanted }, prices));
        if (bound > best.bound) best = { bound, prices };
      }
  return best;
}
