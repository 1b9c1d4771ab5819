// In: a layout and the roof under it. Out: side laps, end laps, T-joints and terminations. Promise: the side laps on
// one line are a partition of the roof's chord there (split where a neighbour changes, at the end lap's centre), so
// that nothing counts twice; every end lap counts across its sheet as far as there is roof under it.
import { chords, packRegion, type PackedRegion } from '../geometry/strips';
import type { RoofPoint, Span } from '../geometry/points';
import { NOISE_MM } from '../geometry/tolerances';
import type { Roof } from '../roof/types';
import { acrossShare, alongShare, frameOf, ringToFrame, toRoof } from '../sheets/frame';
import type { Course, Frame, Layout, Sheet } from '../sheets/types';
import type { EndLap, Seams, SideLap, TJoint } from './types';

export function findSeams(roof: Roof, layout: Layout): Seams {
  const rings = [roof.outline, ...roof.openings.map((o) => o.ring)];
  const region = packRegion(rings.map((ring) => ringToFrame(layout.frame, ring)));
  const rows = sheetsByCourse(layout);
  const lines = lapLines(layout.courses);
  const lineChords = chords(
    region,
    Float64Array.from(lines, (line) => line.v),
  );
  const sideLaps = lines.flatMap((line, i) => sideLapsOnLine(layout, rows, line, lineChords[i] as Span[]));
  const endLaps = findEndLaps(roof, layout, rows);
  return {
    sideLaps,
    endLaps,
    tJoints: findTJoints(layout, endLaps, sideLaps),
    terminations: roof.edges.map((edge) => ({
      id: `edge ${edge.id}`,
      edge: edge.id,
      from: edge.from,
      to: edge.to,
      length: edge.length,
    })),
  };
}

interface LapLine {
  readonly lower: number;
  readonly v: number;
  readonly overlap: number;
}

/** The centre lines of the laps between neighbouring courses. */
function lapLines(courses: readonly Course[]): LapLine[] {
  return courses.slice(0, -1).map((course) => ({
    lower: course.index,
    v: course.low + course.width - course.lapAbove / 2,
    overlap: course.lapAbove,
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
  layout: Layout,
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
        over: acrossShare(layout.frame, layout.rules.downhill ?? NaN) > NOISE_MM ? lower.id : upper.id,
        overlap: line.overlap,
        from: toRoof(layout.frame, [from, line.v]),
        to: toRoof(layout.frame, [to, line.v]),
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

function findEndLaps(roof: Roof, layout: Layout, rows: Map<number, Sheet[]>): EndLap[] {
  const pairs: { readonly first: Sheet; readonly second: Sheet; readonly centre: number }[] = [];
  for (const row of rows.values())
    for (let i = 0; i + 1 < row.length; i++) {
      const [first, second] = [row[i] as Sheet, row[i + 1] as Sheet];
      if (first.run === second.run)
        pairs.push({ first, second, centre: (second.along[0] + first.along[1]) / 2 });
    }
  // An end lap runs across the courses: in a frame turned by 90° it is a line like any other.
  const turned = turnedRegion(roof, layout.frame);
  const order = pairs
    .map((_, i) => i)
    .sort((a, b) => (pairs[a] as { centre: number }).centre - (pairs[b] as { centre: number }).centre);
  const found = chords(
    turned,
    Float64Array.from(order, (i) => (pairs[i] as { centre: number }).centre),
  );
  const downAlong = alongShare(layout.frame, layout.rules.downhill ?? NaN);
  const laps: EndLap[] = new Array<EndLap>(pairs.length);
  order.forEach((i, k) => {
    const { first, second, centre } = pairs[i] as (typeof pairs)[number];
    const [low, high] = first.across;
    const length = (found[k] as Span[]).reduce(
      (sum, [a, b]) => sum + Math.max(0, Math.min(-a, high) - Math.max(-b, low)),
      0,
    );
    laps[i] = {
      kind: 'end',
      id: `${first.id}/${second.part}`,
      between: [first.id, second.id],
      over: downAlong > NOISE_MM ? first.id : second.id,
      overlap: first.along[1] - second.along[0],
      from: toRoof(layout.frame, [centre, low]),
      to: toRoof(layout.frame, [centre, high]),
      length,
      course: first.course,
    };
  });
  return laps;
}

/** The roof in the frame turned by 90°: along is v, across is −u, so a lap across the courses at u is the line v = u. */
function turnedRegion(roof: Roof, frame: Frame): PackedRegion {
  const turned = frameOf(frame.direction - 90);
  const rings = [roof.outline, ...roof.openings.map((o) => o.ring)];
  return packRegion(rings.map((ring) => ringToFrame(turned, ring)));
}

function findTJoints(
  { frame, spec }: Layout,
  endLaps: readonly EndLap[],
  sideLaps: readonly SideLap[],
): TJoint[] {
  const byLine = new Map<number, SideLap[]>();
  for (const lap of sideLaps) {
    const list = byLine.get(lap.course);
    if (list) list.push(lap);
    else byLine.set(lap.course, [lap]);
  }
  const joints: TJoint[] = [];
  for (const end of endLaps)
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
