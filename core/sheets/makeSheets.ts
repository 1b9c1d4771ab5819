// In: courses and the cuts of their runs. Out: the sheets, each with its place, its name and its cut.
import type { RoofPoint, Span } from '../geometry/points';
import { GRID_MM } from '../geometry/tolerances';
import type { CourseCut } from './cutCourses';
import { toRoof } from './frame';
import type { Course, Frame, LayoutSpec, Sheet } from './types';

export function makeSheets(
  frame: Frame,
  courses: readonly Course[],
  cuts: readonly CourseCut[],
  { prefix, lap }: Pick<LayoutSpec, 'prefix' | 'lap'>,
): Sheet[] {
  const digits = Math.max(2, String(courses.length).length);
  const partsBefore = new Map<number, number>();
  const runsBefore = new Map<number, number>();
  const sheets: Sheet[] = [];
  for (const { run, from, pieces } of cuts) {
    const course = courses[run.course - 1] as Course;
    const runNumber = (runsBefore.get(run.course) ?? 0) + 1;
    runsBefore.set(run.course, runNumber);
    const across: Span = [course.low, course.low + course.width];
    let start = from;
    for (const piece of pieces) {
      const part = (partsBefore.get(run.course) ?? 0) + 1;
      partsBefore.set(run.course, part);
      const along: Span = [start, onGrid(start + piece.length)];
      sheets.push({
        id: `${prefix}C${String(run.course).padStart(digits, '0')}.${part}`,
        band: course.band,
        course: run.course,
        run: runNumber,
        part,
        corners: corners(frame, along, across),
        along,
        across,
        width: course.width,
        length: piece.length,
        longEdges: slitEdges(piece.lane, course),
        cut: { roll: `${prefix}R${piece.roll + 1}`, start: piece.start, lane: piece.lane },
      });
      start = onGrid(along[1] - lap.endLap);
    }
  }
  return sheets;
}

const onGrid = (mm: number) => Math.round(mm / GRID_MM) / Math.round(1 / GRID_MM);

function corners(frame: Frame, along: Span, across: Span): RoofPoint[] {
  return [
    toRoof(frame, [along[0], across[0]]),
    toRoof(frame, [along[1], across[0]]),
    toRoof(frame, [along[1], across[1]]),
    toRoof(frame, [along[0], across[1]]),
  ];
}

/** Slitting leaves a factory edge only on the outermost lanes. */
function slitEdges(lane: number, { width, lanes }: Course): Sheet['longEdges'] {
  if (lanes === 1) return ['factory', 'factory'];
  const number = Math.round(lane / width);
  return [number === 0 ? 'factory' : 'cut', number === lanes - 1 ? 'factory' : 'cut'];
}
