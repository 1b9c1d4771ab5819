// Where on a roof a mark or a name has room.
import type { RoofPoint, RoofRing } from '../geometry/points';
import { distanceToStretch, middleOf } from '../geometry/ring';

const STEPS = 24;

/** An outline with the holes in it. */
export interface Open {
  readonly outline: RoofRing;
  readonly openings: readonly { readonly ring: RoofRing }[];
}

/** The point on the membrane farthest from every edge, of a grid of trials, and how far that is in mm. */
export function openestPoint(roof: Open): { readonly at: RoofPoint; readonly clear: number } {
  const rings = [roof.outline, ...roof.openings.map((opening) => opening.ring)];
  const sides = rings.flatMap((ring) =>
    ring.map((from, k) => [from, ring[(k + 1) % ring.length] ?? from] as const),
  );
  const xs = roof.outline.map((corner) => corner[0]);
  const ys = roof.outline.map((corner) => corner[1]);
  const low: RoofPoint = [Math.min(...xs), Math.min(...ys)];
  const high: RoofPoint = [Math.max(...xs), Math.max(...ys)];
  let best: { at: RoofPoint; clear: number } = { at: middleOf(roof.outline), clear: 0 };
  for (let i = 1; i < STEPS; i++)
    for (let j = 1; j < STEPS; j++) {
      const at: RoofPoint = [
        low[0] + ((high[0] - low[0]) * i) / STEPS,
        low[1] + ((high[1] - low[1]) * j) / STEPS,
      ];
      const clear = Math.min(...sides.map(([from, to]) => distanceToStretch(at, from, to)));
      if (clear > best.clear && insideRings(at, rings)) best = { at, clear };
    }
  return best;
}

/** Even-odd over all rings. */
export function insideRings(point: RoofPoint, rings: readonly RoofRing[]): boolean {
  let inside = false;
  for (const ring of rings)
    ring.forEach((a, k) => {
      const b = ring[(k + 1) % ring.length] ?? a;
      if (a[1] > point[1] === b[1] > point[1]) return;
      if (point[0] < a[0] + ((point[1] - a[1]) / (b[1] - a[1])) * (b[0] - a[0])) inside = !inside;
    });
  return inside;
}
