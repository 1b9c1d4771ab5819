// The few measures of points and lines on a page that snapping needs.
import type { PagePoint } from '../geometry/points';
import { IN_LINE_SINE } from '../geometry/tolerances';

/** x1, y1, x2, y2. */
export type PageLine = readonly [number, number, number, number];

export function distance(a: PagePoint, b: PagePoint): number {
  return Math.hypot(a[0] - b[0], a[1] - b[1]);
}

export function nearestOnSegment(point: PagePoint, [x1, y1, x2, y2]: PageLine): PagePoint {
  const square = (x2 - x1) ** 2 + (y2 - y1) ** 2;
  const share = square === 0 ? 0 : ((point[0] - x1) * (x2 - x1) + (point[1] - y1) * (y2 - y1)) / square;
  const held = Math.min(1, Math.max(0, share));
  return [x1 + held * (x2 - x1), y1 + held * (y2 - y1)];
}

/** Foot of the point on the endless line; `along` has length 1. */
export function onLine(point: PagePoint, through: PagePoint, along: PagePoint): PagePoint {
  const far = (point[0] - through[0]) * along[0] + (point[1] - through[1]) * along[1];
  return [through[0] + far * along[0], through[1] + far * along[1]];
}

/** Where two lines cross; each counts as endless or as the segment that it is. */
export function crossing(
  a: PageLine,
  b: PageLine,
  as: 'segments' | 'line and segment' | 'lines',
): PagePoint | null {
  const ax = a[2] - a[0];
  const ay = a[3] - a[1];
  const bx = b[2] - b[0];
  const by = b[3] - b[1];
  const cross = ax * by - ay * bx;
  if (cross * cross <= IN_LINE_SINE * IN_LINE_SINE * (ax * ax + ay * ay) * (bx * bx + by * by)) return null;
  const s = ((b[0] - a[0]) * by - (b[1] - a[1]) * bx) / cross;
  const t = ((b[0] - a[0]) * ay - (b[1] - a[1]) * ax) / cross;
  if (as === 'segments' && !(s >= 0 && s <= 1)) return null;
  if (as !== 'lines' && !(t >= 0 && t <= 1)) return null;
  return [a[0] + s * ax, a[1] + s * ay];
}
