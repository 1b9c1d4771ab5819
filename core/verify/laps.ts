// Laps and pieces, from the sheets' corners alone.
import type { Flat, Rect } from './cover';
import { isOnRoof, ringsOf } from './evidence';
import { TOLERANCE_MM } from './rules';
import type { BandSeen, Evidence, Say } from './evidence';

/** Neighbouring courses overlap by at least the side lap wherever they lie beside each other. */
export function checkSideLaps({ given, bands }: Evidence, say: Say): void {
  for (const { rects, back } of bands) {
    const courses = byCourse(rects);
    for (const [course, row] of courses) {
      const above = courses.get(course + 1) ?? [];
      for (const a of row)
        for (const b of above) {
          const [from, to] = [Math.max(a.u0, b.u0), Math.min(a.u1, b.u1)];
          if (to - from < TOLERANCE_MM) continue;
          const overlap = a.v1 - b.v0;
          const at = back([(from + to) / 2, (a.v1 + b.v0) / 2]);
          if (overlap < given.rules.sideLap - TOLERANCE_MM)
            say(
              'short-side-lap',
              at,
              [a.id, b.id],
              `Sheets ${a.id} and ${b.id} lap by ${overlap.toFixed(1)} mm; the side lap is ${given.rules.sideLap} mm.`,
            );
          else if (overlap > given.rules.sideLap + TOLERANCE_MM)
            say(
              'wide-lap',
              at,
              [a.id, b.id],
              `Sheets ${a.id} and ${b.id} lap by ${overlap.toFixed(1)} mm, more than the ${given.rules.sideLap} mm asked for: to keep clear of something, or for a course of its least width.`,
            );
        }
    }
  }
}

/** Pieces of one run overlap by the end lap, or butt under a strip, and end laps of neighbouring courses stand apart. */
export function checkEndLaps({ given, bands }: Evidence, say: Say): void {
  const { endLap, endLapStagger } = given.rules.lap;
  for (const { rects, back } of bands) {
    const centres = new Map<number, { u: number; v: number; id: string }[]>();
    for (const [course, row] of byCourse(rects)) {
      row.sort((p, q) => p.u0 - q.u0);
      for (let i = 0; i + 1 < row.length; i++) {
        const [a, b] = [row[i] as Rect, row[i + 1] as Rect];
        const overlap = a.u1 - b.u0;
        if (overlap < -TOLERANCE_MM) continue;
        const middle = {
          u: (a.u1 + b.u0) / 2,
          v: (a.v0 + a.v1) / 2,
          id: `${a.id}/${b.id.split('.').pop() ?? ''}`,
        };
        centres.set(course, [...(centres.get(course) ?? []), middle]);
        if (overlap < endLap - TOLERANCE_MM)
          say(
            'short-end-lap',
            back([middle.u, middle.v]),
            [a.id, b.id],
            `Sheets ${a.id} and ${b.id} lap by ${overlap.toFixed(1)} mm at their ends; the end lap is ${endLap} mm.`,
          );
        else if (overlap > endLap + TOLERANCE_MM)
          say(
            'wide-lap',
            back([middle.u, middle.v]),
            [a.id, b.id],
            `Sheets ${a.id} and ${b.id} lap by ${overlap.toFixed(1)} mm at their ends, more than the ${endLap} mm asked for.`,
          );
      }
    }
    for (const [course, row] of centres)
      for (const a of row)
        for (const b of centres.get(course + 1) ?? []) {
          const apart = Math.abs(a.u - b.u);
          if (apart < endLapStagger - TOLERANCE_MM)
            say(
              'end-lap-stagger',
              back([(a.u + b.u) / 2, (a.v + b.v) / 2]),
              [a.id, b.id],
              `End laps ${a.id} and ${b.id} stand ${apart.toFixed(0)} mm apart; ${endLapStagger} mm is the least.`,
            );
        }
  }
}

/** Where a band ends on the rows along an edge, both lie on each other by the side lap; the rows are as asked for. */
export function checkRows({ given, bands, bandOf }: Evidence, say: Say): void {
  for (const edge of given.roof.edges) {
    if (!edge.perimeter || edge.perimeter.sheets === 0 || edge.ring !== 0) continue;
    const own = bands.filter(({ id }) => new RegExp(`^E${edge.number}[a-z]?$`).test(id));
    for (const { id, rects, back } of own) {
      const courses = new Set(rects.map(({ course }) => course));
      const wrong = rects.find((r) => Math.abs(r.v1 - r.v0 - (edge.perimeter?.width ?? 0)) > TOLERANCE_MM);
      if (courses.size !== edge.perimeter.sheets || wrong)
        say(
          // Where the roof is narrow there is no room for all of them.
          courses.size < edge.perimeter.sheets && !wrong ? 'edge-rows-missing' : 'edge-rows',
          rects[0] ? back([rects[0].u0, rects[0].v0]) : null,
          [id],
          `Along edge ${edge.number} lie ${courses.size} rows; ${edge.perimeter.sheets} of ${edge.perimeter.width} mm were asked for.`,
        );
    }
    const inward: Flat = [
      (edge.from[0] + edge.to[0]) / 2 - ((edge.to[1] - edge.from[1]) / edge.length) * BESIDE_MM,
      (edge.from[1] + edge.to[1]) / 2 + ((edge.to[0] - edge.from[0]) / edge.length) * BESIDE_MM,
    ];
    // Edges in line share their rows; where those of other edges meet there is no room.
    const rowed = bands.some(
      ({ id, rects, flat }) => id.startsWith('E') && rects.some((r) => holds(r, flat(inward))),
    );
    if (own.length === 0 && !rowed)
      say(
        'edge-rows-missing',
        edge.from,
        [edge.id],
        `Along edge ${edge.number} lie no rows; ${edge.perimeter.sheets} were asked for.`,
      );
  }
  const reach = given.rules.sideLap / 2 - TOLERANCE_MM;
  const rings = ringsOf(given.roof);
  for (const lap of given.seams.sideLaps) {
    const [first, second] = lap.between;
    if (bandOf.get(first) === bandOf.get(second) || lap.length < 2 * reach) continue;
    const length = Math.hypot(lap.to[0] - lap.from[0], lap.to[1] - lap.from[1]);
    const [nx, ny] = [-(lap.to[1] - lap.from[1]) / length, (lap.to[0] - lap.from[0]) / length];
    const middle: Flat = [(lap.from[0] + lap.to[0]) / 2, (lap.from[1] + lap.to[1]) / 2];
    // Along the very edge of the roof half of the lap is beyond it, and beside an expansion joint on its other side.
    const places = [-reach, reach]
      .map((by): Flat => [middle[0] + nx * by, middle[1] + ny * by])
      .filter((place) => isOnRoof(rings, place) && !isParted(given.roof, middle, place));
    const both = lap.between.every((id) => {
      const band = bandOf.get(id);
      return places.every((place) => band?.rects.some((r) => holds(r, band.flat(place))));
    });
    if (!both)
      say(
        'short-side-lap',
        middle,
        [...lap.between],
        `Sheets ${first} and ${second} do not lap by ${given.rules.sideLap} mm where one band ends on the other.`,
      );
  }
}

/** Whether a line that no sheet crosses lies between two places; such a line is carried on to the roof's edge. */
function isParted({ lines }: Evidence['given']['roof'], a: Flat, b: Flat): boolean {
  return lines.some(({ kind, from, to }) => {
    const side = ([x, y]: Flat) => (to[0] - from[0]) * (y - from[1]) - (to[1] - from[1]) * (x - from[0]);
    return kind !== 'valley' && side(a) * side(b) < 0;
  });
}

/** Along the line where a band ends on a row no four sheets come together: where a lap of the one meets the line no lap
 * of the other does. What of a sheet lies past the line is trimmed off, so the laps tell this and not the sheets. */
export function checkBandLines({ given, bandOf }: Evidence, say: Say): void {
  const meeting = new Map<string, { readonly at: Flat; groups: Set<string>[] }>();
  for (const lap of given.seams.sideLaps) {
    if (bandOf.get(lap.between[0]) === bandOf.get(lap.between[1])) continue;
    for (const at of [lap.from, lap.to]) {
      const key = `${Math.round(at[0])} ${Math.round(at[1])}`;
      const place = meeting.get(key) ?? { at, groups: [] };
      // Sheets on two sides of an expansion joint stand at one place without lying on each other.
      const touched = place.groups.filter((group) => lap.between.some((id) => group.has(id)));
      const joined = new Set([...touched.flatMap((group) => [...group]), ...lap.between]);
      place.groups = [...place.groups.filter((group) => !touched.includes(group)), joined];
      meeting.set(key, place);
    }
  }
  for (const { at, groups } of meeting.values())
    for (const ids of groups)
      if (ids.size >= 4)
        say('four-sheets', at, [...ids], `Four sheets come together here: ${[...ids].join(', ')}.`);
}

/** Beside an edge, mm. */
const BESIDE_MM = 10;

const holds = (r: Rect, [u, v]: Flat) =>
  u >= r.u0 - TOLERANCE_MM &&
  u <= r.u1 + TOLERANCE_MM &&
  v >= r.v0 - TOLERANCE_MM &&
  v <= r.v1 + TOLERANCE_MM;

/** Pieces against the least length and the roll they are cut from. */
export function checkPieces({ given, bands, bandOf, rectOf }: Evidence, say: Say): void {
  const onRoll = new Map<string, { id: string; start: number; end: number; lane: number; width: number }[]>();
  const joined = new Set(bands.flatMap(({ rects }) => [...joinedSheets(rects)]));
  const { products } = given.rules;
  for (const sheet of given.sheets) {
    const r = rectOf.get(sheet.id) as Rect;
    const at = (bandOf.get(sheet.id) as BandSeen).back([(r.u0 + r.u1) / 2, (r.v0 + r.v1) / 2]);
    const length = r.u1 - r.u0;
    const comesOff = (product: { readonly width: number; readonly length: number }) =>
      sheet.cut.lane + r.v1 - r.v0 <= product.width + TOLERANCE_MM &&
      sheet.cut.start + length <= product.length + TOLERANCE_MM;
    if (!products.some(comesOff))
      say(
        'too-long',
        at,
        [sheet.id],
        `Sheet ${sheet.id} does not come off its roll: it is ${length.toFixed(0)} mm long from ${sheet.cut.start.toFixed(0)} mm.`,
      );
    if (joined.has(sheet.id) && length < given.rules.lap.minPiece - TOLERANCE_MM)
      say(
        'short-piece',
        at,
        [sheet.id],
        `Sheet ${sheet.id} is ${length.toFixed(0)} mm long; ${given.rules.lap.minPiece} mm is the least.`,
      );
    const pieces = onRoll.get(sheet.cut.roll) ?? [];
    pieces.push({
      id: sheet.id,
      start: sheet.cut.start,
      end: sheet.cut.start + length,
      lane: sheet.cut.lane,
      width: r.v1 - r.v0,
    });
    onRoll.set(sheet.cut.roll, pieces);
  }
  for (const [roll, pieces] of onRoll) {
    pieces.sort((p, q) => p.start - q.start);
    pieces.forEach((p, i) => {
      const clash = pieces
        .slice(i + 1)
        .find(
          (q) =>
            q.start < p.end - TOLERANCE_MM &&
            q.lane < p.lane + p.width - TOLERANCE_MM &&
            p.lane < q.lane + q.width - TOLERANCE_MM,
        );
      if (clash)
        say(
          'roll-overlap',
          null,
          [p.id, clash.id],
          `Sheets ${p.id} and ${clash.id} are cut from the same stretch of roll ${roll}.`,
        );
    });
  }
}

/** Sheets that lap or touch another of their course: those that are pieces of a longer run. */
function joinedSheets(rects: readonly Rect[]): ReadonlySet<string> {
  const joined = new Set<string>();
  for (const row of byCourse(rects).values()) {
    row.sort((p, q) => p.u0 - q.u0);
    row.slice(1).forEach((b, i) => {
      const a = row[i] as Rect;
      if (a.u1 < b.u0 - TOLERANCE_MM) return;
      joined.add(a.id);
      joined.add(b.id);
    });
  }
  return joined;
}

function byCourse(rects: readonly Rect[]): Map<number, Rect[]> {
  const courses = new Map<number, Rect[]>();
  for (const rect of rects) {
    const row = courses.get(rect.course);
    if (row) row.push(rect);
    else courses.set(rect.course, [rect]);
  }
  return courses;
}
