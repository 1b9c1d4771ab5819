// In: a roof and a layout's spec. Out: its courses, runs, sheets and cut list. Promise: the steps layCourses →
// spanCourses → cutRuns in one direction, or in the better of two: along the roof's longest edge and across it.
import { packRegion, type PackedRegion } from '../geometry/strips';
import type { RoofPoint, RoofRing, Span } from '../geometry/points';
import { GRID_MM, SAME_DIRECTION_DEG } from '../geometry/tolerances';
import { coveredRegion } from '../roof/coveredRegion';
import type { Roof } from '../roof/types';
import { areaBound } from './bounds';
import { cutRuns, listCuts, type CutMoney, type RunCuts } from './cutRuns';
import { frameOf, ringToFrame, toRoof } from './frame';
import { layCourses } from './layCourses';
import { spanCourses } from './spanCourses';
import type { Course, Frame, Layout, LayoutFault, LayoutSpec, LayRules, Run, Sheet } from './types';

export type Laid = { readonly layout: Layout } | { readonly faults: readonly LayoutFault[] };

/** `joint` is what one end lap costs in the money of `spec.roll.cost`; without it rolls decide, then joints. */
export function layRoof(roof: Roof, spec: LayoutSpec, joint: number | null = null): Laid {
  const money: CutMoney | null = joint === null ? null : { roll: spec.roll.cost, joint };
  const faults = specFaults(spec);
  if (faults.length > 0) return { faults };
  const region = coveredRegion(roof);
  const directions = spec.direction === 'auto' ? autoDirections(roof) : [spec.direction];
  let best: Attempt | null = null;
  const refused: LayoutFault[] = [];
  for (const direction of directions) {
    const attempt = layInDirection(roof, region, spec, direction, money);
    if ('fault' in attempt) refused.push(attempt.fault);
    else if (!best || isBetter(attempt, best, money)) best = attempt;
  }
  if (!best) return { faults: refused.slice(0, 1) };
  return { layout: finish(roof, spec, best, directions.length > 1) };
}

/** What is wrong with the rules themselves, before any roof is looked at. */
export function specFaults({ roll, sideLap, lap, firstCourse }: LayoutSpec): LayoutFault[] {
  const faults: LayoutFault[] = [];
  const fault = (where: string, message: string) => faults.push({ where, message });
  if (!(roll.width > 0 && roll.length > 0))
    fault('sheet', 'The roll has no width or no length. Give both in millimetres, above zero.');
  if (!(sideLap > 0))
    fault('sideLap', 'The side lap must be above zero. Give the lap that the system asks for.');
  if (!(lap.endLap > 0))
    fault('endLap', 'The end lap must be above zero. Give the lap that the system asks for.');
  if (sideLap >= roll.width)
    fault(
      'sideLap',
      `A side lap of ${sideLap} mm is as wide as the sheet (${roll.width} mm). Give a lap narrower than the sheet.`,
    );
  if (lap.endLap >= roll.length)
    fault(
      'endLap',
      `An end lap of ${lap.endLap} mm is as long as the roll (${roll.length} mm). Give a shorter lap.`,
    );
  if (lap.minPiece > roll.length)
    fault(
      'minPiece',
      `The shortest piece (${lap.minPiece} mm) is longer than the roll (${roll.length} mm). Give a shorter piece or a longer roll.`,
    );
  if (lap.endLapStagger < 0 || lap.minPiece < 0 || lap.cutAllowance < 0)
    fault(
      'laps',
      'Stagger, shortest piece and cutting allowance cannot be below zero. Type 0 where there is none.',
    );
  if (firstCourse !== null && !(firstCourse <= 0 && firstCourse > sideLap - roll.width))
    fault(
      'firstCourse',
      `The first course must begin between ${sideLap - roll.width} mm (not included) and 0 from the lowest point. Give an offset in that range.`,
    );
  return faults;
}

interface Attempt {
  readonly rules: LayRules;
  readonly frame: Frame;
  readonly courses: readonly Course[];
  readonly runs: readonly Run[];
  readonly cuts: RunCuts;
  /** mm of side lap, as a tie-break. */
  readonly across: number;
}

function layInDirection(
  roof: Roof,
  region: readonly RoofRing[],
  spec: LayoutSpec,
  direction: number,
  money: CutMoney | null,
): Attempt | { readonly fault: LayoutFault } {
  const frame = frameOf(direction);
  const packed = packInFrame(frame, region);
  const rules: LayRules = {
    direction,
    firstCourse: spec.firstCourse ?? 0,
    sideLap: spec.sideLap,
    downhill: roof.fall?.downhill ?? null,
  };
  const courses = layCourses(packed.v, spec.roll.width, rules);
  const runs = spanCourses(courses, packed, spec.lap);
  const cuts = cutRuns(runs, spec.roll, spec.lap, money);
  if ('fault' in cuts) return cuts;
  return {
    rules,
    frame,
    courses,
    runs,
    cuts,
    across: runs.reduce((sum, run) => sum + run.span[1] - run.span[0], 0),
  };
}

/** The region in the layout's frame, packed for the sweeps. */
export function packInFrame(frame: Frame, region: readonly RoofRing[]): PackedRegion {
  return packRegion(region.map((ring) => ringToFrame(frame, ring)));
}

function isBetter(a: Attempt, b: Attempt, money: CutMoney | null): boolean {
  if (money) {
    const [costA, costB] = [a, b].map(({ cuts }) => cuts.rolls * money.roll + cuts.joints * money.joint) as [
      number,
      number,
    ];
    if (costA !== costB) return costA < costB;
  }
  return (
    a.cuts.rolls - b.cuts.rolls < 0 ||
    (a.cuts.rolls === b.cuts.rolls && (a.cuts.joints - b.cuts.joints || a.across - b.across) < 0)
  );
}

/** Along the longest edge and across it, in [0, 180). */
export function autoDirections(roof: Roof): number[] {
  const longest = roof.edges
    .filter((e) => e.ring === 0)
    .reduce((a, b) => (b.length > a.length + GRID_MM ? b : a));
  const angle =
    (Math.atan2(longest.to[1] - longest.from[1], longest.to[0] - longest.from[0]) * 180) / Math.PI;
  const along = tidyAngle(((angle % 180) + 180) % 180);
  return [along, tidyAngle((along + 90) % 180)];
}

function tidyAngle(angle: number): number {
  const whole = Math.round(angle);
  return Math.abs(angle - whole) < SAME_DIRECTION_DEG ? whole % 180 : angle;
}

function finish(roof: Roof, spec: LayoutSpec, attempt: Attempt, chosen: boolean): Layout {
  const sheets = makeSheets(attempt, spec);
  const notes: string[] = [];
  if (chosen)
    notes.push(
      `Direction ${attempt.rules.direction.toFixed(1).replace(/\.0$/, '')}° was chosen: the better of the longest edge's and the one across it.`,
    );
  if (!roof.fall)
    notes.push('No fall was given: the higher course lies over the lower. Check this against the drains.');
  return {
    roof: roof.id,
    prefix: spec.prefix,
    rules: attempt.rules,
    frame: attempt.frame,
    courses: attempt.courses,
    runs: attempt.runs,
    sheets,
    cutList: listCuts(sheets, spec.roll, {
      lowerBound: attempt.cuts.lowerBound,
      areaBound: areaBound(roof.area, spec.roll),
    }),
    notes,
  };
}

function makeSheets({ frame, courses, cuts }: Attempt, { prefix, lap }: LayoutSpec): Sheet[] {
  const digits = Math.max(2, String(courses.length).length);
  const partsBefore = new Map<number, number>();
  const runsBefore = new Map<number, number>();
  const sheets: Sheet[] = [];
  for (const { run, from, pieces } of cuts.runs) {
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
        longEdges: ['factory', 'factory'],
        cut: { roll: `${prefix}R${piece.roll + 1}`, start: piece.start, lane: 0 },
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
