// How runs are made of pieces and pieces come out of rolls, as lengths only; where the joints lie along a run is
// decided afterwards. Whole numbers of grid steps.
//
// Runs spliced through k rolls form a connected group with at least k − 1 joints, so few joints means many small,
// well-filled groups: first groups that fill one roll without a joint, then two rolls with one joint, and so on;
// what is left over becomes one chain.
import { leastPieces } from './bounds';
import { bestFit, fillBest, type Work } from './fill';

export interface SpliceRules {
  readonly roll: number;
  readonly lap: number;
  readonly least: number;
  /** Runs from this number on are never joined; none where left out. */
  readonly wholeFrom?: number;
}

/** A piece of a run on a roll; the order of a run's pieces is open. */
export interface Piece {
  readonly run: number;
  readonly roll: number;
  readonly length: number;
}

export interface Splice {
  readonly pieces: readonly Piece[];
  readonly rolls: number;
  readonly joints: number;
}

/** Whether a run can be made at all of pieces no longer than the roll and no shorter than the least. */
export function canSplice(length: number, { roll, lap, least }: SpliceRules): boolean {
  const k = leastPieces(length, roll, lap);
  return k === 1 || k * least <= length + (k - 1) * lap;
}

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

/** What must be left over for k more pieces of at least `least`. */
const tailLeast = (k: number, lap: number, least: number) => k * least - (k - 1) * lap;

/** Splices all runs out of `rolls` rolls, or null where this way finds none.
 *
 * A group that ends k rolls with less waste than a lap is better than going on in a chain, where a joint would cost
 * that lap and its weld; with spare length to give away it may waste its share of that. So groups are sought for
 * the longest run first, tightly and then more loosely, and the rest goes into one chain. */
export function spliceInto(
  lengths: readonly number[],
  rolls: number,
  rules: SpliceRules,
  work: Work,
): Splice | null {
  const order = lengths
    .map((_, i) => i)
    .sort((a, b) => (lengths[b] as number) - (lengths[a] as number) || a - b);
  const sorted = order.map((i) => lengths[i] as number);
  const whole = order.map((i) => i >= (rules.wholeFrom ?? lengths.length));
  const usable = sorted.map(() => true);
  let spare =
    rolls * rules.roll -
    sorted.reduce(
      (sum, length) => sum + length + (leastPieces(length, rules.roll, rules.lap) - 1) * rules.lap,
      0,
    );
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
    for (const i of members) usable[i] = false;
    used += splice.rolls;
    joints += splice.joints;
  };
  for (const share of TIGHT_TO_LOOSE)
    for (let first = 0; first < sorted.length; first++) {
      if (!usable[first]) continue;
      const least = Math.max(1, leastPieces(sorted[first] as number, rules.roll, rules.lap));
      for (let k = least; k <= least + MORE_ROLLS && used + k <= rolls; k++) {
        const waste = Math.min(spare, Math.max(0, ((spare * k) / (rolls - used)) * share));
        const group = fillGroup({ sorted, whole, usable }, first, k, waste, rules, work);
        if (!group) continue;
        spare -= group.waste;
        put(group, group.members);
        break;
      }
    }
  const rest = sorted.map((_, i) => i).filter((i) => usable[i]);
  if (rest.length > 0) {
    const chained = chain(
      rest.map((i) => sorted[i] as number),
      rest.map((i) => whole[i] as boolean),
      rules,
    );
    if (used + chained.rolls > rolls) return null;
    put(chained, rest);
  }
  return { pieces, rolls: used, joints };
}

/** Shares of the spare length that a group may waste, pass by pass. */
const TIGHT_TO_LOOSE = [0.25, 1] as const;
/** Rolls beyond the fewest that a group may take to come out even. */
const MORE_ROLLS = 3;
/** Search steps one group may take. */
const GROUP_WORK = 3000;

/** Runs, longest first: their lengths, which are never joined, and which are still to be placed. */
interface Pool {
  readonly sorted: readonly number[];
  readonly whole: readonly boolean[];
  readonly usable: readonly boolean[];
}

interface Group extends Splice {
  readonly members: readonly number[];
  /** What the group leaves of its rolls beside its runs and the laps that these need anyway. */
  readonly waste: number;
}

/** A group holding `first` that fills k rolls within the allowed waste, or null. */
function fillGroup(
  { sorted, whole, usable }: Pool,
  first: number,
  k: number,
  waste: number,
  rules: SpliceRules,
  work: Work,
): Group | null {
  const { roll, lap } = rules;
  const room = k * roll - (k - 1) * lap - (sorted[first] as number);
  if (room < 0 || work.left <= 0) return null;
  const others = usable.map((u, i) => u && i > first);
  const own = { left: Math.min(work.left, GROUP_WORK) };
  const granted = own.left;
  const { picked, sum } = fillBest(sorted, others, room, room - waste, own);
  work.left -= granted - Math.max(0, own.left);
  const members = [first, ...picked];
  const needed = members.reduce(
    (total, i) => total + (leastPieces(sorted[i] as number, roll, lap) - 1) * lap,
    0,
  );
  const left = k * roll - (sorted[first] as number) - sum - needed;
  if (left > waste) return null;
  const chained = chain(
    members.map((i) => sorted[i] as number),
    members.map((i) => whole[i] as boolean),
    rules,
  );
  return chained.rolls > k || chained.joints > k - 1 ? null : { ...chained, members, waste: left };
}

/** One chain through rolls: each roll is filled up and the run at its end goes on at the start of the next. The
 * room at a roll's end is kept either nothing or long enough for a piece. Lengths descend. */
export function chain(lengths: readonly number[], whole: readonly boolean[], rules: SpliceRules): Splice {
  const { roll, lap, least } = rules;
  const pieces: Piece[] = [];
  const open = lengths.map((_, i) => i);
  let at = 0;
  let room = roll;
  let joints = 0;
  const put = (run: number, length: number) => {
    pieces.push({ run, roll: at, length });
    room -= length;
  };
  const turn = () => {
    at++;
    room = roll;
  };
  const cutAcross = (run: number, length: number) => {
    let rest = length;
    while (rest > room) {
      const most = rest + lap - tailLeast(leastPieces(rest + lap - room, roll, lap), lap, least);
      put(run, Math.min(room, most));
      rest += lap - (pieces[pieces.length - 1] as Piece).length;
      joints++;
      turn();
    }
    put(run, rest);
  };
  while (open.length > 0) {
    const pick = choose(open, lengths, whole, room, rules);
    const run = open[pick.index] as number;
    const length = lengths[run] as number;
    open.splice(pick.index, 1);
    if (pick.how === 'turn') turn();
    if (length <= room) put(run, length);
    else cutAcross(run, length);
    if (room === 0 && open.length > 0) turn();
  }
  return { pieces, rolls: at + (room < roll ? 1 : 0), joints };
}

/** Which run comes next, and whether the rest of the roll is left for it. */
function choose(
  open: readonly number[],
  lengths: readonly number[],
  whole: readonly boolean[],
  room: number,
  { roll, lap, least }: SpliceRules,
): { readonly index: number; readonly how: 'here' | 'turn' } {
  const length = (k: number) => lengths[open[k] as number] as number;
  const mayNotCut = (k: number) => whole[open[k] as number] === true;
  // A run that ends the roll exactly, or the longest that leaves room for another piece.
  for (let k = 0; k < open.length; k++)
    if (length(k) === room || length(k) <= room - least) return { index: k, how: 'here' };
  // Else one that is cut here with enough on both sides.
  if (room >= least)
    for (let k = 0; k < open.length; k++)
      if (!mayNotCut(k) && length(k) >= room + least - lap) return { index: k, how: 'here' };
  // Else the least is wasted: either by the longest that just fits, or by cutting one shorter than the room.
  let best = { index: 0, how: 'turn' as 'here' | 'turn', waste: room };
  for (let k = 0; k < open.length; k++) {
    const entire = length(k) <= room;
    if (!entire && mayNotCut(k)) continue;
    const part = entire ? length(k) : length(k) + lap - least;
    const fits = entire || (part >= least && part <= room && length(k) + lap - part <= roll);
    if (fits && room - part < best.waste) best = { index: k, how: 'here', waste: room - part };
  }
  return room === roll ? { index: best.index, how: 'here' } : best;
}
