// In: the pieces of a layout's runs on the roof as measured. Out: its sheets but for what hangs on their cuts, and its
// rolls with the least that these runs can be cut from. Promise: a sheet that was there keeps its name; a new one takes
// the next free.
import type { Span } from '../geometry/points';
import { splicedBound, unsplicedBound } from './bounds';
import { onGrid, runInPlace, spliceRules, steps } from './cutRuns';
import type { TurnedBand } from './layBands';
import { cornersOf, selvedgeOf, sheetNames } from './makeSheets';
import { productOf, type RunPieces } from './refitBand';
import type { Course, Layout, RollProduct, Run, Sheet } from './types';

export function refitSheets(
  layout: Layout,
  { band }: TurnedBand,
  runs: readonly RunPieces[],
  before: ReadonlyMap<string, Sheet>,
): { readonly sheet: Omit<Sheet, 'cut' | 'longEdges'>; readonly product: RollProduct }[] {
  const { prefix, trade } = layout.spec;
  const nameOf = sheetNames(prefix, layout.courses);
  const parts = new Map<number, number>();
  for (const { course, part } of layout.sheets) parts.set(course, Math.max(parts.get(course) ?? 0, part));
  const numbers = new Map<number, number>();
  return runs.flatMap(({ course, pieces }) => {
    const run = (numbers.get(course.index) ?? 0) + 1;
    numbers.set(course.index, run);
    const across: Span = [course.low, course.low + course.width];
    return pieces.map(({ sheet: id, along }) => {
      const was = id === null ? undefined : before.get(id);
      const part = was?.part ?? (parts.get(course.index) ?? 0) + 1;
      if (!was) parts.set(course.index, part);
      return {
        product: productOf(layout, course),
        sheet: {
          id: was?.id ?? nameOf(course, part),
          band: course.band,
          course: course.index,
          run,
          part,
          corners: cornersOf(band.frame, along, across),
          along,
          across,
          width: course.width,
          length: onGrid(along[1] - along[0]),
          selvedge: selvedgeOf(course, trade),
        },
      };
    });
  });
}

/** Rolls in their order, product by product, each with the least that these runs can be cut from. */
export function boundedRolls(
  layout: Layout,
  courses: readonly Course[],
  runs: readonly Run[],
  rolls: readonly { readonly product: string }[],
): { readonly roll: RollProduct; readonly count: number; readonly lowerBound: number }[] {
  const { lap } = layout.spec;
  const byIndex = new Map(courses.map((course) => [course.index, course]));
  const products = new Map(courses.map((course) => [course.roll, productOf(layout, course)]));
  const grouped: { roll: RollProduct; count: number; lowerBound: number }[] = [];
  for (const { product } of rolls) {
    const last = grouped.at(-1);
    const roll = products.get(product) ?? layout.spec.roll;
    if (last?.roll.id === roll.id) last.count++;
    else grouped.push({ roll, count: 1, lowerBound: 0 });
  }
  for (const roll of products.values()) {
    const first = grouped.find((group) => group.roll.id === roll.id);
    if (!first) continue;
    const own = runs.filter((run) => byIndex.get(run.course)?.roll === roll.id);
    const most = Math.max(1, ...own.map((run) => byIndex.get(run.course)?.lanes ?? 1));
    const lengths = own.map((run) =>
      Math.ceil(runInPlace(run).length / (byIndex.get(run.course)?.lanes ?? 1)),
    );
    first.lowerBound =
      lap.joints === 'allowed'
        ? splicedBound(lengths, steps(roll.length), Math.floor(spliceRules(roll, lap).lap / most))
        : unsplicedBound(lengths, steps(roll.length));
  }
  return grouped;
}
