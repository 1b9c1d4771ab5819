// The bid as a workbook whose amounts, subtotals and total are live: change a rate and the price follows. Each amount
// is rounded once, as the program rounds it.
import type { BidGroup, BidLine } from '../../core/price/types';
import { columnName, writeWorkbook, type Cell, type Worksheet } from './sheetXml';
import type { PackInput } from './writePack';

export function bidXlsx({ job, estimate }: PackInput): Uint8Array {
  const { minorDigits } = job.rates.currency;
  return writeWorkbook(
    [bidSheet({ job, estimate }, minorDigits), orderSheet(estimate), figureSheet(estimate)],
    minorDigits,
  );
}

const text = (value: string): Cell => ({ text: value });
const strong = (value: string): Cell => ({ text: value, strong: true });
const HEADINGS: Readonly<Record<BidGroup, string>> = {
  material: 'Material',
  labour: 'Labour',
  plant: 'Plant',
  contingency: 'Contingency',
  overhead: 'Overhead',
  profit: 'Profit',
  tax: 'Tax',
};

function bidSheet({ job, estimate }: Pick<PackInput, 'job' | 'estimate'>, digits: number): Worksheet {
  const { bid } = estimate;
  const rows: Cell[][] = [
    [strong(job.about.name)],
    [text(`${job.about.client}  ${job.about.reference}`.trim()), null, null, null, text(job.about.date)],
    [],
    ['Line', 'Quantity', 'Unit', 'Rate', `Amount ${bid.currency}`, 'How it was found', 'Assumed'].map(strong),
  ];
  /** Rows, counted from 1, whose amounts a later percentage or the total takes together. */
  const amounts = new Map<BidGroup, string[]>();
  const at = () => `E${rows.length + 1}`;
  const sumOf = (groups: readonly BidGroup[]) =>
    groups.flatMap((group) => amounts.get(group) ?? []).join('+') || '0';
  for (const { group, amount } of bid.subtotals) {
    const lines = bid.lines.filter((line) => line.group === group);
    for (const line of lines) {
      const formula = amountFormula(line, rows.length + 1, job.rates, digits, sumOf);
      amounts.set(group, [...(amounts.get(group) ?? []), at()]);
      rows.push([
        text(line.label),
        line.quantity === null ? null : { number: Number(line.quantity) },
        text(line.unit ?? ''),
        line.rate === null ? null : { number: Number(line.rate), style: 'money' },
        { formula, value: Number(line.amount), style: 'money' },
        text(line.formula),
        text(line.assumed ?? ''),
      ]);
    }
    rows.push([
      strong(`${HEADINGS[group]} in all`),
      null,
      null,
      null,
      { formula: sumOf([group]), value: Number(amount), style: 'money', strong: true },
    ]);
  }
  const all = Object.keys(HEADINGS) as BidGroup[];
  rows.push(
    [],
    [
      strong('Total'),
      null,
      null,
      null,
      { formula: sumOf(all), value: Number(bid.total), style: 'money', strong: true },
    ],
  );
  rows.push(
    [],
    [text('Estimate only. Wind uplift, edges and loads are for the licensed designer; local codes govern.')],
  );
  return { name: 'Bid', widths: [34, 10, 8, 12, 14, 70, 60], rows };
}

/** The line's amount as a formula over its own quantity and rate, or over the lines before it. */
function amountFormula(
  { group, quantity }: BidLine,
  row: number,
  rates: PackInput['job']['rates'],
  digits: number,
  sumOf: (groups: readonly BidGroup[]) => string,
): string {
  const rounded = (inner: string) => `ROUND(${inner},${digits})`;
  if (quantity !== null) return rounded(`B${row}*D${row}`);
  const direct: BidGroup[] = ['material', 'labour', 'plant'];
  const cost = `(${sumOf([...direct, 'contingency', 'overhead'])})`;
  switch (group) {
    case 'contingency':
      return rounded(`(${sumOf(direct)})*${rates.contingencyPercent}/100`);
    case 'overhead':
      return rounded(`(${sumOf([...direct, 'contingency'])})*${rates.overheadPercent}/100`);
    case 'profit':
      return rates.profit.as === 'markup'
        ? rounded(`${cost}*${rates.profit.percent}/100`)
        : rounded(`${cost}/(1-${rates.profit.percent}/100)-${cost}`);
    default:
      return rounded(`(${sumOf([...direct, 'contingency', 'overhead', 'profit'])})*${rates.taxPercent}/100`);
  }
}

function orderSheet({ order }: PackInput['estimate']): Worksheet {
  const rows: Cell[][] = [
    ['Product', 'Needed', 'Unit', 'Pack holds', 'Pack', 'Packs', 'Mass kg', 'How it was found'].map(strong),
  ];
  for (const line of order.lines)
    rows.push([
      text(line.description),
      { number: line.need },
      text(line.unit),
      { number: line.packSize },
      text(line.packName),
      { number: line.packs },
      line.mass === null ? text('not known') : { number: line.mass },
      text(line.formula),
    ]);
  const last = rows.length;
  rows.push([
    strong('Mass in all'),
    null,
    null,
    null,
    null,
    null,
    { formula: `SUM(${columnName(6)}2:${columnName(6)}${last})`, value: order.mass, strong: true },
  ]);
  return { name: 'Order', widths: [34, 12, 8, 10, 8, 8, 12, 70], rows };
}

function figureSheet({ quantities }: PackInput['estimate']): Worksheet {
  const rows: Cell[][] = [['Figure', 'Value', 'Unit', 'How it was found', 'Assumed'].map(strong)];
  for (const q of quantities)
    rows.push([text(q.label), { number: q.value }, text(q.unit), text(q.formula), text(q.assumed ?? '')]);
  return { name: 'Quantities', widths: [30, 14, 8, 80, 60], rows };
}
