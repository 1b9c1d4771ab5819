// In: what sheets and flashing strips leave of the rolls, and the patches that a roof asks for beside them. Out: every
// patch, with where it is cut from if an offcut holds it. Promise: patches lie within their offcuts, apart from each
// other and from the strips, each in one piece; the largest are served first, from the smallest room that holds them.
//
//   offcut  ├──────────── length ────────────┤
//           │ beside the strips │ patch │    │  ▲ width of the roll
//           │ strip             │ patch │    │  ▼
import type { ReusedStrip } from './reuseOffcuts';
import type { RollCut, RollProduct } from './types';

/** A target sheet, or the strip over a slit, mm. */
export interface Patch {
  readonly id: string;
  readonly kind: 'target' | 'slit';
  /** The drain that it goes round, or the sheet that is slit. */
  readonly on: string;
  readonly length: number;
  readonly width: number;
}

export interface CutPatch extends Patch {
  /** mm along the roll and across it; null where no offcut holds it. */
  readonly from: { readonly roll: string; readonly start: number; readonly lane: number } | null;
}

/** A rectangle of a roll that nothing is cut from yet, mm. */
interface Room {
  readonly roll: string;
  readonly start: number;
  readonly lane: number;
  readonly length: number;
  readonly width: number;
}

export function patchOffcuts(
  { rolls }: { readonly rolls: readonly Pick<RollCut, 'id' | 'product' | 'offcut'>[] },
  products: readonly RollProduct[],
  strips: readonly ReusedStrip[],
  patches: readonly Patch[],
): readonly CutPatch[] {
  if (patches.length === 0) return [];
  const rooms = rolls.flatMap((roll) => {
    const product = products.find(({ id }) => id === roll.product);
    return product ? roomsOf(roll, product, strips) : [];
  });
  const served = new Map<string, CutPatch['from']>();
  const largestFirst = [...patches].sort((a, b) => b.width * b.length - a.width * a.length);
  for (const { id, length, width } of largestFirst) {
    let best = -1;
    rooms.forEach((room, k) => {
      if (room.length < length || room.width < width) return;
      const other = rooms[best];
      if (!other || areaOf(room) < areaOf(other)) best = k;
    });
    const room = rooms[best];
    if (!room) continue;
    served.set(id, { roll: room.roll, start: room.start, lane: room.lane });
    rooms.splice(best, 1, ...leftOf(room, length, width));
  }
  return patches.map((patch) => ({ ...patch, from: served.get(patch.id) ?? null }));
}

const areaOf = ({ length, width }: Room) => length * width;

/** What an offcut has beyond the ends of its strips, and beside them over its whole length. */
function roomsOf(
  { id, offcut }: Pick<RollCut, 'id' | 'offcut'>,
  product: RollProduct,
  strips: readonly ReusedStrip[],
): Room[] {
  const own = strips.filter(({ roll }) => roll === id);
  const start = product.length - offcut;
  const lane = own.reduce((most, strip) => Math.max(most, strip.lane + strip.height), 0);
  const beyond = own.map((strip): Room => ({
    roll: id,
    start: strip.start + strip.length,
    lane: strip.lane,
    length: offcut - strip.length,
    width: strip.height,
  }));
  return [...beyond, { roll: id, start, lane, length: offcut, width: product.width - lane }];
}

/** A room less a patch at its corner: what lies beyond it over the whole width, and what beside it. */
function leftOf(room: Room, length: number, width: number): Room[] {
  return [
    { ...room, start: room.start + length, length: room.length - length },
    { ...room, lane: room.lane + width, length, width: room.width - width },
  ];
}
