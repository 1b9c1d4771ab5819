// Where along its run each joint falls, so that no end lap stands within the stagger of one in the next course:
// pieces of a run change places, joints slide as far as their rolls have room, and a run that finds no place is cut
// anew. Whole numbers of grid steps; positions are lap centres along the frame.
//
//   course c+1   ├──────────────┤├─────────┤
//                               ▲ ≥ stagger
//   course c     ├─────────┤├──────────────┤
//                          ▲
import { leastPieces } from './bounds';
import type { Work } from './fill';
import type { Splice, SpliceRules } from './chain';

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
  const search = (k: number): boolean => {
    const i = jointed[k];
    if (i === undefined) return true;
    const run = runs[i] as RunInPlace;
    for (const order of orders(parts[i] as Part[], run.course % 2 === 0)) {
      if (work.left-- <= 0) return false;
      const option = slide(run, order, forbidden(run), slack, rules);
      if (!option) continue;
      const undo = take(i, option);
      if (search(k + 1)) return true;
      undo();
    }
    return false;
  };
  if (search(0)) return { placed: chosen, rolls: splice.rolls };
  laps.clear();
  return cutAnew(runs, parts, jointed, slack, rules, { beside, forbidden, take, chosen });
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

/** Moves that bring a centre clear of all forbidden stretches, the smallest first; 0 where it is clear already. */
function clearMoves(centre: number, forbidden: readonly Stretch[]): number[] {
  if (isClear(centre, forbidden)) return [0];
  const moves: number[] = [];
  for (const [from, to] of forbidden)
    for (const at of [Math.floor(from), Math.ceil(to)]) if (isClear(at, forbidden)) moves.push(at - centre);
  return moves.sort((a, b) => Math.abs(a) - Math.abs(b));
}

const isClear = (at: number, forbidden: readonly Stretch[]) =>
  forbidden.every(([from, to]) => at <= from || at >= to);

function canMove(
  part: Part,
  next: Part,
  by: number,
  slack: readonly number[],
  grown: ReadonlyMap<number, number>,
  rules: StaggerRules,
): boolean {
  if (by === 0) return true;
  if (!Number.isInteger(by)) return false;
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
    const order = orders(own, run.course % 2 === 0)
      .map((pieces) => slide(run, pieces, forbidden(run), slack, rules))
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

/** Starts that one run may try. */
const FREE_CUT_WORK = 4000;

/** Piece lengths from the run's low end, the fewest that keep every joint clear of the forbidden centres. */
export function freeCut(
  run: RunInPlace,
  forbidden: readonly Stretch[],
  rules: StaggerRules,
): number[] | null {
  const { roll, lap, least } = rules;
  // A start that was tried in vain with so many pieces to go is not tried again.
  const dead = new Set<string>();
  let left = FREE_CUT_WORK;
  const cut = (rest: number, start: number, k: number): number[] | null => {
    if (k === 1) return rest <= roll && rest >= least ? [rest] : null;
    const state = `${k} ${start}`;
    if (dead.has(state) || left-- <= 0) return null;
    const shortest = Math.max(least, rest + lap - ((k - 1) * roll - (k - 2) * lap));
    const longest = Math.min(roll, rest + lap - ((k - 1) * least - (k - 2) * lap));
    const centreOf = (length: number) => start + length - lap / 2;
    const lengths = [longest, shortest];
    for (const stretch of forbidden)
      for (const at of stretch) {
        lengths.push(Math.floor(at - start + lap / 2), Math.ceil(at - start + lap / 2));
      }
    const fit = lengths
      .filter((l) => l >= shortest && l <= longest && isClear(centreOf(l), forbidden))
      .sort((a, b) => b - a);
    for (const length of fit) {
      const more = cut(rest + lap - length, start + length - lap, k - 1);
      if (more) return [length, ...more];
    }
    dead.add(state);
    return null;
  };
  const k = leastPieces(run.length, roll, lap);
  for (let pieces = k; pieces <= k + 2; pieces++) {
    const found = cut(run.length, run.from, pieces);
    if (found) return found;
  }
  return null;
}
