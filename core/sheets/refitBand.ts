// In: one band of a layout, turned for the roof as measured, and the sheets in it that lie. Out: its courses and the
// pieces of each run. Promise: courses stay where they are; a run begins and ends where the roof as measured does.
import type { RoofPoint, Span } from '../geometry/points';
import { isRow } from './bands';
import { spliceRules, steps } from './cutRuns';
import { toRoof } from './frame';
import { spanBand, type TurnedBand } from './layBands';
import { cutNewRun, refitRun, type Piece, type PieceRules } from './refitRun';
import type { Stretch } from './slide';
import type { ZonesKept } from './stagger';
import type { Course, Layout, RollProduct } from './types';

/** What could not be kept: lengths in mm, `at` on the roof. */
export type Unkept =
  | { readonly kind: 'lies elsewhere'; readonly sheet: string; readonly at: RoofPoint }
  | { readonly kind: 'stops short'; readonly sheet: string; readonly at: RoofPoint; readonly by: number }
  /** A run outgrew its roll where no end laps are wanted. */
  | { readonly kind: 'joint needed'; readonly course: number; readonly at: RoofPoint }
  | {
      readonly kind: 'beyond the courses';
      readonly band: string;
      readonly at: RoofPoint;
      readonly by: number;
    };

/** Sheets that lie, by name: from where to where along their course. */
export type Lying = ReadonlyMap<string, Span>;

/** mm: more than arithmetic, and no more than the verifier lets pass. */
export const SAME_MM = 0.15;

/** What end laps keep off while a layout is cut anew. */
export interface LapsKept {
  readonly zones: ZonesKept;
  /** Centres of laps by course, mm: as they were, and once a course has been cut as they are. */
  readonly standing: Map<number, readonly number[]>;
}

export interface RunPieces {
  readonly course: Course;
  readonly span: Span;
  readonly pieces: readonly Piece[];
}

export interface BandFit {
  readonly courses: readonly Course[];
  readonly runs: readonly RunPieces[];
}

export function refitBand(
  layout: Layout,
  turned: TurnedBand,
  bands: number,
  held: Lying,
  unkept: Unkept[],
  kept: LapsKept,
): BandFit {
  const { spec } = layout;
  const { band, packed } = turned;
  const own = placed(
    layout.courses.filter((course) => course.band === band.id),
    turned,
  );
  const courses = bands === 1 ? withOneMore(own, packed.v[1], spec.roll, spec.sideLap) : own;
  const [first, last] = [courses[0] as Course, courses.at(-1) as Course];
  const at = (v: number) => toRoof(band.frame, [(packed.u[0] + packed.u[1]) / 2, v]);
  for (const [by, v] of [
    [first.low - packed.v[0], packed.v[0]],
    [packed.v[1] - last.low - last.width, packed.v[1]],
  ] as const)
    // Rows along an edge end where the field begins; only outwards is there anything to miss.
    if (by > SAME_MM && !(isRow({ band: band.id }) && v === packed.v[1]))
      unkept.push({ kind: 'beyond the courses', band: band.id, at: at(v), by });
  const spans = spanBand(turned, courses, spec.lap, bands);
  const runs = courses.flatMap((course) => {
    const mine = spans.filter((run) => run.course === course.index).map(({ span }) => span);
    const fit = refitCourse(layout, course, mine, {
      held,
      unkept,
      turned,
      keptOff: keptOff(course, spec, kept),
    });
    kept.standing.set(
      course.index,
      fit.flatMap(({ pieces }) => centresOf(pieces)),
    );
    return fit;
  });
  return { courses: courses.filter(({ index }) => runs.some(({ course }) => course.index === index)), runs };
}

/** Rows along an edge go with it, unless sheets of them lie. */
function placed(courses: readonly Course[], { place: { along } }: TurnedBand): readonly Course[] {
  const shift = along ? along.low - (courses[0] as Course).low : 0;
  return shift === 0 ? courses : courses.map((course) => ({ ...course, low: course.low + shift }));
}

/** What a course's new laps keep off: its neighbours' laps as they stand now, and the zones of the roof. */
function keptOff({ index }: Course, { lap }: Layout['spec'], { zones, standing }: LapsKept): Stretch[][] {
  const beside = [index - 1, index + 1]
    .flatMap((course) => standing.get(course) ?? [])
    .map((centre): Stretch => [steps(centre - lap.endLapStagger), steps(centre + lap.endLapStagger)]);
  const laps = [...beside, ...(zones.laps.get(index) ?? [])];
  return [[...laps, ...(zones.advised.get(index) ?? [])], laps];
}

const centresOf = (pieces: readonly Piece[]) =>
  pieces.slice(1).map(({ along }, k) => ((pieces[k] as Piece).along[1] + along[0]) / 2);

/** Where the roof reaches beyond the last course a whole sheet more closes it; nothing is renumbered. */
function withOneMore(
  courses: readonly Course[],
  top: number,
  roll: RollProduct,
  sideLap: number,
): readonly Course[] {
  const last = courses.at(-1) as Course;
  if (top - last.low - last.width <= SAME_MM) return courses;
  const more: Course = {
    band: last.band,
    index: last.index + 1,
    number: last.number + 1,
    low: last.low + last.width - sideLap,
    width: roll.width,
    lapAbove: 0,
    nextOver: courses.at(-2)?.nextOver ?? last.nextOver,
    roll: roll.id,
    lanes: 1,
  };
  return [...courses.slice(0, -1), { ...last, lapAbove: sideLap }, more];
}

interface CourseFit {
  readonly keptOff: readonly (readonly Stretch[])[];
  readonly held: Lying;
  readonly unkept: Unkept[];
  readonly turned: TurnedBand;
}

function refitCourse(
  layout: Layout,
  course: Course,
  spans: readonly Span[],
  { held, unkept, turned, keptOff }: CourseFit,
): RunPieces[] {
  const { spec } = layout;
  const product = productOf(layout, course);
  const rules: PieceRules = {
    course: course.index,
    roll: product.length,
    endLap: spec.lap.endLap,
    minPiece: spec.lap.minPiece,
    splice: spliceRules(product, spec.lap),
    keptOff,
  };
  const rows = rowsOf(layout, course, held);
  const reach = matchSpans(rows, spans, rules.endLap);
  const found = rows.flatMap((pieces, k): RunPieces[] => {
    const span = reach[k] ?? null;
    // Nothing of the roof is left under this run: only what lies stays.
    if (span === null) {
      const lie = pieces.filter(({ lies }) => lies);
      return lie.length === 0 ? [] : [{ course, span: ends(lie), pieces: lie }];
    }
    const fit = refitRun(pieces, span, rules);
    const v = course.low + course.width / 2;
    fit.short.forEach((by, end) => {
      const piece = end === 0 ? fit.pieces[0] : fit.pieces.at(-1);
      if (by <= SAME_MM || !piece?.sheet) return;
      const at = toRoof(turned.band.frame, [piece.along[end as 0 | 1], v]);
      unkept.push({ kind: 'stops short', sheet: piece.sheet, at, by });
    });
    if (spec.lap.joints === 'forbidden' && fit.pieces.length > pieces.length)
      unkept.push({
        kind: 'joint needed',
        course: course.index,
        at: toRoof(turned.band.frame, [ends(fit.pieces)[1], v]),
      });
    return [{ course, span: ends(fit.pieces), pieces: fit.pieces }];
  });
  const fresh = spans
    .filter((span) => !rows.some((pieces) => meets(ends(pieces), span)))
    .map((span): RunPieces => {
      const pieces = cutNewRun(span, rules);
      return { course, span: ends(pieces), pieces };
    });
  return [...found, ...fresh].sort((a, b) => a.span[0] - b.span[0]);
}

/** The pieces of a course run by run; those that lie are as long as they were laid. */
function rowsOf({ sheets }: Layout, course: Course, held: Lying): Piece[][] {
  const rows = new Map<number, Piece[]>();
  for (const sheet of sheets) {
    if (sheet.course !== course.index) continue;
    const lies = held.get(sheet.id);
    const row = rows.get(sheet.run) ?? [];
    row.push({ sheet: sheet.id, along: lies ?? sheet.along, lies: lies !== undefined });
    rows.set(sheet.run, row);
  }
  return [...rows.values()]
    .map((row) => row.sort((a, b) => a.along[0] - b.along[0]))
    .sort((a, b) => ends(a)[0] - ends(b)[0]);
}

/** How far each run reaches now. Where an opening moved so that two runs became one, the first reaches to the second;
 * where it parts a run the sheets lie across it. */
function matchSpans(
  rows: readonly (readonly Piece[])[],
  spans: readonly Span[],
  endLap: number,
): readonly (Span | null)[] {
  return rows.map((pieces, k) => {
    const mine = spans.filter((span) => meets(ends(pieces), span));
    if (mine.length === 0) return null;
    const next = rows[k + 1];
    const before = rows[k - 1];
    const last = mine.at(-1) as Span;
    const first = mine[0] as Span;
    const goesOn = next !== undefined && meets(ends(next), last);
    const cameOn = before !== undefined && meets(ends(before), first);
    return [cameOn ? ends(pieces)[0] : first[0], goesOn ? ends(next)[0] + endLap : last[1]];
  });
}

const ends = (pieces: readonly Piece[]): Span => [
  (pieces[0] as Piece).along[0],
  (pieces.at(-1) as Piece).along[1],
];

const meets = (a: Span, b: Span) => Math.min(a[1], b[1]) > Math.max(a[0], b[0]);

export function productOf({ spec }: Layout, course: Course): RollProduct {
  const { roll, rolls, closing } = spec;
  const known = [roll, ...(closing?.kind === 'narrow' ? [closing.roll] : []), ...rolls];
  return known.find(({ id }) => id === course.roll) ?? roll;
}
