// How much of the membrane lies double.
import type { Seams } from '../seams/types';
import type { Layout, RollProduct, Sheet } from '../sheets/types';

/** Area that laps take, mm²: what is cut less what the sheets cover together. Pieces of a run overlap by their end
 * laps; the runs of neighbouring courses by the side lap wherever they lie beside each other; a band onto the rows
 * along an edge by the lap between them. */
export function lappedArea(layout: Layout, { sideLaps }: Pick<Seams, 'sideLaps'>): number {
  const runs = new Map<string, { course: number; from: number; to: number; cut: number; width: number }>();
  for (const sheet of layout.sheets) {
    const key = `${sheet.course}/${sheet.run}`;
    const run = runs.get(key);
    if (run) {
      run.to = Math.max(run.to, sheet.along[1]);
      run.cut += sheet.length;
    } else
      runs.set(key, {
        course: sheet.course,
        from: sheet.along[0],
        to: sheet.along[1],
        cut: sheet.length,
        width: sheet.width,
      });
  }
  const byCourse = new Map<number, { from: number; to: number }[]>();
  let lapped = sideLaps.reduce((sum, lap) => sum + (lap.betweenBands ? lap.length * lap.overlap : 0), 0);
  for (const run of runs.values()) {
    lapped += (run.cut - (run.to - run.from)) * run.width;
    const row = byCourse.get(run.course);
    if (row) row.push(run);
    else byCourse.set(run.course, [run]);
  }
  for (const course of layout.courses)
    for (const a of byCourse.get(course.index) ?? [])
      for (const b of byCourse.get(course.index + 1) ?? [])
        lapped += Math.max(0, Math.min(a.to, b.to) - Math.max(a.from, b.from)) * course.lapAbove;
  return lapped;
}

export function cutArea(sheets: readonly Sheet[]): number {
  return sheets.reduce((sum, sheet) => sum + sheet.width * sheet.length, 0);
}

/** Area of all rolls of a layout, mm². */
export function boughtArea(layout: Layout): number {
  return rollsByProduct(layout).reduce(
    (sum, { roll, ids }) => sum + ids.length * roll.width * roll.length,
    0,
  );
}

/** The rolls of a layout by product, the field's first. */
export function rollsByProduct({
  spec,
  cutList,
}: Layout): { readonly roll: RollProduct; readonly ids: readonly string[] }[] {
  const known = [spec.roll, ...(spec.closing?.kind === 'narrow' ? [spec.closing.roll] : []), ...spec.rolls];
  return known
    .filter(({ id }, i) => known.findIndex((other) => other.id === id) === i)
    .map((roll) => ({ roll, ids: cutList.rolls.filter((r) => r.product === roll.id).map((r) => r.id) }))
    .filter(({ ids }) => ids.length > 0);
}
