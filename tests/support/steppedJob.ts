// A job that forbids joints, of a roof like a flight of steps, on which cutting in haste takes a roll more than it
// need.
import { packJob } from '../../core/job/container';
import { estimate } from '../../core/job/estimate';
import type { Job } from '../../core/job/schema';
import type { RoofPoint } from '../../core/geometry/points';
import { jobOfRoof } from './jobs';
import { built, roofSpec } from './roofs';

/** Lengths of its runs, m. They make 179 m, so that no fewer than six rolls of 30 m will do (by hand). */
const RUNS = [19, 16, 15, 15, 13, 13, 12, 11, 10, 9, 9, 7, 7, 7, 6, 6, 4];
export const FEWEST_ROLLS = 6;
/** Of a sheet 3 m wide. */
const COVER_MM = 2880;

/** Each course is as long as its step. */
function steps(): RoofPoint[] {
  const corners: RoofPoint[] = [[0, 0]];
  RUNS.forEach((metres, k) => {
    const before = corners[corners.length - 1] as RoofPoint;
    if (before[0] === metres * 1000) corners.pop();
    else corners.push([metres * 1000, k * COVER_MM]);
    corners.push([metres * 1000, (k + 1) * COVER_MM]);
  });
  return [...corners, [0, RUNS.length * COVER_MM]];
}

function steppedJob(): Job {
  const job = jobOfRoof(built(roofSpec(steps())), { direction: 0, firstCourse: 0, closing: null });
  const roll = job.rates.rolls.find(({ width, length }) => width === 3000 && length === 30_000);
  return { ...job, system: { ...job.system, roll: roll?.id ?? '', sideLap: 120, joints: 'forbidden' } };
}

/** The job's file, and how many rolls it takes where no solver is at hand. */
export function steppedFile(): { readonly bytes: Uint8Array; readonly inHaste: number } {
  const job = steppedJob();
  return {
    bytes: packJob(job, new Map()),
    inHaste: estimate(job).roofs[0]?.layout?.cutList.rolls.length ?? 0,
  };
}
