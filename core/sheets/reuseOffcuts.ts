// In: the cut list of a roof and the flashings its edges ask for. Out: which flashing strips come out of which offcut.
// Promise: a strip lies within its offcut, strips do not overlap, and no edge gets more than it needs. Only where
// field sheet and flashing are the same membrane; the caller knows.
//
//   offcut  ├──────────── length ────────────┤
//           │ strip for edge e4, its height  │  ▲ width of the roll
//           │ strip for edge e7 │    left    │  ▼
import { GRID_MM } from '../geometry/tolerances';
import type { FlashingPiece } from '../details/types';
import type { RollCut, RollProduct } from './types';

export interface ReusedStrip {
  readonly roll: string;
  readonly edge: string;
  /** mm along the roll, across it, and the strip's own size. */
  readonly start: number;
  readonly lane: number;
  readonly length: number;
  readonly height: number;
  /** mm of its edge that it covers: its length less the lap onto the next strip, where one follows. */
  readonly covers: number;
}

export interface ReuseRules {
  /** Shorter strips are not worth their laps, mm. */
  readonly leastStrip: number;
  /** What a strip loses where it laps the next one, mm. */
  readonly lap: number;
}

/** Common practice, no source. */
export const REUSE_RULES: ReuseRules = { leastStrip: 1500, lap: 100 };

export function reuseOffcuts(
  { rolls }: { readonly rolls: readonly Pick<RollCut, 'id' | 'product' | 'offcut'>[] },
  products: readonly RollProduct[],
  flashings: readonly FlashingPiece[],
  rules: ReuseRules = REUSE_RULES,
): readonly ReusedStrip[] {
  const wanted = flashings
    .map((flashing) => ({ flashing, left: flashing.length }))
    .sort((a, b) => b.flashing.height - a.flashing.height || b.left - a.left);
  const strips: ReusedStrip[] = [];
  const longestFirst = rolls
    .filter((roll) => roll.offcut >= rules.leastStrip)
    .sort((a, b) => b.offcut - a.offcut);
  for (const roll of longestFirst) {
    const product = products.find((p) => p.id === roll.product);
    if (!product) continue;
    let lane = 0;
    for (const want of wanted) {
      const { height, edge } = want.flashing;
      while (want.left > 0 && lane + height <= product.width) {
        const whole = want.left <= roll.offcut;
        const length = whole ? want.left : roll.offcut;
        // What would be left over must be worth a strip of its own, wherever that is cut from.
        if (length < rules.leastStrip) break;
        const covers = whole ? length : length - rules.lap;
        strips.push({
          roll: roll.id,
          edge,
          start: product.length - roll.offcut,
          lane,
          length,
          height,
          covers,
        });
        want.left -= covers;
        lane += height;
      }
    }
  }
  return strips;
}

/** The flashings with the upright laps that strips bring: one more for each strip, but for the last of an edge that
 * strips cover to its end. */
export function withStripLaps(
  flashings: readonly FlashingPiece[],
  strips: readonly ReusedStrip[],
  foot: number,
): readonly FlashingPiece[] {
  const byEdge = new Map<string, { count: number; covers: number }>();
  for (const strip of strips) {
    const entry = byEdge.get(strip.edge) ?? { count: 0, covers: 0 };
    byEdge.set(strip.edge, { count: entry.count + 1, covers: entry.covers + strip.covers });
  }
  return flashings.map((flashing) => {
    const own = byEdge.get(flashing.edge);
    if (!own) return flashing;
    const laps = own.count - (own.covers >= flashing.length - GRID_MM ? 1 : 0);
    return laps === 0 ? flashing : { ...flashing, weld: flashing.weld + laps * (flashing.height - foot) };
  });
}
