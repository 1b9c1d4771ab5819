// Measures of single rings. Areas are signed: counter-clockwise is positive.
import type { Ring, Span } from './points';

type Pair = readonly [number, number];

/** mm², positive where the ring runs counter-clockwise. Taken from the first corner, to keep digits far away. */
export function signedArea(ring: Ring<Pair>): number {
  const origin = ring[0];
  if (!origin) return 0;
  let twice = 0;
  for (let i = 1; i + 1 < ring.length; i++) {
    const a = ring[i] as Pair;
    const b = ring[i + 1] as Pair;
    twice += (a[0] - origin[0]) * (b[1] - origin[1]) - (a[1] - origin[1]) * (b[0] - origin[0]);
  }
  return twice / 2;
}

export function ringLength(ring: Ring<Pair>): number {
  let sum = 0;
  ring.forEach((a, i) => (sum += distance(a, ring[(i + 1) % ring.length] as Pair)));
  return sum;
}

export function distance(a: Pair, b: Pair): number {
  return Math.hypot(b[0] - a[0], b[1] - a[1]);
}

/** The point of the stretch from a to b that is nearest to another. */
export function nearestOn(point: Pair, a: Pair, b: Pair): Pair {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const square = dx * dx + dy * dy;
  const t = square === 0 ? 0 : ((point[0] - a[0]) * dx + (point[1] - a[1]) * dy) / square;
  const within = Math.min(1, Math.max(0, t));
  return [a[0] + within * dx, a[1] + within * dy];
}

/** How far a point is from the stretch from a to b. */
export function distanceToStretch(point: Pair, a: Pair, b: Pair): number {
  return distance(point, nearestOn(point, a, b));
}

/** Mean of the corners; the origin where there are none. */
export function middleOf(corners: readonly Pair[]): Pair {
  const sum = corners.reduce<[number, number]>((s, c) => [s[0] + c[0], s[1] + c[1]], [0, 0]);
  const count = Math.max(1, corners.length);
  return [sum[0] / count, sum[1] / count];
}

/** Even-odd; a point on the ring may fall either way. */
export function ringHolds(ring: Ring<Pair>, point: Pair): boolean {
  let inside = false;
  for (let i = 0, j = ring.length - 1; i < ring.length; j = i++) {
    const a = ring[i] as Pair;
    const b = ring[j] as Pair;
    if (a[1] > point[1] !== b[1] > point[1]) {
      const x = a[0] + ((point[1] - a[1]) * (b[0] - a[0])) / (b[1] - a[1]);
      if (point[0] < x) inside = !inside;
    }
  }
  return inside;
}

/** The ring's extent along x and y. */
export function ringBounds(rings: readonly Ring<Pair>[]): { readonly x: Span; readonly y: Span } {
  let [x0, x1, y0, y1] = [Infinity, -Infinity, Infinity, -Infinity];
  for (const ring of rings)
    for (const [x, y] of ring) {
      x0 = Math.min(x0, x);
      x1 = Math.max(x1, x);
      y0 = Math.min(y0, y);
      y1 = Math.max(y1, y);
    }
  return { x: [x0, x1], y: [y0, y1] };
}
