// In: the courses of a roof and its falls. Out: the courses with who lies over whom, and the order in which they are
// laid. Promise: the order of laying and the order of lapping are one thing: of two courses the one laid later lies
// over the other along the whole of their lap, for in-lap fastening puts the plates on the edge that is covered.
import type { RoofPoint } from '../geometry/points';
import { chords, packRegion } from '../geometry/strips';
import { NOISE_MM } from '../geometry/tolerances';
import type { Roof } from '../roof/types';
import { waterAlong } from '../roof/water';
import { acrossShare, ringToFrame, toFrame } from './frame';
import type { Band, Course, TradeRules } from './types';

/** As a person ordered them; else as the water asks, unless the job switches that rule off. */
export function whoLiesOver(
  roof: Roof,
  bands: readonly Band[],
  courses: readonly Course[],
  { order, off, strip }: TradeRules,
): readonly Course[] {
  if (order !== null) return courses.map((course) => ({ ...course, nextOver: order === 'up' }));
  return off.includes('sheds-water') ? courses : lapByWater(roof, bands, courses, strip !== null);
}

/** Which of two neighbours lies over is decided by the water along the whole lap; a sheet with one bare edge can only
 * be lapped onto there, so then all courses of a band lap the same way. */
function lapByWater(
  roof: Roof,
  bands: readonly Band[],
  courses: readonly Course[],
  oneWay: boolean,
): readonly Course[] {
  if (roof.facets.length === 0 && roof.fall === null) return courses;
  return bands.flatMap((band) => {
    const own = courses.filter((course) => course.band === band.id);
    const upward = waterUpCourses(roof, band, own);
    const sum = upward.reduce((total, flow) => total + flow, 0);
    return own.map((course, i) => {
      const flow = oneWay ? sum : (upward[i] ?? 0);
      return flow > NOISE_MM ? { ...course, nextOver: false } : course;
    });
  });
}

/** For each lap how much water runs up the courses across it: mm of lap times the share of the fall, summed over the
 * planes of the roof that it crosses. Where planes overlap the first holds, as for a place on the roof. */
function waterUpCourses(roof: Roof, band: Band, courses: readonly Course[]): number[] {
  const lines = Float64Array.from(courses.slice(0, -1), (c) => c.low + c.width - c.lapAbove / 2);
  if (roof.facets.length === 0) {
    const share = acrossShare(band.frame, roof.fall?.downhill ?? NaN);
    return Array.from(lines, () => share);
  }
  const ground = packRegion(band.ground.map((ring) => ringToFrame(band.frame, ring)));
  const flat = (point: RoofPoint) => toFrame(band.frame, point);
  return waterAlong(roof, flat, lines, chords(ground, lines)).map((stretches) =>
    stretches.reduce(
      (sum, { span, downhill }) => sum + (span[1] - span[0]) * acrossShare(band.frame, downhill),
      0,
    ),
  );
}

/** Indices of courses in the order of laying: band after band, the rows along edges first, and under before over. */
export function layingOrder(bands: readonly Band[], courses: readonly Course[]): readonly number[] {
  const order: number[] = [];
  const edgesFirst = [...bands].sort(
    (a, b) => a.part - b.part || Number(a.kind === 'field') - Number(b.kind === 'field'),
  );
  for (const band of edgesFirst) {
    const own = courses.filter((course) => course.band === band.id);
    for (let i = 0; i < own.length;) {
      // Up to the next course that lies under the one above it: everything before hangs on that one.
      let low = i;
      while (low + 1 < own.length && !(own[low] as Course).nextOver) low++;
      for (let k = low; k >= i; k--) order.push((own[k] as Course).index);
      i = low + 1;
    }
  }
  return order;
}
