// In: runs, which of them are never joined, and how many rolls they shall come out of. Out: their pieces, or null where
// this way finds none. Promise: nothing is wasted that one more joint would save.
//
// As in a chain each roll is filled up and what is cut off a run waits for a later one. Where that cut would fall too
// near the end of a run, two runs share the end of the roll instead, each cut where there is room: one joint more, and
// the lap that it takes is all that is lost. A chain of equal lengths meets the end of a run again and again.
//
//   roll k    ├── B ───────────────────────────┤·│    too little left, and no run that just fits
//   instead   ├── B, first piece ──┤├─ C, first ─┤    B and C go on in later rolls
import type { Piece, Splice, SpliceRules } from './chain';

/** What is still to be cut: a run, or what is left of it. */
interface Item {
  readonly run: number;
  readonly length: number;
}

/** Where between the shortest and the longest that it may be the first of two pieces is cut. */
const SHARES = [1, 0, 0.5] as const;

export function weave(
  lengths: readonly number[],
  whole: readonly boolean[],
  rules: SpliceRules,
  rolls: number,
): Splice | null {
  for (const share of SHARES) {
    const pieces = woven(lengths, whole, rules, rolls, share);
    if (pieces)
      return {
        pieces,
        rolls: new Set(pieces.map(({ roll }) => roll)).size,
        joints: pieces.length - lengths.length,
      };
  }
  return null;
}

/** As `weave`, for all runs of a cut. */
export function weaveAll(lengths: readonly number[], rules: SpliceRules, rolls: number): Splice | null {
  const { wholeFrom = lengths.length } = rules;
  return weave(
    lengths,
    lengths.map((_, run) => run >= wholeFrom),
    rules,
    rolls,
  );
}

function woven(
  lengths: readonly number[],
  whole: readonly boolean[],
  rules: SpliceRules,
  rolls: number,
  share: number,
): readonly Piece[] | null {
  const { roll, least } = rules;
  const open = lengths
    .map((length, run): Item => ({ run, length }))
    .sort((a, b) => b.length - a.length || a.run - b.run);
  const done: Piece[] = [];
  for (let at = 0; at < rolls && open.length > 0; at++) {
    const own: Item[] = [];
    let room = roll;
    const fill = (leaves: number) => {
      for (let k = 0; k < open.length && room > 0;) {
        const item = open[k] as Item;
        if (item.length === room || item.length <= room - leaves) {
          own.push(item);
          room -= item.length;
          open.splice(k, 1);
        } else k++;
      }
    };
    // What is left at the end is nothing, or long enough for a piece.
    fill(least);
    if (room > 0 && at + 1 < rolls) endRoll(open, own, room, whole, rules, share);
    else fill(0);
    for (const item of own) done.push({ ...item, roll: at });
  }
  return open.length > 0 ? null : done;
}

/** Fills what a roll has left by cutting one run or two, or else with the longest that fits. */
function endRoll(
  open: Item[],
  own: Item[],
  room: number,
  whole: readonly boolean[],
  { lap, least }: SpliceRules,
  share: number,
): void {
  /** Cuts a length off an item that no list holds; the rest of it waits. */
  const cut = (item: Item, length: number) => {
    own.push({ ...item, length });
    const rest = { ...item, length: item.length + lap - length };
    const k = open.findIndex((other) => other.length < rest.length);
    open.splice(k < 0 ? open.length : k, 0, rest);
  };
  const mayCut = open.filter(({ run }) => whole[run] !== true);
  const longest = mayCut[0];
  if (longest && room >= least && longest.length + lap - room >= least) {
    take(open, longest);
    cut(longest, room);
    return;
  }
  const fits = open.find(({ length }) => length <= room);
  if (longest && room - (fits?.length ?? 0) > lap) {
    const most = (item: Item) => item.length + lap - least;
    const placed = own.filter(({ run }) => whole[run] !== true).sort((a, b) => b.length - a.length);
    const shortest = mayCut[mayCut.length - 1] as Item;
    const pairs: (readonly [first: Item, second: Item, both: number])[] = [];
    if (mayCut[1]) pairs.push([longest, mayCut[1], room]);
    for (const first of placed)
      for (const second of [longest, shortest]) pairs.push([first, second, room + first.length]);
    for (const [first, second, both] of pairs) {
      const [from, to] = [Math.max(least, both - most(second)), Math.min(most(first), both - least)];
      if (from > to) continue;
      const length = from + Math.round((to - from) * share);
      take(placed.includes(first) ? own : open, first);
      take(open, second);
      cut(first, length);
      cut(second, both - length);
      return;
    }
  }
  if (!fits) return;
  take(open, fits);
  own.push(fits);
}

function take(list: Item[], item: Item): void {
  list.splice(list.indexOf(item), 1);
}
