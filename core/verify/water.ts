// Laps against water, valleys and drains.
import type { EndLap, SideLap } from '../seams/types';
import type { Flat } from './cover';
import { distanceTo, isOnRoof, placesAlong, turnedBy, type Evidence, type Say, ringsOf } from './evidence';
import { ALONG_DEG, DRAIN_CLEAR_MM, OFF_CENTRE_MM, TOLERANCE_MM, VALLEY_CLEAR_MM } from './rules';

type Lap = SideLap | EndLap;

/** Places along a lap at which the water is looked at stand no further apart than this, mm. */
const LOOK_EVERY_MM = 1000;

/** Over sheets lie upslope: advice where not, an error near a drain or a valley. */
export function checkWater({ given, bandOf, rectOf }: Evidence, say: Say): void {
  const { roof, seams } = given;
  if (!roof.fall && roof.facets.length === 0) return;
  const rings = ringsOf(roof);
  for (const lap of [...seams.sideLaps, ...seams.endLaps]) {
    if (lap.kind === 'end' && given.rules.trade.strip !== null) continue;
    const [first, second] = lap.between;
    const band = bandOf.get(first);
    const [a, b] = [rectOf.get(first), rectOf.get(second)];
    if (!band || !a || !b || lap.length <= TOLERANCE_MM) continue;
    // The over sheet must lie upslope: seen from the lap, the sheet that goes under is where the water runs to.
    // Between bands only the row's sheet is sure to lie on its own side: the other may be trimmed off along the line.
    const towardsFirst = towards(lap, first, { bandOf, rectOf });
    const [tx, ty] =
      bandOf.get(second) === band
        ? towards(lap, second, { bandOf, rectOf })
        : [-towardsFirst[0], -towardsFirst[1]];
    const towardsUnder: Flat = lap.over === first ? [tx, ty] : towardsFirst;
    const facing = placesAlong(lap.from, lap.to, LOOK_EVERY_MM).filter((place) => {
      const water = waterHere(roof, place);
      if (water === null || !isOnRoof(rings, place)) return false;
      return water[0] * towardsUnder[0] + water[1] * towardsUnder[1] < -NOT_ACROSS;
    });
    const [worst] = facing;
    if (!worst) continue;
    const low = facing.find((place) => isLow(given, place));
    const which = lap.kind === 'end' ? 'End' : 'Side';
    say(
      low ? 'lap-faces-water-low' : 'lap-faces-water',
      low ?? worst,
      [lap.id],
      `${which} lap ${lap.id} faces the water${low ? ' beside a drain or a valley' : ''}: the sheet downslope, ${lap.over}, lies over.`,
    );
  }
}

/** Water that runs along a lap to within this sine does not run across it. */
const NOT_ACROSS = 0.001;

/** Unit vector across the lap towards one of its sheets. */
function towards(lap: Lap, id: string, { bandOf, rectOf }: Pick<Evidence, 'bandOf' | 'rectOf'>): Flat {
  const length = Math.hypot(lap.to[0] - lap.from[0], lap.to[1] - lap.from[1]) || 1;
  const normal: Flat = [-(lap.to[1] - lap.from[1]) / length, (lap.to[0] - lap.from[0]) / length];
  const rect = rectOf.get(id);
  const band = bandOf.get(id);
  if (!rect || !band) return normal;
  // Beside the lap in the middle of the sheet, or where the lap runs across it, at its end, in the middle of its length: a
  // sheet may reach past the lap's line, but not so far.
  const middle: Flat = [(lap.from[0] + lap.to[0]) / 2, (lap.from[1] + lap.to[1]) / 2];
  const [u, v] = band.flat(middle);
  const [from, to] = [band.flat(lap.from), band.flat(lap.to)];
  const across = Math.abs(to[1] - from[1]) > Math.abs(to[0] - from[0]);
  const centre = band.back([
    Math.min(rect.u1, Math.max(rect.u0, across ? (rect.u0 + rect.u1) / 2 : u)),
    Math.min(rect.v1, Math.max(rect.v0, across ? v : (rect.v0 + rect.v1) / 2)),
  ]);
  const side = (centre[0] - middle[0]) * normal[0] + (centre[1] - middle[1]) * normal[1];
  return side >= 0 ? normal : [-normal[0], -normal[1]];
}

function waterHere({ facets, fall }: Evidence['given']['roof'], place: Flat): Flat | null {
  const facet = facets.find(({ ring }) => isOnRoof([ring], place));
  const downhill = facet ? facet.downhill : fall?.downhill;
  if (downhill === undefined) return null;
  const angle = (downhill * Math.PI) / 180;
  return [Math.cos(angle), Math.sin(angle)];
}

function isLow({ roof }: Evidence['given'], place: Flat): boolean {
  return (
    roof.lines.some(
      (line) => line.kind === 'valley' && distanceTo(line.from, line.to, place) < VALLEY_CLEAR_MM,
    ) ||
    roof.fittings.some(
      (drain) =>
        drain.kind === 'drain' &&
        Math.hypot(drain.at[0] - place[0], drain.at[1] - place[1]) - drain.size / 2 <
          (drain.clear ?? DRAIN_CLEAR_MM),
    )
  );
}

/** No side lap along a valley, no end lap in it, one sheet in the middle of it. */
export function checkValleys({ given, bands }: Evidence, say: Say): void {
  for (const valley of given.roof.lines) {
    if (valley.kind !== 'valley') continue;
    for (const lap of [...given.seams.sideLaps, ...given.seams.endLaps]) {
      if (lap.length <= TOLERANCE_MM) continue;
      const along = lap.kind === 'side' && runAlong(lap, valley);
      if (lap.kind === 'side' && !along) continue;
      const apart = Math.min(...bothEdges(lap).map((edge) => between(edge, valley)));
      if (apart < VALLEY_CLEAR_MM - TOLERANCE_MM)
        say(
          'lap-in-valley',
          [(lap.from[0] + lap.to[0]) / 2, (lap.from[1] + lap.to[1]) / 2],
          [lap.id, valley.id],
          lap.kind === 'end'
            ? `End lap ${lap.id} lies in a valley; end laps keep ${VALLEY_CLEAR_MM} mm off it.`
            : `Side lap ${lap.id} runs along a valley; lay one sheet over its middle.`,
        );
    }
    for (const band of bands) {
      const [a, b] = [band.flat(valley.from), band.flat(valley.to)];
      if (!runAlong({ from: a, to: b }, { from: [0, 0], to: [1, 0] })) continue;
      const v = (a[1] + b[1]) / 2;
      const [u0, u1] = [Math.min(a[0], b[0]), Math.max(a[0], b[0])];
      const over = band.rects.filter((r) => r.v0 < v && r.v1 > v && r.u0 < u1 && r.u1 > u0);
      if (
        over.length > 0 &&
        !over.some((r) => Math.abs((r.v0 + r.v1) / 2 - v) <= OFF_CENTRE_MM + TOLERANCE_MM)
      )
        say(
          'valley-off-centre',
          valley.from,
          [valley.id],
          'No sheet lies over the middle of this valley. Shift the first course where the other rules allow it.',
        );
    }
  }
}

/** The two edges of a lap. */
function bothEdges({ from, to, overlap }: Lap): Stretch[] {
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]) || 1;
  const [nx, ny] = [-(to[1] - from[1]) / length, (to[0] - from[0]) / length];
  const moved = ([x, y]: Flat, by: number): Flat => [x + nx * by, y + ny * by];
  return [-overlap / 2, overlap / 2].map((by) => ({ from: moved(from, by), to: moved(to, by) }));
}

interface Stretch {
  readonly from: Flat;
  readonly to: Flat;
}

function runAlong(a: Stretch, b: Stretch): boolean {
  const [ax, ay] = [a.to[0] - a.from[0], a.to[1] - a.from[1]];
  const [bx, by] = [b.to[0] - b.from[0], b.to[1] - b.from[1]];
  const turn = Math.abs(ax * by - ay * bx);
  return turn <= Math.abs(ax * bx + ay * by) * Math.tan((ALONG_DEG * Math.PI) / 180);
}

/** Distance between two stretches. */
function between(a: Stretch, b: Stretch): number {
  const { flat } = turnedBy((Math.atan2(a.to[1] - a.from[1], a.to[0] - a.from[0]) * 180) / Math.PI);
  const [p, q, r, s] = [flat(a.from), flat(a.to), flat(b.from), flat(b.to)];
  const v = p[1];
  if ((r[1] - v) * (s[1] - v) < 0) {
    const u = r[0] + ((v - r[1]) / (s[1] - r[1])) * (s[0] - r[0]);
    if (u >= p[0] && u <= q[0]) return 0;
  }
  return Math.min(distanceTo(p, q, r), distanceTo(p, q, s), distanceTo(r, s, p), distanceTo(r, s, q));
}

/** Laps near a drain's bowl, where no target sheet takes them up. */
export function checkDrains({ given }: Evidence, say: Say): void {
  const { strip } = given.rules.trade;
  for (const drain of given.roof.fittings.filter((f) => f.kind === 'drain')) {
    const clear = drain.clear ?? DRAIN_CLEAR_MM;
    const target = given.seams.targets.find(
      ({ drain: id, at, side }) =>
        id === drain.id &&
        Math.hypot(at[0] - drain.at[0], at[1] - drain.at[1]) < TOLERANCE_MM &&
        side / 2 >= drain.size / 2 + clear,
    );
    if (target) continue;
    for (const lap of [...given.seams.sideLaps, ...given.seams.endLaps]) {
      if (lap.length <= TOLERANCE_MM) continue;
      const reach = lap.kind === 'end' && strip !== null ? strip / 2 : lap.overlap / 2;
      const apart = distanceTo(lap.from, lap.to, drain.at) - reach - drain.size / 2;
      if (apart < clear - TOLERANCE_MM)
        say(
          'lap-near-drain',
          drain.at,
          [lap.id, drain.id],
          `The ${lap.kind === 'end' ? 'end' : 'side'} lap ${lap.id} lies ${apart < 0 ? 'over a drain' : `${apart.toFixed(0)} mm from a drain`}; ${clear} mm stays clear, or a target sheet goes on.`,
        );
    }
  }
}
