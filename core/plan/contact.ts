// Where two segments of a page meet. Written over the packed array, because it runs for every pair of neighbours.

/** Whether they touch or cross, ends within `near` included. */
export function touches(s: Float64Array, k: number, t: number, near: number): boolean {
  return (
    crossingShare(s, k, t) >= 0 ||
    endNear(s, k, t, 0, near) ||
    endNear(s, k, t, 1, near) ||
    endNear(s, t, k, 0, near) ||
    endNear(s, t, k, 1, near)
  );
}

/** Where along `k`, 0 to 1, it is crossed by `t`; −1 where it is not, or where they run in line. */
export function crossingShare(s: Float64Array, k: number, t: number): number {
  const ax = s[4 * k] ?? 0;
  const ay = s[4 * k + 1] ?? 0;
  const dx = (s[4 * k + 2] ?? 0) - ax;
  const dy = (s[4 * k + 3] ?? 0) - ay;
  const bx = s[4 * t] ?? 0;
  const by = s[4 * t + 1] ?? 0;
  const ex = (s[4 * t + 2] ?? 0) - bx;
  const ey = (s[4 * t + 3] ?? 0) - by;
  const cross = dx * ey - dy * ex;
  if (Math.abs(cross) <= 1e-9 * (Math.abs(dx) + Math.abs(dy)) * (Math.abs(ex) + Math.abs(ey))) return -1;
  const share = ((bx - ax) * ey - (by - ay) * ex) / cross;
  if (!(share >= 0 && share <= 1)) return -1;
  const other = ((bx - ax) * dy - (by - ay) * dx) / cross;
  return other >= 0 && other <= 1 ? share : -1;
}

/** Whether end 0 or 1 of `t` lies on `k`, within `near`. */
export function endNear(s: Float64Array, k: number, t: number, end: 0 | 1, near: number): boolean {
  const x = s[4 * t + 2 * end] ?? 0;
  const y = s[4 * t + 2 * end + 1] ?? 0;
  const [px, py] = nearestOn(s, k, x, y);
  return (px - x) * (px - x) + (py - y) * (py - y) <= near * near;
}

export function nearestOn(
  s: Float64Array,
  k: number,
  x: number,
  y: number,
): readonly [number, number, number] {
  const ax = s[4 * k] ?? 0;
  const ay = s[4 * k + 1] ?? 0;
  const dx = (s[4 * k + 2] ?? 0) - ax;
  const dy = (s[4 * k + 3] ?? 0) - ay;
  const square = dx * dx + dy * dy;
  const share = square === 0 ? 0 : Math.min(1, Math.max(0, ((x - ax) * dx + (y - ay) * dy) / square));
  return [ax + share * dx, ay + share * dy, share];
}
