// Drawing a ring corner by corner: shared by the roof's outline and the openings.
import { mmPerPointAt } from '../../core/job/pageScale';
import { formatArea } from '../../core/units/lengths';
import type { PagePoint } from '../../core/geometry/points';
import { distance, ringArea } from '../document/rings';
import { snapMarks } from './twoPoints';
import { along, readTypedSide, sayDistance } from './typing';
import type { Keys, Mark, SnapMark, ToolView } from './types';

/** Corners closer than this on the screen are the same corner. */
const CLOSING_PX = 10;

export interface Drawing {
  readonly corners: readonly PagePoint[];
  /** Where the next corner would stand: snapped or locked. */
  readonly next: PagePoint | null;
  readonly snap: SnapMark | null;
}

/** The next corner under the pointer: snapped, and with Shift held square to the page or to the last side. */
export function aim(
  corners: readonly PagePoint[],
  at: PagePoint,
  keys: Keys,
  view: ToolView,
): { next: PagePoint; snap: SnapMark | null } {
  const snap = view.snap({ at, keys, placed: corners, except: [] });
  return { next: snap?.at ?? at, snap };
}

/** A corner added, the ring closed, or why neither. */
export function place(
  corners: readonly PagePoint[],
  at: PagePoint,
  view: ToolView,
): { readonly corners: readonly PagePoint[]; readonly closed: boolean } | { readonly fault: string } {
  const reach = CLOSING_PX / view.pxPerPoint;
  const [first] = corners;
  const last = corners.at(-1);
  if (last && distance(last, at) < reach / 4) return { corners, closed: false };
  if (first && corners.length >= 3 && distance(first, at) < reach) return close(corners);
  return { corners: [...corners, at], closed: false };
}

export function close(
  corners: readonly PagePoint[],
): { readonly corners: readonly PagePoint[]; readonly closed: boolean } | { readonly fault: string } {
  if (corners.length < 3)
    return { fault: 'A shape needs at least three corners: place another before closing.' };
  const crossing = findCrossing(corners);
  if (crossing)
    return {
      fault: `Side ${crossing[0] + 1} crosses side ${crossing[1] + 1}: take corners back with Backspace and go round without crossing.`,
    };
  if (Math.abs(ringArea(corners)) < 1e-6)
    return { fault: 'The shape has no area: its corners lie on one line.' };
  return { corners, closed: true };
}

/** Two sides that cross, by number, or null. */
export function findCrossing(corners: readonly PagePoint[]): readonly [number, number] | null {
  const n = corners.length;
  for (let i = 0; i < n; i++)
    for (let j = i + 2; j < n; j++) {
      if (i === 0 && j === n - 1) continue;
      const [a, b, c, d] = [corners[i], corners[(i + 1) % n], corners[j], corners[(j + 1) % n]];
      if (a && b && c && d && cross(a, b, c) * cross(a, b, d) < 0 && cross(c, d, a) * cross(c, d, b) < 0)
        return [i, j];
    }
  return null;
}

const cross = (a: PagePoint, b: PagePoint, c: PagePoint): number =>
  (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);

/** The corner that a typed length (and angle) leads to. */
export function placeTyped(
  drawing: Drawing,
  text: string,
  view: ToolView,
): { readonly at: PagePoint } | { readonly fault: string } {
  const last = drawing.corners.at(-1);
  if (!last) return { fault: 'Click the first corner, then type the length of the side.' };
  const side = readTypedSide(text, last, view);
  if ('fault' in side) return side;
  const at = along(last, drawing.next, side);
  return at
    ? { at }
    : { fault: 'Point the way with the pointer, then type the length; or type an angle too, as 30000 < 90.' };
}

/** The ring as it would be, each side's length, and area with perimeter when there is one. */
export function marksOf(drawing: Drawing, view: ToolView): readonly Mark[] {
  const { corners, next, snap } = drawing;
  const points = next ? [...corners, next] : corners;
  const marks: Mark[] = [{ kind: 'line', points, closed: points.length >= 3 }];
  points.slice(1).forEach((to, k) => {
    const from = points[k];
    if (!from || distance(from, to) === 0) return;
    marks.push({
      kind: 'text',
      at: middle(from, to),
      text: sayDistance(distance(from, to), from, view),
      along: angle(from, to),
    });
  });
  for (const at of corners) marks.push({ kind: 'point', at });
  if (snap) {
    marks.push(...snapMarks(snap));
  }
  return marks;
}

/** "3 168 m², 264 m round", as far as the ring goes. */
export function sayRing(drawing: Drawing, view: ToolView): string | null {
  const points = drawing.next ? [...drawing.corners, drawing.next] : drawing.corners;
  const [first] = points;
  const mmPerPoint = first ? mmPerPointAt(view.page, first) : null;
  if (points.length < 3 || !first || mmPerPoint === null) return null;
  const area = Math.abs(ringArea(points)) * mmPerPoint ** 2;
  const round = points.reduce((sum, a, k) => sum + distance(a, points[(k + 1) % points.length] ?? a), 0);
  return `${formatArea(area, view.job.display)}, ${sayDistance(round, first, view)} round`;
}

const middle = (a: PagePoint, b: PagePoint): PagePoint => [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
const angle = (a: PagePoint, b: PagePoint): number => Math.atan2(b[1] - a[1], b[0] - a[0]);
