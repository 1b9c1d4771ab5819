// In: runs that may be joined, and how many rolls they shall come out of. Out: their pieces, or null where this way
// finds none. Promise: no more joints than no cut spares where every remainder finds a roll that takes it whole.
//
// Remainders go whole into rolls; what finds none is spilled over the rooms that are left, the largest first: a tree
// of pieces, where one roll may serve any number of runs. Where no room holds a piece that is long enough, the rolls
// with the most room are cut anew together with it, as a chain.
import { leastPieces, remainderOf } from './bounds';
import { chainInto, type Piece, type Splice, type SpliceRules } from './chain';
import { fillBest } from './fill';

export function spliceSpilling(lengths: readonly number[], rolls: number, rules: SpliceRules): Splice | null {
  const { roll, wholeFrom = lengths.length } = rules;
  const { rests, pieces: long, used } = cutLong(lengths, rules);
  const open = rolls - used;
  const spare = open * roll - rests.reduce((sum, rest) => sum + rest, 0);
  if (open < 0 || spare < 0) return null;
  const longestFirst = rests
    .map((_, i) => i)
    .filter((i) => (rests[i] as number) > 0)
    .sort((a, b) => (rests[b] as number) - (rests[a] as number) || a - b);
  let best: readonly Piece[] | null = null;
  for (const pack of [packTightest, packFullest]) {
    const room = new Float64Array(open).fill(roll);
    const pieces = spilled(rests, pack(rests, longestFirst, room, spare), room, rules, wholeFrom);
    if (pieces && (!best || pieces.length < best.length)) best = pieces;
    if (best?.length === longestFirst.length) break;
  }
  if (!best) return null;
  const pieces = [...long, ...best.map((piece) => ({ ...piece, roll: piece.roll + used }))];
  return {
    pieces,
    rolls: used + new Set(best.map((piece) => piece.roll)).size,
    joints: pieces.length - lengths.length,
  };
}

/** The whole rolls of long runs, and what is left of every run for rolls that they share. What is left over a whole
 * roll by less than the least piece changes places with the shortest other length that makes it long enough: that
 * one lies on the run's roll, which is cut so much shorter, and nothing is lost. Where there is none the tail is made
 * longer than need be. */
function cutLong(
  lengths: readonly number[],
  { roll, lap, least }: SpliceRules,
): { readonly rests: readonly number[]; readonly pieces: readonly Piece[]; readonly used: number } {
  const pieces: Piece[] = [];
  const rests = lengths.map((length) => remainderOf(length, roll, lap));
  let used = 0;
  const short: { readonly run: number; readonly at: number }[] = [];
  lengths.forEach((length, run) => {
    const count = leastPieces(length, roll, lap) - 1;
    if (count > 0 && (rests[run] as number) < least) short.push({ run, at: pieces.length });
    for (let k = 0; k < count; k++) pieces.push({ run, roll: used++, length: roll });
  });
  const shorts = new Set(short.map(({ run }) => run));
  const others = rests
    .map((_, i) => i)
    .filter((i) => !shorts.has(i))
    .sort((a, b) => (rests[a] as number) - (rests[b] as number) || a - b);
  for (const { run, at } of short) {
    const rest = rests[run] as number;
    const k = others.findIndex((i) => (rests[i] as number) >= least - rest);
    const other = others[k];
    const by = other === undefined ? least - rest : (rests[other] as number);
    const whole = pieces[at] as Piece;
    const swaps = other !== undefined && by <= roll - Math.max(least, rest);
    const less = swaps ? by : least - rest;
    pieces[at] = { ...whole, length: roll - less };
    rests[run] = rest + less;
    if (!swaps) continue;
    pieces.push({ run: other, roll: whole.roll, length: by });
    rests[other] = 0;
    others.splice(k, 1);
  }
  return { rests, pieces, used };
}

/** The roll of each remainder, −1 where it found none. */
type Pack = (
  rests: readonly number[],
  longestFirst: readonly number[],
  room: Float64Array,
  spare: number,
) => Int32Array;

/** Longest first into the fullest roll that takes it. */
const packTightest: Pack = (rests, longestFirst, room) => {
  const bin = new Int32Array(rests.length).fill(-1);
  for (const i of longestFirst) {
    const b = tightest(room, rests[i] as number);
    if (b < 0) continue;
    bin[i] = b;
    room[b] = (room[b] as number) - (rests[i] as number);
  }
  return bin;
};

/** Roll after roll round the longest that is left, as full as can be or but for its share of the spare length. */
const packFullest: Pack = (rests, longestFirst, room, spare) => {
  const bin = new Int32Array(rests.length).fill(-1);
  const sizes = longestFirst.map((i) => rests[i] as number);
  const usable = sizes.map(() => true);
  let left = spare;
  let first = 0;
  for (let b = 0; b < room.length; b++) {
    while (first < sizes.length && !usable[first]) first++;
    if (first === sizes.length) break;
    usable[first] = false;
    const own = (room[b] as number) - (sizes[first] as number);
    const may = Math.max(0, left) / (room.length - b);
    const { picked, sum } = fillBest(sizes, usable, own, own - may, { left: FILL_WORK });
    for (const k of [first, ...picked]) {
      usable[k] = false;
      bin[longestFirst[k] as number] = b;
    }
    room[b] = own - sum;
    left -= own - sum;
  }
  return bin;
};

/** Search steps that filling one roll may take. */
const FILL_WORK = 3000;

/** Remainders on their rolls, and those without one in pieces over what room is left, longest first. */
function spilled(
  rests: readonly number[],
  bin: Int32Array,
  room: Float64Array,
  rules: SpliceRules,
  wholeFrom: number,
): readonly Piece[] | null {
  const onRoll = Array.from(room, (): Piece[] => []);
  const homeless: number[] = [];
  rests.forEach((length, run) => {
    const roll = bin[run] as number;
    if (roll >= 0) (onRoll[roll] as Piece[]).push({ run, roll, length });
    else if (length > 0) homeless.push(run);
  });
  if (homeless.some((run) => run >= wholeFrom)) return null;
  // Rolls that hold a part of something are left as they are.
  const parted = new Set<number>();
  for (const run of homeless.sort((a, b) => (rests[b] as number) - (rests[a] as number) || a - b)) {
    const length = rests[run] as number;
    const parts = spill(length, room, rules);
    if (parts) {
      for (const part of parts) {
        (onRoll[part.roll] as Piece[]).push({ run, ...part });
        room[part.roll] = (room[part.roll] as number) - part.length;
        parted.add(part.roll);
      }
      continue;
    }
    const free = Array.from(room, (_, b) => b).filter((b) => !parted.has(b));
    const rolls = roomiest(length, free, room, rules);
    if (!rolls) return null;
    const members = [...rolls.flatMap((b) => onRoll[b] as Piece[]), { run, roll: 0, length }].sort(
      (a, b) => b.length - a.length || a.run - b.run,
    );
    const chained = chainInto(
      members.map((piece) => piece.length),
      members.map((piece) => piece.run >= wholeFrom),
      rules,
      rolls.length,
    );
    if (!chained || chained.joints >= rolls.length) return null;
    for (const b of rolls) {
      onRoll[b] = [];
      room[b] = 0;
      parted.add(b);
    }
    for (const piece of chained.pieces) {
      const roll = rolls[piece.roll] as number;
      (onRoll[roll] as Piece[]).push({ ...piece, roll, run: (members[piece.run] as Piece).run });
    }
  }
  return onRoll.flat();
}

/** The fewest rolls whose rooms hold a length with its laps, and of these the last with as little room as will do. */
function roomiest(
  length: number,
  rolls: readonly number[],
  room: Float64Array,
  { lap }: SpliceRules,
): readonly number[] | null {
  const sorted = [...rolls].sort((a, b) => (room[b] as number) - (room[a] as number) || a - b);
  let rest = length;
  for (const [k, bin] of sorted.entries()) {
    if ((room[bin] as number) >= rest) {
      let last = k;
      while (last + 1 < sorted.length && (room[sorted[last + 1] as number] as number) >= rest) last++;
      return [...sorted.slice(0, k), sorted[last] as number];
    }
    rest += lap - (room[bin] as number);
  }
  return null;
}

/** The fullest roll that still takes a length, or −1. */
function tightest(room: Float64Array, length: number): number {
  let best = -1;
  for (let b = 0; b < room.length; b++)
    if ((room[b] as number) >= length && (best < 0 || (room[b] as number) < (room[best] as number))) best = b;
  return best;
}

/** A length over the largest rooms, as few as hold it with their laps; the last piece goes where it leaves least. */
function spill(
  length: number,
  room: Float64Array,
  { lap, least }: SpliceRules,
): readonly { readonly roll: number; readonly length: number }[] | null {
  const bins = Array.from(room, (_, b) => b)
    .filter((b) => (room[b] as number) >= least)
    .sort((a, b) => (room[b] as number) - (room[a] as number) || a - b);
  const parts: { roll: number; length: number }[] = [];
  let rest = length;
  for (const [k, bin] of bins.entries()) {
    const own = room[bin] as number;
    if (own < rest) {
      parts.push({ roll: bin, length: own });
      rest += lap - own;
      continue;
    }
    const short = least - rest;
    if (short > 0) {
      const before = parts[parts.length - 1];
      if (!before || before.length - short < least) return null;
      before.length -= short;
      rest = least;
    }
    let last = k;
    while (last + 1 < bins.length && (room[bins[last + 1] as number] as number) >= rest) last++;
    return [...parts, { roll: bins[last] as number, length: rest }];
  }
  return null;
}
