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

/** What must be left over for k more pieces of at least `least`. */
export const tailLeast = (k: number, lap: number, least: number) => k * least - (k - 1) * lap;
