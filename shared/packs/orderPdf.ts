// In: the job and its estimate. Out: what to order, and how each roll is cut, as a PDF. Promise: the rolls drawn
// are the rolls counted.
import type { Estimate } from '../../core/job/result';
import type { Job } from '../../core/job/schema';
import type { OrderLine } from '../../core/order/types';
import type { RollCut } from '../../core/sheets/types';
import { formatQuantity } from '../../core/units/figures';
import { formatLength } from '../../core/units/lengths';
import { formatNumber } from '../../core/units/numbers';
import { Pack } from './canvas';
import type { TextStyle } from './canvas';
import { ORDER_CAUTIONS } from './cautions';
import { counted, fitted, ListWriter, RULES, TYPE, writeFeet } from './paper';

export async function orderPdf({ job, estimate }: { job: Job; estimate: Estimate }): Promise<Uint8Array> {
  const { about } = job;
  const title = `Order and cut list: ${about.name}`;
  const pack = await Pack.start({ title, subject: about.reference, date: about.date });
  const list = new ListWriter(pack, job, 'Order and cut list');
  writeLines(list, estimate, job);
  list.heading('Please note');
  for (const caution of ORDER_CAUTIONS) list.paragraph(caution);
  for (const roof of estimate.roofs)
    if (roof.layout) writeCutList(list, roof.name, roof.layout.cutList.rolls, job);
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

const ROLL_HEIGHT = 13;
const ROLL_STEP = 27;

/** Each roll is a bar, as long as the longest; its pieces in the order of cutting, what is left hatched. */
function writeCutList(list: ListWriter, name: string, rolls: readonly RollCut[], job: Job): void {
  if (rolls.length === 0) return;
  list.need(90);
  list.heading(`Cut list, ${name}: ${counted(rolls.length, 'roll')}`);
  list.gap(3);
  list.paragraph(
    'Pieces in the order of cutting, from the outer end of the roll. Mark each piece with its name. The hatched end is left over.',
    TYPE.small,
  );
  const longest = Math.max(...rolls.map(lengthOf));
  const start = list.left + 62;
  const scale = (list.right - start) / longest;
  for (const roll of rolls) {
    list.need(ROLL_STEP + 4);
    list.gap(ROLL_STEP);
    const y = list.y;
    list.page.text([list.left, y + 3.6], roll.id, TYPE.strong);
    for (const piece of roll.pieces) {
      const from = start + piece.start * scale;
      const to = from + piece.length * scale;
      list.page.box([from, y], [to, y + ROLL_HEIGHT], { stroke: { width: 0.6 }, fill: 0.92 });
      const room = to - from - 3;
      const middle = (from + to) / 2;
      const name = shrunk(list, piece.sheet, TYPE.strong, room);
      // A name that fits no bar stands above it: it is never cut short.
      const inside = list.pack.widthOf(piece.sheet, name) <= room;
      list.page.text([middle, inside ? y + 3.8 : y + ROLL_HEIGHT + 2], piece.sheet, {
        ...name,
        align: 'middle',
      });
      const size = formatLength(piece.length, job.display);
      const small = shrunk(list, size, { ...TYPE.small, ink: 0.1 }, room);
      if (list.pack.widthOf(size, small) <= room + 3)
        list.page.text([middle, y - 7], size, { ...small, align: 'middle' });
    }
    drawOffcut(list, roll, start, scale, job);
  }
}

const SMALLEST = 4.8;

/** The style, smaller where the text would not fit. */
function shrunk(list: ListWriter, text: string, style: TextStyle, room: number): TextStyle {
  const width = list.pack.widthOf(text, style);
  return width <= room ? style : { ...style, size: Math.max(SMALLEST, (style.size * room) / width) };
}

function drawOffcut(list: ListWriter, roll: RollCut, start: number, scale: number, job: Job): void {
  if (roll.offcut <= 0) return;
  const y = list.y;
  const from = start + (lengthOf(roll) - roll.offcut) * scale;
  const to = start + lengthOf(roll) * scale;
  list.page.box([from, y], [to, y + ROLL_HEIGHT], { stroke: { width: 0.4, ink: 0.4 } });
  list.page.clipped(
    [
      [
        [from, y],
        [to, y],
        [to, y + ROLL_HEIGHT],
        [from, y + ROLL_HEIGHT],
      ],
    ],
    () => {
      for (let x = from - ROLL_HEIGHT; x < to; x += 4)
        list.page.line([x, y], [x + ROLL_HEIGHT, y + ROLL_HEIGHT], { width: 0.3, ink: 0.55 });
    },
  );
  const size = `${formatLength(roll.offcut, job.display)} left`;
  const style = { ...TYPE.small, align: 'right' } as const;
  const last = roll.pieces.at(-1);
  const room = last ? (last.length * scale) / 2 : 0;
  if (list.pack.widthOf(size, style) < to - from + room / 2) list.page.text([to, y - 7], size, style);
}

function lengthOf(roll: RollCut): number {
  return roll.pieces.reduce((end, piece) => Math.max(end, piece.start + piece.length), 0) + roll.offcut;
}
