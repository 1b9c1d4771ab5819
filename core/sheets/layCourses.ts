// In: the extent across the courses of what must be covered, the rolls, the lay rules, and where no side lap may lie.
// Out: the courses, numbered upwards from 1. Promise: together they cover that extent, each laps the next by the side
// lap, or by more only where a lap had to keep clear or a course would have been too narrow, and one course fewer
// would not reach. A closing sheet is used for the last course only where it is wide enough there.
import type { Span } from '../geometry/points';
import { COUNT_NOISE, GRID_MM, NOISE_MM } from '../geometry/tolerances';
import { NOTHING_KEPT, type KeepClear } from './keepClear';
import type { Closing, Course, LayRules, RollProduct } from './types';

export function layCourses(
  across: Span,
  roll: RollProduct,
  closing: Closing | null,
  rules: Pick<LayRules, 'firstCourse' | 'sideLap'>,
  keep: KeepClear = NOTHING_KEPT,
): readonly Course[] {
  const lows = placeLows(across, roll.width, rules, keep);
  const count = lows.length;
  const courses = lows.map((low, i): Course => ({
    band: 'F',
    index: i + 1,
    number: i + 1,
    low,
    width: roll.width,
    lapAbove: lapAbove(lows, i, roll.width, rules.sideLap),
    nextOver: true,
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
      : { ...last, width, lanes: closing.lanes, slit: true as const };
  return [...courses.slice(0, -1), closed];
}

/** The side lap itself where nothing widened it, so that no rounding shows. */
function lapAbove(lows: readonly number[], i: number, width: number, sideLap: number): number {
  if (i + 1 === lows.length) return 0;
  const lap = (lows[i] as number) + width - (lows[i + 1] as number);
  return Math.abs(lap - sideLap) < NOISE_MM ? sideLap : lap;
}

/** Width of one of so many equal lanes, on the grid. */
export function laneWidth(roll: RollProduct, lanes: number): number {
  return Math.floor(roll.width / lanes / GRID_MM + COUNT_NOISE) / Math.round(1 / GRID_MM);
}

/** The first-course offset that keeps most of what is to be kept clear, with the fewest courses and the least widened;
 * 0 where nothing asks for another. */
export function chooseFirstCourse(across: Span, width: number, sideLap: number, keep: KeepClear): number {
  const offsets = clearOffsets(across, width, sideLap, keep);
  const ranked = offsets.map((firstCourse) => ({
    firstCourse,
    rank: rankOf(across, width, { firstCourse, sideLap }, keep),
  }));
  return ranked.reduce((a, b) => (compare(b.rank, a.rank) < 0 ? b : a)).firstCourse;
}

/** Offsets in (−cover, 0] at which a lap just keeps clear, a course lies in the middle of a valley, or the last course
 * is just wide enough; 0 first. */
export function clearOffsets(across: Span, width: number, sideLap: number, keep: KeepClear): number[] {
  const cover = width - sideLap;
  const offsets = [0];
  const add = (low: number) => {
    const offset = -((((across[0] - low) % cover) + cover) % cover);
    offsets.push(onGrid(offset) <= -cover ? 0 : onGrid(offset) || 0);
  };
  for (const centre of keep.centres) add(centre - width / 2);
  for (const [from, to] of keep.lines) {
    add(from - width);
    add(to);
  }
  if (keep.minWidth > 0) add(across[1] - keep.minWidth);
  return [...new Set(offsets)];
}

const onGrid = (mm: number) => Math.floor(mm / GRID_MM + COUNT_NOISE) / Math.round(1 / GRID_MM);

/** Laps that don't keep clear, those that would be faults before all others, and courses too narrow; valleys not in the
 * middle of a course; courses; mm widened; how far the first course is shifted. */
export function rankOf(
  across: Span,
  width: number,
  rules: Pick<LayRules, 'firstCourse' | 'sideLap'>,
  keep: KeepClear,
): readonly number[] {
  const lows = placeLows(across, width, rules, keep);
  let [broken, widened] = [0, 0];
  for (let i = 0; i + 1 < lows.length; i++) {
    const strip: Span = [lows[i + 1] as number, (lows[i] as number) + width];
    if (hit(strip, keep.lines)) broken += hit(strip, keep.firm) ? FIRM_RANK : 1;
    widened += Math.max(0, strip[1] - strip[0] - rules.sideLap - NOISE_MM);
  }
  if (lows.length > 1 && keep.minWidth > 0) {
    if ((lows[0] as number) + width - across[0] < keep.minWidth - NOISE_MM) broken++;
    if (across[1] - (lows[lows.length - 1] as number) < keep.minWidth - NOISE_MM) broken++;
  }
  const off = keep.centres.filter(
    (v) => !lows.some((low) => Math.abs(low + width / 2 - v) <= OFF_CENTRE_MM),
  ).length;
  return [broken, off, lows.length, Math.round(widened), -rules.firstCourse];
}

/** A lap that is a fault weighs more than any number of laps that only lack room. */
const FIRM_RANK = 1000;

/** A valley this near to the middle of a course lies in the middle, mm. */
const OFF_CENTRE_MM = 100;

export function compare(a: readonly number[], b: readonly number[]): number {
  for (let i = 0; i < a.length; i++) {
    const difference = (a[i] as number) - (b[i] as number);
    if (difference !== 0) return difference;
  }
  return 0;
}

/** Low edges of the courses. Where the lap above a course would touch what is to be kept clear, the course is lowered
 * until its upper edge is below it; that widens the lap under it. */
function placeLows(
  across: Span,
  width: number,
  { firstCourse, sideLap }: Pick<LayRules, 'firstCourse' | 'sideLap'>,
  { lines, firm, minWidth }: KeepClear,
): number[] {
  const cover = width - sideLap;
  const start = across[0] + firstCourse;
  if (lines.length === 0 && minWidth === 0) {
    const count = Math.max(1, Math.ceil((across[1] - start - sideLap) / cover - COUNT_NOISE));
    return Array.from({ length: count }, (_, i) => start + i * cover);
  }
  const reaches = (low: number) => low + width >= across[1] - COUNT_NOISE * cover;
  const lows = [start];
  while (!reaches(lows[lows.length - 1] as number)) {
    const before = lows[lows.length - 1] as number;
    let low = before + cover;
    if (reaches(low)) low = balanced(low, before, across, sideLap, minWidth);
    else low = lowered(low, before, width, cover, lines) ?? lowered(low, before, width, cover, firm) ?? low;
    lows.push(low);
  }
  return lows;
}

/** The last course over at least the least width of roof. */
function balanced(low: number, before: number, across: Span, sideLap: number, minWidth: number): number {
  const wanted = across[1] - minWidth;
  return low <= wanted || wanted <= before + sideLap ? low : wanted;
}

/** null where no place below keeps clear of all. */
function lowered(
  low: number,
  before: number,
  width: number,
  cover: number,
  lines: readonly Span[],
): number | null {
  let at = low;
  for (let tries = 0; tries <= lines.length; tries++) {
    const over: Span = [at + cover, at + width];
    const touched = lines.filter((line) => overlaps(over, line));
    if (touched.length === 0) break;
    at = Math.min(...touched.map(([from]) => from)) - width;
  }
  const kept = at > before + (width - cover) && !hit([at, before + width], lines);
  return kept ? at : null;
}

/** Whether a strip touches one of the stretches, which ascend and lie apart. */
function hit([a, b]: Span, lines: readonly Span[]): boolean {
  let [low, high] = [0, lines.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((lines[middle] as Span)[1] - NOISE_MM > a) high = middle;
    else low = middle + 1;
  }
  const next = lines[low];
  return next !== undefined && b > next[0] + NOISE_MM;
}

const overlaps = ([a, b]: Span, [from, to]: Span) => a < to - NOISE_MM && b > from + NOISE_MM;
