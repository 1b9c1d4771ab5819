// Marks what explains a drawing and is no part of it: dimension lines by the arrows or strokes at their ends, the
// extension lines that they end on, leaders and fall arrows by their arrow, grid lines by the bubble at their end.
// Promise: a closed path is a shape and is never marked.
import { buildBoxIndex } from '../geometry/boxIndex';
import type { BoxIndex } from '../geometry/boxIndex';
import type { PageLine } from './lines';
import { middleOf } from './dimensions';
import { segmentAt } from './pageIndex';
import type { PageIndex } from './pageIndex';
import type { PathShape } from './paths';
import { STROKE } from './strokes';
import { SEGMENT_MARK } from './types';

export function markAnnotation(
  index: PageIndex,
  paths: readonly PathShape[],
  kinds: Uint8Array,
  symbolSize: number,
): void {
  const { linework } = index;
  const total = linework.widths.length;
  const inShape = new Uint8Array(total);
  for (const { first, count, closed, box } of paths)
    if (closed && Math.max(box[2] - box[0], box[3] - box[1]) > 2 * symbolSize)
      inShape.fill(1, first, first + count);
  const marks = shortStrokes(index, kinds, symbolSize);
  const dots = dotsOf(paths, symbolSize);
  for (let k = 0; k < total; k++) {
    if (inShape[k] === 1 || !mayBeLine(index, k, symbolSize)) continue;
    const line = segmentAt(linework.segments, k);
    const ends = endMarks(marks, dots, line, symbolSize);
    const arrow = ends.some((found) => found?.kind === 'arrow');
    if (!arrow && !(ends[0] && ends[0].kind === ends[1]?.kind)) continue;
    mark(kinds, k);
    for (const found of ends) for (const by of found?.by ?? []) mark(kinds, by);
    for (const end of [0, 1] as const)
      if (ends[end] !== null) markExtensions(index, kinds, inShape, { k, line, end }, symbolSize);
  }
  markGrid(index, paths, kinds, inShape, symbolSize);
  for (const shape of paths)
    if (isCloud(index, shape)) for (let k = 0; k < shape.count; k++) mark(kinds, shape.first + k);
}

/** Scallops round a change: bows that all bulge one way, with a cusp that turns sharply back between each two. */
function isCloud({ linework: { segments } }: PageIndex, { first, count, closed }: PathShape): boolean {
  if (!closed || count < LEAST_BOWS * 3) return false;
  let cusps = 0;
  let back = 0;
  let bowed = 0;
  for (let k = 0; k < count; k++) {
    const [ax, ay, bx, by] = segmentAt(segments, first + k);
    const [cx, cy, dx, dy] = segmentAt(segments, first + ((k + 1) % count));
    const [ux, uy, vx, vy] = [bx - ax, by - ay, dx - cx, dy - cy];
    const turn = Math.atan2(ux * vy - uy * vx, ux * vx + uy * vy);
    if (Math.abs(turn) > SHARP_TURN) {
      cusps++;
      back += Math.sign(turn);
    } else bowed += turn;
  }
  return (
    cusps >= LEAST_BOWS && Math.abs(back) > 0.8 * cusps && back * bowed < 0 && Math.abs(bowed) > 2 * cusps
  );
}

const LEAST_BOWS = 8;
const SHARP_TURN = 1.2;

function mark(kinds: Uint8Array, k: number): void {
  kinds[k] = (kinds[k] ?? 0) | STROKE.annotation;
}

/** In symbol sizes. */
const LEAST_LINE = 1.2;
const LONGEST_MARK = 2.6;
const TIP_SLACK = 0.12;
const PAST_TIP = 2;
const PAST_STROKE = 1.2;

function mayBeLine({ linework }: PageIndex, k: number, symbolSize: number): boolean {
  if (((linework.marks[k] ?? 0) & (SEGMENT_MARK.curve | SEGMENT_MARK.fill)) !== 0) return false;
  return lengthOf(segmentAt(linework.segments, k)) >= LEAST_LINE * symbolSize;
}

interface ShortStrokes {
  readonly lines: readonly PageLine[];
  /** Their numbers on the page. */
  readonly numbers: readonly number[];
  readonly index: BoxIndex;
  readonly middles: BoxIndex;
}

function shortStrokes({ linework }: PageIndex, kinds: Uint8Array, symbolSize: number): ShortStrokes {
  const lines: PageLine[] = [];
  const numbers: number[] = [];
  for (let k = 0; k < linework.widths.length; k++) {
    const line = segmentAt(linework.segments, k);
    const length = lengthOf(line);
    const hidden = (kinds[k] ?? 0) & (STROKE.excluded | STROKE.hatch | STROKE.dashed);
    if (hidden || ((linework.marks[k] ?? 0) & SEGMENT_MARK.curve) !== 0) continue;
    if (!(length > 0.2 * symbolSize && length < LONGEST_MARK * symbolSize)) continue;
    lines.push(line);
    numbers.push(k);
  }
  const index = buildBoxIndex(lines.length, (n) => {
    const [x1, y1, x2, y2] = lines[n] as PageLine;
    return [Math.min(x1, x2), Math.min(y1, y2), Math.max(x1, x2), Math.max(y1, y2)];
  });
  const middles = buildBoxIndex(lines.length, (n) => {
    const [x1, y1, x2, y2] = lines[n] as PageLine;
    return [(x1 + x2) / 2, (y1 + y2) / 2, (x1 + x2) / 2, (y1 + y2) / 2];
  });
  return { lines, numbers, index, middles };
}

interface EndMark {
  readonly kind: 'arrow' | 'stroke' | 'dot';
  /** The strokes that make the mark. */
  readonly by: readonly number[];
}

function endMarks(marks: ShortStrokes, dots: Dots, line: PageLine, symbolSize: number): (EndMark | null)[] {
  const arrows = ([0, 1] as const).map((end) => arrowAt(marks, line, end, symbolSize));
  if (arrows.every((arrow) => arrow !== null)) return arrows;
  const start = arrows[0] ? null : dotAt(dots, line, 0, symbolSize);
  const dotted = start && !arrows[1] ? dotAt(dots, line, 1, symbolSize) : null;
  if (dotted) return [start, dotted];
  // A stroke at one end alone is no dimension line, so the second end is asked only after the first.
  const first = arrows[0] ?? strokeAt(marks, line, 0, symbolSize);
  const second = arrows[1] ?? (first ? strokeAt(marks, line, 1, symbolSize) : null);
  return [first, second];
}

/** Dots that a line may end on. */
interface Dots {
  readonly paths: readonly PathShape[];
  readonly middles: BoxIndex;
}

/** In symbol sizes: across. */
const LARGEST_DOT = 0.8;

function dotsOf(paths: readonly PathShape[], symbolSize: number): Dots {
  const round = paths.filter(({ circle, box }) => circle && box[2] - box[0] <= LARGEST_DOT * symbolSize);
  const middles = buildBoxIndex(round.length, (n) => {
    const [x0, y0, x1, y1] = round[n]?.box ?? [0, 0, 0, 0];
    return [(x0 + x1) / 2, (y0 + y1) / 2, (x0 + x1) / 2, (y0 + y1) / 2];
  });
  return { paths: round, middles };
}

/** A dot whose middle is the line's end. */
function dotAt({ paths, middles }: Dots, line: PageLine, end: 0 | 1, symbolSize: number): EndMark | null {
  const [tx, ty] = tipOf(line, end);
  const slack = TIP_SLACK * symbolSize;
  const by = middles
    .search([tx - slack, ty - slack, tx + slack, ty + slack])
    .flatMap((n) => Array.from({ length: paths[n]?.count ?? 0 }, (_, k) => (paths[n]?.first ?? 0) + k));
  return by.length > 0 ? { kind: 'dot', by } : null;
}

/** The end, and the direction from it back along the line. */
function tipOf(line: PageLine, end: 0 | 1): readonly [tx: number, ty: number, ux: number, uy: number] {
  const length = lengthOf(line);
  const [tx, ty, bx, by] = end === 1 ? [line[2], line[3], line[0], line[1]] : line;
  return [tx, ty, (bx - tx) / length, (by - ty) / length];
}

/** An arrow's two barbs run back from the end, one on each side. */
function arrowAt(marks: ShortStrokes, line: PageLine, end: 0 | 1, symbolSize: number): EndMark | null {
  const [tx, ty, ux, uy] = tipOf(line, end);
  const slack = TIP_SLACK * symbolSize;
  const left: number[] = [];
  const right: number[] = [];
  marks.index.each([tx - slack, ty - slack, tx + slack, ty + slack], (n) => {
    const [x1, y1, x2, y2] = marks.lines[n] as PageLine;
    for (const [fx, fy, gx, gy] of [
      [x1, y1, x2, y2],
      [x2, y2, x1, y1],
    ] as const) {
      if (Math.hypot(fx - tx, fy - ty) > slack) continue;
      const back = (gx - fx) * ux + (gy - fy) * uy;
      const aside = (gy - fy) * ux - (gx - fx) * uy;
      if (back <= 0 || Math.abs(aside) < 0.04 * back || Math.abs(aside) > back) continue;
      (aside > 0 ? left : right).push(n);
    }
  });
  const barbs = [...left, ...right];
  // One barb makes an arrow where it folds back sharply; a line that is part of a shape does not.
  const folded = barbs.length === 1 && sharply(marks.lines[barbs[0] ?? 0] as PageLine, [ux, uy]);
  const paired = left.some((a) => right.some((b) => alike(marks.lines[a], marks.lines[b])));
  return paired || folded ? { kind: 'arrow', by: barbs.map((n) => marks.numbers[n] ?? 0) } : null;
}

/** A short oblique stroke across the line near its end. */
function strokeAt(marks: ShortStrokes, line: PageLine, end: 0 | 1, symbolSize: number): EndMark | null {
  const [tx, ty, ux, uy] = tipOf(line, end);
  const slack = TIP_SLACK * symbolSize;
  const reach = PAST_STROKE * symbolSize;
  const by: number[] = [];
  marks.middles.each([tx - reach, ty - reach, tx + reach, ty + reach], (n) => {
    const [x1, y1, x2, y2] = marks.lines[n] as PageLine;
    const mx = (x1 + x2) / 2 - tx;
    const my = (y1 + y2) / 2 - ty;
    const off = Math.abs(my * ux - mx * uy);
    const along = mx * ux + my * uy;
    if (off >= slack || along >= reach || along <= -slack) return;
    const turn = Math.abs((x2 - x1) * uy - (y2 - y1) * ux) / Math.hypot(x2 - x1, y2 - y1);
    if (turn > 0.45 && turn < 0.9) by.push(marks.numbers[n] ?? 0);
  });
  return by.length > 0 ? { kind: 'stroke', by } : null;
}

const SHARPLY = 0.35;

/** Two barbs of one arrow are of a length. */
function alike(a: PageLine | undefined, b: PageLine | undefined): boolean {
  const ratio = a && b ? lengthOf(a) / lengthOf(b) : 0;
  return ratio > 0.6 && ratio < 1.7;
}

function sharply([x1, y1, x2, y2]: PageLine, [ux, uy]: readonly [number, number]): boolean {
  return Math.abs((x2 - x1) * uy - (y2 - y1) * ux) < SHARPLY * Math.hypot(x2 - x1, y2 - y1);
}

function markExtensions(
  { boxes, linework }: PageIndex,
  kinds: Uint8Array,
  inShape: Uint8Array,
  { k, line, end }: { k: number; line: PageLine; end: 0 | 1 },
  symbolSize: number,
): void {
  const [tx, ty] = end === 1 ? [line[2], line[3]] : [line[0], line[1]];
  const length = lengthOf(line);
  const [ux, uy] = [(line[2] - line[0]) / length, (line[3] - line[1]) / length];
  const reach = PAST_STROKE * symbolSize;
  for (const t of boxes.search([tx - reach, ty - reach, tx + reach, ty + reach])) {
    if (t === k || inShape[t] === 1 || linework.layer[t] !== linework.layer[k]) continue;
    if ((linework.widths[t] ?? 0) > 1.3 * (linework.widths[k] ?? 0) + 0.01) continue;
    const other = segmentAt(linework.segments, t);
    const far = lengthOf(other);
    const sine = Math.abs((other[2] - other[0]) * uy - (other[3] - other[1]) * ux) / far;
    if (sine < 0.6) continue;
    const fromEnd = Math.min(
      Math.hypot(other[0] - tx, other[1] - ty),
      Math.hypot(other[2] - tx, other[3] - ty),
    );
    const off =
      Math.abs((tx - other[0]) * (other[3] - other[1]) - (ty - other[1]) * (other[2] - other[0])) / far;
    if (fromEnd <= PAST_TIP * symbolSize && off < reach) mark(kinds, t);
  }
}

/** In symbol sizes. */
const BUBBLE = { least: 1, most: 8 } as const;
/** In radii. */
const LONG_FOR_BUBBLE = 16;

function markGrid(
  index: PageIndex,
  paths: readonly PathShape[],
  kinds: Uint8Array,
  inShape: Uint8Array,
  symbolSize: number,
): void {
  const { linework, boxes } = index;
  const texts = buildBoxIndex(linework.notes.length, (n) => {
    const [x, y] = linework.notes[n] ? middleOf(linework.notes[n]) : [0, 0];
    return [x, y, x, y];
  });
  for (const { box, circle } of paths) {
    const radius = (box[2] - box[0]) / 2;
    if (!circle || radius * 2 < BUBBLE.least * symbolSize || radius * 2 > BUBBLE.most * symbolSize) continue;
    // A letter that was drawn with strokes is no text: then the line must be long for its bubble.
    const least = texts.search(box).length > 0 ? 3 : LONG_FOR_BUBBLE;
    const [cx, cy] = [(box[0] + box[2]) / 2, (box[1] + box[3]) / 2];
    const reach = 1.2 * radius;
    for (const k of boxes.search([cx - reach, cy - reach, cx + reach, cy + reach])) {
      const line = segmentAt(linework.segments, k);
      const length = lengthOf(line);
      if (inShape[k] === 1 || length < least * radius) continue;
      const nearer = Math.min(Math.hypot(line[0] - cx, line[1] - cy), Math.hypot(line[2] - cx, line[3] - cy));
      const off =
        Math.abs((cx - line[0]) * (line[3] - line[1]) - (cy - line[1]) * (line[2] - line[0])) / length;
      if (Math.abs(nearer - radius) < 0.2 * radius && off < 0.2 * radius)
        kinds[k] = (kinds[k] ?? 0) | STROKE.grid;
    }
  }
}

function lengthOf([x1, y1, x2, y2]: PageLine): number {
  return Math.hypot(x2 - x1, y2 - y1);
}
