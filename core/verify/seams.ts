// Seams against the roof's chords, drains and water, and fastener rows against their spacing.
import { chordLength, type Flat } from './cover';
import { DRAIN_CLEAR_MM, SEAM_TOLERANCE_MM, TOLERANCE_MM } from './rules';
import type { Evidence, Say } from './evidence';

/** The metres of side lap on each line are the roof's chord there; over sheets lie upslope. */
export function checkSeamMetres({ given, rects, rings, flat }: Evidence, say: Say): void {
  const rect = new Map(rects.map((r) => [r.id, r]));
  const onLine = new Map<number, number>();
  const down = given.downhill === null ? null : ((given.downhill - given.direction) * Math.PI) / 180;
  for (const lap of given.seams.sideLaps) {
    const [a, b] = lap.between.map((id) => rect.get(id));
    const at = flat(lap.from);
    if (!a || !b) {
      say('seam-sheets', at, [lap.id], `Side lap ${lap.id} names a sheet that is not in the layout.`);
      continue;
    }
    onLine.set(a.course, (onLine.get(a.course) ?? 0) + lap.length);
    if (down !== null && facesWater(lap.over === a.id ? 'lower' : 'higher', Math.sin(down)))
      say(
        'lap-faces-water',
        at,
        [lap.id],
        `Side lap ${lap.id} faces the water: the sheet downslope lies over.`,
      );
  }
  for (const lap of given.seams.endLaps) {
    const missing = lap.between.find((id) => !rect.has(id));
    if (missing)
      say(
        'seam-sheets',
        flat(lap.from),
        [lap.id],
        `End lap ${lap.id} names a sheet that is not in the layout.`,
      );
    else if (down !== null && facesWater(lap.over === lap.between[0] ? 'lower' : 'higher', Math.cos(down)))
      say(
        'lap-faces-water',
        flat(lap.from),
        [lap.id],
        `End lap ${lap.id} faces the water: the sheet downslope lies over.`,
      );
  }
  for (const [course, { low, high }] of lapStrips(rects)) {
    const v = (low + high) / 2;
    const sum = onLine.get(course) ?? 0;
    const chord = chordLength(rings, v);
    if (Math.abs(chord - sum) > SEAM_TOLERANCE_MM)
      say(
        'seam-metres',
        [(rings[0]?.[0] ?? [0, 0])[0], v],
        [],
        `Side laps over course ${course} come to ${sum.toFixed(1)} mm; the roof there is ${chord.toFixed(1)} mm long.`,
      );
  }
}

/** The strip that a course and the next one share, by the lower course. */
function lapStrips(rects: Evidence['rects']): Map<number, { readonly low: number; readonly high: number }> {
  const rows = new Map<number, { v0: number; v1: number }>();
  for (const { course, v0, v1 } of rects) rows.set(course, { v0, v1 });
  const strips = new Map<number, { low: number; high: number }>();
  for (const [course, row] of rows) {
    const above = rows.get(course + 1);
    if (above) strips.set(course, { low: above.v0, high: row.v1 });
  }
  return strips;
}

/** Water running up an axis makes the sheet lower on it the upslope one, which must lie over. */
function facesWater(over: 'lower' | 'higher', share: number): boolean {
  if (Math.abs(share) * 1000 < 1) return false;
  return share > 0 ? over === 'higher' : over === 'lower';
}

/** Laps near a drain's bowl; a target sheet takes them up where nothing else will. */
export function checkDrains({ given, flat }: Evidence, say: Say): void {
  for (const drain of given.roof.fittings.filter((f) => f.kind === 'drain')) {
    const bowl = flat(drain.at);
    for (const lap of [...given.seams.sideLaps, ...given.seams.endLaps]) {
      const apart = distanceTo(flat(lap.from), flat(lap.to), bowl) - lap.overlap / 2 - drain.size / 2;
      if (apart < DRAIN_CLEAR_MM)
        say(
          'lap-near-drain',
          bowl,
          [lap.id, drain.id],
          `The ${lap.kind === 'end' ? 'end' : 'side'} lap ${lap.id} lies ${apart < 0 ? 'over a drain' : `${apart.toFixed(0)} mm from a drain`}; ${DRAIN_CLEAR_MM} mm should stay clear, or a target sheet goes on.`,
        );
    }
  }
}

function distanceTo(a: Flat, b: Flat, p: Flat): number {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const square = dx * dx + dy * dy;
  const t = square === 0 ? 0 : Math.min(1, Math.max(0, ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / square));
  return Math.hypot(p[0] - a[0] - t * dx, p[1] - a[1] - t * dy);
}

/** No gap in a row wider than the spacing, and rows as long as what they hold. */
export function checkFasteners({ given, flat }: Evidence, say: Say): void {
  for (const row of given.rows) {
    const spacing = row.where === 'lap' ? given.spacing.inLap : given.spacing.atEdge;
    if (spacing === null) continue;
    const length = Math.hypot(row.to[0] - row.from[0], row.to[1] - row.from[1]);
    const tail = length - row.first - row.step * (row.count - 1);
    const widest = Math.max(row.first, row.count > 1 ? row.step : 0, tail);
    if (widest > spacing + TOLERANCE_MM)
      say(
        'fastener-gap',
        flat(row.from),
        [row.id],
        `A gap of ${widest.toFixed(0)} mm in ${row.id}; fasteners stand at most ${spacing} mm apart.`,
      );
  }
}
