// In: the extent across the courses of what must be covered, the sheet's width and the lay rules. Out: the courses,
// numbered upwards from 1. Promise: together they cover that extent, each laps the next by exactly the side lap,
// and one course fewer would not reach.
import type { Span } from '../geometry/points';
import { COUNT_NOISE } from '../geometry/tolerances';
import type { Course, LayRules } from './types';

export function layCourses(
  across: Span,
  width: number,
  rules: Pick<LayRules, 'firstCourse' | 'sideLap'>,
): readonly Course[] {
  const cover = width - rules.sideLap;
  const start = across[0] + rules.firstCourse;
  const count = Math.max(1, Math.ceil((across[1] - start - rules.sideLap) / cover - COUNT_NOISE));
  return Array.from({ length: count }, (_, i) => ({
    band: 'F',
    index: i + 1,
    low: start + i * cover,
    width,
    lapAbove: i + 1 < count ? rules.sideLap : 0,
  }));
}
