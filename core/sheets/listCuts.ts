// In: sheets with their cuts, and the rolls by product. Out: the cut list, roll by roll. Promise: cut + offcut =
// bought for every roll, where lanes that lie side by side take their length once.
import { fromSteps, steps } from './cutRuns';
import type { CourseCuts } from './cutCourses';
import type { CutList, Layout, RollCut, RollProduct, Sheet } from './types';

export function listCuts(
  sheets: readonly Sheet[],
  products: CourseCuts['products'],
  prefix: string,
  areaBound: number,
): CutList {
  const pieces = new Map<string, RollCut['pieces'][number][]>();
  for (const sheet of sheets) {
    const list = pieces.get(sheet.cut.roll) ?? [];
    list.push({ sheet: sheet.id, start: sheet.cut.start, length: sheet.length, lane: sheet.cut.lane });
    pieces.set(sheet.cut.roll, list);
  }
  const rolls: RollCut[] = [];
  for (const { roll, count } of products)
    for (let k = 0; k < count; k++) {
      const id = `${prefix}R${rolls.length + 1}`;
      const own = (pieces.get(id) ?? []).sort((a, b) => a.start - b.start || a.lane - b.lane);
      const used = own.reduce((end, piece) => Math.max(end, steps(piece.start) + steps(piece.length)), 0);
      rolls.push({ id, product: roll.id, pieces: own, offcut: fromSteps(steps(roll.length) - used) });
    }
  return { rolls, lowerBound: products.reduce((sum, product) => sum + product.lowerBound, 0), areaBound };
}

/** Every roll product that a layout is cut from, the field's first. */
export function productsOf({ spec, cutList }: Pick<Layout, 'spec' | 'cutList'>): readonly RollProduct[] {
  const { roll, closing, rolls } = spec;
  const known = [roll, ...(closing?.kind === 'narrow' ? [closing.roll] : []), ...rolls];
  const used = new Set(cutList.rolls.map(({ product }) => product));
  return known.filter(({ id }, i) => used.has(id) && known.findIndex((other) => other.id === id) === i);
}
