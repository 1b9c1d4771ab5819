// In: a layout and the order of laying. Out: which sheet is the last laid of those under a stretch of edge or at a
// point. Promise: never a sheet laid before another one that the stretch touches.
import type { RoofPoint } from '../geometry/points';
import { toFrame } from '../sheets/frame';
import type { Layout, Sheet } from '../sheets/types';

export interface SheetRows {
  readonly layout: Layout;
  readonly rank: ReadonlyMap<string, number>;
  readonly byCourse: ReadonlyMap<number, readonly Sheet[]>;
}

export function sheetRows(layout: Layout, rank: ReadonlyMap<string, number>): SheetRows {
  const byCourse = new Map<number, Sheet[]>();
  for (const sheet of layout.sheets) {
    const row = byCourse.get(sheet.course);
    if (row) row.push(sheet);
    else byCourse.set(sheet.course, [sheet]);
  }
  return { layout, rank, byCourse };
}

/** How near a sheet must come to count as touched, mm: more than the noise of turning a roof. */
const NEAR_MM = 1;

/** Place in the order of laying. Where no sheet lies (a stretch beyond every run), the last of all. */
export function lastSheetAlong(rows: SheetRows, from: RoofPoint, to: RoofPoint): number {
  const ranks = ranksAlong(rows, from, to);
  return ranks.length > 0 ? Math.max(...ranks) : rows.rank.size - 1;
}

/** Place of the first laid sheet that the stretch touches, or Infinity where none does. */
export function firstSheetAlong(rows: SheetRows, from: RoofPoint, to: RoofPoint): number {
  return Math.min(...ranksAlong(rows, from, to));
}

function ranksAlong({ layout, rank, byCourse }: SheetRows, from: RoofPoint, to: RoofPoint): number[] {
  const ranks: number[] = [];
  for (const band of layout.bands) {
    const [a, b] = [toFrame(band.frame, from), toFrame(band.frame, to)];
    const [u0, u1] = [Math.min(a[0], b[0]) - NEAR_MM, Math.max(a[0], b[0]) + NEAR_MM];
    const [v0, v1] = [Math.min(a[1], b[1]) - NEAR_MM, Math.max(a[1], b[1]) + NEAR_MM];
    for (const course of layout.courses) {
      if (course.band !== band.id || course.low > v1 || course.low + course.width < v0) continue;
      for (const sheet of byCourse.get(course.index) ?? [])
        if (sheet.along[0] <= u1 && sheet.along[1] >= u0) ranks.push(rank.get(sheet.id) ?? 0);
    }
  }
  return ranks;
}
