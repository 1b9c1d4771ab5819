// Lower bounds on rolls. Every length here is a whole number of grid steps, so that no bound hangs on rounding.
import { COUNT_NOISE } from '../geometry/tolerances';

/** Least number of pieces a run can be made of: k pieces lapped by `lap` reach k·roll − (k−1)·lap. */
export function leastPieces(length: number, roll: number, lap: number): number {
  return length <= roll ? 1 : Math.ceil((length - lap) / (roll - lap));
}

/** What a run takes beside the whole rolls that any cut of it takes: k pieces, of which all but one are as long as the
 * roll. Runs joined into one group take Σ(k − 1) rolls and what their remainders take, spliced in the same way, for
 * every further joint costs a lap more. */
export function remainderOf(length: number, roll: number, lap: number): number {
  return length - (leastPieces(length, roll, lap) - 1) * (roll - lap);
}

/** With joints: whole rolls that no cut spares, and what the remainders take by their prices; more where the joints
 * that so few rolls ask for leave no room for their laps. */
export function splicedBound(
  lengths: readonly number[],
  roll: number,
  lap: number,
  marks = countMarks(lengths, roll, lap),
): number {
  if (lengths.length === 0) return 0;
  let kept = 0;
  let sum = 0;
  const rests = new Float64Array(lengths.length);
  lengths.forEach((length, i) => {
    kept += leastPieces(length, roll, lap) - 1;
    sum += length;
    rests[i] = remainderOf(length, roll, lap);
  });
  rests.sort();
  let rolls = kept + Math.max(1, Math.ceil(priceRemainders(rests, roll, lap).worth - COUNT_NOISE));
  while (sum + leastJoints(marks, rolls) * lap > rolls * roll) rolls++;
  return rolls;
}

/** Each roll marked at K − 1 places that part it evenly, for each K: how many marks the runs take in all. */
export type Marks = Float64Array;

/** Finest parting of a roll. */
const MOST_PARTS = 40;

/** A piece of length p covers at least ⌈K·p / roll⌉ − 1 marks, and the pieces of one roll K − 1 together. A run that
 * is cut in m pieces covers at least ⌈K·r / roll⌉ − m, r with the laps that no cut spares. So the rolls, K − 1 times,
 * and the joints are together at least the sum of ⌈K·r / roll⌉ − 1 over the runs, whatever K is. */
export function countMarks(lengths: readonly number[], roll: number, lap: number): Marks {
  const marks = new Float64Array(MOST_PARTS + 1);
  for (const length of lengths) {
    const joined = length + (leastPieces(length, roll, lap) - 1) * lap;
    for (let parts = 1; parts <= MOST_PARTS; parts++)
      marks[parts] = (marks[parts] as number) + Math.ceil((parts * joined) / roll) - 1;
  }
  return marks;
}

/** The fewest joints with which the runs can come out of so many rolls, however many these are. */
export function leastJoints(marks: Marks, rolls: number): number {
  let least = marks[1] as number;
  for (let parts = 2; parts <= MOST_PARTS; parts++)
    least = Math.max(least, (marks[parts] as number) - (parts - 1) * rolls);
  return least;
}

/** A price of α·length + β for each remainder, and what they come to, in rolls. */
export interface RemainderPrices {
  readonly alpha: number;
  readonly beta: number;
  readonly worth: number;
}

/** Groups up to this many rolls are looked at one by one; beyond it a remainder is worth no more than its share. */
const MOST_ROLLS = 40;
/** Times the top is sought between two limits; some four will do, and whatever is left out costs no proof. */
const NARROWINGS = 26;
/** How near to the shortest remainder a discount may come, as a share of it: nearer, and rounding would grow in what is
 * left of its price to more than a count overlooks. */
const SHORT_OF_ALL = 1e-5;

/** Runs spliced through k rolls form a group with k − 1 joints at least, so the remainders of a group of k rolls are
 * k·roll − (k − 1)·lap at most. Prices such that no group is worth more than its rolls bound the rolls; α and β are
 * sought so that the bound is greatest, and only the prices decide whether it holds. Ascending remainders in. */
export function priceRemainders(rests: Float64Array, roll: number, lap: number): RemainderPrices {
  const n = rests.length;
  const sum = sumOfLongest(rests, n);
  const plain = { alpha: 1 / roll, beta: 0, worth: sum / roll };
  const groups = groupLimits(rests, roll, lap);
  // Worth of all remainders at the greatest α for a ratio t = β / α. Each limit alone moves one way with t, so the
  // least of them has one top: where one that rises with t meets one that falls.
  let best = plain;
  const tightest = (t: number): Limit | null => {
    let alpha = Infinity;
    let by: Limit | null = null;
    for (const group of groups) {
      const length = group.length + t * group.count;
      if (length <= 0 || group.rolls >= alpha * length) continue;
      alpha = group.rolls / length;
      by = group;
    }
    const worth = alpha * (sum + t * n);
    if (by && worth > best.worth) best = { alpha, beta: alpha * t, worth };
    return by;
  };
  const rises = ({ length, count }: Limit) => n * length > sum * count;
  let low = tightest(-(rests[0] as number) * (1 - SHORT_OF_ALL));
  let high = tightest(roll);
  if (!low || !high || !rises(low) || rises(high)) return best;
  for (let step = 0; step < NARROWINGS; step++) {
    const t: number =
      (high.rolls * low.length - low.rolls * high.length) / (low.rolls * high.count - high.rolls * low.count);
    const by = tightest(t);
    if (!by || by === low || by === high) break;
    if (rises(by)) low = by;
    else high = by;
  }
  return best;
}

/** No group of so many rolls holds more remainders at this length, nor a greater length of this many. */
interface Limit {
  readonly length: number;
  readonly count: number;
  readonly rolls: number;
}

/** What groups of k rolls hold at most: the longest total with the fewest and with the most remainders. Ascending
 * remainders in; the last entries stand for groups beyond the largest: its length per roll, at both ends. */
function groupLimits(rests: Float64Array, roll: number, lap: number): readonly Limit[] {
  const n = rests.length;
  const limits: Limit[] = [];
  let [few, fewSum, many, manySum] = [0, 0, 0, 0];
  const last = Math.min(MOST_ROLLS, n);
  for (let rolls = 1; rolls <= last; rolls++) {
    const room = rolls * roll - (rolls - 1) * lap;
    while (few < n && fewSum + (rests[n - 1 - few] as number) <= room)
      fewSum += rests[n - 1 - few++] as number;
    while (many < n && manySum + (rests[many] as number) <= room) manySum += rests[many++] as number;
    limits.push({ length: fewSum, count: few, rolls });
    if (few < many) limits.push({ length: room, count: few + 1, rolls });
    limits.push({ length: Math.min(room, sumOfLongest(rests, many)), count: many, rolls });
    if (many === n) return limits;
  }
  const room = last * roll - (last - 1) * lap;
  for (const rest of [rests[0] as number, rests[n - 1] as number])
    limits.push({ length: rest, count: 1, rolls: (last * rest) / room });
  return limits;
}

function sumOfLongest(rests: Float64Array, count: number): number {
  let sum = 0;
  for (let i = rests.length - count; i < rests.length; i++) sum += rests[i] as number;
  return sum;
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
