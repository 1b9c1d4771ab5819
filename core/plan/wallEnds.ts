// In: the end of a line. Out: where it would go on, if it is a face of a wall that ends there and the same wall, or one
// that stands across, begins again beyond an opening. Promise: nothing is found where the wall does not end squarely, or
// where the opening is narrower than the wall is thick.
import type { BoxIndex } from '../geometry/boxIndex';
import type { PagePoint } from '../geometry/points';
import { nearestOn } from './contact';

export interface Beyond {
  readonly x: number;
  readonly y: number;
  /** The line that is met there. */
  readonly on: number;
}

interface Lines {
  readonly segments: Float64Array;
  readonly boxes: BoxIndex;
  readonly counts: (k: number) => boolean;
  readonly samePoint: number;
}

/**   ───────┐          ┌─────   k ends at a corner with a short line, whose other end is a corner too, and
 *           │ ·  ·  ·  │        both faces meet something squarely within `widest`.
 *    ───────┘          └─────
 */
export function acrossOpening(lines: Lines, k: number, end: 0 | 1, widest: number): Beyond | null {
  const { segments: s, samePoint } = lines;
  const at = endOf(s, k, end);
  const [bx, by] = endOf(s, k, end === 0 ? 1 : 0);
  const length = Math.hypot(at[0] - bx, at[1] - by);
  if (length === 0) return null;
  const along: PagePoint = [(at[0] - bx) / length, (at[1] - by) / length];
  const touching = linesAt(lines, at, k);
  for (const jamb of touching) {
    const far = farEnd(s, jamb, at, samePoint);
    if (!far) continue;
    const [jx, jy] = [far[0] - at[0], far[1] - at[1]];
    const thick = Math.hypot(jx, jy);
    // What is as thick as it is long is no wall.
    if (thick > widest || LONGER * thick > length || Math.abs(jx * along[0] + jy * along[1]) > SQUARE * thick)
      continue;
    // Nothing else goes on from the corner: neither the face itself nor a wall across it.
    const ends = touching.every(
      (t) => t === jamb || !goesOn(s, t, at, along, [-jx / thick, -jy / thick], samePoint),
    );
    if (!ends || !leavesBack(lines, jamb, far, along)) continue;
    const own = firstAhead(lines, at, along, widest);
    const other = own && firstAhead(lines, far, along, widest);
    if (!own || !other || own.away < thick) continue;
    if (Math.abs(own.away - other.away) <= 0.2 * own.away) return own;
  }
  return null;
}

/** Sine or cosine of what still counts as square, or as in line. */
const SQUARE = 0.15;
const LONGER = 1.2;

function endOf(s: Float64Array, k: number, end: 0 | 1): PagePoint {
  return [s[4 * k + 2 * end] ?? 0, s[4 * k + 2 * end + 1] ?? 0];
}

function linesAt({ segments, boxes, counts, samePoint }: Lines, [x, y]: PagePoint, but: number): number[] {
  return boxes.search([x - samePoint, y - samePoint, x + samePoint, y + samePoint]).filter((t) => {
    if (t === but || !counts(t)) return false;
    const [px, py] = nearestOn(segments, t, x, y);
    return Math.hypot(px - x, py - y) <= samePoint;
  });
}

/** The other end of a line that ends at the place; null where it runs through. */
function farEnd(s: Float64Array, t: number, [x, y]: PagePoint, samePoint: number): PagePoint | null {
  for (const end of [0, 1] as const) {
    const [ex, ey] = endOf(s, t, end);
    if (Math.hypot(ex - x, ey - y) <= samePoint) return endOf(s, t, end === 0 ? 1 : 0);
  }
  return null;
}

/** Whether a line at a corner runs on ahead, or to the side that the wall does not lie on. */
function goesOn(
  s: Float64Array,
  t: number,
  [x, y]: PagePoint,
  along: PagePoint,
  outward: PagePoint,
  samePoint: number,
): boolean {
  return ([0, 1] as const).some((end) => {
    const [ex, ey] = endOf(s, t, end);
    const [dx, dy] = [ex - x, ey - y];
    return dx * along[0] + dy * along[1] > 2 * samePoint || dx * outward[0] + dy * outward[1] > 2 * samePoint;
  });
}

/** Whether the wall's other face runs back from the jamb's far end. */
function leavesBack(lines: Lines, jamb: number, far: PagePoint, along: PagePoint): boolean {
  const { segments: s, samePoint } = lines;
  return linesAt(lines, far, jamb).some((t) => {
    const other = farEnd(s, t, far, samePoint);
    if (!other) return false;
    const [dx, dy] = [other[0] - far[0], other[1] - far[1]];
    const length = Math.hypot(dx, dy);
    return dx * along[0] + dy * along[1] < -(1 - SQUARE) * length;
  });
}

/** What a ray meets first, if it meets it squarely or at the end of a line that goes on the same way. */
function firstAhead(
  { segments: s, boxes, counts, samePoint }: Lines,
  [x, y]: PagePoint,
  [ux, uy]: PagePoint,
  widest: number,
): (Beyond & { readonly away: number }) | null {
  const [tx, ty] = [x + widest * ux, y + widest * uy];
  let first: { readonly away: number; readonly on: number; readonly square: boolean } | null = null;
  for (const t of boxes.search([
    Math.min(x, tx) - samePoint,
    Math.min(y, ty) - samePoint,
    Math.max(x, tx) + samePoint,
    Math.max(y, ty) + samePoint,
  ])) {
    if (!counts(t)) continue;
    const [ax, ay] = endOf(s, t, 0);
    const [bx, by] = endOf(s, t, 1);
    const offA = (ay - y) * ux - (ax - x) * uy;
    const offB = (by - y) * ux - (bx - x) * uy;
    const [alongA, alongB] = [(ax - x) * ux + (ay - y) * uy, (bx - x) * ux + (by - y) * uy];
    if (Math.min(offA, offB) > samePoint || Math.max(offA, offB) < -samePoint) continue;
    const inLine = Math.abs(offA - offB) <= SQUARE * Math.abs(alongA - alongB);
    const share = offA === offB ? 0 : Math.min(1, Math.max(0, offA / (offA - offB)));
    const away = inLine ? Math.min(alongA, alongB) : alongA + share * (alongB - alongA);
    if (away <= 2 * samePoint || away > widest || (first && away >= first.away)) continue;
    const square = inLine || Math.abs(alongA - alongB) <= 2 * SQUARE * Math.abs(offA - offB);
    first = { away, on: t, square };
  }
  return first?.square
    ? { x: x + first.away * ux, y: y + first.away * uy, on: first.on, away: first.away }
    : null;
}
