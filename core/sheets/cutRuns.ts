// In: runs, a roll, and the lap rules. Out: sheets with their end laps placed, and the cut list: per roll its cuts
// in order, its offcut, and a lower bound on rolls. One step, because where a run is joined depends on what is left
// on the roll. Promise: no sheet longer than the roll or shorter than the least (but for runs that are themselves
// shorter), the stagger kept, no four sheets at a point, cut + offcut = bought for every roll, rolls ≥ bound.
import { GRID_MM, NOISE_MM } from '../geometry/tolerances';
import { countMarks, leastJoints, splicedBound, type Marks } from './bounds';
import { canSplice, type Splice } from './chain';
import { gatherOffcuts } from './gatherOffcuts';
import { regather, type RegatherEffort } from './regather';
import { spliceSpilling } from './spill';
import { QUICK_SPLICE, spliceInto, splicePlain } from './spliceRuns';
import type { PlacedRun, RunInPlace, StaggerRules } from './slide';
import { NOTHING_KEPT_OFF, staggerJoints, type KeptOff } from './stagger';
import { packWhole } from './stock/packWhole';
import { raisedBound } from './stock/raiseBound';
import type { Solver } from './stock/solver';
import { weaveAll } from './weave';
import type { CutWay, LapRules, LayoutFault, RollProduct, Run } from './types';

/** A run as it is cut: pieces from its low end upwards with their rolls, millimetres. */
export interface CutRun {
  readonly run: Run;
  readonly from: number;
  readonly pieces: readonly { readonly roll: number; readonly start: number; readonly length: number }[];
}

export interface RunCuts {
  readonly runs: readonly CutRun[];
  readonly rolls: number;
  readonly lowerBound: number;
  readonly joints: number;
  /** The plain way and the one with the fewest rolls found, where they differ. */
  readonly ways: readonly CutWay[];
}

/** What a joint costs against a roll, in the same money; without it rolls decide, then joints. */
export interface CutMoney {
  readonly roll: number;
  readonly joint: number;
}

/** Work one attempt may do, counted in search steps. */
const SPLICE_WORK = 1_000_000;
/** How hard a roll is sought that the quick ways miss: not at all among the many candidates of a search, a little
 * while a person drags, and more where the solver says that there is time. Offcuts are gathered where something is to
 * come out of them. */
export type CutEffort = 'search' | 'search offcuts' | 'lay';
const LAY_GATHER: RegatherEffort = { manners: 2, trials: 6, more: 0, exchanges: 0, steps: 1_000_000 };
const EXACT_GATHER: RegatherEffort = {
  manners: 5,
  trials: 60,
  more: 1000,
  exchanges: 100_000_000,
  steps: 150_000_000,
};
const STAGGER_WORK = 20_000;
/** Roll counts tried above the bound before the plain cut is taken. */
const MOST_ATTEMPTS = 24;

export const steps = (mm: number) => Math.round(mm / GRID_MM);

/** A run on the grid, outwards, so that a sheet never ends short of it. */
export function runInPlace(run: Run): RunInPlace {
  const from = Math.floor((run.span[0] + NOISE_MM) / GRID_MM);
  const to = Math.ceil((run.span[1] - NOISE_MM) / GRID_MM);
  return { course: run.course, from, length: to - from };
}

export function spliceRules(roll: RollProduct, rules: LapRules): StaggerRules {
  return {
    roll: steps(roll.length),
    lap: steps(rules.endLap),
    // A piece shorter than two laps would put its two end laps on top of each other.
    least: Math.max(steps(rules.minPiece), 2 * steps(rules.endLap)),
    stagger: steps(rules.endLapStagger),
  };
}

export interface CutWays {
  /** Null: rolls decide, then joints. */
  readonly money: CutMoney | null;
  readonly keptOff?: KeptOff;
  /** Runs from this number on are never joined; none where left out. */
  readonly wholeFrom?: number;
  /** With a solver what is cut in one piece is cut from the fewest rolls, and the bound proved. */
  readonly solver?: Solver | null | undefined;
  readonly effort?: CutEffort | undefined;
  readonly worth?: Worth | undefined;
}

/** Whether a cut that takes no fewer rolls and joints is wanted. Where none is, the runs count as not to be cut. */
export type Worth = (rolls: number, joints: number) => boolean;

export function cutRuns(
  runs: readonly Run[],
  roll: RollProduct,
  rules: LapRules,
  {
    money,
    keptOff = NOTHING_KEPT_OFF,
    wholeFrom = runs.length,
    solver = null,
    effort = 'lay',
    worth = ALL_WORTH,
  }: CutWays,
): RunCuts | { readonly fault: LayoutFault } {
  const inPlace = runs.map(runInPlace);
  const splice = { ...spliceRules(roll, rules), wholeFrom };
  const lengths = inPlace.map((run) => run.length);
  const fault = impossibleRun(inPlace, splice, rules);
  if (fault) return { fault };
  if (rules.joints === 'forbidden') {
    const { bin, bins, bound } = packWhole(lengths, splice.roll, solver);
    const placed = lengths.map((length, i) => [{ roll: bin[i] as number, length }]);
    return settle(runs, inPlace, gathered(placed, splice.roll, effort), {
      rolls: bins,
      lowerBound: bound,
      ways: [],
    });
  }
  const gathering = effort !== 'lay' ? null : solver ? EXACT_GATHER : LAY_GATHER;
  const best = cheapestSplice(inPlace, splice, { money, keptOff, gathering, worth });
  if (!best)
    return {
      fault: {
        where: 'end laps',
        message:
          'No way was found to keep the end laps of neighbouring courses apart with this roll. Allow a smaller stagger, a shorter least piece, or a longer roll.',
      },
    };
  const settled = gathered(best.placed, splice.roll, effort);
  const rolls = usedRolls(settled);
  return settle(runs, inPlace, settled, {
    rolls,
    lowerBound: provedBound(lengths, rolls, splice, solver),
    ways: best.ways,
  });
}

/** The same pieces on rolls that leave the most useful offcuts; where nothing comes out of these a search does without,
 * for they don't change the cost. */
function gathered(placed: readonly PlacedRun[], roll: number, effort: CutEffort): readonly PlacedRun[] {
  if (effort === 'search') return placed;
  const rolls = gatherOffcuts(placed.flat(), roll);
  let at = 0;
  return placed.map((pieces) => pieces.map((piece) => ({ ...piece, roll: rolls[at++] as number })));
}

/** The solver is asked only where one roll is left to argue about: it never proves more than one. */
function provedBound(
  lengths: readonly number[],
  rolls: number,
  rules: StaggerRules,
  solver: Solver | null,
): number {
  const bound = splicedBound(lengths, rules.roll, rules.lap);
  return solver && rolls === bound + 1 ? raisedBound(lengths, bound, rules, solver) : bound;
}

function impossibleRun(
  runs: readonly RunInPlace[],
  splice: StaggerRules,
  rules: LapRules,
): LayoutFault | null {
  const longest = runs.find(
    (run) => run.length > splice.roll && (rules.joints === 'forbidden' || !canSplice(run.length, splice)),
  );
  if (!longest) return null;
  const metres = ((longest.length * GRID_MM) / 1000).toFixed(2);
  const rollMetres = ((splice.roll * GRID_MM) / 1000).toFixed(2);
  return {
    where: `course ${longest.course}`,
    message:
      rules.joints === 'forbidden'
        ? `A run of ${metres} m is longer than the roll (${rollMetres} m) and joints are forbidden. Allow joints, turn the courses, or choose a longer roll.`
        : `A run of ${metres} m cannot be made of pieces between ${((splice.least * GRID_MM) / 1000).toFixed(2)} m and the roll's ${rollMetres} m. Allow a shorter piece, or choose a longer roll.`,
  };
}

interface Staggered {
  readonly placed: readonly PlacedRun[];
  readonly rolls: number;
  readonly cost: number;
}

/** Tries roll counts from the bound upwards for as long as one may still be cheaper, and last the plain cut; keeps the
 * cheapest that can be staggered. */
function cheapestSplice(
  runs: readonly RunInPlace[],
  rules: StaggerRules,
  {
    money,
    keptOff,
    gathering,
    worth,
  }: {
    readonly money: CutMoney | null;
    readonly keptOff: KeptOff;
    readonly gathering: RegatherEffort | null;
    readonly worth: Worth;
  },
): (Staggered & { readonly ways: readonly CutWay[] }) | null {
  const lengths = runs.map((run) => run.length);
  const plain = splicePlain(lengths, rules);
  const marks = countMarks(lengths, rules.roll, rules.lap);
  const bound = splicedBound(lengths, rules.roll, rules.lap, marks);
  const last = Math.min(plain.rolls, bound + MOST_ATTEMPTS);
  const costOf = (rolls: number, joints: number) =>
    money ? rolls * money.roll + joints * money.joint : rolls + joints / (lengths.length * 64 + 1);

  const tried: CutWay[] = [];
  let best: Staggered | null = null;
  const mayPay = (rolls: number, joints: number) =>
    (!best || costOf(rolls, joints) < best.cost) && worth(rolls, joints);
  const consider = (splice: Splice) => {
    tried.push({ rolls: splice.rolls, joints: splice.joints });
    if (!mayPay(splice.rolls, splice.joints)) return;
    const staggered = staggerJoints(runs, splice, rules, keptOff, { left: STAGGER_WORK });
    if (!staggered) return;
    const { placed } = staggered;
    const rolls = usedRolls(placed);
    const joints = placed.reduce((sum, pieces) => sum + pieces.length - 1, 0);
    const cost = costOf(rolls, joints);
    if (!best || cost < best.cost) best = { placed, rolls, cost };
  };
  let missed = false;
  const weaves = gathering !== null || new Set(lengths).size <= FEW_LENGTHS;
  // The plain cut has the joints that no cut spares.
  for (let rolls = bound; rolls < last && mayPay(rolls, plain.joints); rolls++) {
    if (!worth(rolls, leastJoints(marks, rolls))) continue;
    const found = quickSplices(lengths, rolls, rules, marks);
    if (found.length === 0 && weaves) found.push(...woven(lengths, rolls, rules));
    found.forEach(consider);
    if (found.length === 0 && rolls === bound) missed = true;
  }
  consider(plain);
  const fewest = () => tried.reduce((a, b) => (b.rolls < a.rolls ? b : a));
  // One roll less never takes fewer joints, so it is gathered for only where it can pay.
  if (gathering && missed && mayPay(bound, fewest().joints)) {
    const gathered = regather(lengths, bound, rules, gathering);
    if (gathered) consider(gathered);
  }
  const { rolls, joints } = fewest();
  return (
    best && {
      ...(best as Staggered),
      ways:
        rolls < plain.rolls
          ? [
              { rolls: plain.rolls, joints: plain.joints },
              { rolls, joints },
            ]
          : [],
    }
  );
}

/** Ways to so many rolls, the fewest joints first; one way will do where hardly any joint could be spared. */
function quickSplices(
  lengths: readonly number[],
  rolls: number,
  rules: StaggerRules,
  marks: Marks,
): Splice[] {
  const spilt = spliceSpilling(lengths, rolls, rules);
  const enough = leastJoints(marks, rolls) + Math.floor(lengths.length / RUNS_FOR_A_JOINT);
  if (spilt && spilt.joints <= enough) return [spilt];
  const grouped = spliceInto(lengths, rolls, rules, QUICK_SPLICE, { left: SPLICE_WORK });
  return [spilt, grouped]
    .filter((splice): splice is Splice => splice !== null)
    .sort((a, b) => a.joints - b.joints);
}

function woven(lengths: readonly number[], rolls: number, rules: StaggerRules): readonly Splice[] {
  const splice = weaveAll(lengths, rules, rolls);
  return splice ? [splice] : [];
}

/** Where a search has many candidates to cut, only runs of so few lengths are woven: others come out even without. */
const FEW_LENGTHS = 8;

/** One joint more than the bound's among so many runs is looked no further into. */
const RUNS_FOR_A_JOINT = 50;

const ALL_WORTH: Worth = () => true;

function usedRolls(placed: readonly PlacedRun[]): number {
  const used = new Set<number>();
  for (const pieces of placed) for (const { roll } of pieces) used.add(roll);
  return used.size;
}

/** Numbers the rolls in the order in which the courses ask for them and gives every piece its start on its roll. */
function settle(
  runs: readonly Run[],
  inPlace: readonly RunInPlace[],
  placed: readonly PlacedRun[],
  { rolls, lowerBound, ways }: Pick<RunCuts, 'rolls' | 'lowerBound' | 'ways'>,
): RunCuts {
  const number = new Map<number, number>();
  const filled: number[] = [];
  let joints = 0;
  const cut = runs.map((run, i) => {
    const pieces = (placed[i] as PlacedRun).map(({ roll, length }) => {
      if (!number.has(roll)) number.set(roll, number.size);
      const k = number.get(roll) as number;
      const start = filled[k] ?? 0;
      filled[k] = start + length;
      return { roll: k, start: fromSteps(start), length: fromSteps(length) };
    });
    joints += pieces.length - 1;
    return { run, from: fromSteps((inPlace[i] as RunInPlace).from), pieces };
  });
  return { runs: cut, rolls, lowerBound, joints, ways };
}

/** Grid steps back to millimetres; dividing keeps 287800 steps at 28780 and not a hair beside it. */
export const fromSteps = (count: number) => count / Math.round(1 / GRID_MM);

/** The nearest place on the grid. */
export const onGrid = (mm: number) => fromSteps(steps(mm));
