// In: a layout and the order of laying. Out: which sheet is the last laid of those under a stretch of edge or at a
// point. Promise: never a sheet laid before another one that the stretch touches.
import type { RoofPoint } from '../geometry/points';
import type { Seams } from '../seams/types';
import { toFrame } from '../sheets/frame';
import type { Frame, Layout } from '../sheets/types';
import { layingSequence, type LaidSheet, type LayingOrder } from './sequence';

/** The sheets in the order of laying, the place of each in it by id, and where they lie. */
export interface LaidOrder {
  readonly sequence: readonly LaidSheet[];
  readonly rank: ReadonlyMap<string, number>;
  readonly rows: SheetRows;
}

export function laidOrder(layout: Layout, seams: Pick<Seams, 'endLaps'>, order: LayingOrder): LaidOrder {
  const sequence = layingSequence(layout, seams, order);
  return {
    sequence,
    rank: new Map(sequence.map(({ sheet }, k) => [sheet.id, k])),
    rows: sheetRows(layout, sequence),
  };
}

/** Courses by band, each with what it covers across and its sheets' places in the order of laying. */
export interface SheetRows {
  readonly count: number;
  readonly bands: readonly { readonly frame: Frame; readonly rows: readonly SheetRow[] }[];
}

interface SheetRow {
  readonly low: number;
  readonly high: number;
  readonly sheets: readonly { readonly from: number; readonly to: number; readonly rank: number }[];
}

function sheetRows({ bands, courses }: Layout, sequence: readonly LaidSheet[]): SheetRows {
  const byCourse = new Map<number, SheetRow['sheets'][number][]>();
  sequence.forEach(({ sheet: { course, along } }, rank) => {
    const place = { from: along[0], to: along[1], rank };
    const row = byCourse.get(course);
    if (row) row.push(place);
    else byCourse.set(course, [place]);
  });
  return {
    count: sequence.length,
    bands: bands.map(({ id, frame }) => ({
      frame,
      rows: courses.flatMap(({ band, index, low, width }): SheetRow[] =>
        band === id ? [{ low, high: low + width, sheets: byCourse.get(index) ?? [] }] : [],
      ),
    })),
  };
}

/** How near a sheet must come to count as touched, mm: more than the noise of turning a roof. */
const NEAR_MM = 1;

/** Place in the order of laying. Where no sheet lies (a stretch beyond every run), the last of all. */
export function lastSheetAlong(rows: SheetRows, from: RoofPoint, to: RoofPoint): number {
  let last = -1;
  eachSheetAlong(rows, from, to, (rank) => (last = Math.max(last, rank)));
  return last < 0 ? rows.count - 1 : last;
}

/** Place of the first laid sheet that the stretch touches, or Infinity where none does. */
export function firstSheetAlong(rows: SheetRows, from: RoofPoint, to: RoofPoint): number {
  let first = Infinity;
  eachSheetAlong(rows, from, to, (rank) => (first = Math.min(first, rank)));
  return first;
}

function eachSheetAlong(
  { bands }: SheetRows,
  from: RoofPoint,
  to: RoofPoint,
  visit: (rank: number) => void,
): void {
  for (const { frame, rows } of bands) {
    const [a, b] = [toFrame(frame, from), toFrame(frame, to)];
    const [u0, u1] = [Math.min(a[0], b[0]) - NEAR_MM, Math.max(a[0], b[0]) + NEAR_MM];
    const [v0, v1] = [Math.min(a[1], b[1]) - NEAR_MM, Math.max(a[1], b[1]) + NEAR_MM];
    for (const { low, high, sheets } of rows) {
      if (low > v1 || high < v0) continue;
      for (const sheet of sheets) if (sheet.from <= u1 && sheet.to >= u0) visit(sheet.rank);
    }
  }
}
