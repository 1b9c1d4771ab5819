// Runs one after the other through rolls: each roll is filled up, and the run at its end goes on at the start of the
// next. Whole numbers of grid steps.
import { leastPieces, remainderOf } from './bounds';

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

/** One chain through rolls: each roll is filled up and the run at its end goes on at the start of the next. The
 * room at a roll's end is kept either nothing or long enough for a piece. Lengths descend. */
export function chain(lengths: readonly number[], whole: readonly boolean[], rules: SpliceRules): Splice {
  const { roll } = rules;
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
    across(length, room, rules).forEach((part, k) => {
      if (k > 0) turn();
      put(run, part);
    });
    joints += pieces.filter((piece) => piece.run === run).length - 1;
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
  // Else one that is cut here with enough on both sides, and whose tail leaves a roll that can go on.
  const rest = (k: number) => length(k) + lap - room;
  const tailWaste = (k: number) => {
    const tail = remainderOf(rest(k), roll, lap);
    return tail < least ? least - tail : tail > roll - least ? roll - tail : 0;
  };
  if (room >= least)
    for (let k = 0; k < open.length; k++)
      if (!mayNotCut(k) && rest(k) >= least && tailWaste(k) === 0) return { index: k, how: 'here' };
  // Else the least is wasted: by the longest that just fits, by cutting one shorter than the room, or by a tail that
  // has to be longer than what whole rolls leave of it, or ends its roll.
  let best = { index: 0, how: 'turn' as 'here' | 'turn', waste: room };
  for (let k = 0; k < open.length; k++) {
    const entire = length(k) <= room;
    if (!entire && mayNotCut(k)) continue;
    let waste = room - length(k);
    if (!entire && room >= least && rest(k) >= least) waste = tailWaste(k);
    else if (!entire) {
      const part = length(k) + lap - least;
      if (part < least || part > room || least > roll) continue;
      waste = room - part;
    }
    if (waste < best.waste) best = { index: k, how: 'here', waste };
  }
  return room === roll ? { index: best.index, how: 'here' } : best;
}

/** The pieces of a run that starts in the room left on a roll and goes on through whole ones, each as long as may be
 * while the least is left for the next. */
function across(length: number, room: number, { roll, lap, least }: SpliceRules): number[] {
  const parts: number[] = [];
  let rest = length;
  for (let free = room; rest > free; free = roll) {
    const most = rest + lap - tailLeast(leastPieces(rest + lap - free, roll, lap), lap, least);
    const part = Math.min(free, most);
    parts.push(part);
    rest += lap - part;
  }
  return [...parts, rest];
}

/** Orders looked at before a group is given up, and lengths above which they are too many. */
export interface OrderEffort {
  readonly orders: number;
  readonly lengths: number;
}
const FEW_ORDERS: OrderEffort = { orders: 300, lengths: 10 };

/** A chain of no more than so many rolls: as `chain` finds it, or in another order of its runs, so that no joint falls
 * too near the end of one. Null where none was found. Lengths descend. */
export function chainInto(
  lengths: readonly number[],
  whole: readonly boolean[],
  rules: SpliceRules,
  rolls: number,
  effort: OrderEffort = FEW_ORDERS,
): Splice | null {
  const chained = chain(lengths, whole, rules);
  if (chained.rolls <= rolls) return chained;
  return lengths.length > effort.lengths ? null : chainInOrder(lengths, whole, rules, rolls, effort.orders);
}

function chainInOrder(
  lengths: readonly number[],
  whole: readonly boolean[],
  rules: SpliceRules,
  rolls: number,
  orders: number,
): Splice | null {
  const { roll, least } = rules;
  const pieces: Piece[] = [];
  const open = lengths.map(() => true);
  let left = orders;
  let joints = 0;
  const search = (at: number, room: number, length: number): boolean => {
    if (length === 0) return true;
    if (left-- <= 0 || (rolls - at - 1) * roll + room < length) return false;
    if (room < least || room === 0) return at + 1 < rolls && search(at + 1, roll, length);
    for (let i = 0; i < lengths.length; i++) {
      const own = lengths[i] as number;
      if (!open[i] || (i > 0 && open[i - 1] && own === lengths[i - 1])) continue;
      const parts = across(own, room, rules);
      if (parts.length > 1 && (whole[i] || parts.some((part) => part < least))) continue;
      const last = at + parts.length - 1;
      if (last >= rolls) continue;
      open[i] = false;
      parts.forEach((part, k) => pieces.push({ run: i, roll: at + k, length: part }));
      joints += parts.length - 1;
      const tail = parts[parts.length - 1] as number;
      if (search(last, (last === at ? room : roll) - tail, length - own)) return true;
      joints -= parts.length - 1;
      pieces.length -= parts.length;
      open[i] = true;
    }
    // The rest of the roll is left.
    return room < roll && at + 1 < rolls && search(at + 1, roll, length);
  };
  const total = lengths.reduce((sum, own) => sum + own, 0);
  return search(0, roll, total) ? { pieces, rolls, joints } : null;
}

/** What must be left over for k more pieces of at least `least`. */
export const tailLeast = (k: number, lap: number, least: number) => k * least - (k - 1) * lap;
