// The names of a roof's corners on its map: what lists and labels measure from.
import { namedCorners } from '../../core/drawing/setOut';
import type { RoofEstimate } from '../../core/job/result';
import type { PackPage, Spot } from './canvas';
import type { Fit } from './fitRoof';

/** Points from the corner to the middle of its name. */
const OFF = 11;

export function paintCorners(page: PackPage, { roof, letter }: RoofEstimate, fit: Fit): void {
  for (const { name, low, high } of cornerNames(page, roof, letter, fit)) {
    page.box(low, high, { fill: 1, stroke: { width: 0.8 } });
    page.text([(low[0] + high[0]) / 2, low[1] + 2.5], name, STYLE);
  }
}

const STYLE = { size: 8.5, weight: 'bold', align: 'middle' } as const;

/** The boxes that the names stand in. */
export function cornerNames(
  page: PackPage,
  roof: RoofEstimate['roof'],
  letter: string,
  fit: Fit,
): readonly { readonly name: string; readonly low: Spot; readonly high: Spot }[] {
  if (!roof) return [];
  const corners = namedCorners(roof, letter);
  return corners.map(({ name, at }, k) => {
    const before = corners.at(k - 1)?.at ?? at;
    const after = corners[(k + 1) % corners.length]?.at ?? at;
    const spot = outside(fit.toPaper(before), fit.toPaper(at), fit.toPaper(after));
    const half = page.widthOf(name, STYLE) / 2 + 2.5;
    return { name, low: [spot[0] - half, spot[1] - 5.5], high: [spot[0] + half, spot[1] + 5.5] };
  });
}

//   The outline runs counter-clockwise, so outside lies at the right of both sides that meet here.
function outside(before: Spot, at: Spot, after: Spot): Spot {
  const right = (a: Spot, b: Spot): Spot => {
    const length = Math.hypot(b[0] - a[0], b[1] - a[1]) || 1;
    return [(b[1] - a[1]) / length, (a[0] - b[0]) / length];
  };
  const [p, q] = [right(before, at), right(at, after)];
  const [x, y] = [p[0] + q[0], p[1] + q[1]];
  const length = Math.hypot(x, y) || 1;
  return [at[0] + (x / length) * OFF, at[1] + (y / length) * OFF];
}
