// In: a price for every length. Out: the groups worth most above what they cost. Promise: exact. Lists of
// undominated (length, worth) pairs grow by one copy of a length at a time, dearest per length first (Nemhauser and
// Ullmann 1969); a pair goes when even the best price per length for all the room that is left cannot lift it above
// what is asked. With whole-number prices every sum is a whole number, so the answer is a proof.
import type { Work } from '../fill';
import type { Stock, Pattern } from './stock';

export interface Worthy extends Pattern {
  /** Worth less cost, in the prices' unit. */
  readonly excess: number;
}

/** How exact an answer is asked for: among all groups, or among those that lists no longer than this lead to. */
export interface Effort {
  readonly longest: number;
  readonly work: Work;
}

/** For each size the group with the greatest excess above `above`, where there is one. `unit` is what a roll is worth
 * in the prices' unit. Null where the counted work ran out. */
export function worthiest(
  { lengths, sizes }: Pick<Stock, 'lengths' | 'sizes'>,
  most: readonly number[],
  prices: readonly number[],
  unit: number,
  above: number,
  { longest, work }: Effort,
): readonly Worthy[] | null {
  const ratio = (i: number) => (prices[i] as number) / (lengths[i] as number);
  const items = lengths
    .map((_, i) => i)
    .filter((i) => (prices[i] as number) > 0 && (most[i] as number) > 0)
    .sort((a, b) => ratio(b) - ratio(a) || a - b);
  const largest = sizes[sizes.length - 1] as Stock['sizes'][number];
  const pool: Pool = { item: [], parent: [] };
  let list: List = { length: [0], worth: [0], node: [-1] };
  // With one size whatever beats the best so far is asked for; with several each is judged on its own.
  let asked = above;
  const raise = (worth: number | undefined) => {
    if (sizes.length === 1) asked = Math.max(asked, (worth ?? 0) - largest.cost * unit);
  };
  for (const [k, i] of items.entries()) {
    const length = lengths[i] as number;
    const price = prices[i] as number;
    const next = items[k + 1];
    const later = next === undefined ? 0 : ratio(next);
    const copies = Math.min(most[i] as number, Math.floor(largest.room / length));
    // Copies are added one at a time, each time only to what got the copy before.
    let fresh = list;
    for (let copy = 0; copy < copies; copy++) {
      const grown = addCopy(fresh, i, length, price, largest.room, pool);
      if (grown.length.length === 0) break;
      work.left -= grown.length.length + list.length.length;
      if (work.left <= 0) return null;
      raise(grown.worth[grown.worth.length - 1]);
      fresh = keepHopeful(grown, reachOf(sizes, copy + 1 < copies ? ratio(i) : later, unit), asked, longest);
      list = merge(list, fresh);
    }
    list = keepHopeful(list, reachOf(sizes, later, unit), asked, longest);
  }
  return sizes.flatMap(({ room, cost }): Worthy[] => {
    let best = -1;
    for (let s = 0; s < list.length.length && (list.length[s] as number) <= room; s++) best = s;
    // Worth rises along the list.
    const excess = best < 0 ? -Infinity : (list.worth[best] as number) - cost * unit;
    if (excess <= above) return [];
    const counts = lengths.map(() => 0);
    for (let node = list.node[best] as number; node >= 0; node = pool.parent[node] as number)
      counts[pool.item[node] as number] = (counts[pool.item[node] as number] as number) + 1;
    return [{ counts, cost, excess }];
  });
}

/** Ascending in length and in worth. */
interface List {
  readonly length: number[];
  readonly worth: number[];
  readonly node: number[];
}

interface Pool {
  readonly item: number[];
  readonly parent: number[];
}

function addCopy(from: List, item: number, length: number, price: number, room: number, pool: Pool): List {
  const grown: List = { length: [], worth: [], node: [] };
  for (let s = 0; s < from.length.length; s++) {
    const total = (from.length[s] as number) + length;
    if (total > room) break;
    grown.length.push(total);
    grown.worth.push((from.worth[s] as number) + price);
    grown.node.push(pool.item.push(item) - 1);
    pool.parent.push(from.node[s] as number);
  }
  return grown;
}

type Reach = (length: number, worth: number) => number;

/** The greatest excess a pair can come to in any size, if the room left is worth at most `rate` per length. Rooms
 * before they were rounded down are straight in the size, so the first that holds the pair and the last tell.
 * Rounding of the rate must never cost a group: more than it does to a product, and far less than the finest price,
 * is given to the pair. */
function reachOf(sizes: Stock['sizes'], rate: number, unit: number): Reach {
  const last = sizes.length - 1;
  const given = unit * ROUNDING;
  const inSize = (k: number, length: number, worth: number) => {
    const { reach, cost } = sizes[k] as Stock['sizes'][number];
    return worth + (reach - length) * rate - cost * unit + given;
  };
  return (length, worth) => {
    let first = 0;
    while (first < last && (sizes[first] as Stock['sizes'][number]).room < length) first++;
    return first === last
      ? inSize(last, length, worth)
      : Math.max(inSize(first, length, worth), inSize(last, length, worth));
  };
}

const ROUNDING = 2 ** -40;

/** Pairs that reach above what is asked; of too many those that reach farthest. */
function keepHopeful(list: List, reach: Reach, asked: number, longest: number): List {
  const reaches = list.length.map((length, s) => reach(length, list.worth[s] as number));
  let least = asked;
  if (list.length.length > longest) {
    const hopeful = reaches.filter((r) => r > asked).sort((a, b) => b - a);
    least = Math.max(asked, hopeful[longest] ?? asked);
  }
  const kept: List = { length: [], worth: [], node: [] };
  for (let s = 0; s < list.length.length; s++)
    if ((reaches[s] as number) > least) {
      kept.length.push(list.length[s] as number);
      kept.worth.push(list.worth[s] as number);
      kept.node.push(list.node[s] as number);
    }
  return kept;
}

/** Both lists in one, without what is no shorter and no dearer than another. */
function merge(a: List, b: List): List {
  const merged: List = { length: [], worth: [], node: [] };
  let top = -Infinity;
  let [i, j] = [0, 0];
  while (i < a.length.length || j < b.length.length) {
    const [la, lb] = [a.length[i] ?? Infinity, b.length[j] ?? Infinity];
    const first = la < lb || (la === lb && (a.worth[i] as number) >= (b.worth[j] as number));
    const from = first ? a : b;
    const s = first ? i++ : j++;
    const worth = from.worth[s] as number;
    if (worth <= top) continue;
    top = worth;
    merged.length.push(from.length[s] as number);
    merged.worth.push(worth);
    merged.node.push(from.node[s] as number);
  }
  return merged;
}
