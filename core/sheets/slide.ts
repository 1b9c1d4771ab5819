// In: the pieces of one run, and where its joints may not lie. Out: the pieces in an order, slid so that every joint is
// clear, or null. Promise: a piece grows only as far as its roll has room and shrinks no further than the least.
import { placeJoints } from './placeJoints';
import type { SpliceRules } from './chain';

export interface StaggerRules extends SpliceRules {
  readonly stagger: number;
}

/** An open stretch along the frame in which no lap centre may lie, grid steps. */
export type Stretch = readonly [from: number, to: number];

export interface RunInPlace {
  readonly course: number;
  readonly from: number;
  readonly length: number;
}

/** A run's pieces from its low end to its high end. */
export type PlacedRun = readonly { readonly roll: number; readonly length: number }[];

export interface Part {
  readonly roll: number;
  readonly length: number;
}

const MOST_PIECES_TO_PERMUTE = 4;

/** Different orders of a run's pieces, the longest piece first or last by turns so that neighbours alternate. */
export function orders(parts: readonly Part[], reversed: boolean): Part[][] {
  const sorted = [...parts].sort((a, b) => b.length - a.length);
  if (reversed) sorted.reverse();
  const ways = PERMUTATIONS[parts.length];
  if (!ways) return [sorted, [...sorted].reverse()];
  const lengthAt = (i: number) => (sorted[i] as Part).length;
  // Equal lengths keep their order.
  const isNew = (way: readonly number[]) =>
    way.every((i, at) => way.every((k, before) => before >= at || k < i || lengthAt(k) !== lengthAt(i)));
  return ways.filter(isNew).map((way) => way.map((i) => sorted[i] as Part));
}

/** By how many there are. */
const PERMUTATIONS: readonly (readonly (readonly number[])[])[] = Array.from(
  { length: MOST_PIECES_TO_PERMUTE + 1 },
  (_, count) => permutations(Array.from({ length: count }, (__, i) => i)),
);

function permutations(items: readonly number[]): number[][] {
  if (items.length === 0) return [[]];
  return items.flatMap((first) =>
    permutations(items.filter((item) => item !== first)).map((rest) => [first, ...rest]),
  );
}

/** Slides joints clear of the forbidden centres, as little as will do. `room` is what a roll has for the run, its pieces
 * on it counted in. */
export function slide(
  run: RunInPlace,
  order: readonly Part[],
  forbidden: readonly Stretch[],
  room: (roll: number) => number,
  rules: StaggerRules,
): PlacedRun | null {
  const wanted = order.map(({ roll, length }) => ({
    wanted: length,
    most: length + room(roll) - takenOn(roll, order),
  }));
  const lengths = placeJoints(run, wanted, forbidden, rules);
  if (!lengths) return null;
  const placed = order.map(({ roll }, k) => ({ roll, length: lengths[k] as number }));
  // Two pieces from one roll have its room between them.
  return placed.every(({ roll }) => takenOn(roll, placed) <= room(roll)) ? placed : null;
}

/** Length of the pieces that come out of one roll. */
function takenOn(roll: number, parts: readonly Part[]): number {
  let sum = 0;
  for (const part of parts) if (part.roll === roll) sum += part.length;
  return sum;
}

/** Where the laps of a placed run have their centres. */
export function centresOf(run: RunInPlace, placed: PlacedRun, lap: number): number[] {
  let start = run.from;
  return placed.slice(0, -1).map(({ length }) => {
    start += length - lap;
    return start + lap / 2;
  });
}

/** The stretches that reach into a run, by their places; those that overlap as one. */
export function keptWithin({ from: low, length }: RunInPlace, stretches: readonly Stretch[]): Stretch[] {
  const merged: [number, number][] = [];
  const reach = stretches.filter(([from, to]) => to > low && from < low + length);
  for (const [from, to] of reach.sort((a, b) => a[0] - b[0])) {
    const last = merged[merged.length - 1];
    if (last && from < last[1]) last[1] = Math.max(last[1], to);
    else merged.push([from, to]);
  }
  return merged;
}
