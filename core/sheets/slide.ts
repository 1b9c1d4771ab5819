// In: the pieces of one run, and where its joints may not lie. Out: the pieces in an order, slid so that every joint is
// clear, or null. Promise: a piece grows only as far as its roll has room and shrinks no further than the least.
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

export interface Option {
  readonly parts: PlacedRun;
  readonly centres: readonly number[];
  readonly grown: ReadonlyMap<number, number>;
}

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

/** Slides joints clear of the forbidden centres as far as the rolls' room and the least piece allow. */
export function slide(
  run: RunInPlace,
  order: readonly Part[],
  forbidden: readonly Stretch[],
  slack: readonly number[],
  rules: StaggerRules,
): Option | null {
  const parts = order.map((part) => ({ ...part }));
  const grown = new Map<number, number>();
  const centres: number[] = [];
  let start = run.from;
  for (let j = 0; j + 1 < parts.length; j++) {
    const part = parts[j] as Part;
    const next = parts[j + 1] as Part;
    const centre = start + part.length - rules.lap / 2;
    const moves = clearMoves(centre, forbidden);
    const move = moves.find((by) => canMove(part, next, by, slack, grown, rules));
    if (move === undefined) return null;
    if (move !== 0) {
      parts[j] = { ...part, length: part.length + move };
      parts[j + 1] = { ...next, length: next.length - move };
      grown.set(part.roll, (grown.get(part.roll) ?? 0) + move);
      grown.set(next.roll, (grown.get(next.roll) ?? 0) - move);
    }
    centres.push(centre + move);
    start += (parts[j] as Part).length - rules.lap;
  }
  return { parts, centres, grown };
}

/** Stretches by their places, those that overlap as one. */
export function disjoint(stretches: readonly Stretch[]): Stretch[] {
  const merged: [number, number][] = [];
  for (const [from, to] of [...stretches].sort((a, b) => a[0] - b[0])) {
    const last = merged[merged.length - 1];
    if (last && from < last[1]) last[1] = Math.max(last[1], to);
    else merged.push([from, to]);
  }
  return merged;
}

/** The least moves down and up, in whole steps, that bring a centre clear of disjoint stretches, the smaller first; 0
 * where it is clear already. A longer move the same way never finds more room. */
function clearMoves(centre: number, forbidden: readonly Stretch[]): readonly number[] {
  let [down, up] = [0, 0];
  for (const [from, to] of forbidden) if (centre + up > from && centre + up < to) up = Math.ceil(to - centre);
  if (up === 0) return [0];
  for (let k = forbidden.length - 1; k >= 0; k--) {
    const [from, to] = forbidden[k] as Stretch;
    if (centre + down > from && centre + down < to) down = Math.floor(from - centre);
  }
  return -down < up ? [down, up] : [up, down];
}

function canMove(
  part: Part,
  next: Part,
  by: number,
  slack: readonly number[],
  grown: ReadonlyMap<number, number>,
  rules: StaggerRules,
): boolean {
  if (by === 0) return true;
  if (part.length + by < rules.least || next.length - by < rules.least) return false;
  if (part.roll === next.roll) return true;
  const [grower, amount] = by > 0 ? [part.roll, by] : [next.roll, -by];
  return (slack[grower] as number) - (grown.get(grower) ?? 0) >= amount;
}
