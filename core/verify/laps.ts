// Laps and pieces, from the sheets' corners alone.
import type { Rect } from './cover';
import { TOLERANCE_MM } from './rules';
import type { Evidence, Say } from './evidence';

/** Neighbouring courses overlap by at least the side lap wherever they lie beside each other. */
export function checkSideLaps({ given, rects }: Evidence, say: Say): void {
  const courses = byCourse(rects);
  for (const [course, row] of courses) {
    const above = courses.get(course + 1) ?? [];
    for (const a of row)
      for (const b of above) {
        const [from, to] = [Math.max(a.u0, b.u0), Math.min(a.u1, b.u1)];
        if (to - from < TOLERANCE_MM) continue;
        const overlap = a.v1 - b.v0;
        const at = [(from + to) / 2, (a.v1 + b.v0) / 2] as const;
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
            `Sheets ${a.id} and ${b.id} lap by ${overlap.toFixed(1)} mm, more than the ${given.rules.sideLap} mm asked for.`,
          );
      }
  }
}

/** Pieces of one run overlap by the end lap, and end laps of neighbouring courses stand apart. */
export function checkEndLaps({ given, rects }: Evidence, say: Say): void {
  const { endLap, endLapStagger } = given.rules.lap;
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
          [middle.u, middle.v],
          [a.id, b.id],
          `Sheets ${a.id} and ${b.id} lap by ${overlap.toFixed(1)} mm at their ends; the end lap is ${endLap} mm.`,
        );
      else if (overlap > endLap + TOLERANCE_MM)
        say(
          'wide-lap',
          [middle.u, middle.v],
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
            [(a.u + b.u) / 2, (a.v + b.v) / 2],
            [a.id, b.id],
            `End laps ${a.id} and ${b.id} stand ${apart.toFixed(0)} mm apart; ${endLapStagger} mm is the least.`,
          );
      }
}

/** Pieces against the least length and the roll they are cut from. */
export function checkPieces({ given, rects }: Evidence, say: Say): void {
  const rect = new Map(rects.map((r) => [r.id, r]));
  const onRoll = new Map<string, { id: string; start: number; end: number; lane: number; width: number }[]>();
  const joined = joinedSheets(rects);
  const { products } = given.rules;
  for (const sheet of given.sheets) {
    const r = rect.get(sheet.id) as Rect;
    const at = [(r.u0 + r.u1) / 2, (r.v0 + r.v1) / 2] as const;
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
          (q) => q.start < p.end - TOLERANCE_MM && q.lane < p.lane + p.width && p.lane < q.lane + q.width,
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
