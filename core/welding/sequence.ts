// In: a layout. Out: its sheets in the order of laying. Promise: a sheet that goes under is laid before the one over
// it, so laps shed water; the other way round only where a person chose to work away from the far end.
import { NOISE_MM } from '../geometry/tolerances';
import { acrossShare, alongShare } from '../sheets/frame';
import type { Layout, Sheet } from '../sheets/types';

/** low to high: under before over. high to low: each course is tucked under the one laid before. */
export type LayingOrder = 'low to high' | 'high to low';

export function layingSequence({ frame, rules, sheets }: Layout, order: LayingOrder): readonly Sheet[] {
  const rising = lowerGoesUnder({ frame, rules }) === (order === 'low to high');
  const forward = !(alongShare(frame, rules.downhill ?? NaN) > NOISE_MM);
  return [...sheets].sort((a, b) =>
    a.course === b.course
      ? (a.part - b.part) * (forward ? 1 : -1)
      : (a.course - b.course) * (rising ? 1 : -1),
  );
}

/** Where water runs up the courses, the course with the lower number lies over. */
export function lowerGoesUnder({ frame, rules }: Pick<Layout, 'frame' | 'rules'>): boolean {
  return !(acrossShare(frame, rules.downhill ?? NaN) > NOISE_MM);
}
