// In: the bands of a roof, a direction, the rolls and the rules. Out: every band's courses and runs. Promise: courses
// count through all bands, the field's first, and skip one between bands; a run is divided where a person wants an
// end lap and both pieces stay long enough.
import { packRegion, type PackedRegion } from '../geometry/strips';
import type { RoofPoint, Span } from '../geometry/points';
import { GRID_MM } from '../geometry/tolerances';
import type { Roof } from '../roof/types';
import { SLIVER_MM, type BandPlace, type RowsAlong } from './bands';
import { fromSteps, steps } from './cutRuns';
import { frameOf, ringToFrame, toFrame } from './frame';
import { keepClearIn, merged, type KeepClear } from './keepClear';
import { chooseFirstCourse, laneWidth, layCourses } from './layCourses';
import { cornersOf, onBorder } from './bandCorners';
import { lapMiddles } from './rowSides';
import { spanCourses } from './spanCourses';
import type { Band, Closing, Course, Frame, LapRules, LayoutSpec, RollProduct, Run } from './types';

/** Bands in the frames that one direction gives them, with what has to be kept clear in each. */
export interface TurnedBand {
  readonly band: Band;
  readonly place: BandPlace;
  readonly packed: PackedRegion;
  readonly keep: KeepClear;
}

export function turnBands(
  roof: Roof,
  places: readonly BandPlace[],
  direction: number,
  { sideLap, trade }: Pick<LayoutSpec, 'sideLap' | 'trade'>,
): readonly TurnedBand[] {
  const field = frameOf(direction);
  const rowed = places.some(({ kind }) => kind !== 'field');
  const turned = places.map((place): TurnedBand => {
    const { along, ...rest } = place;
    const frame = along?.frame ?? field;
    const keep = keepClearIn(roof, frame, trade);
    return {
      band: { ...rest, frame },
      place,
      packed: packRegion(place.cover.map((ring) => ringToFrame(frame, ring))),
      keep: rowed && !along ? offRowCorners(keep, place, places, frame, sideLap) : keep,
    };
  });
  return turned.sort((a, b) => Number(a.place.kind !== 'field') - Number(b.place.kind !== 'field'));
}

/** Where rows along edges meet each other, or their laps end on the field, a lap of the field would make four sheets at a
 * point: its laps keep off the corners of its ground that lie within the roof, and off those ends. */
function offRowCorners(
  keep: KeepClear,
  field: BandPlace,
  places: readonly BandPlace[],
  frame: Frame,
  sideLap: number,
): KeepClear {
  const rows = places.filter(({ kind, part }) => kind !== 'field' && part === field.part);
  const met = onBorder(
    rows.flatMap(({ ground, along }) => cornersOf({ ground, ...lapsOfRows(along as RowsAlong, sideLap) })),
    field.ground,
  );
  const lines = met.map((point): Span => {
    const [, v] = toFrame(frame, point);
    return [v - sideLap / 2, v + sideLap / 2];
  });
  return { ...keep, lines: merged([...keep.lines, ...lines]), firm: merged([...keep.firm, ...lines]) };
}

const lapsOfRows = ({ frame, low, rows }: RowsAlong, sideLap: number) => ({
  frame,
  levels: lapMiddles(rows, sideLap).map((middle) => low + middle),
});

export interface LaidBands {
  readonly courses: readonly Course[];
  readonly runs: readonly Run[];
  /** The field's own, as chosen where none was given. */
  readonly firstCourse: number;
}

export interface BandRules {
  readonly roll: RollProduct;
  readonly rolls: readonly RollProduct[];
  readonly closing: Closing | null;
  readonly firstCourse: number | null;
  readonly sideLap: number;
  readonly lap: LapRules;
  readonly pins: readonly RoofPoint[];
}

export function layBands(bands: readonly TurnedBand[], rules: BandRules): LaidBands {
  const courses: Course[] = [];
  const runs: Run[] = [];
  const fields = bands.filter(({ place }) => place.kind === 'field').length;
  let chosen: number | null = null;
  let next = 0;
  for (const turned of bands) {
    const { packed, place, keep } = turned;
    let own: readonly Course[];
    if (place.along) own = edgeCourses(turned, rules);
    else {
      const firstCourse =
        rules.firstCourse ?? chooseFirstCourse(packed.v, rules.roll.width, rules.sideLap, keep);
      chosen ??= firstCourse;
      // What closes one course of several fields is not sought: each ends with a whole sheet.
      const closing = fields > 1 ? null : rules.closing;
      own = layCourses(packed.v, rules.roll, closing, { firstCourse, sideLap: rules.sideLap }, keep);
    }
    const { id } = turned.band;
    if (next > 0 || id !== 'F')
      own = own.map((course) => ({ ...course, band: id, index: next + course.number }));
    const spanned = spanBand(turned, own, rules.lap, bands.length);
    if (rules.pins.length === 0) runs.push(...spanned);
    else for (const run of spanned) runs.push(...divided(run, own, turned, rules));
    courses.push(...own);
    next += own.length + 1;
  }
  return { courses, runs, firstCourse: chosen ?? 0 };
}

/** What the courses of one of so many bands need without a break. */
export function spanBand(
  { packed }: Pick<TurnedBand, 'packed'>,
  courses: readonly Course[],
  lap: LapRules,
  bands: number,
): readonly Run[] {
  const runs = spanCourses(courses, packed, lap);
  return bands === 1 ? runs : runs.filter(({ span }) => span[1] - span[0] > SLIVER_MM).map(grown);
}

/** Clipping rounds corners to the grid; a run of a clipped band reaches past that, so that no roof is left bare. */
const grown = ({ course, span: [from, to] }: Run): Run => ({
  course,
  span: [from - 2 * GRID_MM, to + 2 * GRID_MM],
});

/** So many rows from the edge inwards, of a roll as wide as they are or of lanes slit from the field's. */
function edgeCourses({ place }: TurnedBand, { roll, rolls, sideLap }: BandRules): Course[] {
  const { rows, low } = place.along as RowsAlong;
  const product = rolls.find((other) => Math.abs(other.width - rows.width) < GRID_MM) ?? roll;
  const lanes = Math.max(1, Math.floor(product.width / rows.width));
  return Array.from({ length: rows.sheets }, (_, i) => ({
    band: place.id,
    index: i + 1,
    number: i + 1,
    low: low + i * (rows.width - sideLap),
    width: Math.min(rows.width, laneWidth(product, lanes)),
    lapAbove: i + 1 < rows.sheets ? sideLap : 0,
    nextOver: true,
    roll: product.id,
    lanes,
    ...(product.width - rows.width < GRID_MM ? {} : { slit: true as const }),
  }));
}

/** A run in the pieces that a person's end laps make of it, lapped by an end lap. */
function divided(
  run: Run,
  courses: readonly Course[],
  { band }: TurnedBand,
  { pins, lap }: BandRules,
): Run[] {
  const { low, width } = courses.find(({ index }) => index === run.course) as Course;
  const least = Math.max(lap.minPiece, 2 * lap.endLap);
  const half = lap.endLap / 2;
  const centres = pins
    .map((pin) => toFrame(band.frame, pin))
    .filter(([, v]) => v >= low && v < low + width)
    .map(([u]) => u)
    .sort((a, b) => a - b);
  const divided: Run[] = [];
  let from = run.span[0];
  for (const centre of centres) {
    if (centre + half - from < least || run.span[1] - (centre - half) < least) continue;
    const to = onGrid(centre + half);
    divided.push(piece(run, [from, to], divided.length > 0));
    from = onGrid(to - lap.endLap);
  }
  divided.push(piece(run, [from, run.span[1]], divided.length > 0));
  return divided;
}

const piece = (run: Run, span: Span, continues: boolean): Run =>
  continues ? { course: run.course, span, continues } : { course: run.course, span };

const onGrid = (mm: number) => fromSteps(steps(mm));
