// Lower bounds on rolls. Every length here is a whole number of grid steps, so that no bound hangs on rounding.
import { COUNT_NOISE } from '../geometry/tolerances';

/** Least number of pieces a run can be made of: k pieces lapped by `lap` reach k·roll − (k−1)·lap. */
export function leastPieces(length: number, roll: number, lap: number): number {
  return length <= roll ? 1 : Math.ceil((length - lap) / (roll - lap));
}

/** With joints: all lengths and the laps of every joint that cannot be spared, over the length of a roll. */
export function splicedBound(lengths: readonly number[], roll: number, lap: number): number {
  let need = 0;
  for (const length of lengths) need += length + (leastPieces(length, roll, lap) - 1) * lap;
  return Math.ceil(need / roll);
}

/** Without joints: Martello and Toth's L2. For each cut-off α, pieces over roll − α and over half a roll stand
 * alone; what is left between α and half a roll must fit beside the latter or fill rolls of its own. */
export function unsplicedBound(lengths: readonly number[], roll: number): number {
  const half = roll / 2;
  const cutoffs = new Set([0, ...lengths.filter((length) => length <= half)]);
  let best = Math.ceil(lengths.reduce((sum, length) => sum + length, 0) / roll);
  for (const alpha of cutoffs) {
    let [large, middle, middleSum, smallSum] = [0, 0, 0, 0];
    for (const length of lengths) {
      if (length > roll - alpha) large++;
      else if (length > half) {
        middle++;
        middleSum += length;
      } else if (length >= alpha) smallSum += length;
    }
    const spill = Math.max(0, Math.ceil((smallSum - (middle * roll - middleSum)) / roll));
    best = Math.max(best, large + middle + spill);
  }
  return best;
}

/** For any layout of the roof whatever: its area with the least laps any layout has, over the area of a roll.
 * Two courses that lap each lose a side lap along the roof between them; how much roof lies between is not known
 * beforehand, so nothing is claimed for laps and the area alone stands (mm²). */
export function areaBound(
  roofArea: number,
  roll: { readonly width: number; readonly length: number },
): number {
  return Math.max(1, Math.ceil(roofArea / (roll.width * roll.length) - COUNT_NOISE));
}
