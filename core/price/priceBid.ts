// In: the order, the quantities and the rates. Out: the bid: lines by group, subtotals, total. Promise: every line
// is rounded once to the currency's minor unit, and the total is the sum of the lines to the cent.
import { formatNumber } from '../units/numbers';
import type { Order } from '../order/types';
import type { Quantities } from '../quantities/types';
import type { Rates } from '../rates/schema';
import { money, roundToMinor, sumMoney, toBillableHundredths, writeMoney, type Money } from './money';
import type { Bid, BidGroup, BidLine } from './types';

const GROUPS: readonly BidGroup[] = [
  'material',
  'labour',
  'plant',
  'contingency',
  'overhead',
  'profit',
  'tax',
];

interface Draft extends Omit<BidLine, 'amount'> {
  readonly amount: Money;
}

export function priceBid(
  order: Order,
  quantities: Quantities,
  rates: Rates,
  assumed: (...paths: string[]) => string | null,
): Bid {
  const { code, minorDigits } = rates.currency;
  const round = (amount: Money) => roundToMinor(amount, minorDigits);
  const direct = [
    ...materialLines(order),
    ...labourLines(quantities, rates, assumed),
    ...plantLines(quantities, rates, assumed),
    ...disposalLine(quantities, rates, assumed),
  ].map((line) => ({
    ...line,
    amount: round(line.amount),
  }));
  const sum = (lines: readonly Draft[]) => sumMoney(lines.map((line) => line.amount));
  const share = (
    group: BidGroup,
    label: string,
    percent: number,
    base: Money,
    of: string,
    path: string,
  ): Draft => ({
    ...percentLine(group, label, path, assumed),
    amount: round(base.times(percent).div(100)),
    formula: `${percent} % of ${of}, ${writeMoney(base, minorDigits)}`,
  });
  const contingency = share(
    'contingency',
    'Contingency',
    rates.contingencyPercent,
    sum(direct),
    'material, labour and plant',
    'rates.contingencyPercent',
  );
  const beforeOverhead = sum(direct).plus(contingency.amount);
  const overhead = share(
    'overhead',
    'Office overhead',
    rates.overheadPercent,
    beforeOverhead,
    'direct cost and contingency',
    'rates.overheadPercent',
  );
  const cost = beforeOverhead.plus(overhead.amount);
  const profit = profitLine(cost, rates, round, assumed);
  const price = cost.plus(profit.amount);
  const tax = share('tax', 'Tax', rates.taxPercent, price, 'the price', 'rates.taxPercent');

  const drafts = [...direct, contingency, overhead, profit, ...(rates.taxPercent > 0 ? [tax] : [])];
  const total = sum(drafts);
  const area = quantities.find((q) => q.key === 'roof.area')?.value ?? 0;
  return {
    currency: code,
    lines: drafts.map((line) => ({ ...line, amount: writeMoney(line.amount, minorDigits) })),
    subtotals: GROUPS.flatMap((group) => {
      const own = drafts.filter((line) => line.group === group);
      return own.length === 0 ? [] : [{ group, amount: writeMoney(sum(own), minorDigits) }];
    }),
    total: writeMoney(total, minorDigits),
    perSquareMetre:
      area > 0 ? writeMoney(round(total.div(area)), minorDigits) : writeMoney(money('0'), minorDigits),
  };
}

function materialLines(order: Order): Draft[] {
  return order.lines.map((line) => ({
    key: `material.${line.key}`,
    group: 'material',
    label: line.description,
    quantity: String(line.packs),
    unit: line.packName,
    rate: line.unitPrice,
    amount: money(line.unitPrice).times(line.packs),
    formula: `${line.packs} × ${line.unitPrice}: ${line.formula}`,
    from: line.from,
    assumed: line.assumed,
  }));
}

function labourLines(
  quantities: Quantities,
  { labour }: Rates,
  assumed: (...paths: string[]) => string | null,
): Draft[] {
  const hourly = money(labour.wage).times(money(String(labour.burdenPercent)).div(100).plus(1));
  const keys = [
    'hours.machine',
    'hours.hand',
    'hours.laying',
    'hours.bonding',
    'hours.fastening',
    'hours.flashing',
    'hours.details',
    'hours.probing',
    'hours.strips',
    'hours.heating',
    'hours.sealing',
  ];
  return keys.flatMap((key): Draft[] => {
    const figure = quantities.find((q) => q.key === key);
    if (!figure || figure.value === 0) return [];
    const people = key === 'hours.machine' || key === 'hours.hand' ? labour.perWelder : 1;
    const hours = toBillableHundredths(figure.value);
    const times = people > 1 ? ` × ${people} people` : '';
    return [
      {
        key: `labour.${key.slice('hours.'.length)}`,
        group: 'labour',
        label: figure.label,
        quantity: hours.times(people).toFixed(2),
        unit: 'h',
        rate: hourly.toFixed(4),
        amount: hours.times(people).times(hourly),
        formula: `${hours.toFixed(2)} h${times} × ${labour.wage} wage + ${labour.burdenPercent} % burden: ${figure.formula}`,
        from: figure.from,
        assumed:
          assumed('rates.labour.wage', 'rates.labour.burdenPercent', 'rates.labour.perWelder') ??
          figure.assumed,
      },
    ];
  });
}

function plantLines(
  quantities: Quantities,
  { plant }: Rates,
  assumed: (...paths: string[]) => string | null,
): Draft[] {
  const days = quantities.find((q) => q.key === 'days')?.value ?? 0;
  return plant.map((item, i) => {
    const count = item.per === 'day' ? days : 1;
    return {
      key: `plant.${i}`,
      group: 'plant',
      label: item.name,
      quantity: String(count),
      unit: item.per,
      rate: item.price,
      amount: money(item.price).times(count),
      formula: `${formatNumber(count)} ${item.per}(s) × ${item.price}`,
      from: [],
      assumed: assumed('rates.plant'),
    };
  });
}

/** What is bought and does not stay: offcuts, what is trimmed off, and what is cut back after each night. */
function disposalLine(
  quantities: Quantities,
  { disposalPerM2 }: Rates,
  assumed: (...paths: string[]) => string | null,
): Draft[] {
  const figure = (key: string) => quantities.find((q) => q.key === key)?.value ?? 0;
  const area = toBillableHundredths(
    figure('area.offcut') - figure('area.reused') + figure('area.trimmed') + figure('night.cutBack'),
  );
  if (area.isZero() || money(disposalPerM2).isZero()) return [];
  return [
    {
      key: 'plant.disposal',
      group: 'plant',
      label: 'Waste disposal',
      quantity: area.toFixed(2),
      unit: 'm²',
      rate: disposalPerM2,
      amount: area.times(money(disposalPerM2)),
      formula: `${area.toFixed(2)} m² of offcuts, trimmings and what is cut back after nights × ${disposalPerM2}`,
      from: [],
      assumed: assumed('rates.disposalPerM2'),
    },
  ];
}

function percentLine(
  group: BidGroup,
  label: string,
  path: string,
  assumed: (...paths: string[]) => string | null,
): Omit<Draft, 'amount' | 'formula'> {
  return {
    key: group,
    group,
    label,
    quantity: null,
    unit: null,
    rate: null,
    from: [],
    assumed: assumed(path),
  };
}

/** Markup is a share of cost; margin is a share of price: cost ÷ (1 − margin). */
function profitLine(
  cost: Money,
  { profit, currency }: Rates,
  round: (amount: Money) => Money,
  assumed: (...paths: string[]) => string | null,
): Draft {
  const share = money(String(profit.percent)).div(100);
  const amount = profit.as === 'markup' ? cost.times(share) : cost.div(money('1').minus(share)).minus(cost);
  const written = writeMoney(cost, currency.minorDigits);
  return {
    ...percentLine('profit', 'Profit', 'rates.profit', assumed),
    amount: round(amount),
    formula:
      profit.as === 'markup'
        ? `${profit.percent} % markup on cost, ${written}`
        : `${profit.percent} % margin of price: ${written} ÷ (1 − ${profit.percent} %) − ${written}`,
  };
}
