// In: a candidate. Out: a cost that no layout of it can go below, from its runs' lengths alone, without cutting.
// Promise: never above the cost of any cut that the rules allow, so that a candidate may be skipped by it. It knows the
// laps, the joints that long runs and few rolls force, the rows along edges, what courses are widened by, and target
// sheets at side laps; end laps that keep off things only make a cut dearer. Of offcuts it hopes that they serve all
// that may come out of them.
import { lengthAt, type Profile } from '../geometry/profile';
import { jointCost } from '../price/layMoney';
import { targetSide } from '../seams/findTargets';
import { isRow } from '../sheets/bands';
import { countMarks, leastJoints, splicedBound, unsplicedBound } from '../sheets/bounds';
import { runInPlace, spliceRules, steps, type Worth } from '../sheets/cutRuns';
import { DRAIN_CLEAR_MM } from '../sheets/keepClear';
import { layBands, type LaidBands, type TurnedBand } from '../sheets/layBands';
import { rankOf } from '../sheets/layCourses';
import type { Closing, Course, RollProduct, Run } from '../sheets/types';
import { mostCredit } from './offcutCredit';
import type { SearchSpec } from './types';

export interface Scored {
  readonly laid: LaidBands;
  readonly broken: number;
  readonly bound: number;
  /** m */
  readonly sideMetres: number;
  readonly targets: readonly number[];
}

/** The bands of a roof in the candidate's direction, and the ground that each one's laps are counted on. */
export interface Regions {
  readonly bands: readonly TurnedBand[];
  readonly grounds: readonly Profile[];
  /** By field, across the courses: where each drain's bowl lies, and how far laps keep off it. */
  readonly drains: readonly (readonly {
    readonly v: number;
    readonly clear: number;
    readonly side: number;
  }[])[];
  /** mm² */
  readonly area: number;
}

export function scoreLayout(
  regions: Regions,
  roll: RollProduct,
  closing: Closing | null,
  firstCourse: number,
  spec: SearchSpec,
): Scored {
  const { sideLap, lap, trade } = spec;
  const laid = layBands(regions.bands, {
    roll,
    rolls: spec.rolls,
    closing,
    firstCourse,
    sideLap,
    lap,
    pins: trade.pins,
  });
  let side = 0;
  let broken = 0;
  const targets: number[] = [];
  regions.bands.forEach(({ band, packed, keep }, i) => {
    const own = regions.bands.length === 1 ? laid.courses : laid.courses.filter((c) => c.band === band.id);
    const ground = regions.grounds[i] as Profile;
    for (let k = 0; k + 1 < own.length; k++) {
      const { low, width, lapAbove } = own[k] as Course;
      side += lengthAt(ground, low + width - lapAbove / 2);
    }
    if (band.kind !== 'field') return;
    if (keep.lines.length > 0 || keep.minWidth > 0) {
      const [faults, off] = rankOf(packed.v, roll.width, { firstCourse, sideLap }, keep) as [number, number];
      broken += faults * FAULT_RANK + off;
    }
    for (const drain of regions.drains[i] ?? [])
      if (own.some((c, k) => k + 1 < own.length && near(c, drain))) targets.push(drain.side);
  });
  const sideMetres = side / 1000;
  return {
    laid,
    broken,
    sideMetres,
    targets,
    bound:
      layCost({ ...leastCut(laid, roll, closing, spec), sideMetres, area: regions.area, targets }, spec) -
      mostCredit(spec, targets),
  };
}

/** A lap that does not keep clear weighs more than any number of valleys off the middle of a sheet. */
const FAULT_RANK = 1000;

function near(
  { low, width, lapAbove }: Course,
  drain: { readonly v: number; readonly clear: number },
): boolean {
  const [from, to] = [low + width - lapAbove, low + width];
  return drain.v > from - drain.clear && drain.v < to + drain.clear;
}

/** The drains that lie on a band, in its frame. */
export function drainsOn(
  drains: readonly { readonly v: number; readonly size: number; readonly clear?: number }[],
): Regions['drains'][number] {
  return drains.map(({ v, size, clear = DRAIN_CLEAR_MM }) => ({
    v,
    clear: size / 2 + clear,
    side: targetSide(size, clear),
  }));
}

/** Rolls by product and joints that together cost no more than those of any cut of these runs: fewer rolls may take
 * more joints. */
function leastCut(
  { courses, runs }: LaidBands,
  roll: RollProduct,
  closing: Closing | null,
  spec: SearchSpec,
): Pick<Laying, 'products' | 'joints'> {
  const groups = new Map<string, CutGroup>();
  const byIndex = new Map(courses.map((course) => [course.index, course]));
  const groupOf = (index: number) => {
    const { product, lanes, shares } = cutFrom(byIndex.get(index) as Course, roll, closing, spec);
    const key = `${product.id}/${lanes}`;
    const group = groups.get(key) ?? { roll: product, lanes, lengths: [], joined: [] };
    groups.set(key, group);
    return { index, group, shares };
  };
  let own: ReturnType<typeof groupOf> | undefined;
  for (const run of runs) {
    // Runs come course by course.
    if (own?.index !== run.course) own = groupOf(run.course);
    const { group, shares } = own;
    const length = Math.ceil(lengthOf(run) / shares);
    group.lengths.push(length);
    // Pieces that lie side by side are no joints of the slab that they make up.
    if (shares === 1) group.joined.push(length);
  }
  const width = [...groups.values()][0]?.roll.width ?? 0;
  const least = [...groups.values()].map((group) => cheapestOf(group, width, spec));
  return { products: least, joints: least.reduce((sum, group) => sum + group.joints, 0) };
}

interface CutGroup {
  readonly roll: RollProduct;
  readonly lanes: number;
  /** Of all its runs, as they take their rolls, and of those that are joined along it. */
  readonly lengths: number[];
  readonly joined: number[];
}

function cheapestOf(
  { roll: product, lanes, lengths, joined }: CutGroup,
  width: number,
  { lap, money }: SearchSpec,
): Laying['products'][number] & { readonly joints: number } {
  const rules = spliceRules(product, lap);
  if (lap.joints === 'forbidden')
    return { roll: product, count: Math.ceil(unsplicedBound(lengths, rules.roll) / lanes), joints: 0 };
  const marks = countMarks(joined, rules.roll, rules.lap);
  const own = joined.length === lengths.length ? marks : countMarks(lengths, rules.roll, rules.lap);
  const fewest = Math.ceil(splicedBound(lengths, rules.roll, rules.lap, own) / lanes);
  const jointsAt = (count: number) => leastJoints(marks, count * lanes);
  let best = { roll: product, count: fewest, joints: jointsAt(fewest) };
  if (!money) return best;
  const spared = leastJoints(marks, Infinity);
  const joint = jointCost(money, width);
  const more = rollMoney(product, { money });
  const costOf = (count: number, joints: number) => count * more + joints * joint;
  for (let count = fewest + 1; costOf(count, spared) < costOf(best.count, best.joints); count++) {
    const joints = jointsAt(count);
    if (costOf(count, joints) < costOf(best.count, best.joints)) best = { roll: product, count, joints };
  }
  return best;
}

/** Rows along edges come from lanes of their own; lanes of a closing course lie side by side in the field's rolls, so
 * that its runs count by their shares. */
function cutFrom(
  course: Course,
  roll: RollProduct,
  closing: Closing | null,
  spec: SearchSpec,
): { readonly product: RollProduct; readonly lanes: number; readonly shares: number } {
  if (isRow(course)) {
    const product = spec.rolls.find(({ id }) => id === course.roll) ?? roll;
    return { product, lanes: course.lanes, shares: 1 };
  }
  if (closing?.kind === 'narrow' && course.roll === closing.roll.id && course.roll !== roll.id)
    return { product: closing.roll, lanes: 1, shares: 1 };
  return { product: roll, lanes: 1, shares: course.lanes };
}

const lengthOf = (run: Run) => runInPlace(run).length;

export interface Laying {
  readonly products: readonly { readonly roll: RollProduct; readonly count: number }[];
  readonly joints: number;
  readonly sideMetres: number;
  /** Roof area, mm². */
  readonly area: number;
  /** Sides of the target sheets, mm. */
  readonly targets: readonly number[];
}

/** What a layout costs under the job's own rates; without them rolls, then joints, then metres of weld decide.
 * An end lap's weld is counted across a whole sheet of the field. */
export function layCost(
  { products, joints, sideMetres, area, targets }: Laying,
  { money }: SearchSpec,
): number {
  const targetMetres = targets.reduce((sum, side) => sum + (4 * side) / 1000, 0);
  if (!money)
    return (
      products.reduce((sum, { count }) => sum + count, 0) * ROLL_RANK +
      joints * JOINT_RANK +
      sideMetres +
      targetMetres
    );
  const bought = products.reduce((sum, { roll, count }) => sum + count * roll.cost, 0);
  const membrane = products.reduce((sum, { roll, count }) => sum + count * roll.width * roll.length, 0);
  const width = products[0]?.roll.width ?? 0;
  return (
    bought +
    joints * jointCost(money, width) +
    sideMetres * money.weldPerM +
    targetMetres * money.handWeldPerM +
    targets.length * money.perJoint +
    (Math.max(0, membrane - area) / 1e6) * money.disposalPerM2
  );
}

/** Whether a cut that takes so many of the field's rolls and joints may still cost less than a limit. It says so by what
 * cutting goes by, rolls and joints, so that of two cuts the one that cutting prefers is never left for the other. */
export function worthBelow(
  limit: number,
  {
    laid,
    roll,
    ...rest
  }: Omit<Laying, 'products' | 'joints'> & {
    readonly laid: LaidBands;
    readonly roll: RollProduct;
  },
  spec: SearchSpec,
): Worth | undefined {
  if (limit === Infinity) return undefined;
  const { money } = spec;
  const whole = new Set(laid.courses.filter((c) => c.roll === roll.id && c.lanes === 1).map((c) => c.index));
  const length = laid.runs.reduce((sum, run) => (whole.has(run.course) ? sum + lengthOf(run) : sum), 0);
  const least = Math.ceil(length / steps(roll.length));
  const fixed =
    layCost({ products: [{ roll, count: least }], joints: 0, ...rest }, spec) -
    mostCredit(spec, rest.targets);
  const [perRoll, perJoint] = money ? [roll.cost, jointCost(money, roll.width)] : [ROLL_RANK, JOINT_RANK];
  return (rolls, joints) => fixed + (rolls - least) * perRoll + joints * perJoint < limit;
}

/** What one roll more costs that is bought and not laid. */
export const rollMoney = (
  { cost, width, length }: RollProduct,
  { money }: Pick<SearchSpec, 'money'>,
): number => (money ? cost + (money.disposalPerM2 * width * length) / 1e6 : ROLL_RANK);

/** Far apart enough that no number of joints outweighs a roll, and no metres a joint. */
const ROLL_RANK = 1e12;
const JOINT_RANK = 1e6;
