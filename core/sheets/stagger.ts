// Where along its run each joint falls, so that no end lap stands within the stagger of one in the next course:
// pieces of a run change places, joints slide as far as their rolls have room, and a run that finds no place is cut
// anew. Whole numbers of grid steps; positions are lap centres along the frame.
//
//   course c+1   ├──────────────┤├─────────┤
//                               ▲ ≥ stagger
//   course c     ├─────────┤├──────────────┤
//                          ▲
import type { Work } from './fill';
import type { Splice } from './chain';
import { cutAnew } from './cutAnew';
import { centresOf, keptWithin, orders, slide, type Part, type PlacedRun } from './slide';
import type { RunInPlace, StaggerRules, Stretch } from './slide';

/** Stretches by course. */
export type Zones = ReadonlyMap<number, readonly Stretch[]>;

/** Where along each course end laps may not lie. */
export interface ZonesKept {
  /** Beside laps of another band or that a person put down: four sheets would come together. */
  readonly laps: Zones;
  /** Round valleys, drains and corners: kept off wherever there is a way. */
  readonly advised: Zones;
}

/** What end laps keep off: those that stand already in the course below a run's, and stretches of a course itself. */
export interface KeptOff extends ZonesKept {
  readonly standing: ReadonlyMap<number, readonly number[]>;
}

export const NO_ZONES: ZonesKept = { laps: new Map(), advised: new Map() };
export const NOTHING_KEPT_OFF: KeptOff = { ...NO_ZONES, standing: new Map() };

/** Orders and slides the pieces of every run. `runs` ascend by course. Null where some run finds no place even cut
 * anew; rolls opened for that are numbered from `splice.rolls`. */
export function staggerJoints(
  runs: readonly RunInPlace[],
  splice: Splice,
  rules: StaggerRules,
  { standing, laps: across, advised }: KeptOff,
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
    besideLaps(
      [...(laps.get(run.course - 1) ?? []), ...(standing.get(run.course - 1) ?? [])],
      rules.stagger,
    ).concat(across.get(run.course) ?? []);
  const forbidden = (run: RunInPlace) => [...beside(run), ...(advised.get(run.course) ?? [])];
  /** Puts a run's pieces where they lie; gives back what undoes it. */
  const put = (i: number, placed: PlacedRun) => {
    const run = runs[i] as RunInPlace;
    const before = laps.get(run.course) ?? [];
    laps.set(run.course, [...before, ...centresOf(run, placed, rules.lap)]);
    for (const { roll, length } of placed) slack[roll] = (slack[roll] as number) - length;
    chosen[i] = placed;
    return () => {
      laps.set(run.course, before);
      for (const { roll, length } of placed) slack[roll] = (slack[roll] as number) + length;
    };
  };
  const giveBack = (i: number, by: 1 | -1) => {
    for (const { roll, length } of parts[i] as Part[]) slack[roll] = (slack[roll] as number) + by * length;
  };
  const room = (roll: number) => slack[roll] as number;
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
    const kept = keptWithin(run, forbidden(run));
    const own = laps.get(run.course) ?? [];
    // Written out only once something was tried in vain, which most roofs never come to.
    const state = () =>
      `${k} ${kept.join()} ${own.join()} ${(shared[k] as number[]).map((roll) => slack[roll]).join()}`;
    if (dead.size > 0 && dead.has(state())) return false;
    giveBack(i, 1);
    for (const order of ordersOf(i)) {
      if (work.left-- <= 0) break;
      const placed = slide(run, order, kept, room, rules);
      if (!placed) continue;
      const undo = put(i, placed);
      if (search(k + 1)) return true;
      undo();
    }
    giveBack(i, -1);
    if (work.left > 0) dead.add(state());
    return false;
  };
  // Where a run finds no place beside what stands already, even with whole rolls to itself, no order of the others helps.
  const mayStand = (i: number) => {
    const run = runs[i] as RunInPlace;
    const kept = keptWithin(run, forbidden(run));
    return kept.length === 0 || ordersOf(i).some((order) => slide(run, order, kept, () => rules.roll, rules));
  };
  if (jointed.every(mayStand) && search(0)) return { placed: chosen, rolls: splice.rolls };
  laps.clear();
  return cutAnew(runs, parts, jointed, slack, rules, { beside, forbidden, put, giveBack, chosen });
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

/** The stretches round lap centres that neighbours keep off. */
export const besideLaps = (centres: readonly number[], stagger: number): Stretch[] =>
  centres.map((centre) => [centre - stagger, centre + stagger]);
