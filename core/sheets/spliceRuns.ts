// How runs are made of pieces and pieces come out of rolls, as lengths only; where the joints lie along a run is
// decided afterwards. Whole numbers of grid steps.
//
// Runs spliced through k rolls form a connected group with at least k − 1 joints, so few joints means many small,
// well-filled groups: first groups that fill one roll without a joint, then two rolls with one joint, and so on;
// what is left over becomes one chain.
import { leastPieces, remainderOf } from './bounds';
import { chain, tailLeast, type Piece, type Splice, type SpliceRules } from './chain';
import { bestFit, descending, fillFrom, type Descending, type Work } from './fill';

/** The plain way: whole rolls and a tail for each long run, then best fit of what is shorter. */
export function splicePlain(lengths: readonly number[], rules: SpliceRules): Splice {
  const parts: { run: number; length: number }[] = [];
  lengths.forEach((length, run) => {
    for (const part of plainParts(length, rules)) parts.push({ run, length: part });
  });
  const { bin, bins } = bestFit(
    parts.map((part) => part.length),
    rules.roll,
  );
  const pieces = parts.map((part, i) => ({ ...part, roll: bin[i] as number }));
  return { pieces, rolls: bins, joints: parts.length - lengths.length };
}

/** As long as the roll each time, but never so long that the tail falls below the least piece. */
export function plainParts(length: number, { roll, lap, least }: SpliceRules): number[] {
  const parts: number[] = [];
  let rest = length;
  for (let k = leastPieces(length, roll, lap); k > 1; k--) {
    const part = Math.min(roll, rest + lap - tailLeast(k - 1, lap, least));
    parts.push(part);
    rest += lap - part;
  }
  return [...parts, rest];
}

/** How hard groups are sought. */
export interface SpliceEffort {
  /** Shares of the spare length that a group may waste, pass by pass. */
  readonly shares: readonly number[];
  /** Rolls beyond the fewest that a group may take to come out even. */
  readonly moreRolls: number;
  /** Search steps one group may take. */
  readonly groupWork: number;
}

/** While a person drags, and for candidates of the search. */
export const QUICK_SPLICE: SpliceEffort = { shares: [1], moreRolls: 3, groupWork: 500 };

/** Splices all runs out of `rolls` rolls, or null where this way finds none.
 *
 * A group that ends k rolls with less waste than a lap is better than going on in a chain, where a joint would cost
 * that lap and its weld; with spare length to give away it may waste its share of that. So groups are sought for
 * the longest remainder first, tightly and then more loosely, and the rest goes into one chain. */
export function spliceInto(
  lengths: readonly number[],
  rolls: number,
  rules: SpliceRules,
  effort: SpliceEffort,
  work: Work,
): Splice | null {
  const { roll, lap } = rules;
  const rests = lengths.map((length) => remainderOf(length, roll, lap));
  const order = lengths.map((_, i) => i).sort((a, b) => (rests[b] as number) - (rests[a] as number) || a - b);
  const pool: Pool = {
    runs: order.map((i) => lengths[i] as number),
    rests: order.map((i) => rests[i] as number),
    whole: order.map((i) => i >= (rules.wholeFrom ?? lengths.length)),
    open: order.map((_, i) => i),
    openRests: descending(order.map((i) => rests[i] as number)),
  };
  let left = rolls - pool.runs.reduce((sum, length) => sum + leastPieces(length, roll, lap) - 1, 0);
  let spare = left * roll - pool.rests.reduce((sum, rest) => sum + rest, 0);
  if (spare < 0) return null;

  const pieces: Piece[] = [];
  let used = 0;
  let joints = 0;
  const put = (splice: Splice, members: readonly number[]) => {
    for (const piece of splice.pieces)
      pieces.push({
        run: order[members[piece.run] as number] as number,
        roll: used + piece.roll,
        length: piece.length,
      });
    const gone = new Set(members);
    pool.open = pool.open.filter((i) => !gone.has(i));
    pool.openRests = descending(pool.open.map((i) => pool.rests[i] as number));
    used += splice.rolls;
    joints += splice.joints;
  };
  for (const share of effort.shares)
    for (let at = 0; at < pool.open.length;) {
      let group: Group | null = null;
      for (let k = 1; !group && k <= 1 + effort.moreRolls && k <= left; k++) {
        const waste = Math.min(spare, Math.max(0, ((spare * k) / left) * share));
        group = fillGroup(pool, at, { rolls: k, waste, rules, groupWork: effort.groupWork }, work);
        if (!group) continue;
        spare -= group.waste;
        left -= k;
        put(group, group.members);
      }
      // A group takes its first along.
      if (!group) at++;
    }
  const rest = pool.open;
  if (rest.length > 0) {
    const chained = chainOf(pool, rest, rules);
    if (used + chained.rolls > rolls) return null;
    put(chained, rest);
  }
  return { pieces, rolls: used, joints };
}

/** Runs, longest remainder first: their lengths, and which are never joined. */
interface Pool {
  readonly runs: readonly number[];
  readonly rests: readonly number[];
  readonly whole: readonly boolean[];
  /** Those still to be placed, and what they have left. */
  open: readonly number[];
  openRests: Descending;
}

interface Group extends Splice {
  readonly members: readonly number[];
  /** What the remainders leave of the group's rolls, its laps included. */
  readonly waste: number;
}

/** A group of the open run at a place and of those after it, whose remainders fill so many rolls within the allowed
 * waste, or null. */
function fillGroup(
  pool: Pool,
  at: number,
  {
    rolls,
    waste,
    rules,
    groupWork,
  }: {
    readonly rolls: number;
    readonly waste: number;
    readonly rules: SpliceRules;
    readonly groupWork: number;
  },
  work: Work,
): Group | null {
  const { roll, lap } = rules;
  const laps = (rolls - 1) * lap;
  const first = pool.open[at] as number;
  const room = rolls * roll - laps - (pool.rests[first] as number);
  if (room < 0 || laps > waste || work.left <= 0) return null;
  const own = { left: Math.min(work.left, groupWork) };
  const granted = own.left;
  const { picked, sum } = fillFrom(pool.openRests, at + 1, room, room + laps - waste, own);
  work.left -= granted - Math.max(0, own.left);
  if (room + laps - sum > waste) return null;
  const members = [first, ...picked.map((k) => pool.open[k] as number)];
  const kept = members.reduce((total, i) => total + leastPieces(pool.runs[i] as number, roll, lap) - 1, 0);
  const chained = chainOf(pool, members, rules);
  return chained.rolls > kept + rolls || chained.joints > kept + rolls - 1
    ? null
    : { ...chained, members, waste: room + laps - sum };
}

function chainOf({ runs, whole }: Pool, members: readonly number[], rules: SpliceRules): Splice {
  const longestFirst = [...members].sort((a, b) => (runs[b] as number) - (runs[a] as number) || a - b);
  const chained = chain(
    longestFirst.map((i) => runs[i] as number),
    longestFirst.map((i) => whole[i] as boolean),
    rules,
  );
  const place = new Map(members.map((i, at) => [i, at]));
  return {
    ...chained,
    pieces: chained.pieces.map((piece) => ({
      ...piece,
      run: place.get(longestFirst[piece.run] as number) as number,
    })),
  };
}
