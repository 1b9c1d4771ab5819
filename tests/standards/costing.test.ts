// The costing reference (in the frame of UFC 3-740-05): markup and margin identities, the worked example, rounding.
import { Decimal } from 'decimal.js';
import { describe, expect, it } from 'vitest';
import { allocate, money, roundToMinor, sumMoney } from '../../core/price/money';
import { priceBid } from '../../core/price/priceBid';
import { roundUpToPack } from '../../core/order/packs';
import type { Order } from '../../core/order/types';
import type { Quantity } from '../../core/quantities/types';
import { SHIPPED_RATES } from '../../core/rates/shipped';
import type { Rates } from '../../core/rates/schema';

const line = (amount: string): Order['lines'][number] => ({
  key: 'material',
  product: 'material',
  description: 'Material',
  need: 1,
  unit: 'pieces',
  packSize: 1,
  packName: 'lot',
  packs: 1,
  mass: null,
  unitPrice: amount,
  from: [],
  formula: '',
  assumed: null,
});
const order = (...amounts: string[]): Order => ({ lines: amounts.map(line), mass: 0, pallets: 0 });
const hours = (value: number): Quantity => ({
  key: 'hours.laying',
  label: 'Labour',
  value,
  unit: 'h',
  formula: '',
  from: [],
  assumed: null,
});
const rates = (changes: Partial<Rates>): Rates => ({ ...SHIPPED_RATES, plant: [], ...changes });
const bidOf = (given: Order, quantities: Quantity[], with_: Rates) =>
  priceBid(given, quantities, with_, () => null);

describe('worked example of the costing reference, section 4', () => {
  // M 42 000; tax on material 8.25 % = 3 465 (a cost); L 620 h × 28 × 1.42 = 24 651.20; E 3 800; S 2 500 →
  // D = 76 416.20; C 5 % = 3 820.81; O 12 % of (D + C) = 9 628.44; cost 89 865.45.
  const given = order('42000', '3465', '3800', '2500');
  const with_ = (as: 'markup' | 'margin') =>
    rates({
      labour: { ...SHIPPED_RATES.labour, wage: '28.00', burdenPercent: 42 },
      contingencyPercent: 5,
      overheadPercent: 12,
      profit: { percent: 15, as },
      taxPercent: 0,
    });
  const amount = (bid: ReturnType<typeof bidOf>, group: string) =>
    bid.subtotals.find((s) => s.group === group)?.amount;

  it('15 % markup → 103 345.27', () => {
    const bid = bidOf(given, [hours(620)], with_('markup'));
    expect(amount(bid, 'labour')).toBe('24651.20');
    expect(amount(bid, 'contingency')).toBe('3820.81');
    expect(amount(bid, 'overhead')).toBe('9628.44');
    expect(amount(bid, 'profit')).toBe('13479.82');
    expect(bid.total).toBe('103345.27');
  });
  it('15 % margin → 105 724.06', () => {
    const bid = bidOf(given, [hours(620)], with_('margin'));
    expect(amount(bid, 'profit')).toBe('15858.61');
    expect(bid.total).toBe('105724.06');
  });
});

describe('markup and margin (exact, algebra)', () => {
  const plain = (percent: number, as: 'markup' | 'margin') =>
    rates({ contingencyPercent: 0, overheadPercent: 0, profit: { percent, as }, taxPercent: 0 });
  it.each([
    ['markup', 25, '100000', '125000.00'],
    ['margin', 20, '100000', '125000.00'],
    ['markup', 40, '1000', '1400.00'],
  ] as const)('%s of %d %% on %s → %s', (as, percent, cost, total) => {
    expect(bidOf(order(cost), [], plain(percent, as)).total).toBe(total);
  });
  it('direct 100 000 + 15 % overhead + 10 % profit → 126 500', () => {
    expect(bidOf(order('100000'), [], { ...plain(10, 'markup'), overheadPercent: 15 }).total).toBe(
      '126500.00',
    );
  });
});

describe('rounding (costing reference, section 7)', () => {
  it('packs are rounded up, and float noise is not a pack', () => {
    expect(roundUpToPack(40.2, 1)).toBe(41);
    expect(roundUpToPack(12.0000000001, 1)).toBe(12);
    expect(roundUpToPack(1001, 500)).toBe(3);
    expect(roundUpToPack(0, 500)).toBe(0);
  });
  it('a line is rounded half up at the minor unit', () => {
    expect(roundToMinor(money('1.005'), 2).toFixed(2)).toBe('1.01');
    expect(roundToMinor(money('-1.005'), 2).toFixed(2)).toBe('-1.01');
    expect(roundToMinor(money('2.5'), 0).toFixed(0)).toBe('3');
  });
  it('the total is the sum of the lines to the cent, whatever the amounts', () => {
    for (let i = 1; i < 200; i++) {
      const bid = bidOf(
        order(`${i * 37}.${(i * 7919) % 1000}`, `${i}.333333`),
        [hours(i / 7)],
        rates({ taxPercent: 19 }),
      );
      const sum = sumMoney(bid.lines.map((l) => money(l.amount)));
      expect(bid.total).toBe(sum.toFixed(2));
      expect(sumMoney(bid.subtotals.map((s) => money(s.amount))).toFixed(2)).toBe(bid.total);
      for (const l of bid.lines) expect(l.amount).toMatch(/^-?\d+\.\d\d$/);
    }
  });
});

describe('allocate', () => {
  it('hands out what is left by the largest remainder', () => {
    expect(allocate(money('100.00'), [1, 1, 1], 2).map(String)).toEqual(['33.34', '33.33', '33.33']);
    expect(allocate(money('-0.05'), [3, 1], 2).map(String)).toEqual(['-0.04', '-0.01']);
  });
  it('loses nothing', () => {
    for (let i = 1; i < 100; i++) {
      const amount = new Decimal(i * 1009).div(100);
      const shares = allocate(amount, [i, 7, 0, 13.5], 2);
      expect(sumMoney(shares).toString()).toBe(amount.toString());
    }
  });
  it('refuses weights that come to nothing', () => {
    expect(() => allocate(money('1'), [0, 0], 2)).toThrow(RangeError);
  });
});
