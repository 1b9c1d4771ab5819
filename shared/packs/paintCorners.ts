// The names of a roof's corners on its map: what lists and labels measure from.
import { namedCorners } from '../../core/drawing/setOut';
import type { RoofEstimate } from '../../core/job/result';
import type { PackPage, Spot } from './canvas';
import type { Fit } from './fitRoof';

/** Points from the corner to the middle of its name. */
const OFF = 11;

export function paintCorners(page: PackPage, { roof, letter }: RoofEstimate, fit: Fit): void {
  if (!roof) return;
  const corners = namedCorners(roof, letter);
  corners.forEach(({ name, at }, k) => {
    const before = corners.at(k - 1)?.at ?? at;
    const after = corners[(k + 1) % corners.length]?.at ?? at;
    const spot = outside(fit.toPaper(before), fit.toPaper(at), fit.toPaper(after));
    const style = { size: 8.5, weight: 'bold', align: 'middle' } as const;
    const half = page.widthOf(name, style) / 2 + 2.5;
    page.box([spot[0] - half, spot[1] - 5.5], [spot[0] + half, spot[1] + 5.5], {
      fill: 1,
      stroke: { width: 0.8 },
    });
    page.text([spot[0], spot[1] - 3], name, style);
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
