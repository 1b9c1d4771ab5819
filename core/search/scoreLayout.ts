// In: a candidate. Out: a cost that no layout of it can go below, from its runs' lengths alone, without cutting.
// Promise: never above the cost of any cut that the rules allow, so that a candidate may be skipped by it.
import { chords, type PackedRegion } from '../geometry/strips';
import { GRID_MM } from '../geometry/tolerances';
import { leastPieces, splicedBound, unsplicedBound } from '../sheets/bounds';
import { layCourses } from '../sheets/layCourses';
import { spanCourses } from '../sheets/spanCourses';
import type { Course, RollProduct, Run } from '../sheets/types';
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
  firstCourse: number,
  spec: SearchSpec,
): Scored {
  const courses = layCourses(regions.covered.v, roll, null, { firstCourse, sideLap: spec.sideLap });
  const runs = spanCourses(courses, regions.covered, spec.lap);
  const lines = Float64Array.from(courses.slice(0, -1), (c) => c.low + c.width - c.lapAbove / 2);
  let side = 0;
  for (const spans of chords(regions.roof, lines)) for (const [a, b] of spans) side += b - a;

  const steps = (mm: number) => Math.round(mm / GRID_MM);
  const [length, lap] = [steps(roll.length), steps(spec.lap.endLap)];
  const lengths = runs.map((run) => steps(run.span[1] - run.span[0]));
  const joints = lengths.reduce((sum, l) => sum + leastPieces(l, length, lap) - 1, 0);
  const rolls =
    spec.lap.joints === 'forbidden' ? unsplicedBound(lengths, length) : splicedBound(lengths, length, lap);
  return {
    courses,
    runs,
    sideMetres: side / 1000,
    bound: layCost({ roll, rolls, joints, sideMetres: side / 1000, endMetres: 0, area: regions.area }, spec),
  };
}

export interface Laying {
  readonly roll: RollProduct;
  readonly rolls: number;
  readonly joints: number;
  readonly sideMetres: number;
  readonly endMetres: number;
  /** Roof area, mm². */
  readonly area: number;
}

/** What a layout costs under the job's own rates; without them rolls, then joints, then metres of weld decide. */
export function layCost(
  { roll, rolls, joints, sideMetres, endMetres, area }: Laying,
  { money }: SearchSpec,
): number {
  if (!money) return rolls * ROLL_RANK + joints * JOINT_RANK + sideMetres + endMetres;
  const unused = Math.max(0, rolls * roll.width * roll.length - area) / 1e6;
  return (
    rolls * roll.cost +
    joints * money.perJoint +
    (sideMetres + endMetres) * money.weldPerM +
    unused * money.disposalPerM2
  );
}

/** Far apart enough that no number of joints outweighs a roll, and no metres a joint. */
const ROLL_RANK = 1e12;
const JOINT_RANK = 1e6;
