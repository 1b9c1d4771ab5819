// Seams against the roof's chords, and fastener rows against their spacing.
import { chordLength, lengthOf, meet, stretches, union, type Flat } from './cover';
import { SEAM_TOLERANCE_MM, TOLERANCE_MM } from './rules';
import type { BandSeen, Evidence, Say } from './evidence';

/** The metres of side lap on each line are the roof's chord there. */
export function checkSeamMetres({ given, bands, bandOf, rectOf }: Evidence, say: Say): void {
  const onLine = new Map<string, number>();
  for (const lap of [...given.seams.sideLaps, ...given.seams.endLaps]) {
    const [first, second] = lap.between;
    const rect = rectOf.get(first);
    if (!rect || !rectOf.has(second)) {
      const kind = lap.kind === 'end' ? 'End' : 'Side';
      say(
        'seam-sheets',
        lap.from,
        [lap.id],
        `${kind} lap ${lap.id} names a sheet that is not in the layout.`,
      );
    } else if (lap.kind === 'side' && bandOf.get(first) === bandOf.get(second)) {
      const line = `${bandOf.get(first)?.id} ${rect.course}`;
      onLine.set(line, (onLine.get(line) ?? 0) + lap.length);
    }
  }
  for (const band of bands)
    for (const [course, { low, high }] of lapStrips(band.rects)) {
      const v = (low + high) / 2;
      const sum = onLine.get(`${band.id} ${course}`) ?? 0;
      const [least, most] =
        bands.length === 1
          ? Array<number>(2).fill(chordLength(band.rings, v))
          : shareOfLine(band, course, v, bands);
      if (sum < (least as number) - SEAM_TOLERANCE_MM || sum > (most as number) + SEAM_TOLERANCE_MM)
        say(
          'seam-metres',
          band.back([(band.rings[0]?.[0] ?? [0, 0])[0], v]),
          [],
          `Side laps over course ${course} come to ${sum.toFixed(1)} mm; the roof there is ${(most as number).toFixed(1)} mm long.`,
        );
    }
}

/** Where other bands lie too a line ends on one of them: at least what they leave free, at most what both courses
 * reach. */
function shareOfLine(
  band: BandSeen,
  course: number,
  v: number,
  bands: readonly BandSeen[],
): readonly [number, number] {
  const roof = stretches(band.rings, v);
  const reach = (wanted: number) =>
    band.rects.filter((r) => r.course === wanted).map((r) => [r.u0, r.u1] as const);
  const both = meet(meet(roof, union(reach(course))), union(reach(course + 1)));
  const taken = bands
    .filter((other) => other !== band)
    .flatMap((other) =>
      other.rects.flatMap((r) => {
        const corners: Flat[] = [
          [r.u0, r.v0],
          [r.u1, r.v0],
          [r.u1, r.v1],
          [r.u0, r.v1],
        ];
        return stretches([corners.map((corner) => band.flat(other.back(corner)))], v);
      }),
    );
  const whole = lengthOf(both);
  return [whole - lengthOf(meet(both, union(taken))), whole];
}

/** The strip that a course and the next one share, by the lower course. */
function lapStrips(rects: BandSeen['rects']): Map<number, { readonly low: number; readonly high: number }> {
  const rows = new Map<number, { v0: number; v1: number }>();
  for (const { course, v0, v1 } of rects) rows.set(course, { v0, v1 });
  const strips = new Map<number, { low: number; high: number }>();
  for (const [course, row] of rows) {
    const above = rows.get(course + 1);
    if (above) strips.set(course, { low: above.v0, high: row.v1 });
  }
  return strips;
}

/** No gap in a row wider than the spacing, and rows as long as what they hold. */
export function checkFasteners({ given }: Evidence, say: Say): void {
  for (const row of given.rows) {
    const spacing = row.where === 'lap' ? given.spacing.inLap : given.spacing.atEdge;
    if (spacing === null) continue;
    const length = Math.hypot(row.to[0] - row.from[0], row.to[1] - row.from[1]);
    const tail = length - row.first - row.step * (row.count - 1);
    const widest = Math.max(row.first, row.count > 1 ? row.step : 0, tail);
    if (widest > spacing + TOLERANCE_MM)
      say(
        'fastener-gap',
        row.from,
        [row.id],
        `A gap of ${widest.toFixed(0)} mm in ${row.id}; fasteners stand at most ${spacing} mm apart.`,
      );
  }
}
