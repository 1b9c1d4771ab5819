// Where along its run each joint falls, so that no end lap stands within the stagger of one in the next course:
// pieces of a run change places, joints slide as far as their rolls have room, and a run that finds no place is cut
// anew. Whole numbers of grid steps; positions are lap centres along the frame.
//
//   course c+1   ├──────────────┤├─────────┤
//                               ▲ ≥ stagger
//   course c     ├─────────┤├──────────────┤
//                          ▲
import type { Work } from './fill';
import type { Splice, SpliceRules } from './chain';
import { freeCut } from './freeCut';

export interface StaggerRules extends SpliceRules {
  readonly stagger: number;
}

/** An open stretch along the frame in which no lap centre may lie, grid steps. */
export type Stretch = readonly [from: number, to: number];

/** What end laps keep off: those that stand already in the course below a run's, and stretches of a course itself. */
export interface KeptOff {
  readonly standing: ReadonlyMap<number, readonly number[]>;
  readonly zones: ReadonlyMap<number, readonly Stretch[]>;
}

export const NOTHING_KEPT_OFF: KeptOff = { standing: new Map(), zones: new Map() };

export interface RunInPlace {
  readonly course: number;
  readonly from: number;
  readonly length: number;
}

/** A run's pieces from its low end to its high end. */
export type PlacedRun = readonly { readonly roll: number; readonly length: number }[];

interface Part {
  readonly roll: number;
  readonly length: number;
}

const MOST_PIECES_TO_PERMUTE = 4;

/** Orders and slides the pieces of every run. `runs` ascend by course. Null where some run finds no place even cut
 * anew; rolls opened for that are numbered from `splice.rolls`. */
export function staggerJoints(
  runs: readonly RunInPlace[],
  splice: Splice,
  rules: StaggerRules,
  { standing, zones }: KeptOff,
  work: Work,
): { readonly placed: readonly PlacedRun[]; readonly rolls: number } | null {
  const parts: Part[][] = runs.map(() => []);
  const slack: number[] = new Array<number>(splice.rolls).fill(rules.roll);
  for (const piece of splice.pieces) {
    (parts[piece.run] as Part[]).push(piece);
    slack[piece.roll] = (slack[piece.roll] as number) - piece.length;
  }
  const jointed = runs.map((_, i) => i).filter((i) => (parts[i] as Part[]).length > 1);
  const laps = new Map<number, number[]>();
  const chosen: PlacedRun[] = parts.map((list) => list);

  const beside = (run: RunInPlace) =>
    besideLaps([...(laps.get(run.course - 1) ?? []), ...(standing.get(run.course - 1) ?? [])], rules.stagger);
  const forbidden = (run: RunInPlace) => [...beside(run), ...(zones.get(run.course) ?? [])];
  const take = (i: number, option: Option) => {
    const run = runs[i] as RunInPlace;
    const list = laps.get(run.course) ?? [];
    laps.set(run.course, [...list, ...option.centres]);
    for (const [roll, change] of option.grown) slack[roll] = (slack[roll] as number) - change;
    chosen[i] = option.parts;
    return () => {
      laps.set(run.course, list);
      for (const [roll, change] of option.grown) slack[roll] = (slack[roll] as number) + change;
    };
  };
  const known = new Map<number, Part[][]>();
  const ordersOf = (i: number) => {
    const before = known.get(i);
    if (before) return before;
    const own = orders(parts[i] as Part[], (runs[i] as RunInPlace).course % 2 === 0);
    known.set(i, own);
    return own;
  };
  // What can still be placed hangs on the laps below and on the rolls that later runs share with earlier ones: where
  // that was tried in vain it is not tried again.
  const shared = sharedRolls(jointed.map((i) => parts[i] as Part[]));
  const dead = new Set<string>();
  const search = (k: number): boolean => {
    const i = jointed[k];
    if (i === undefined) return true;
    const run = runs[i] as RunInPlace;
    const kept = disjoint(forbidden(run));
    const own = laps.get(run.course) ?? [];
    const state = `${k} ${kept.join()} ${own.join()} ${(shared[k] as number[]).map((roll) => slack[roll]).join()}`;
    if (dead.has(state)) return false;
    for (const order of ordersOf(i)) {
      if (work.left-- <= 0) return false;
      const option = slide(run, order, kept, slack, rules);
      if (!option) continue;
      const undo = take(i, option);
      if (search(k + 1)) return true;
      undo();
    }
    dead.add(state);
    return false;
  };
  if (search(0)) return { placed: chosen, rolls: splice.rolls };
  laps.clear();
  return cutAnew(runs, parts, jointed, slack, rules, { beside, forbidden, take, chosen });
}

/** For each run the rolls that hold pieces of runs before it and of it or later ones. */
function sharedRolls(parts: readonly (readonly Part[])[]): readonly (readonly number[])[] {
  const last = new Map<number, number>();
  parts.forEach((list, k) => list.forEach((part) => last.set(part.roll, k)));
  const open = new Set<number>();
  return parts.map((list, k) => {
    for (const roll of open) if ((last.get(roll) as number) < k) open.delete(roll);
    const shared = [...open];
    for (const part of list) open.add(part.roll);
    return shared;
  });
}

interface Option {
  readonly parts: PlacedRun;
  readonly centres: readonly number[];
  readonly grown: ReadonlyMap<number, number>;
}

/** Different orders of a run's pieces, the longest piece first or last by turns so that neighbours alternate. */
function orders(parts: readonly Part[], reversed: boolean): Part[][] {
  const sorted = [...parts].sort((a, b) => b.length - a.length);
  if (reversed) sorted.reverse();
  if (parts.length > MOST_PIECES_TO_PERMUTE) return [sorted, [...sorted].reverse()];
  const found: Part[][] = [];
  const seen = new Set<string>();
  const extend = (head: Part[], rest: Part[]) => {
    if (rest.length === 0) {
      const key = head.map((part) => part.length).join();
      if (!seen.has(key)) found.push(head);
      seen.add(key);
      return;
    }
    rest.forEach((part, i) => extend([...head, part], [...rest.slice(0, i), ...rest.slice(i + 1)]));
  };
  extend([], sorted);
  return found;
}

/** Slides joints clear of the forbidden centres as far as the rolls' room and the least piece allow. */
function slide(
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
function disjoint(stretches: readonly Stretch[]): Stretch[] {
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

/** The stretches round lap centres that neighbours keep off. */
export const besideLaps = (centres: readonly number[], stagger: number): Stretch[] =>
  centres.map((centre) => [centre - stagger, centre + stagger]);

interface Hands {
  /** Of neighbouring end laps alone, and with the course's own zones. */
  readonly beside: (run: RunInPlace) => readonly Stretch[];
  readonly forbidden: (run: RunInPlace) => readonly Stretch[];
  readonly take: (i: number, option: Option) => () => void;
  readonly chosen: PlacedRun[];
}

/** Course by course: a run whose pieces find no place gives them back and is cut anew, out of what rolls have left
 * or out of new ones. */
function cutAnew(
  runs: readonly RunInPlace[],
  parts: readonly (readonly Part[])[],
  jointed: readonly number[],
  slack: number[],
  rules: StaggerRules,
  { beside, forbidden, take, chosen }: Hands,
): { readonly placed: readonly PlacedRun[]; readonly rolls: number } | null {
  for (const i of jointed) {
    const run = runs[i] as RunInPlace;
    const own = parts[i] as readonly Part[];
    const kept = disjoint(forbidden(run));
    const order = orders(own, run.course % 2 === 0)
      .map((pieces) => slide(run, pieces, kept, slack, rules))
      .find((option) => option !== null);
    if (order) {
      take(i, order);
      continue;
    }
    for (const part of own) slack[part.roll] = (slack[part.roll] as number) + part.length;
    // What only advises where a lap lies gives way; neighbouring end laps never do.
    const lengths = freeCut(run, forbidden(run), rules) ?? freeCut(run, beside(run), rules);
    if (!lengths) return null;
    const cut = lengths.map((length) => {
      let roll = -1;
      slack.forEach((room, k) => {
        if (room >= length && (roll < 0 || room < (slack[roll] as number))) roll = k;
      });
      if (roll < 0) roll = slack.push(rules.roll) - 1;
      slack[roll] = (slack[roll] as number) - length;
      return { roll, length };
    });
    let start = run.from;
    const centres = lengths.slice(0, -1).map((length) => {
      start += length - rules.lap;
      return start + rules.lap / 2;
    });
    take(i, { parts: cut, centres, grown: new Map() });
  }
  return { placed: chosen, rolls: slack.length };
}
