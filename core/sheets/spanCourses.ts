// In: courses, and the region to cover in the layout's frame. Out: the runs: what one course needs without a break.
// Promise: the runs of a course are the merged shadow of (course strip ∩ region) along the course; gaps shorter
// than the shortest piece are bridged, since no piece could end and begin in so little.
import { stripSpans, type PackedRegion } from '../geometry/strips';
import type { Span } from '../geometry/points';
import { BORDER_MM } from '../geometry/tolerances';
import type { Course, LapRules, Run } from './types';

export function spanCourses(
  courses: readonly Course[],
  region: PackedRegion,
  rules: Pick<LapRules, 'minPiece' | 'cutAllowance'>,
): readonly Run[] {
  // Borders are drawn in by less than the grid, so that a corner turned onto a border adds no run of nothing.
  const lows = new Float64Array(courses.length);
  const highs = new Float64Array(courses.length);
  for (let i = 0; i < courses.length; i++) {
    const { low, width } = courses[i] as Course;
    lows[i] = low + BORDER_MM;
    highs[i] = low + width - BORDER_MM;
  }
  const runs: Run[] = [];
  stripSpans(region, lows, highs).forEach((spans, i) => {
    const course = (courses[i] as Course).index;
    for (const span of bridge(spans, rules)) runs.push({ course, span });
  });
  return runs;
}

function bridge(spans: readonly Span[], rules: Pick<LapRules, 'minPiece' | 'cutAllowance'>): Span[] {
  const bridged: [number, number][] = [];
  let end = -Infinity;
  for (const [from, to] of spans) {
    const last = bridged[bridged.length - 1];
    const grown = to + rules.cutAllowance;
    if (last && (from - end < rules.minPiece || from - rules.cutAllowance <= last[1])) last[1] = grown;
    else bridged.push([from - rules.cutAllowance, grown]);
    end = to;
  }
  return bridged;
}
