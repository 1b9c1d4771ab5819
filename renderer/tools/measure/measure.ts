// A distance, asked in passing; nothing is kept.
import type { PagePoint } from '../../../core/geometry/points';
import { distance } from '../../document/rings';
import { firstPoint, inTwoScales, secondPoint, TWO_SCALES } from '../twoPoints';
import { sayDistance } from '../typing';
import { refuse, say, stay } from '../types';
import type { SnapMark } from '../types';

export interface MeasureFirst {
  readonly at: 'measure.first';
  readonly snap: SnapMark | null;
}
export interface MeasureSecond {
  readonly at: 'measure.second';
  readonly a: PagePoint;
  readonly b: PagePoint | null;
  readonly snap: SnapMark | null;
}

const start: MeasureFirst = { at: 'measure.first', snap: null };

const first = firstPoint(
  start,
  (a) => ({ at: 'measure.second', a, b: null, snap: null }),
  () => 'Click where to measure from.',
);

const second = secondPoint<MeasureSecond>(
  start,
  (state, at, view) =>
    inTwoScales(state.a, at, view)
      ? stay(state, refuse(TWO_SCALES))
      : stay(start, say(`Measured ${sayDistance(distance(state.a, at), at, view)}.`)),
  'Click where to measure to. Shift keeps it level or upright.',
);

export const measure = { 'measure.first': first, 'measure.second': second } as const;
