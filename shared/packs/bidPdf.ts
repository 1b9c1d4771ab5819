// In: the job and its estimate. Out: the priced bid as a PDF, every line with the sum behind it. Promise: the
// lines printed are the lines of the bid, and what was assumed is marked and named.
import type { Estimate } from '../../core/job/result';
import type { Job, JobScale } from '../../core/job/schema';
import type { BidGroup, BidLine } from '../../core/price/types';
import { formatMoney, formatQuantity } from '../../core/units/figures';
import { formatScale, ratioOf } from '../../core/units/scales';
import { BRICK, Pack } from './canvas';
import { BID_CAUTIONS } from './cautions';
import { counted, fitted, ListWriter, RULES, TYPE, writeFeet } from './paper';

export interface BidPackInput {
  readonly job: Job;
  readonly estimate: Estimate;
}

export async function bidPdf({ job, estimate }: BidPackInput): Promise<Uint8Array> {
  const { about } = job;
  const pack = await Pack.start({ title: `Bid: ${about.name}`, subject: about.reference, date: about.date });
  const list = new ListWriter(pack, job, 'Bid');
  writeTotal(list, estimate);
  const { subtotals } = estimate.bid;
  for (const { group, amount } of subtotals.filter(({ group }) => DIRECT.includes(group)))
    writeGroup(list, estimate, group, amount);
  writeShares(
    list,
    estimate,
    subtotals.map(({ group }) => group).filter((group) => !DIRECT.includes(group)),
  );
  writeSum(list, estimate);
  writeBasis(list, job, estimate);
  writeAssumptions(list, estimate.bid.lines);
  writeFindings(list, estimate);
  list.heading('Please note');
  for (const caution of BID_CAUTIONS) list.paragraph(caution);
  writeFeet(pack, job);
  return pack.finish();
}

const GROUP_NAMES: Readonly<Record<BidGroup, string>> = {
  material: 'Material',
  labour: 'Labour',
  plant: 'Plant',
  contingency: 'Contingency',
  overhead: 'Overhead',
  profit: 'Profit',
  tax: 'Tax',
};

/** Groups of many lines; the others are one share of the sum above each. */
const DIRECT: readonly BidGroup[] = ['material', 'labour', 'plant'];

function writeTotal(list: ListWriter, { bid, roofs }: Estimate): void {
  list.gap(34);
  const names = roofs.map((roof) => roof.name).join(', ');
  list.page.text([list.left, list.y], `${bid.currency} ${formatMoney(bid.total)}`, {
    size: 24,
    weight: 'bold',
  });
  list.page.text([list.right, list.y + 9], `${formatMoney(bid.perSquareMetre)} per m²`, {
    ...TYPE.body,
    align: 'right',
  });
  list.page.text([list.right, list.y - 2], fitted(list.pack, names, TYPE.body, list.width / 2), {
    ...TYPE.body,
    align: 'right',
  });
  list.gap(6);
}

/** Right edges of quantity, rate and amount, from the right margin. */
const COLUMNS = { quantity: 150, rate: 80, amount: 0 };

function writeGroup(list: ListWriter, { bid }: Estimate, group: BidGroup, subtotal: string): void {
  const lines = bid.lines.filter((line) => line.group === group);
  list.heading(GROUP_NAMES[group]);
  const mark = { ...TYPE.small, align: 'right' } as const;
  if (lines.some((line) => line.rate !== null)) {
    list.gap(10);
    list.page.text([list.right - COLUMNS.quantity, list.y], 'quantity', mark);
    list.page.text([list.right - COLUMNS.rate, list.y], 'rate', mark);
    list.page.text([list.right, list.y], bid.currency, mark);
  }
  for (const line of lines) writeLine(list, line);
  if (lines.length > 1) {
    list.need(16);
    list.gap(13);
    list.page.text([list.left, list.y], `${GROUP_NAMES[group]}, together`, TYPE.strong);
    list.page.text([list.right, list.y], formatMoney(subtotal), { ...TYPE.strong, align: 'right' });
  }
}

function writeLine(list: ListWriter, line: BidLine): void {
  const why = list.pack.broken(line.formula, TYPE.small, list.width - 190);
  list.need(15 + why.length * 8.6);
  list.gap(13);
  const right = { ...TYPE.body, align: 'right' } as const;
  const label = line.assumed ? `${line.label} *` : line.label;
  list.page.text([list.left, list.y], fitted(list.pack, label, TYPE.body, list.width - 210), TYPE.body);
  if (line.quantity !== null)
    list.page.text([list.right - COLUMNS.quantity, list.y], amountOf(line.quantity, line.unit), right);
  if (line.rate !== null) list.page.text([list.right - COLUMNS.rate, list.y], formatMoney(line.rate), right);
  list.page.text([list.right, list.y], formatMoney(line.amount), right);
  for (const words of why) {
    list.gap(8.6);
    list.page.text([list.left, list.y], words, TYPE.small);
  }
  list.gap(3.5);
  list.page.line([list.left, list.y], [list.right, list.y], RULES.thin);
}

function writeShares(list: ListWriter, { bid }: Estimate, groups: readonly BidGroup[]): void {
  if (groups.length === 0) return;
  list.heading(groups.map((group, k) => (k === 0 ? GROUP_NAMES[group] : group)).join(', '));
  for (const line of bid.lines.filter((each) => groups.includes(each.group))) writeLine(list, line);
}

/** Hours keep their decimals; packs and days are counted. */
function amountOf(quantity: string, unit: string | null): string {
  if (unit === null || unit === 'h' || !/^\d+$/.test(quantity))
    return `${formatMoney(quantity)} ${unit ?? ''}`.trim();
  return counted(Number(quantity), unit);
}

function writeSum(list: ListWriter, { bid }: Estimate): void {
  list.need(40);
  list.gap(12);
  list.page.line([list.left, list.y], [list.right, list.y], RULES.firm);
  list.gap(16);
  const style = { size: 12, weight: 'bold' } as const;
  list.page.text([list.left, list.y], 'Total', style);
  list.page.text([list.right, list.y], `${bid.currency} ${formatMoney(bid.total)}`, {
    ...style,
    align: 'right',
  });
  list.gap(5);
}

const BASIS = [
  'roof.area',
  'roof.edges',
  'rolls.field',
  'rolls.bound',
  'area.cut',
  'waste.percent',
  'weld.machine',
  'weld.hand',
  'fasteners.count',
  'flashing.length',
  'hours.total',
];

function writeBasis(list: ListWriter, job: Job, estimate: Estimate): void {
  list.heading('What the price rests on');
  for (const page of Object.values(job.pages)) {
    const say = ({ mmPerPoint }: JobScale) => formatScale(ratioOf(mmPerPoint), job.display);
    const regions = page.regions?.map((region) => `${say(region.scale)} in a region`) ?? [];
    const scale = [page.scale ? say(page.scale) : 'no scale set', ...regions].join(', ');
    writeFigure(list, 'Drawing', page.name, `scale ${scale}, ${checked(page.checks.length)}`);
  }
  for (const key of BASIS) {
    const figure = estimate.quantities.find((quantity) => quantity.key === key);
    if (figure)
      writeFigure(
        list,
        figure.assumed ? `${figure.label} *` : figure.label,
        formatQuantity(figure.value, figure.unit, job.display),
        figure.formula,
      );
  }
}

function checked(count: number): string {
  if (count === 0) return 'not checked on a second length';
  return count === 1 ? 'checked on one length' : `checked on ${count} lengths`;
}

/** Name, figure, reason: three columns and a rule. */
function writeFigure(list: ListWriter, name: string, figure: string, reason: string): void {
  const why = list.pack.broken(reason, TYPE.small, list.width - 240);
  list.need(8 + why.length * 8.6);
  list.gap(12);
  list.page.text([list.left, list.y], fitted(list.pack, name, TYPE.body, 130), TYPE.body);
  list.page.text([list.left + 225, list.y], fitted(list.pack, figure, TYPE.body, 100), {
    ...TYPE.body,
    align: 'right',
  });
  why.forEach((words, k) => {
    if (k > 0) list.gap(8.6);
    list.page.text([list.left + 240, list.y], words, TYPE.small);
  });
  list.gap(3.5);
  list.page.line([list.left, list.y], [list.right, list.y], RULES.thin);
}

function writeAssumptions(list: ListWriter, lines: readonly BidLine[]): void {
  const assumed = new Map<string, string[]>();
  for (const line of lines)
    if (line.assumed) assumed.set(line.assumed, [...(assumed.get(line.assumed) ?? []), line.label]);
  if (assumed.size === 0) return;
  list.heading('* Assumed, and not confirmed by a person');
  for (const [what, labels] of assumed) {
    list.gap(3);
    list.paragraph(`${labels.join(', ')}: ${what}.`);
  }
}

function writeFindings(list: ListWriter, { findings }: Estimate): void {
  list.heading('Findings against the layout');
  if (findings.length === 0) list.paragraph('Nothing stands against it.');
  for (const finding of findings) {
    list.gap(3);
    list.paragraph(`${finding.severity}: ${finding.message}`, {
      ...TYPE.body,
      ink: finding.severity === 'error' ? BRICK : 0,
    });
    list.paragraph(finding.source, TYPE.small);
  }
}
