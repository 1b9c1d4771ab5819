// In: runs that may be joined, and how many rolls they shall come out of. Out: their pieces, or null where this way
// finds none. Promise: counted work, and the same answer every time.
//
// Runs are gathered into groups in several manners; what is left over in the best is gathered again with a few of the
// groups, and again with others, as long as it is over its rolls (large neighbourhood search, Shaw 1998). Last the
// groups change members with each other.
import { leastPieces, priceRemainders } from './bounds';
import type { Piece, Splice, SpliceRules } from './chain';
import { exchange } from './exchange';
import type { Work } from './fill';
import {
  gather,
  gatherStock,
  leastLoss,
  spliceMembers,
  type Gathered,
  type GatherStock,
  type Manner,
} from './gather';

export interface RegatherEffort {
  /** How many manners are tried. */
  readonly manners: number;
  /** Times that groups are taken up again after each manner, and in all for the best. */
  readonly trials: number;
  readonly more: number;
  /** Search steps in which groups change members where that was not enough. */
  readonly exchanges: number;
  /** Search steps in all. */
  readonly steps: number;
}

const MANNERS: readonly Pick<Manner, 'mostRolls' | 'share'>[] = [
  { mostRolls: 2, share: 0.2 },
  { mostRolls: 4, share: 0.2 },
  { mostRolls: 8, share: 1 },
  { mostRolls: 2, share: 0.1 },
  { mostRolls: 2, share: 0.5 },
];
/** Manners of small groups are left out where even the best of these lose half a lap more than the best of all. */
const LARGEST = 8;
/** Groups taken up with what is left over, each the one that loses most of so many. */
const TAKEN_UP = 4;
const LOOKED_AT = 3;

/** Laps by which the best may be over its rolls to be worth a longer search yet, and how much longer. */
const NEARLY = 5;
const LONGER = 5;

export function regather(
  lengths: readonly number[],
  rolls: number,
  rules: SpliceRules,
  { manners: most, trials, more, steps, exchanges }: RegatherEffort,
): Splice | null {
  const work: Work = { left: steps };
  const kept = lengths.reduce((sum, length) => sum + leastPieces(length, rules.roll, rules.lap) - 1, 0);
  // Without a lap one chain is as good as any.
  if (rules.lap === 0 || rolls - kept < 1) return null;
  const { stock, pool } = gatherStock(lengths, rules, priceRemainders);
  if (stock.prices.worth > rolls - kept) return null;
  const starts: { readonly manner: (typeof MANNERS)[number]; readonly found: Gathered }[] = [];
  const least = leastLoss(stock, pool, LARGEST);
  const manners = MANNERS.filter(
    ({ mostRolls }) => leastLoss(stock, pool, mostRolls) <= least + rules.lap / rules.roll / 2,
  );
  for (const [turn, manner] of manners.slice(0, most).entries()) {
    const first = gather(stock, pool, rolls - kept, { ...manner, start: () => 0 }, work);
    const found = improve(stock, first, manner, trials, turn, work);
    const done = finished(stock, found);
    if (done) return done;
    starts.push({ manner, found });
  }
  const best = starts.reduce((a, b) => (b.found.over < a.found.over ? b : a));
  let { found } = best;
  let at = (MANNERS.length + 2) * STRIDE;
  for (const [turn, times] of [1, LONGER].entries()) {
    if (found.over <= 0 || (turn > 0 && found.over > NEARLY * rules.lap)) break;
    found = improve(stock, found, best.manner, times * more, MANNERS.length + turn, work);
    if (found.over > 0) found = exchange(stock, found, () => scatter(at++), { left: exchanges });
  }
  return finished(stock, found);
}

function improve(
  stock: GatherStock,
  first: Gathered,
  manner: (typeof MANNERS)[number],
  trials: number,
  turn: number,
  work: Work,
): Gathered {
  let best = first;
  let at = turn * STRIDE;
  const next = () => scatter(at++);
  // Long remainders are hard to place: they start groups more often.
  const start = (count: number) => Math.floor(next() ** 2 * count);
  for (let trial = 0; trial < trials && !finished(stock, best) && work.left > 0; trial++) {
    const chosen = new Set<number>();
    for (let k = 0; k < TAKEN_UP; k++) chosen.add(poorOf(best.groups, next));
    const taken = best.groups.filter((_, i) => chosen.has(i));
    const pool = [...best.rest, ...taken.flatMap(({ members }) => members)].sort(
      (a, b) => (stock.rests[b] as number) - (stock.rests[a] as number) || a - b,
    );
    const rolls = taken.reduce((sum, group) => sum + group.rolls, best.rolls);
    const again = gather(stock, pool, rolls, { ...manner, start }, work);
    if (again.over > best.over) continue;
    best = { ...again, groups: [...best.groups.filter((_, i) => !chosen.has(i)), ...again.groups] };
  }
  return best;
}

/** Of a few groups the number of the one that loses most. */
function poorOf(groups: Gathered['groups'], next: () => number): number {
  let poor = 0;
  for (let k = 0; k < LOOKED_AT; k++) {
    const other = Math.floor(next() * groups.length);
    if (k === 0 || (groups[other]?.loss ?? 0) > (groups[poor]?.loss ?? 0)) poor = other;
  }
  return poor;
}

/** Numbers of one manner's turns are kept apart from the next one's. */
const STRIDE = 1_000_003;

/** Evenly scattered numbers in [0, 1), the same for the same turn: a mixed counter (Steele, Lea and Flood 2014). */
function scatter(turn: number): number {
  let z = Math.imul(turn + 1, 0x9e3779b9);
  z = Math.imul(z ^ (z >>> 16), 0x85ebca6b);
  z = Math.imul(z ^ (z >>> 13), 0xc2b2ae35);
  return ((z ^ (z >>> 16)) >>> 0) / 2 ** 32;
}

/** All groups and the rest, where that can be cut from its rolls. */
function finished(stock: GatherStock, { groups, rest, rolls, over }: Gathered): Splice | null {
  if (over > 0) return null;
  const last = rest.length === 0 ? null : spliceMembers(stock, rest, rolls);
  if (!last && rest.length > 0) return null;
  const pieces: Piece[] = [];
  let used = 0;
  let joints = 0;
  for (const splice of [...groups.map((group) => group.splice), ...(last ? [last] : [])]) {
    for (const piece of splice.pieces) pieces.push({ ...piece, roll: piece.roll + used });
    used += splice.rolls;
    joints += splice.joints;
  }
  return { pieces, rolls: used, joints };
}
