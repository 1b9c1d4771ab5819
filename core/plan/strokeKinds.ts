// In: a page's lines. Out: for each what it is besides the drawn part itself: dashed, hatching, lettering, a small
// symbol, a cover behind text, a grid line, or a dimension, extension or leader line. Promise: sizes are judged
// against the page's diagonal, so that a small sheet and a large one read alike.
import { markAnnotation } from './annotation';
import { endNear } from './contact';
import { markDoors } from './doors';
import { findPieces } from './pieces';
import type { Pieces } from './pieces';
import { markHatching } from './hatching';
import { findPaths } from './paths';
import type { PathShape } from './paths';
import { middleOf } from './dimensions';
import { segmentAt } from './pageIndex';
import type { PageIndex } from './pageIndex';
import { STROKE } from './strokes';
import { SEGMENT_MARK } from './types';

export interface StrokeKinds {
  readonly kinds: Uint8Array;
  /** What hangs together of the drawn part. */
  readonly pieces: Pieces;
  /** The page's unit of size: what is smaller in both directions is a symbol. Points. */
  readonly symbolSize: number;
  /** Points nearer than this are one. */
  readonly samePoint: number;
  /** Lines that close the openings of doors: x1, y1, x2, y2 of each. */
  readonly doorways: Float64Array;
}

export function sortStrokes(index: PageIndex): StrokeKinds {
  const { linework, hidden } = index;
  const kinds = new Uint8Array(linework.widths.length);
  const diagonal = Math.hypot(linework.width, linework.height);
  const symbolSize = diagonal * SYMBOL_SHARE;
  const samePoint = Math.min(0.15, Math.max(0.03, 0.01 * symbolSize, 2 * linework.precision));
  for (let k = 0; k < kinds.length; k++) {
    if (hidden?.[k] === 1) kinds[k] = STROKE.excluded;
    else if ((linework.marks[k] ?? 0) & SEGMENT_MARK.dashed) kinds[k] = STROKE.dashed;
  }
  const paths = findPaths(linework);
  markCovers(index, paths, kinds, symbolSize);
  markHatching(linework, kinds, symbolSize);
  const doorways = markDoors(index, kinds, { samePoint, symbolSize });
  markAnnotation(index, paths, kinds, symbolSize);
  const figures = markLettering(index, kinds, samePoint, symbolSize);
  const pieces = findPieces(index, kinds, samePoint, figures.pieceOf);
  markSmall(index, pieces, kinds, symbolSize);
  markAttached(paths, pieces, kinds, symbolSize);
  return { kinds, pieces, symbolSize, samePoint, doorways };
}

/** A three-hundredth of an A1 sheet's diagonal is 3.4 mm. */
const SYMBOL_SHARE = 1 / 300;
const COVER_AREA = 12;

/** Fills without a stroke: arrow heads and dots by their size, and the ground that is painted behind a text. */
function markCovers(
  { linework }: PageIndex,
  paths: readonly PathShape[],
  kinds: Uint8Array,
  symbolSize: number,
): void {
  const texts = linework.notes.map((note) => ({
    middle: middleOf(note),
    area: note.height * Math.max(note.width, note.height),
  }));
  for (const { first, count, box } of paths) {
    if (((linework.marks[first] ?? 0) & SEGMENT_MARK.fill) === 0) continue;
    const wide = box[2] - box[0];
    const tall = box[3] - box[1];
    const tiny = Math.max(wide, tall) < 1.5 * symbolSize;
    const covers = texts.some(
      ({ middle: [x, y], area }) =>
        x > box[0] && x < box[2] && y > box[1] && y < box[3] && wide * tall < COVER_AREA * area,
    );
    if (tiny || covers) for (let k = first; k < first + count; k++) kinds[k] = (kinds[k] ?? 0) | STROKE.cover;
  }
}

function markSmall(index: PageIndex, pieces: Pieces, kinds: Uint8Array, symbolSize: number): void {
  for (let k = 0; k < kinds.length; k++) {
    const piece = pieces.pieceOf[k] ?? -1;
    if (piece < 0 || pieces.sizeOf(piece) >= symbolSize) continue;
    if (pieces.segmentsIn(piece) === 1 && joinsLines(index, pieces, k, symbolSize)) continue;
    kinds[k] = (kinds[k] ?? 0) | STROKE.symbol;
  }
}

/** In symbol sizes. */
const LEAST_JOINING = 0.4;
/** Points: as far as a trace bridges by itself. */
const JOINS_WITHIN = 2;

/** A short stroke by itself that runs from near the end of one longer line to near the end of another: a jamb or the
 * end of a wall whose corners were not drawn to meet. */
function joinsLines(
  { boxes, linework: { segments } }: PageIndex,
  pieces: Pieces,
  k: number,
  symbolSize: number,
): boolean {
  const [x1, y1, x2, y2] = segmentAt(segments, k);
  const within = Math.min(JOINS_WITHIN, 0.4 * Math.hypot(x2 - x1, y2 - y1));
  if (Math.hypot(x2 - x1, y2 - y1) < LEAST_JOINING * symbolSize) return false;
  const meets = (x: number, y: number): boolean =>
    boxes.search([x - within, y - within, x + within, y + within]).some((t) => {
      const piece = pieces.pieceOf[t] ?? -1;
      if (t === k || piece < 0 || pieces.sizeOf(piece) < symbolSize) return false;
      const [ax, ay, bx, by] = segmentAt(segments, t);
      return Math.min(Math.hypot(ax - x, ay - y), Math.hypot(bx - x, by - y)) <= within;
    });
  return meets(x1, y1) && meets(x2, y2);
}

/** In symbol sizes: the largest letter drawn with strokes. */
const LARGEST_LETTER = 4;
/** In letter sizes: how far the next one may be. */
const LETTER_GAP = 1.3;

/** Lettering drawn with strokes: three or more small figures of a size in a row, which no line of the drawing ends on
 * or springs from. They may lie across one. */
function markLettering(index: PageIndex, kinds: Uint8Array, samePoint: number, symbolSize: number): Pieces {
  const s = index.linework.segments;
  const largest = LARGEST_LETTER * symbolSize;
  const short = kinds.map((kind, k) => {
    const length = Math.hypot(
      (s[4 * k + 2] ?? 0) - (s[4 * k] ?? 0),
      (s[4 * k + 3] ?? 0) - (s[4 * k + 1] ?? 0),
    );
    return kind === 0 && length < largest ? 0 : 1;
  });
  const figures = findPieces(index, short, samePoint);
  const small: number[] = [];
  for (let f = 0; f < figures.count; f++) if (figures.sizeOf(f) < largest) small.push(f);
  const near = figures.indexOf(small);
  const lettering = new Uint8Array(figures.count);
  for (const f of small) {
    const size = figures.sizeOf(f);
    const [x0, y0, x1, y1] = figures.boxOf(f);
    const reach = LETTER_GAP * size;
    let row = 0;
    near.each([x0 - reach, y0 - reach, x1 + reach, y1 + reach], (n) => {
      if (small[n] !== f && alike(figures.sizeOf(small[n] ?? 0), size)) row++;
    });
    if (row >= 2 && figures.segmentsIn(f) !== 4) lettering[f] = 1;
  }
  for (let k = 0; k < kinds.length; k++) {
    const figure = figures.pieceOf[k] ?? -1;
    if (figure >= 0 && lettering[figure] === 1 && endsOnLine(index, kinds, short, k, samePoint))
      lettering[figure] = 0;
  }
  for (let k = 0; k < kinds.length; k++) {
    const figure = figures.pieceOf[k] ?? -1;
    if (figure >= 0 && lettering[figure] === 1) kinds[k] = (kinds[k] ?? 0) | STROKE.lettering;
  }
  return figures;
}

function endsOnLine(
  { boxes, linework: { segments } }: PageIndex,
  kinds: Uint8Array,
  short: Uint8Array,
  k: number,
  samePoint: number,
): boolean {
  return ([0, 1] as const).some((end) => {
    const x = segments[4 * k + 2 * end] ?? 0;
    const y = segments[4 * k + 2 * end + 1] ?? 0;
    let ends = false;
    boxes.each([x - samePoint, y - samePoint, x + samePoint, y + samePoint], (t) => {
      ends ||= kinds[t] === 0 && short[t] === 1 && endNear(segments, t, k, end, samePoint);
    });
    return ends;
  });
}

const ALIKE = 2;

function alike(a: number, b: number): boolean {
  return a < ALIKE * b && b < ALIKE * a;
}

/** In symbol sizes. */
const ATTACHED = 2;

/** A small closed path that stands on a longer line marks it: a post, a scupper, a point. */
function markAttached(
  paths: readonly PathShape[],
  pieces: Pieces,
  kinds: Uint8Array,
  symbolSize: number,
): void {
  for (const { first, count, closed, box } of paths) {
    const size = Math.max(box[2] - box[0], box[3] - box[1]);
    const piece = pieces.pieceOf[first] ?? -1;
    if (!closed || piece < 0 || size > ATTACHED * symbolSize || pieces.sizeOf(piece) < 2 * size) continue;
    for (let k = first; k < first + count; k++) kinds[k] = (kinds[k] ?? 0) | STROKE.symbol;
  }
}
