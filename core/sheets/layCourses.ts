// In: the extent across the courses of what must be covered, the rolls and the lay rules. Out: the courses, numbered
// upwards from 1. Promise: together they cover that extent, each laps the next by exactly the side lap, and one
// course fewer would not reach. A closing sheet is used for the last course only where it is wide enough there.
import type { Span } from '../geometry/points';
import { COUNT_NOISE, GRID_MM } from '../geometry/tolerances';
import type { Closing, Course, LayRules, RollProduct } from './types';

export function layCourses(
  across: Span,
  roll: RollProduct,
  closing: Closing | null,
  rules: Pick<LayRules, 'firstCourse' | 'sideLap'>,
): readonly Course[] {
  const cover = roll.width - rules.sideLap;
  const start = across[0] + rules.firstCourse;
  const count = Math.max(1, Math.ceil((across[1] - start - rules.sideLap) / cover - COUNT_NOISE));
  const courses = Array.from({ length: count }, (_, i) => ({
    band: 'F',
    index: i + 1,
    low: start + i * cover,
    width: roll.width,
    lapAbove: i + 1 < count ? rules.sideLap : 0,
    roll: roll.id,
    lanes: 1,
  }));
  const last = courses[count - 1] as Course;
  if (!closing || count === 1) return courses;
  const width = closing.kind === 'narrow' ? closing.roll.width : laneWidth(roll, closing.lanes);
  if (width < across[1] - last.low - COUNT_NOISE || width <= rules.sideLap) return courses;
  const closed =
    closing.kind === 'narrow'
      ? { ...last, width, roll: closing.roll.id }
      : { ...last, width, lanes: closing.lanes };
  return [...courses.slice(0, -1), closed];
}

/** Width of one of so many equal lanes, on the grid. */
export function laneWidth(roll: RollProduct, lanes: number): number {
  return Math.floor(roll.width / lanes / GRID_MM + COUNT_NOISE) / Math.round(1 / GRID_MM);
}
