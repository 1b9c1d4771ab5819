// In: a lap and what stands near it. Out: the stretches along it where a machine has no room: at drains, and beside
// upstands that run along it. Promise: stretches are merged, sorted, and within the lap.
import { buildBoxIndex, type Box, type BoxIndex } from '../geometry/boxIndex';
import type { RoofPoint, Span } from '../geometry/points';
import { distance } from '../geometry/ring';
import { NOISE_MM } from '../geometry/tolerances';
import type { Rates } from '../rates/schema';
import type { Roof } from '../roof/types';

export interface Obstacles {
  readonly drains: readonly { readonly at: RoofPoint; readonly clear: number }[];
  readonly upstands: readonly { readonly from: RoofPoint; readonly to: RoofPoint }[];
  readonly upstandClear: number;
  /** Where each upstand is in the way: a large roof has hundreds of them, and thousands of laps. */
  readonly inTheWay: BoxIndex;
}

export function obstaclesOn(roof: Roof, { drainClear, upstandClear }: Rates['welding']): Obstacles {
  const upstands = roof.edges.filter(({ upstand }) => upstand > 0);
  const reach = upstandClear + NOISE_MM;
  return {
    drains: roof.fittings
      .filter(({ kind }) => kind === 'drain')
      .map(({ at, size }) => ({ at, clear: drainClear + size / 2 })),
    upstands,
    upstandClear,
    inTheWay: buildBoxIndex(upstands.length, (k) => {
      const { from, to } = upstands[k] as Obstacles['upstands'][number];
      const [left, bottom, right, top] = boxAround(from, to);
      return [left - reach, bottom - reach, right + reach, top + reach];
    }),
  };
}

const boxAround = (from: RoofPoint, to: RoofPoint): Box => [
  Math.min(from[0], to[0]),
  Math.min(from[1], to[1]),
  Math.max(from[0], to[0]),
  Math.max(from[1], to[1]),
];

export function blockedAlong(from: RoofPoint, to: RoofPoint, obstacles: Obstacles): readonly Span[] {
  const length = distance(from, to);
  if (length === 0) return [];
  const [x0, y0] = from;
  const [dx, dy] = [(to[0] - x0) / length, (to[1] - y0) / length];
  const place = (p: RoofPoint) => (p[0] - x0) * dx + (p[1] - y0) * dy;
  const off = (p: RoofPoint) => (p[1] - y0) * dx - (p[0] - x0) * dy;
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
  const { upstands, upstandClear } = obstacles;
  obstacles.inTheWay.each(boxAround(from, to), (k) => {
    const edge = upstands[k] as Obstacles['upstands'][number];
    // Beside it all the way: an upstand that runs across the lap only ends it.
    if (Math.abs(off(edge.from)) >= upstandClear || Math.abs(off(edge.to)) >= upstandClear) return;
    const [u, w] = [place(edge.from), place(edge.to)];
    add(Math.min(u, w), Math.max(u, w));
  });
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
