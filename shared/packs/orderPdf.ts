// In: the job and its estimate. Out: what to order, and how each roll is cut, as a PDF. Promise: the rolls drawn
// are the rolls counted.
import type { Estimate } from '../../core/job/result';
import type { Job } from '../../core/job/schema';
import type { OrderLine } from '../../core/order/types';
import { formatQuantity } from '../../core/units/figures';
import { formatNumber } from '../../core/units/numbers';
import { Pack } from './canvas';
import { ORDER_CAUTIONS } from './cautions';
import { drawCutList } from './cutBars';
import { counted, fitted, ListWriter, RULES, TYPE, writeFeet } from './paper';

export async function orderPdf({ job, estimate }: { job: Job; estimate: Estimate }): Promise<Uint8Array> {
  const { about } = job;
  const title = `Order and cut list: ${about.name}`;
  const pack = await Pack.start({ title, subject: about.reference, date: about.date });
  const list = new ListWriter(pack, job, 'Order and cut list');
  writeLines(list, estimate, job);
  list.heading('Please note');
  for (const caution of ORDER_CAUTIONS) list.paragraph(caution);
  for (const roof of estimate.roofs) drawCutList(list, roof, job);
  writeFeet(pack, job);
  return pack.finish();
}

const COLUMNS = { packs: 60, mass: 0, needed: 150 };

function writeLines(list: ListWriter, { order }: Estimate, job: Job): void {
  list.heading('Order');
  list.gap(10);
  const mark = { ...TYPE.small, align: 'right' } as const;
  list.page.text([list.right - COLUMNS.needed, list.y], 'needed', mark);
  list.page.text([list.right - COLUMNS.packs, list.y], 'order', mark);
  list.page.text([list.right, list.y], 'mass', mark);
  for (const line of order.lines) writeLine(list, line, job);
  list.need(30);
  list.gap(15);
  const pallets = `${formatNumber(order.pallets)} ${order.pallets === 1 ? 'pallet' : 'pallets'}`;
  list.page.text([list.left, list.y], `Together ${pallets}`, TYPE.strong);
  list.page.text([list.right, list.y], formatQuantity(order.mass, 'kg', job.display), {
    ...TYPE.strong,
    align: 'right',
  });
  const unknown = order.lines.filter((line) => line.mass === null).map((line) => line.description);
  if (unknown.length > 0)
    list.paragraph(`Without ${unknown.join(', ')}, whose mass is not known.`, TYPE.small);
  const assumed = order.lines.filter((line) => line.assumed !== null);
  if (assumed.length > 0) {
    list.gap(4);
    list.paragraph('* rests on figures that no person confirmed:', TYPE.small);
    for (const line of assumed) list.paragraph(`${line.description}: ${line.assumed ?? ''}.`, TYPE.small);
  }
}

function writeLine(list: ListWriter, line: OrderLine, job: Job): void {
  const why = list.pack.broken(line.formula, TYPE.small, list.width - 230);
  list.need(15 + why.length * 8.6);
  list.gap(13);
  const right = { ...TYPE.body, align: 'right' } as const;
  const name = line.assumed ? `${line.description} *` : line.description;
  list.page.text([list.left, list.y], fitted(list.pack, name, TYPE.body, list.width - 230), TYPE.body);
  const need = `${formatNumber(line.need, Number.isInteger(line.need) || line.unit === 'pieces' ? 0 : 1)} ${line.unit}`;
  list.page.text([list.right - COLUMNS.needed, list.y], need, right);
  list.page.text([list.right - COLUMNS.packs, list.y], counted(line.packs, line.packName), {
    ...TYPE.strong,
    align: 'right',
  });
  const mass = line.mass === null ? 'not known' : formatQuantity(line.mass, 'kg', job.display);
  list.page.text([list.right, list.y], mass, right);
  for (const words of why) {
    list.gap(8.6);
    list.page.text([list.left, list.y], words, TYPE.small);
  }
  list.gap(3.5);
  list.page.line([list.left, list.y], [list.right, list.y], RULES.thin);
}
