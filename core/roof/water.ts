// In: a roof and a place or a line on it. Out: which way water runs there, degrees, or null where no fall is given.
import type { FramePoint, RoofPoint, Span } from '../geometry/points';
import { ringHolds } from '../geometry/ring';
import { withoutSpans } from '../geometry/spans';
import { chords, packRegion } from '../geometry/strips';
import type { Facet, Roof } from './types';

export function waterAt(roof: Pick<Roof, 'facets' | 'fall'>, place: RoofPoint): number | null {
  const facet = roof.facets.find(({ ring }) => ringHolds(ring, place));
  return facet?.downhill ?? roof.fall?.downhill ?? null;
}

export interface WaterStretch {
  readonly span: Span;
  readonly downhill: number;
}

/** The same along levels of a turned roof, each looked at over some stretches of it: those with one direction of water.
 * Levels ascend. */
export function waterAlong(
  { facets, fall }: Pick<Roof, 'facets' | 'fall'>,
  turned: (point: RoofPoint) => FramePoint,
  levels: Float64Array,
  within: readonly (readonly Span[])[],
): WaterStretch[][] {
  const found = within.map((): WaterStretch[] => []);
  const add = (i: number, spans: readonly Span[], downhill: number) =>
    (found[i] as WaterStretch[]).push(...spans.map((span) => ({ span, downhill })));
  let left = within;
  for (const { ring, downhill } of facets) {
    const inside = chords(packRegion([ring.map(turned)]), levels);
    left = left.map((spans, i) => {
      const rest = withoutSpans(spans, inside[i] ?? []);
      add(i, withoutSpans(spans, rest), downhill);
      return rest;
    });
  }
  if (fall) left.forEach((spans, i) => add(i, spans, fall.downhill));
  return found;
}

export const hasFalls = ({ facets, fall }: Pick<Roof, 'facets' | 'fall'>) =>
  facets.length > 0 || fall !== null;

/** Four-way fall to one drain: a facet from every side of the outline to the drain, water running square to the side
 * from it. Facets of a concave outline overlap where a side does not see the drain; there the first holds. */
export function fourWayFall(
  outline: readonly RoofPoint[],
  drain: RoofPoint,
  ratio: number | null,
  idOf: (side: number) => string,
): Facet[] {
  return outline.flatMap((from, i) => {
    const to = outline[(i + 1) % outline.length] as RoofPoint;
    const turn = (to[0] - from[0]) * (drain[1] - from[1]) - (to[1] - from[1]) * (drain[0] - from[0]);
    if (turn <= 0) return [];
    return [{ id: idOf(i), ring: [from, to, drain], downhill: downFromSide(from, to), ratio }];
  });
}

/** Square to a side of a counter-clockwise outline and inwards, which is left of it; degrees in [0, 360). */
export function downFromSide(
  from: readonly [x: number, y: number],
  to: readonly [x: number, y: number],
): number {
  const downhill = (Math.atan2(to[0] - from[0], -(to[1] - from[1])) * 180) / Math.PI;
  return (downhill + 360) % 360;
}
