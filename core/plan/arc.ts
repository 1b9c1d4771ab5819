// In: an arc's start, a point on it, and its end. Out: the corners that stand for it, the start left out and the end as
// given; or nothing where the three lie in line. Promise: no chord leaves the arc by more than `FLATNESS_POINTS`.
import type { PagePoint } from '../geometry/points';
import { FLATNESS_POINTS } from './linework';

export function flattenArc(
  start: PagePoint,
  through: PagePoint,
  end: PagePoint,
): readonly PagePoint[] | null {
  const centre = centreOf(start, through, end);
  if (!centre) return null;
  const radius = Math.hypot(start[0] - centre[0], start[1] - centre[1]);
  const angle = (at: PagePoint): number => Math.atan2(at[1] - centre[1], at[0] - centre[0]);
  const from = angle(start);
  const turn = (to: number): number => (((to - from) % TURN) + TURN) % TURN;
  // Counter-clockwise where that way passes the middle point first.
  const whole = turn(angle(end));
  const sweep = turn(angle(through)) < whole ? whole : whole - TURN;
  // A chord over an angle a leaves the arc by r · (1 − cos a/2).
  const widest = 2 * Math.acos(Math.max(0, 1 - FLATNESS_POINTS / radius));
  const steps = Math.min(MOST_STEPS, Math.max(2, Math.ceil(Math.abs(sweep) / widest)));
  return Array.from({ length: steps }, (_, k): PagePoint => {
    if (k === steps - 1) return end;
    const at = from + (sweep * (k + 1)) / steps;
    return [centre[0] + radius * Math.cos(at), centre[1] + radius * Math.sin(at)];
  });
}

const TURN = 2 * Math.PI;
const MOST_STEPS = 360;

function centreOf([ax, ay]: PagePoint, [bx, by]: PagePoint, [cx, cy]: PagePoint): PagePoint | null {
  const [ux, uy, vx, vy] = [bx - ax, by - ay, cx - ax, cy - ay];
  const cross = 2 * (ux * vy - uy * vx);
  if (Math.abs(cross) <= 1e-6 * (ux * ux + uy * uy + vx * vx + vy * vy)) return null;
  const u = ux * ux + uy * uy;
  const v = vx * vx + vy * vy;
  return [ax + (vy * u - uy * v) / cross, ay + (ux * v - vx * u) / cross];
}
