// In: a roof and its layout. Out: the slits: where a sheet goes round something that it cannot be dropped over, it is
// slit from the nearer long edge, and a strip is welded over the slit. Promise: none where an edge or an end of a
// sheet already lies across the unit, for there the sheets come together round it.
import type { FramePoint, RoofPoint } from '../geometry/points';
import type { Roof } from '../roof/types';
import { toFrame, toRoof } from '../sheets/frame';
import type { Frame, Layout, Sheet } from '../sheets/types';
import type { Slit } from './types';

export function findSlits(roof: Roof, { bands, sheets, spec }: Layout): Slit[] {
  if (spec.trade.off.includes('dropped-over')) return [];
  const units = [
    ...roof.openings
      .filter(({ blocks }) => blocks !== null)
      .map(({ id, ring }) => ({ id, points: ring, by: 0 })),
    ...roof.fittings
      .filter(({ blocks }) => blocks)
      .map(({ id, at, size }) => ({ id, points: [at], by: size / 2 })),
  ];
  if (units.length === 0) return [];
  const frames = new Map(bands.map(({ id, frame }) => [id, frame]));
  const slits: Slit[] = [];
  for (const unit of units)
    for (const sheet of sheets) {
      const frame = frames.get(sheet.band) as Frame;
      const cut = slitTo(sheet, frame, unit.points, unit.by);
      if (!cut) continue;
      slits.push({
        id: `${spec.prefix}slit ${slits.length + 1}`,
        sheet: sheet.id,
        unit: unit.id,
        from: toRoof(frame, cut.from),
        to: toRoof(frame, cut.to),
        length: Math.abs(cut.to[1] - cut.from[1]),
      });
      break;
    }
  return slits;
}

/** From the nearer long edge of the one sheet that a unit stands wholly within, or null. */
function slitTo(
  { along, across }: Sheet,
  frame: Frame,
  points: readonly RoofPoint[],
  by: number,
): { readonly from: FramePoint; readonly to: FramePoint } | null {
  const flat = points.map((point) => toFrame(frame, point));
  const [u0, u1] = [Math.min(...flat.map((p) => p[0])) - by, Math.max(...flat.map((p) => p[0])) + by];
  const [v0, v1] = [Math.min(...flat.map((p) => p[1])) - by, Math.max(...flat.map((p) => p[1])) + by];
  if (!(u0 > along[0] && u1 < along[1] && v0 > across[0] && v1 < across[1])) return null;
  const middle = (u0 + u1) / 2;
  return v0 - across[0] <= across[1] - v1
    ? { from: [middle, across[0]], to: [middle, v0] }
    : { from: [middle, across[1]], to: [middle, v1] };
}
