// In: a candidate. Out: a cost that no layout of it can go below, from its runs' lengths alone, without cutting.
// Promise: never above the cost of any cut that the rules allow, so that a candidate may be skipped by it.
import { chords, type PackedRegion } from '../geometry/strips';
import { jointCost } from '../price/layMoney';
import { leastPieces, splicedBound, unsplicedBound } from '../sheets/bounds';
import { runInPlace, spliceRules } from '../sheets/cutRuns';
import { layCourses } from '../sheets/layCourses';
import { spanCourses } from '../sheets/spanCourses';
import type { Closing, Course, RollProduct, Run } from '../sheets/types';
import type { SearchSpec } from './types';

export interface Scored {
  readonly courses: readonly Course[];
  readonly runs: readonly Run[];
  readonly bound: number;
  /** m */
  readonly sideMetres: number;
}

/** The roof without allowances, and grown by them, in the candidate's direction. */
export interface Regions {
  readonly roof: PackedRegion;
  readonly covered: PackedRegion;
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
  const courses = layCourses(regions.covered.v, roll, closing, { firstCourse, sideLap: spec.sideLap });
  const runs = spanCourses(courses, regions.covered, spec.lap);
  const lines = Float64Array.from(courses.slice(0, -1), (c) => c.low + c.width - c.lapAbove / 2);
  let side = 0;
  for (const spans of chords(regions.roof, lines)) for (const [a, b] of spans) side += b - a;
  const sideMetres = side / 1000;
  return {
    courses,
    runs,
    sideMetres,
    bound: layCost({ ...leastCut(courses, runs, roll, closing, spec), sideMetres, area: regions.area }, spec),
  };
}

/** The fewest rolls by product and the fewest joints that any cut of these runs takes. */
function leastCut(
  courses: readonly Course[],
  runs: readonly Run[],
  roll: RollProduct,
  closing: Closing | null,
  spec: SearchSpec,
): Pick<Laying, 'products' | 'joints'> {
  const last = courses[courses.length - 1] as Course;
  const lengths = (list: readonly Run[]) => list.map((run) => runInPlace(run).length);
  const least = (product: RollProduct, own: readonly number[]) => {
    const rules = spliceRules(product, spec.lap);
    const count =
      spec.lap.joints === 'forbidden'
        ? unsplicedBound(own, rules.roll)
        : splicedBound(own, rules.roll, rules.lap);
    const joints = own.reduce((sum, length) => sum + leastPieces(length, rules.roll, rules.lap) - 1, 0);
    return { product: { roll: product, count }, joints };
  };
  if (closing?.kind === 'narrow' && last.roll === closing.roll.id && last.roll !== roll.id) {
    const field = least(roll, lengths(runs.filter((run) => run.course !== last.index)));
    const end = least(closing.roll, lengths(runs.filter((run) => run.course === last.index)));
    return { products: [field.product, end.product], joints: field.joints + end.joints };
  }
  const slit = runs.map((run) => {
    const { length } = runInPlace(run);
    return run.course === last.index ? Math.ceil(length / last.lanes) : length;
  });
  const { product, joints } = least(roll, slit);
  return { products: [product], joints };
}

export interface Laying {
  readonly products: readonly { readonly roll: RollProduct; readonly count: number }[];
  readonly joints: number;
  readonly sideMetres: number;
  /** Roof area, mm². */
  readonly area: number;
}

/** What a layout costs under the job's own rates; without them rolls, then joints, then metres of weld decide.
 * An end lap's weld is counted across a whole sheet of the field. */
export function layCost({ products, joints, sideMetres, area }: Laying, { money }: SearchSpec): number {
  if (!money)
    return products.reduce((sum, { count }) => sum + count, 0) * ROLL_RANK + joints * JOINT_RANK + sideMetres;
  const bought = products.reduce((sum, { roll, count }) => sum + count * roll.cost, 0);
  const membrane = products.reduce((sum, { roll, count }) => sum + count * roll.width * roll.length, 0);
  const width = products[0]?.roll.width ?? 0;
  return (
    bought +
    joints * jointCost(money, width) +
    sideMetres * money.weldPerM +
    (Math.max(0, membrane - area) / 1e6) * money.disposalPerM2
  );
}

/** Far apart enough that no number of joints outweighs a roll, and no metres a joint. */
const ROLL_RANK = 1e12;
const JOINT_RANK = 1e6;
