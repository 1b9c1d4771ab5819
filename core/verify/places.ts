// Laps and sheets against what stands on the roof: edges, openings' corners, lines that part the membrane, tall and
// live units, and the least width of a course.
import type { Flat, Rect } from './cover';
import {
  distanceTo,
  isOnRoof,
  placesAlong,
  type BandSeen,
  type Evidence,
  type Say,
  ringsOf,
} from './evidence';
import { ALONG_DEG, TOLERANCE_MM } from './rules';

/** No side lap where a machine has no room beside an edge that runs along it. */
export function checkBesideEdges({ given }: Evidence, say: Say): void {
  for (const edge of given.roof.edges) {
    if (edge.clear === 0) continue;
    const along: Flat = [
      (edge.to[0] - edge.from[0]) / edge.length,
      (edge.to[1] - edge.from[1]) / edge.length,
    ];
    for (const lap of given.seams.sideLaps) {
      const [dx, dy] = [lap.to[0] - lap.from[0], lap.to[1] - lap.from[1]];
      const length = Math.hypot(dx, dy);
      if (length <= TOLERANCE_MM) continue;
      const sine = Math.abs(dx * along[1] - dy * along[0]) / length;
      if (sine > Math.sin((ALONG_DEG * Math.PI) / 180)) continue;
      // On the inner side of the edge, and beside it rather than beyond its ends.
      const near = placesAlong(lap.from, lap.to, 250).find((place) => {
        const [px, py] = [place[0] - edge.from[0], place[1] - edge.from[1]];
        const inward = px * -along[1] + py * along[0];
        const onward = px * along[0] + py * along[1];
        return (
          onward >= 0 &&
          onward <= edge.length &&
          inward > TOLERANCE_MM &&
          inward - lap.overlap / 2 < edge.clear - TOLERANCE_MM
        );
      });
      if (near)
        say(
          'lap-along-edge',
          near,
          [lap.id, edge.id],
          `Side lap ${lap.id} runs within ${edge.clear} mm of edge ${edge.number}, where a machine has no room. Weld it by hand, or shift the courses.`,
        );
    }
  }
}

export function checkOpeningCorners({ given }: Evidence, say: Say): void {
  const { cornerClear } = given.rules.trade;
  if (cornerClear === 0) return;
  for (const opening of given.roof.openings)
    for (const corner of opening.ring)
      for (const lap of given.seams.endLaps) {
        if (lap.length <= TOLERANCE_MM) continue;
        const apart = distanceTo(lap.from, lap.to, corner) - lap.overlap / 2;
        if (apart < cornerClear - TOLERANCE_MM)
          say(
            'end-lap-near-corner',
            corner,
            [lap.id, opening.id],
            `End lap ${lap.id} lies ${Math.max(0, apart).toFixed(0)} mm from a corner of “${opening.name || opening.id}”; ${cornerClear} mm is the least. Move the lap along its course.`,
          );
      }
}

/** The first and the last course of a band lie over at least the least width of roof. */
export function checkLeastWidth({ given, bands }: Evidence, say: Say): void {
  const { minWidth } = given.rules.trade;
  // Beside rows along edges the field's extent is not the roof's.
  if (minWidth === 0 || bands.some(({ id }) => id.startsWith('E'))) return;
  for (const band of bands) {
    if (!band.id.startsWith('F') || band.rects.length === 0) continue;
    const lows = [...new Set(band.rects.map((r) => r.v0))].sort((a, b) => a - b);
    if (lows.length < 2) continue;
    const [bottom, top] = extentUnder(band, given.roof.edges);
    const first = band.rects.filter((r) => r.v0 === lows[0]);
    const last = band.rects.filter((r) => r.v0 === lows[lows.length - 1]);
    const widths = [
      { rects: first, width: Math.max(...first.map((r) => r.v1)) - bottom },
      { rects: last, width: top - Math.min(...last.map((r) => r.v0)) },
    ];
    for (const { rects, width } of widths)
      if (width < minWidth - TOLERANCE_MM)
        say(
          'narrow-course',
          band.back([(rects[0] as Rect).u0, (rects[0] as Rect).v0]),
          rects.map(({ id }) => id),
          `Only ${width.toFixed(0)} mm of this course lie over the roof; ${minWidth} mm is the least. Shift the first course or widen the lap beside it.`,
        );
  }
}

/** Across the courses, what a band's sheets lie over; a mitred corner reaches up to two allowances beyond the roof. */
function extentUnder(
  { rects, rings }: BandSeen,
  edges: Evidence['given']['roof']['edges'],
): [number, number] {
  const [low, high] = [Math.min(...rects.map((r) => r.v0)), Math.max(...rects.map((r) => r.v1))];
  const beyond = 2 * Math.max(0, ...edges.map(({ allowance }) => allowance));
  const vs = rings.flatMap((ring) => ring.map((p) => p[1]));
  return [Math.max(low, Math.min(...vs) - beyond), Math.min(high, Math.max(...vs) + beyond)];
}

/** Places beside a line stand this far off it and apart, mm. */
const BESIDE_MM = 10;
const EVERY_MM = 250;

/** On the two sides of an expansion joint, tie-in or phase line lie different sheets. What a sheet is trimmed off by may
 * lie on the other side, so a sheet crosses where it is the only one on both. */
export function checkLines({ given, bands }: Evidence, say: Say): void {
  const rings = ringsOf(given.roof);
  for (const line of given.roof.lines) {
    if (line.kind === 'valley') continue;
    const length = Math.hypot(line.to[0] - line.from[0], line.to[1] - line.from[1]);
    if (length === 0) continue;
    const left: Flat = [-(line.to[1] - line.from[1]) / length, (line.to[0] - line.from[0]) / length];
    const over = (at: Flat) =>
      bands.flatMap((band) => {
        const [u, v] = band.flat(at);
        return band.rects.filter((r) => r.u0 <= u && r.u1 >= u && r.v0 <= v && r.v1 >= v).map(({ id }) => id);
      });
    for (const place of placesAlong(line.from, line.to, EVERY_MM)) {
      const sides = [BESIDE_MM, -BESIDE_MM].map((by): Flat => [
        place[0] + left[0] * by,
        place[1] + left[1] * by,
      ]);
      if (!sides.every((at) => isOnRoof(rings, at))) continue;
      const ids = [...new Set(sides.flatMap(over))];
      const [across] = ids;
      if (ids.length !== 1 || across === undefined) continue;
      say(
        'crosses-line',
        place,
        [across, line.id],
        `Sheet ${across} crosses the ${LINE_WORDS[line.kind]} here. Sheets end on both sides of it.`,
      );
      break;
    }
  }
}

const LINE_WORDS = { expansion: 'expansion joint', 'tie-in': 'tie-in', phase: 'phase line' } as const;

/** A tall or live unit in the middle of a sheet is reached by a slit that is stripped, or by a lap. */
export function checkUnits({ given, bands }: Evidence, say: Say): void {
  const units = [
    ...given.roof.openings
      .filter(({ blocks }) => blocks)
      .map(({ id, name, blocks, ring }) => ({
        id,
        name: name || id,
        blocks,
        ring: ring as readonly Flat[],
        by: 0,
      })),
    ...given.roof.fittings
      .filter(({ blocks }) => blocks)
      .map(({ id, kind, blocks, at, size }) => ({
        id,
        name: kind,
        blocks,
        ring: [at as Flat],
        by: size / 2,
      })),
  ];
  for (const unit of units) {
    const seen = bands.flatMap((band) => {
      const flat = unit.ring.map(band.flat);
      const [us, vs] = [flat.map((p) => p[0]), flat.map((p) => p[1])];
      const [u0, u1] = [Math.min(...us) - unit.by, Math.max(...us) + unit.by];
      const [v0, v1] = [Math.min(...vs) - unit.by, Math.max(...vs) + unit.by];
      const over = band.rects.filter((r) => r.u0 <= u1 && r.u1 >= u0 && r.v0 <= v1 && r.v1 >= v0);
      return over.map((r) => ({ id: r.id, whole: r.u0 < u0 && r.u1 > u1 && r.v0 < v0 && r.v1 > v1 }));
    });
    const [only] = seen;
    const slit = given.seams.slits.some(
      (cut) => cut.unit === unit.id && seen.some(({ id }) => id === cut.sheet),
    );
    // Where several sheets reach a unit they come together round it.
    if (!only?.whole || seen.some(({ whole }) => !whole) || slit) continue;
    say(
      'dropped-over',
      unit.ring[0] ?? null,
      [only.id, unit.id],
      `Sheet ${only.id} would have to be dropped over “${unit.name}”, which is ${unit.blocks}. Split the course there, or slit the sheet to it and strip the slit.`,
    );
  }
}

/** An end lap lies where a person put one, or it is said that it does not. */
export function checkPins({ given }: Evidence, say: Say): void {
  const { lap, trade } = given.rules;
  for (const pin of trade.pins) {
    const kept = given.seams.endLaps.some(
      ({ from, to }) => distanceTo(from, to, pin) <= Math.max(1, lap.endLap / 2),
    );
    if (!kept)
      say(
        'pin-not-kept',
        pin,
        [],
        `The end lap that was put here is not laid: no course runs here, or a piece would be shorter than ${lap.minPiece} mm. Move it along its course, or take it away.`,
      );
  }
}
