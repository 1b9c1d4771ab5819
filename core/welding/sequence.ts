// In: a layout and its seams. Out: its sheets in the order of laying, and the way each is unrolled. Promise: a sheet
// that goes under is laid before the one over it, so laps shed water; the other way round only where a person chose to
// work away from the far end or from the wind. The rows along edges come before their field either way.
import { acrossShare } from '../sheets/frame';
import { layingOrder } from '../sheets/overSheets';
import type { Layout, Sheet } from '../sheets/types';
import type { Seams } from '../seams/types';

/** low to high: under before over. high to low: each course is tucked under the one laid before. windward: the edge
 * first where the wind comes from, in degrees counter-clockwise from the plan's right. */
export type LayingOrder = 'low to high' | 'high to low' | { readonly windward: number };

/** Wind that comes within this of the courses' own direction favours neither side: sin 22.5°. */
export const ASTRIDE = 0.3827;

/** A sheet with the way it is unrolled, degrees counter-clockwise from +x; alone in its run it may go either way. */
export interface LaidSheet {
  readonly sheet: Sheet;
  readonly towards: number;
  readonly alone: boolean;
}

type Courses = Pick<Layout, 'frame' | 'bands' | 'courses'>;

export function layingSequence(
  layout: Layout,
  seams: Pick<Seams, 'endLaps'>,
  order: LayingOrder,
): readonly LaidSheet[] {
  const byCourse = new Map<number, Sheet[]>();
  for (const sheet of layout.sheets) {
    const row = byCourse.get(sheet.course);
    if (row) row.push(sheet);
    else byCourse.set(sheet.course, [sheet]);
  }
  const frames = new Map(layout.bands.map(({ id, frame }) => [id, frame.direction]));
  const overs = new Map(seams.endLaps.map((lap) => [lap.between[1], lap.over]));
  return courseOrder(layout, order).flatMap((course) => laidAlong(byCourse.get(course) ?? [], frames, overs));
}

/** Whether laying goes up the courses of the field. */
export function laysRising(layout: Courses, order: LayingOrder): boolean {
  const rising = mostlyRising(layout);
  return tucks(layout, order) ? !rising : rising;
}

function courseOrder(layout: Courses, order: LayingOrder): readonly number[] {
  const underFirst = layingOrder(layout.bands, layout.courses);
  if (!tucks(layout, order)) return underFirst;
  const bandOf = new Map(layout.courses.map(({ index, band }) => [index, band]));
  const bands = new Map<string, number[]>();
  for (const course of underFirst) {
    const band = bandOf.get(course) ?? '';
    bands.set(band, [course, ...(bands.get(band) ?? [])]);
  }
  return [...bands.values()].flat();
}

function tucks(layout: Courses, order: LayingOrder): boolean {
  if (order === 'low to high') return false;
  if (order === 'high to low') return true;
  const share = acrossShare(layout.frame, order.windward);
  return Math.abs(share) >= ASTRIDE && share < 0 !== mostlyRising(layout);
}

/** Whether more courses of the field are lapped over by the next one up than by the one below. */
function mostlyRising({ bands, courses }: Courses): boolean {
  const field = new Set(bands.filter(({ kind }) => kind === 'field').map(({ id }) => id));
  const lapped = courses.filter(({ band, lapAbove }) => field.has(band) && lapAbove > 0);
  return 2 * lapped.filter(({ nextOver }) => nextOver).length >= lapped.length;
}

//   pieces  1 ─ 2 ─ 3    over 2, over 2 (water from both ends to the middle would read over 1, over 3)
//   The later piece over: in their order. The earlier one over: that stretch from its far end back.
function laidAlong(
  row: readonly Sheet[],
  frames: ReadonlyMap<string, number>,
  overs: ReadonlyMap<string, string>,
): LaidSheet[] {
  const laid: LaidSheet[] = [];
  const lapped = (k: number) => row[k]?.run === row[k - 1]?.run && overs.has(row[k]?.id ?? '');
  const earlierOver = (k: number) => lapped(k) && overs.get(row[k]?.id ?? '') === row[k - 1]?.id;
  for (let i = 0; i < row.length;) {
    let end = i;
    while (earlierOver(end + 1)) end++;
    for (let k = end; k >= i; k--) {
      const sheet = row[k] as Sheet;
      const direction = frames.get(sheet.band) ?? 0;
      const alone = !lapped(k) && !lapped(k + 1);
      laid.push({ sheet, towards: (direction + (end > i ? 180 : 0)) % 360, alone });
    }
    i = end + 1;
  }
  return laid;
}

/** A course as its sheets' names say it: what stands before the number of the piece. */
export function courseName({ id }: Pick<Sheet, 'id'>): string {
  return id.replace(/\.\d+$/, '');
}
