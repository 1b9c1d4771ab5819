// In: a layout and the roof under it. Out: side laps, end laps, T-joints and terminations. Promise: the side laps on
// one line are a partition of the roof's chord there (split where a neighbour changes, at the end lap's centre), so
// that nothing counts twice; every end lap counts across its sheet as far as there is roof under it.
import { chords, packRegion, type PackedRegion } from '../geometry/strips';
import type { RoofPoint, RoofRing, Span } from '../geometry/points';
import { NOISE_MM } from '../geometry/tolerances';
import type { Roof } from '../roof/types';
import { waterAt } from '../roof/water';
import { alongShare, frameOf, ringToFrame, toRoof } from '../sheets/frame';
import type { Band, Course, Frame, Layout, Sheet } from '../sheets/types';
import { findBandLaps } from './findBandLaps';
import { findSlits } from './findSlits';
import { findTargets } from './findTargets';
import type { EndLap, Seams, SideLap, TJoint } from './types';

export function findSeams(roof: Roof, layout: Layout): Seams {
  const rows = sheetsByCourse(layout);
  const sideLaps: SideLap[] = [];
  const endLaps: EndLap[] = [];
  for (const band of layout.bands) {
    const courses =
      layout.bands.length === 1 ? layout.courses : layout.courses.filter((c) => c.band === band.id);
    const lines = lapLines(courses);
    const region = packRegion(band.ground.map((ring) => ringToFrame(band.frame, ring)));
    const found = chords(
      region,
      Float64Array.from(lines, (line) => line.v),
    );
    lines.forEach((line, i) => sideLaps.push(...sideLapsOnLine(band.frame, rows, line, found[i] as Span[])));
    endLaps.push(...findEndLaps(roof, layout, band, courses, rows));
  }
  const inCourses = findTJoints(layout, endLaps, sideLaps);
  const between = findBandLaps(roof, layout, [...sideLaps, ...endLaps], inCourses.length);
  const laps = between.laps.length === 0 ? sideLaps : [...sideLaps, ...between.laps];
  return {
    sideLaps: laps,
    endLaps,
    tJoints: between.laps.length === 0 ? inCourses : [...inCourses, ...between.tJoints],
    terminations: roof.edges.map((edge) => ({
      id: `edge ${edge.id}`,
      edge: edge.id,
      from: edge.from,
      to: edge.to,
      length: edge.length,
    })),
    targets: findTargets(roof, layout, laps, endLaps),
    slits: findSlits(roof, layout),
    cutEdge: layout.spec.trade.reinforced ? shownCutEdge(layout, laps, endLaps) : 0,
  };
}

/** Cut edges that lie on top: the end of the over sheet at every end lap, and a slit edge that laps over. */
function shownCutEdge(
  { sheets, spec }: Layout,
  sideLaps: readonly SideLap[],
  endLaps: readonly EndLap[],
): number {
  const slit = new Map(sheets.filter((s) => s.longEdges.includes('cut')).map((s) => [s.id, s]));
  const side = sideLaps.reduce((sum, lap) => {
    const over = slit.get(lap.over);
    if (!over) return sum;
    const edge = lap.between[1] === lap.over ? over.longEdges[0] : over.longEdges[1];
    return edge === 'cut' ? sum + lap.length : sum;
  }, 0);
  // Butted ends lie under their strip.
  const ends = spec.trade.strip === null ? endLaps.reduce((sum, lap) => sum + lap.length, 0) : 0;
  return side + ends;
}

interface LapLine {
  readonly lower: number;
  readonly v: number;
  readonly overlap: number;
  readonly nextOver: boolean;
}

/** The centre lines of the laps between neighbouring courses. */
function lapLines(courses: readonly Course[]): LapLine[] {
  return courses.slice(0, -1).map((course) => ({
    lower: course.index,
    v: course.low + course.width - course.lapAbove / 2,
    overlap: course.lapAbove,
    nextOver: course.nextOver,
  }));
}

function sheetsByCourse(layout: Layout): Map<number, Sheet[]> {
  const rows = new Map<number, Sheet[]>();
  for (const sheet of layout.sheets) {
    const row = rows.get(sheet.course);
    if (row) row.push(sheet);
    else rows.set(sheet.course, [sheet]);
  }
  return rows;
}

function sideLapsOnLine(
  frame: Frame,
  rows: Map<number, Sheet[]>,
  line: LapLine,
  spans: readonly Span[],
): SideLap[] {
  const below = owners(rows.get(line.lower) ?? []);
  const above = owners(rows.get(line.lower + 1) ?? []);
  const seen = new Map<string, number>();
  const laps: SideLap[] = [];
  for (const span of spans) {
    const cuts = [...new Set([...below, ...above].flatMap(({ from, to }) => [from, to]))]
      .filter((u) => u > span[0] + NOISE_MM && u < span[1] - NOISE_MM)
      .sort((a, b) => a - b);
    const stops = [span[0], ...cuts, span[1]];
    for (let k = 0; k + 1 < stops.length; k++) {
      const [from, to] = [stops[k] as number, stops[k + 1] as number];
      const middle = (from + to) / 2;
      const lower = ownerAt(below, middle);
      const upper = ownerAt(above, middle);
      if (!lower || !upper) continue;
      const pair = `${lower.id}|${upper.id}`;
      const times = (seen.get(pair) ?? 0) + 1;
      seen.set(pair, times);
      laps.push({
        kind: 'side',
        id: times === 1 ? pair : `${pair}#${times}`,
        between: [lower.id, upper.id],
        over: line.nextOver ? upper.id : lower.id,
        overlap: line.overlap,
        from: toRoof(frame, [from, line.v]),
        to: toRoof(frame, [to, line.v]),
        length: to - from,
        course: line.lower,
      });
    }
  }
  return laps;
}

interface Owner {
  readonly id: string;
  readonly from: number;
  readonly to: number;
}

/** What of a line each sheet of a course answers for: up to the centres of its end laps. */
function owners(row: readonly Sheet[]): Owner[] {
  return row.map((sheet, i) => {
    const before = row[i - 1];
    const after = row[i + 1];
    return {
      id: sheet.id,
      from: before && before.run === sheet.run ? (sheet.along[0] + before.along[1]) / 2 : sheet.along[0],
      to: after && after.run === sheet.run ? (after.along[0] + sheet.along[1]) / 2 : sheet.along[1],
    };
  });
}

const ownerAt = (row: readonly Owner[], u: number) => row.find((owner) => owner.from <= u && u <= owner.to);

function findEndLaps(
  roof: Roof,
  { spec }: Layout,
  { frame, ground }: Band,
  courses: readonly Course[],
  rows: Map<number, Sheet[]>,
): EndLap[] {
  const pairs: { readonly first: Sheet; readonly second: Sheet; readonly centre: number }[] = [];
  for (const course of courses) {
    const row = rows.get(course.index) ?? [];
    for (let i = 0; i + 1 < row.length; i++) {
      const [first, second] = [row[i] as Sheet, row[i + 1] as Sheet];
      if (first.run === second.run)
        pairs.push({ first, second, centre: (second.along[0] + first.along[1]) / 2 });
    }
  }
  if (pairs.length === 0) return [];
  // An end lap runs across the courses: in a frame turned by 90° it is a line like any other.
  const turned = turnedRegion(ground, frame);
  const order = pairs
    .map((_, i) => i)
    .sort((a, b) => (pairs[a] as { centre: number }).centre - (pairs[b] as { centre: number }).centre);
  const found = chords(
    turned,
    Float64Array.from(order, (i) => (pairs[i] as { centre: number }).centre),
  );
  const sheds = !spec.trade.off.includes('sheds-water');
  const laps: EndLap[] = new Array<EndLap>(pairs.length);
  order.forEach((i, k) => {
    const { first, second, centre } = pairs[i] as (typeof pairs)[number];
    const [low, high] = first.across;
    const over = (found[k] as Span[])
      .map(([a, b]): Span => [Math.max(-b, low), Math.min(-a, high)])
      .filter(([a, b]) => b > a);
    const length = over.reduce((sum, [a, b]) => sum + b - a, 0);
    const [widest] = [...over].sort((a, b) => b[1] - b[0] - (a[1] - a[0]));
    const [from, to] = [toRoof(frame, [centre, low]), toRoof(frame, [centre, high])];
    const middle = widest ? (widest[0] + widest[1]) / 2 : (low + high) / 2;
    const water = sheds ? waterAt(roof, toRoof(frame, [centre, middle])) : null;
    laps[i] = {
      kind: 'end',
      id: `${first.id}/${second.part}`,
      between: [first.id, second.id],
      over: alongShare(frame, water ?? NaN) > NOISE_MM ? first.id : second.id,
      overlap: first.along[1] - second.along[0],
      from,
      to,
      length,
      course: first.course,
      welds: spec.trade.strip === null ? 1 : 2,
    };
  });
  return laps;
}

/** The roof in the frame turned by 90°: along is v, across is −u, so a lap across the courses at u is the line v = u. */
function turnedRegion(ground: readonly RoofRing[], frame: Frame): PackedRegion {
  const turned = frameOf(frame.direction - 90);
  return packRegion(ground.map((ring) => ringToFrame(turned, ring)));
}

function findTJoints(
  { bands, courses, spec }: Layout,
  endLaps: readonly EndLap[],
  sideLaps: readonly SideLap[],
): TJoint[] {
  const byLine = new Map<number, SideLap[]>();
  for (const lap of sideLaps) {
    const list = byLine.get(lap.course);
    if (list) list.push(lap);
    else byLine.set(lap.course, [lap]);
  }
  const frames = new Map(bands.map(({ id, frame }) => [id, frame]));
  const frameOfCourse = new Map(courses.map(({ index, band }) => [index, frames.get(band) as Frame]));
  const joints: TJoint[] = [];
  for (const end of endLaps) {
    const frame = frameOfCourse.get(end.course) as Frame;
    for (const line of [end.course - 1, end.course]) {
      const met = (byLine.get(line) ?? [])
        .map((side) => ({ side, at: whereMet(frame, end, side) }))
        .find(({ at }) => at !== null);
      if (met?.at)
        joints.push({
          id: `${spec.prefix}T${joints.length + 1}`,
          at: met.at,
          endLap: end.id,
          sideLap: met.side.id,
        });
    }
  }
  return joints;
}

/** Where an end lap's centre line meets a side lap's, or null. */
function whereMet(frame: Frame, end: EndLap, side: SideLap): RoofPoint | null {
  const along = ([x, y]: RoofPoint) => x * frame.cos + y * frame.sin;
  const u = along(end.from);
  const [from, to] = [along(side.from), along(side.to)];
  if (u < from - NOISE_MM || u > to + NOISE_MM || to === from) return null;
  const t = Math.min(1, Math.max(0, (u - from) / (to - from)));
  return [side.from[0] + (side.to[0] - side.from[0]) * t, side.from[1] + (side.to[1] - side.from[1]) * t];
}
