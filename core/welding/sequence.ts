// In: a layout. Out: its sheets in the order of laying. Promise: a sheet that goes under is laid before the one over
// it, so laps shed water; the other way round only where a person chose to work away from the far end or from the
// wind.
import { NOISE_MM } from '../geometry/tolerances';
import { acrossShare, alongShare } from '../sheets/frame';
import { layingOrder } from '../sheets/overSheets';
import type { Layout, Sheet } from '../sheets/types';

/** low to high: under before over. high to low: each course is tucked under the one laid before. windward: the edge
 * first where the wind comes from, in degrees counter-clockwise from the plan's right. */
export type LayingOrder = 'low to high' | 'high to low' | { readonly windward: number };

/** Wind that comes within this of the courses' own direction favours neither side: sin 22.5°. */
export const ASTRIDE = 0.3827;

export function layingSequence(
  layout: Pick<Layout, 'frame' | 'rules' | 'bands' | 'courses' | 'sheets'>,
  order: LayingOrder,
): readonly Sheet[] {
  const courses = layingOrder(layout.bands, layout.courses);
  const asLapped = laysRising(layout, order) === lowerGoesUnder(layout);
  const rank = new Map(courses.map((index, at) => [index, asLapped ? at : courses.length - at]));
  const forward = unrollsForward(layout);
  return [...layout.sheets].sort((a, b) =>
    a.course === b.course
      ? (a.part - b.part) * (forward ? 1 : -1)
      : (rank.get(a.course) ?? 0) - (rank.get(b.course) ?? 0),
  );
}

/** Whether course 1 is laid first. */
export function laysRising(layout: Pick<Layout, 'frame' | 'rules'>, order: LayingOrder): boolean {
  if (order === 'high to low') return !lowerGoesUnder(layout);
  if (order === 'low to high') return lowerGoesUnder(layout);
  const share = acrossShare(layout.frame, order.windward);
  return Math.abs(share) < ASTRIDE ? lowerGoesUnder(layout) : share < 0;
}

/** Where water runs up the courses, the course with the lower number lies over. */
export function lowerGoesUnder({ frame, rules }: Pick<Layout, 'frame' | 'rules'>): boolean {
  return !(acrossShare(frame, rules.downhill ?? NaN) > NOISE_MM);
}

/** Within a course the piece that goes under comes first: along the course, but against water that runs along it. */
export function unrollsForward({ frame, rules }: Pick<Layout, 'frame' | 'rules'>): boolean {
  return !(alongShare(frame, rules.downhill ?? NaN) > NOISE_MM);
}
