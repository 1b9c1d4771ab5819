// The cut list as a picture: each roll a bar, its pieces in the order of cutting, slit lanes side by side, what is
// left hatched.
import type { Job } from '../../core/job/schema';
import type { RoofEstimate } from '../../core/job/result';
import type { ChangedSheet } from '../../core/sheets/refitLayout';
import type { RollCut } from '../../core/sheets/types';
import { formatLength } from '../../core/units/lengths';
import type { Spot, TextStyle } from './canvas';
import { counted, TYPE } from './paper';
import type { ListWriter } from './paper';

const BAR_HEIGHT = 13;
const LANE_HEIGHT = 11;
const BELOW = 14;

export function drawCutList(list: ListWriter, { name, layout, refit }: RoofEstimate, job: Job): void {
  if (!layout) return;
  const { rolls } = layout.cutList;
  if (rolls.length === 0) return;
  list.need(90);
  list.heading(`Cut list, ${name}: ${counted(rolls.length, 'roll')}`);
  list.gap(3);
  list.paragraph(
    'Pieces in the order of cutting, from the outer end of the roll. Mark each piece with its name. The hatched end is left over.',
    TYPE.small,
  );
  if (refit && refit.changed.length > 0)
    list.paragraph(
      `Cut to the roof as measured; these labels changed: ${refit.changed.map((one) => changeWords(one, job)).join('; ')}.`,
      TYPE.strong,
    );
  const widths = new Map(layout.sheets.map((sheet) => [sheet.id, sheet.width]));
  const start = list.left + 62;
  const scale = (list.right - start) / Math.max(...rolls.map(lengthOf));
  for (const roll of rolls) {
    const wide = widthOf(roll, widths, job);
    const lanes = Math.max(
      ...roll.pieces.map((piece) => Math.round(wide / (widths.get(piece.sheet) ?? wide))),
    );
    const tall = lanes > 1 ? LANE_HEIGHT * lanes : BAR_HEIGHT;
    list.need(tall + BELOW + 4);
    list.gap(tall + BELOW);
    list.page.text([list.left, list.y + tall / 2 - 3], roll.id, TYPE.strong);
    for (const piece of roll.pieces) {
      const bar = {
        low: [start + piece.start * scale, list.y + (piece.lane / wide) * tall] as Spot,
        high: [
          start + (piece.start + piece.length) * scale,
          list.y + ((piece.lane + (widths.get(piece.sheet) ?? wide)) / wide) * tall,
        ] as Spot,
      };
      drawPiece(list, bar, piece.sheet, formatLength(piece.length, job.display), lanes > 1);
    }
    drawOffcut(list, roll, { start, scale, tall }, job);
  }
}

function changeWords({ sheet, was, is }: ChangedSheet, job: Job): string {
  const length = (mm: number) => formatLength(mm, job.display);
  if (is === null) return `${sheet} not laid`;
  return was === null ? `${sheet} new` : `${sheet} ${length(was)} now ${length(is)}`;
}

interface Bar {
  readonly low: Spot;
  readonly high: Spot;
}

/** The size stands below a whole sheet, and beside the name in a lane. */
function drawPiece(list: ListWriter, { low, high }: Bar, sheet: string, size: string, inLane: boolean): void {
  const { page } = list;
  page.box(low, high, { stroke: { width: 0.6 }, fill: 0.92 });
  const room = high[0] - low[0] - 3;
  const middle = (low[0] + high[0]) / 2;
  const label = inLane ? `${sheet}   ${size}` : sheet;
  const name = shrunk(list, label, TYPE.strong, room);
  // A name that fits no bar stands above it: it is never cut short.
  const inside = list.pack.widthOf(label, name) <= room;
  const y = inside ? (low[1] + high[1]) / 2 - name.size * 0.35 : high[1] + 2;
  page.text([middle, y], label, { ...name, align: 'middle' });
  if (inLane) return;
  const small = shrunk(list, size, { ...TYPE.small, ink: 0.1 }, room);
  if (list.pack.widthOf(size, small) <= room + 3)
    page.text([middle, low[1] - 7], size, { ...small, align: 'middle' });
}

const SMALLEST = 4.8;

/** The style, smaller where the text would not fit. */
function shrunk(list: ListWriter, text: string, style: TextStyle, room: number): TextStyle {
  const width = list.pack.widthOf(text, style);
  return width <= room ? style : { ...style, size: Math.max(SMALLEST, (style.size * room) / width) };
}

function drawOffcut(
  list: ListWriter,
  roll: RollCut,
  { start, scale, tall }: { start: number; scale: number; tall: number },
  job: Job,
): void {
  if (roll.offcut <= 0) return;
  const { y } = list;
  const from = start + (lengthOf(roll) - roll.offcut) * scale;
  const to = start + lengthOf(roll) * scale;
  list.page.box([from, y], [to, y + tall], { stroke: { width: 0.4, ink: 0.4 } });
  const corners: Spot[] = [
    [from, y],
    [to, y],
    [to, y + tall],
    [from, y + tall],
  ];
  list.page.clipped([corners], () => {
    for (let x = from - tall; x < to; x += 4)
      list.page.line([x, y], [x + tall, y + tall], { width: 0.3, ink: 0.55 });
  });
  const size = `${formatLength(roll.offcut, job.display)} left`;
  const style = { ...TYPE.small, align: 'right' } as const;
  const last = roll.pieces.at(-1);
  const room = last ? (last.length * scale) / 4 : 0;
  if (list.pack.widthOf(size, style) < to - from + room) list.page.text([to, y - 7], size, style);
}

function lengthOf(roll: RollCut): number {
  return roll.pieces.reduce((end, piece) => Math.max(end, piece.start + piece.length), 0) + roll.offcut;
}

/** Of the roll as bought; of its pieces, where the product is no longer among the rates. */
function widthOf(roll: RollCut, widths: ReadonlyMap<string, number>, job: Job): number {
  const product = job.rates.rolls.find((each) => each.id === roll.product);
  const reach = Math.max(...roll.pieces.map((piece) => piece.lane + (widths.get(piece.sheet) ?? 0)));
  return product ? Math.max(product.width, reach) : reach;
}
