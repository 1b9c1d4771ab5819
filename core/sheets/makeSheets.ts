// In: bands, courses and the cuts of their runs. Out: the sheets, each with its place, its name and its cut. Promise:
// a slit sheet is turned so that its factory edge is the one that shows, where it has one.
import type { RoofPoint, Span } from '../geometry/points';
import type { CourseCut } from './cutCourses';
import { onGrid } from './cutRuns';
import { toRoof } from './frame';
import type { Band, Course, Frame, LayoutSpec, Sheet, TradeRules } from './types';

export function makeSheets(
  bands: readonly Band[],
  courses: readonly Course[],
  cuts: readonly CourseCut[],
  { prefix, lap, trade }: Pick<LayoutSpec, 'prefix' | 'lap' | 'trade'>,
): Sheet[] {
  const nameOf = sheetNames(prefix, courses);
  const byIndex = new Map(courses.map((course) => [course.index, course]));
  const frames = new Map(bands.map(({ id, frame }) => [id, frame]));
  const partsBefore = new Map<number, number>();
  const runsBefore = new Map<number, number>();
  const sheets: Sheet[] = [];
  for (const { run, from, pieces } of cuts) {
    const course = byIndex.get(run.course) as Course;
    const frame = frames.get(course.band) as Frame;
    const below = byIndex.get(run.course - 1);
    const runNumber = (runsBefore.get(run.course) ?? 0) + (run.continues ? 0 : 1);
    runsBefore.set(run.course, runNumber);
    const across: Span = [course.low, course.low + course.width];
    let start = from;
    for (const piece of pieces) {
      const part = (partsBefore.get(run.course) ?? 0) + 1;
      partsBefore.set(run.course, part);
      const along: Span = [start, onGrid(start + piece.length)];
      sheets.push({
        id: nameOf(course, part),
        band: course.band,
        course: run.course,
        run: runNumber,
        part,
        corners: cornersOf(frame, along, across),
        along,
        across,
        width: course.width,
        length: piece.length,
        longEdges: slitEdges(piece.lane, course, below),
        selvedge: selvedgeOf(course, trade),
        cut: { roll: `${prefix}R${piece.roll + 1}`, start: piece.start, lane: piece.lane },
      });
      start = onGrid(along[1] - lap.endLap);
    }
  }
  return sheets;
}

/** The name of a sheet by its course and its number in it: `C03.1`, in a row along an edge `E2-C01.1`. */
export function sheetNames(
  prefix: string,
  courses: readonly Course[],
): (course: Pick<Course, 'band' | 'number'>, part: number) => string {
  const digits = Math.max(2, String(courses.length).length);
  return ({ band, number }, part) =>
    `${prefix}${band === 'F' ? '' : `${band}-`}C${String(number).padStart(digits, '0')}.${part}`;
}

/** The one bare edge of a fleece-backed sheet is the one that the next sheet covers. */
export const selvedgeOf = ({ nextOver }: Course, { strip }: TradeRules): Sheet['selvedge'] =>
  strip === null ? null : nextOver ? 'high' : 'low';

export function cornersOf(frame: Frame, along: Span, across: Span): RoofPoint[] {
  return [
    toRoof(frame, [along[0], across[0]]),
    toRoof(frame, [along[1], across[0]]),
    toRoof(frame, [along[1], across[1]]),
    toRoof(frame, [along[0], across[1]]),
  ];
}

/** Slitting leaves a factory edge only on the outermost lanes. Either way round a lane fits, so its factory edge goes
 * where it shows: away from the neighbour that lies over it. */
export function slitEdges(
  lane: number,
  { width, lanes, nextOver, lapAbove, slit }: Course,
  below: Course | undefined,
): Sheet['longEdges'] {
  if (!slit) return ['factory', 'factory'];
  const number = Math.round(lane / width);
  if (lanes > 1 && number > 0 && number < lanes - 1) return ['cut', 'cut'];
  const lowShows = below !== undefined && below.nextOver;
  const highShows = lapAbove > 0 && !nextOver;
  return lowShows || !highShows ? ['factory', 'cut'] : ['cut', 'factory'];
}
