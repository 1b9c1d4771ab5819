// In: runs that may be joined, and how many rolls they shall come out of. Out: groups of runs that each fill their
// rolls with a joint fewer than rolls, and what is left over. Promise: a closed group can be cut; how far the rest is
// over its rolls is said.
//
// A group is worth the prices of its remainders, and loses what that is short of its rolls. All losses together may
// be no more than the rolls asked for are above the bound, so the group that loses least is closed first. The last
// few runs are parted in the best of all ways.
import { leastPieces, remainderOf, type RemainderPrices } from './bounds';
import { chainInto, type Splice, type SpliceRules } from './chain';
import { fillCount, type Work } from './fill';
import { weave } from './weave';

/** Runs by number, longest remainder first. */
export interface GatherStock {
  readonly lengths: readonly number[];
  readonly rests: readonly number[];
  readonly prices: RemainderPrices;
  readonly rules: SpliceRules;
}

export interface GatheredGroup {
  readonly members: readonly number[];
  /** Rolls that its remainders take, and all its rolls' pieces. */
  readonly rolls: number;
  /** What its remainders' prices are short of its rolls, for each of them. */
  readonly loss: number;
  readonly splice: Splice;
}

export interface Gathered {
  readonly groups: readonly GatheredGroup[];
  readonly rest: readonly number[];
  /** Rolls left for the rest, and how much longer its remainders are than these hold: at most 0 where they fit. */
  readonly rolls: number;
  readonly over: number;
}

export interface Manner {
  /** Rolls of the largest group. */
  readonly mostRolls: number;
  /** The share of what may be lost in all, by its rolls, that one group may lose without looking further. */
  readonly share: number;
  /** Which of so many runs a group is started from. */
  readonly start: (count: number) => number;
}

/** Kinds of group, by rolls and number of runs, tried for one run. */
const MOST_KINDS = 6;
const FILL_WORK = 1000;
/** Steps that one run's turn takes for each run still open. */
const TURN_WORK = 8;
/** Runs that are parted in the best of all ways. */
const LAST = 10;
/** Losses closer than this share of a lap count as the same, and the group of fewer rolls is taken. */
const SAME_LOSS = 1 / 4;

export function gather(
  stock: GatherStock,
  pool: readonly number[],
  rolls: number,
  manner: Manner,
  work: Work,
): Gathered {
  const groups: GatheredGroup[] = [];
  let open = pool;
  let left = rolls;
  while (open.length > LAST) {
    const group = work.left > 0 ? closeOne(stock, open, left, manner, work) : null;
    if (!group) return { groups, rest: open, rolls: left, over: overBy(stock, open, left) };
    groups.push(group);
    left -= group.rolls;
    const gone = new Set(group.members);
    open = open.filter((i) => !gone.has(i));
  }
  const last = closeLast(stock, open, left, work);
  return { ...last, groups: [...groups, ...last.groups] };
}

export const roomOf = ({ roll, lap }: SpliceRules, rolls: number) => rolls * roll - (rolls - 1) * lap;

function overBy({ rests, rules }: GatherStock, members: readonly number[], rolls: number): number {
  return members.reduce((sum, i) => sum + (rests[i] as number), 0) - roomOf(rules, rolls);
}

/** The group round one run that loses least. */
function closeOne(
  stock: GatherStock,
  open: readonly number[],
  left: number,
  { mostRolls, share, start }: Manner,
  work: Work,
): GatheredGroup | null {
  const { rests, rules } = stock;
  const { alpha, beta } = stock.prices;
  work.left -= open.length * TURN_WORK;
  const first = open[start(open.length)] as number;
  const others = open.filter((i) => i !== first);
  const own = rests[first] as number;
  const size = Float64Array.from(others, (i) => rests[i] as number);
  const before = sumsOf(size);
  const worth = alpha * (own + (before[size.length] as number)) + beta * open.length;
  const mayLose = Math.max(0, left - worth);
  let best: { readonly loss: number; readonly group: GatheredGroup } | null = null;
  for (const { rolls, count, loss } of kindsOf(own, before, Math.min(mostRolls, left - 1), stock)) {
    if (best && loss >= best.loss) continue;
    const part = mayLose * Math.min(1, (share * rolls) / left);
    const room = roomOf(rules, rolls) - own;
    const waste = Math.max(0, part - loss) / alpha;
    const budget = { left: Math.min(FILL_WORK, work.left) };
    const granted = budget.left;
    const filled = fillCount(size, before, count - 1, room, room - waste, budget);
    work.left -= granted - budget.left;
    if (!filled) continue;
    const lost = rolls - alpha * (own + filled.sum) - beta * count;
    if (best && lost >= best.loss) continue;
    const group = closed(stock, [first, ...filled.picked.map((k) => others[k] as number)], rolls);
    if (!group) continue;
    best = { loss: lost, group };
    if (lost <= part) break;
  }
  return best && best.group;
}

function sumsOf(size: Float64Array): Float64Array {
  const before = new Float64Array(size.length + 1);
  for (let i = 0; i < size.length; i++) before[i + 1] = (before[i] as number) + (size[i] as number);
  return before;
}

/** Kinds of group that a run fits in, those first that lose least when they are full. */
function kindsOf(
  own: number,
  before: Float64Array,
  mostRolls: number,
  { rules, prices: { alpha, beta } }: GatherStock,
): readonly { readonly rolls: number; readonly count: number; readonly loss: number }[] {
  const n = before.length - 1;
  const all = before[n] as number;
  const step = (rules.lap / rules.roll) * SAME_LOSS;
  const kinds: { rolls: number; count: number; loss: number; rank: number }[] = [];
  for (let rolls = 1; rolls <= mostRolls; rolls++) {
    const room = roomOf(rules, rolls);
    for (let count = 1; count <= n + 1; count++) {
      if (own + all - (before[n - count + 1] as number) > room) break;
      const full = Math.min(room, own + (before[count - 1] as number));
      const loss = rolls - alpha * full - beta * count;
      kinds.push({ rolls, count, loss, rank: Math.round(loss / step) });
    }
  }
  return kinds.sort((a, b) => a.rank - b.rank || a.rolls - b.rolls || a.loss - b.loss).slice(0, MOST_KINDS);
}

/** What the best kind of group up to so many rolls loses that the run in the middle fits in. */
export function leastLoss(stock: GatherStock, pool: readonly number[], mostRolls: number): number {
  const middle = pool[pool.length >> 1] as number;
  const others = pool.filter((i) => i !== middle).map((i) => stock.rests[i] as number);
  const [kind] = kindsOf(stock.rests[middle] as number, sumsOf(Float64Array.from(others)), mostRolls, stock);
  return kind?.loss ?? Infinity;
}

/** The group with its pieces, or null where no order of its runs can be cut. */
export function closed(stock: GatherStock, members: readonly number[], rolls: number): GatheredGroup | null {
  const splice = spliceMembers(stock, members, rolls);
  if (!splice) return null;
  const { alpha, beta } = stock.prices;
  const worth = members.reduce((sum, i) => sum + alpha * (stock.rests[i] as number) + beta, 0);
  return { members, rolls, loss: 1 - worth / rolls, splice };
}

/** All rolls of some runs whose remainders take so many; pieces name runs by their number in the stock. */
export function spliceMembers(
  { lengths, rules }: GatherStock,
  members: readonly number[],
  rolls: number,
): Splice | null {
  const { roll, lap, wholeFrom = lengths.length } = rules;
  const sorted = [...members].sort((a, b) => (lengths[b] as number) - (lengths[a] as number) || a - b);
  const kept = sorted.reduce((sum, i) => sum + leastPieces(lengths[i] as number, roll, lap) - 1, 0);
  const own = sorted.map((i) => lengths[i] as number);
  const whole = sorted.map((i) => i >= wholeFrom);
  const chained = chainInto(own, whole, rules, kept + rolls) ?? weave(own, whole, rules, kept + rolls);
  return (
    chained && {
      ...chained,
      pieces: chained.pieces.map((piece) => ({ ...piece, run: sorted[piece.run] as number })),
    }
  );
}

/** Parts the last runs so that what is left of them is least over its rolls; of ways that are even the one with the
 * most groups, which has the fewest joints. Sets of runs are numbers of bits. */
function closeLast(stock: GatherStock, open: readonly number[], left: number, work: Work): Gathered {
  const { rests, rules } = stock;
  const sets = 1 << open.length;
  work.left -= 3 ** open.length;
  const sum = new Float64Array(sets);
  const own = new Int32Array(sets);
  for (let set = 1; set < sets; set++) {
    const low = 31 - Math.clz32(set & -set);
    sum[set] = (sum[set & (set - 1)] as number) + (rests[open[low] as number] as number);
    own[set] = Math.max(1, Math.ceil(((sum[set] as number) - rules.lap) / (rules.roll - rules.lap)));
  }
  // The fewest rolls of each set, in so many parts a roll that the number of groups counts after it.
  const cost = new Int32Array(sets);
  const group = new Int32Array(sets);
  for (let set = 1; set < sets; set++) {
    const low = set & -set;
    const others = set ^ low;
    let best = Infinity;
    for (let sub = others; ; sub = (sub - 1) & others) {
      const total = (cost[others ^ sub] as number) + (own[sub | low] as number) * PARTS - 1;
      if (total < best) {
        best = total;
        group[set] = sub | low;
      }
      if (sub === 0) break;
    }
    cost[set] = best;
  }
  const rollsOf = (set: number) => Math.ceil((cost[set] as number) / PARTS);
  let [taken, over] = [0, Infinity];
  for (let set = 0; set + 1 < sets; set++) {
    const rolls = left - rollsOf(set);
    const by = (sum[sets - 1] as number) - (sum[set] as number) - roomOf(rules, rolls);
    if (rolls > 0 && by < over) [taken, over] = [set, by];
  }
  const membersOf = (set: number) => open.filter((_, k) => (set & (1 << k)) !== 0);
  const groups: GatheredGroup[] = [];
  for (let set = taken; set > 0; set ^= group[set] as number) {
    const part = group[set] as number;
    const found = closed(stock, membersOf(part), own[part] as number);
    if (!found) return { groups: [], rest: open, rolls: left, over: overBy(stock, open, left) };
    groups.push(found);
  }
  return { groups, rest: membersOf(sets - 1 - taken), rolls: left - rollsOf(taken), over };
}

const PARTS = 64;

/** Stock of the runs, longest remainder first. */
export function gatherStock(
  lengths: readonly number[],
  rules: SpliceRules,
  price: (ascending: Float64Array, roll: number, lap: number) => RemainderPrices,
): { readonly stock: GatherStock; readonly pool: readonly number[] } {
  const rests = lengths.map((length) => remainderOf(length, rules.roll, rules.lap));
  const pool = rests.map((_, i) => i).sort((a, b) => (rests[b] as number) - (rests[a] as number) || a - b);
  const prices = price(Float64Array.from(rests).sort(), rules.roll, rules.lap);
  return { stock: { lengths, rests, prices, rules }, pool };
}
