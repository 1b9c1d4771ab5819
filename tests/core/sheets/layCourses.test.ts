// Where courses lie that cannot keep clear of everything, worked by hand.
import { describe, expect, it } from 'vitest';
import type { Span } from '../../../core/geometry/points';
import { chooseFirstCourse, layCourses } from '../../../core/sheets/layCourses';

describe('courses of 1.20 m lapped by 0.12 m, a valley at 2.64 m and an edge with no room beside it', () => {
  // A course that holds the valley's 2.34 … 2.94 m between its laps begins at 1.86 … 2.22 m, or so many times 1.08 m
  // from there: at −0.30 … 0.06 m. One that holds the edge's 0.70 … 1.60 m begins at 0.52 … 0.58 m. Never both.
  const valley: Span = [2340, 2940];
  const edge: Span = [700, 1600];
  const roll = { id: 'narrow', width: 1200, length: 30_000, cost: 0 };
  const lapsOf = (lines: readonly Span[], firm: readonly Span[]) => {
    const keep = { lines, firm, centres: [], minWidth: 0 };
    const firstCourse = chooseFirstCourse([0, 6000], roll.width, 120, keep);
    const courses = layCourses([0, 6000], roll, null, { firstCourse, sideLap: 120 }, keep);
    return courses
      .slice(0, -1)
      .map(({ low, width, lapAbove }): Span => [low + width - lapAbove, low + width]);
  };
  const touches = (laps: readonly Span[], [from, to]: Span) => laps.some(([a, b]) => a < to && b > from);

  it('either is kept clear of where it stands alone', () => {
    expect(touches(lapsOf([valley], [valley]), valley)).toBe(false);
    expect(touches(lapsOf([edge], []), edge)).toBe(false);
  });

  it('the valley is where both stand, whose lap would be a fault and not only slow', () => {
    const laps = lapsOf([edge, valley], [valley]);
    expect(touches(laps, valley)).toBe(false);
    expect(touches(laps, edge)).toBe(true);
  });
});
