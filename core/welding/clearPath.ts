// In: a lap and what stands near it. Out: the stretches along it where a machine has no room: at drains, and beside
// upstands that run along it. Promise: stretches are merged, sorted, and within the lap.
import type { RoofPoint, Span } from '../geometry/points';
import { distance } from '../geometry/ring';
import type { Rates } from '../rates/schema';
import type { Roof } from '../roof/types';

export interface Obstacles {
  readonly drains: readonly { readonly at: RoofPoint; readonly clear: number }[];
  readonly upstands: readonly { readonly from: RoofPoint; readonly to: RoofPoint }[];
  readonly upstandClear: number;
}

export function obstaclesOn(roof: Roof, { drainClear, upstandClear }: Rates['welding']): Obstacles {
  return {
    drains: roof.fittings
      .filter(({ kind }) => kind === 'drain')
      .map(({ at, size }) => ({ at, clear: drainClear + size / 2 })),
    upstands: roof.edges.filter(({ upstand }) => upstand > 0),
    upstandClear,
  };
}

export function blockedAlong(from: RoofPoint, to: RoofPoint, obstacles: Obstacles): readonly Span[] {
  const length = distance(from, to);
  if (length === 0) return [];
  const along: RoofPoint = [(to[0] - from[0]) / length, (to[1] - from[1]) / length];
  const place = ([x, y]: RoofPoint) => (x - from[0]) * along[0] + (y - from[1]) * along[1];
  const off = ([x, y]: RoofPoint) => (y - from[1]) * along[0] - (x - from[0]) * along[1];
  const found: Span[] = [];
  const add = (low: number, high: number) => {
    const span: Span = [Math.max(0, low), Math.min(length, high)];
    if (span[1] > span[0]) found.push(span);
  };
  for (const { at, clear } of obstacles.drains) {
    const aside = off(at);
    if (Math.abs(aside) >= clear) continue;
    const half = Math.sqrt(clear * clear - aside * aside);
    add(place(at) - half, place(at) + half);
  }
  for (const edge of obstacles.upstands) {
    const [a, b] = [off(edge.from), off(edge.to)];
    // Beside it all the way: an upstand that runs across the lap only ends it.
    if (Math.max(Math.abs(a), Math.abs(b)) >= obstacles.upstandClear) continue;
    const [u, w] = [place(edge.from), place(edge.to)];
    add(Math.min(u, w), Math.max(u, w));
  }
  return merged(found);
}

function merged(spans: readonly Span[]): Span[] {
  if (spans.length < 2) return [...spans];
  const whole: Span[] = [];
  for (const span of [...spans].sort((a, b) => a[0] - b[0])) {
    const last = whole.at(-1);
    if (last && span[0] <= last[1]) whole[whole.length - 1] = [last[0], Math.max(last[1], span[1])];
    else whole.push(span);
  }
  return whole;
}
