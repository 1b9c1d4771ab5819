// The endless line that a dimension line lies on, and places along it.
import type { PagePoint } from '../geometry/points';
import type { PageIndex } from './pageIndex';
import { SEGMENT_MARK } from './types';

/** An endless line that holds a dimension line: positions along it count from the foot of the text's middle. */
export interface Carrier {
  readonly foot: PagePoint;
  readonly along: PagePoint;
  readonly low: number;
  readonly high: number;
  /** Of the text's middle from the line, in text heights. */
  readonly away: number;
  readonly aligned: boolean;
}

export function isCurve(index: PageIndex, k: number): boolean {
  return ((index.linework.marks[k] ?? 0) & SEGMENT_MARK.curve) !== 0;
}

export function placeOn(foot: PagePoint, along: PagePoint, [x, y]: PagePoint): { at: number; off: number } {
  const dx = x - foot[0];
  const dy = y - foot[1];
  return { at: dx * along[0] + dy * along[1], off: dx * along[1] - dy * along[0] };
}

export function pointAt({ foot, along }: Carrier, at: number): PagePoint {
  return [foot[0] + at * along[0], foot[1] + at * along[1]];
}

export function boxOf(
  foot: PagePoint,
  along: PagePoint,
  low: number,
  high: number,
  aside: number,
): [number, number, number, number] {
  const xs = [foot[0] + low * along[0], foot[0] + high * along[0]];
  const ys = [foot[1] + low * along[1], foot[1] + high * along[1]];
  return [Math.min(...xs) - aside, Math.min(...ys) - aside, Math.max(...xs) + aside, Math.max(...ys) + aside];
}
