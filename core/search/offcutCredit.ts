// In: the offcuts of a cut, and the flashings and target sheets of the same membrane. Out: what these save that come out
// of offcuts, less what target sheets take of a flashing roll that come out of none; and the most that any cut could
// save. Promise: strips and patches as the layout's own steps find them; a share of a roll of flashing counts as money
// though the order rounds up to whole rolls.
import { FLASHING_FOOT_MM } from '../details/listDetails';
import type { FlashingPiece } from '../details/types';
import { steps, fromSteps } from '../sheets/cutRuns';
import type { CourseCuts } from '../sheets/cutCourses';
import { patchOffcuts, type Patch } from '../sheets/patchOffcuts';
import { REUSE_RULES, reuseOffcuts, withStripLaps } from '../sheets/reuseOffcuts';
import type { RollProduct } from '../sheets/types';
import type { FlashingDemand, SearchSpec } from './types';

/** Money for the flashings that the offcuts of a cut serve: the roll that they need not come from and the waste that
 * is none, less the upright laps that strips bring, and less the membrane of the target sheets, by their sides in mm,
 * that they do not serve. */
export function offcutCredit(
  { runs, products }: Pick<CourseCuts, 'runs' | 'products'>,
  { money, flashings }: Pick<SearchSpec, 'money' | 'flashings'>,
  targets: readonly number[] = [],
): number {
  if (!money || !flashings || flashings.pieces.length + targets.length === 0) return 0;
  const known = products.map(({ roll }) => roll);
  const offcuts = { rolls: offcutsOf(runs, products) };
  const strips = reuseOffcuts(offcuts, known, flashings.pieces);
  const patches = targets.map((side, i): Patch => {
    const id = String(i);
    return { id, kind: 'target', on: id, length: side, width: side };
  });
  const patched = patchOffcuts(offcuts, known, strips, patches).reduce((sum, { from, length, width }) => {
    const spared = ((length * width) / 1e6) * money.disposalPerM2;
    return sum + (from ? spared : -length * rollPerMm({ height: width }, flashings.roll));
  }, 0);
  const pieceOf = new Map(flashings.pieces.map((piece) => [piece.edge, piece]));
  const spared = strips.reduce((sum, { edge, length, height, covers }) => {
    const perMm = rollPerMm(pieceOf.get(edge) as FlashingPiece, flashings.roll);
    return sum + covers * perMm + ((length * height) / 1e6) * money.disposalPerM2;
  }, 0);
  const weld = (pieces: readonly FlashingPiece[]) => pieces.reduce((sum, piece) => sum + piece.weld, 0);
  const laps = weld(withStripLaps(flashings.pieces, strips, FLASHING_FOOT_MM)) - weld(flashings.pieces);
  return spared + patched - (laps / 1000) * money.handWeldPerM;
}

/** No cut saves more: all of every flashing out of strips as short as they may be, without the welds of their laps, and
 * every target sheet. */
export function mostCredit(
  { money, flashings }: Pick<SearchSpec, 'money' | 'flashings'>,
  targets: readonly number[] = [],
): number {
  if (!money || !flashings) return 0;
  const { leastStrip, lap } = REUSE_RULES;
  const patches = targets.reduce((sum, side) => sum + ((side * side) / 1e6) * money.disposalPerM2, 0);
  return flashings.pieces.reduce((sum, piece) => {
    const strips = (piece.length * leastStrip) / (leastStrip - lap);
    return (
      sum +
      piece.length * rollPerMm(piece, flashings.roll) +
      ((strips * piece.height) / 1e6) * money.disposalPerM2
    );
  }, patches);
}

/** A flashing takes its length of a lane as wide as it is high. */
function rollPerMm(
  { height }: Pick<FlashingPiece, 'height'>,
  { width, length, cost }: FlashingDemand['roll'],
): number {
  return cost / length / Math.max(1, Math.floor(width / height));
}

/** What is left of every roll, mm, in the order of the rolls. */
function offcutsOf(
  runs: CourseCuts['runs'],
  products: CourseCuts['products'],
): readonly { readonly id: string; readonly product: string; readonly offcut: number }[] {
  const used: number[] = [];
  for (const { pieces } of runs)
    for (const { roll, start, length } of pieces)
      used[roll] = Math.max(used[roll] ?? 0, steps(start) + steps(length));
  const rolls = products.flatMap(({ roll, count }) => new Array<RollProduct>(count).fill(roll));
  return rolls.map((roll, k) => ({
    id: String(k),
    product: roll.id,
    offcut: fromSteps(steps(roll.length) - (used[k] ?? 0)),
  }));
}
