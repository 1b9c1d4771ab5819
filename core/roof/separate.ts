// In: a region of the roof and the lines that no sheet crosses. Out: the parts they cut it into, lowest corner first.
// Promise: the parts cover the region and meet along the lines; a line that ends inside the region is carried on to
// the region's border or to the next such line, and one that ends at an opening and parts nothing is carried on beyond
// it, for a sheet could go round its end no better than across it.
import { meetRings, subtractRings } from '../geometry/clipping';
import type { FramePoint, RoofPoint, RoofRing } from '../geometry/points';
import { distance, nearestOn, ringHolds, signedArea } from '../geometry/ring';
import { chords, packRegion } from '../geometry/strips';
import type { LineKind, RoofLine } from './types';

type Region = readonly RoofRing[];

/** Lines that part the membrane. */
export const PARTING: ReadonlySet<LineKind> = new Set(['expansion', 'tie-in', 'phase']);

/** Half the width of the cut that is made along a line and closed again afterwards, mm. */
const HAIR_MM = 0.2;
/** Ends of lines nearer than this to another line are meant to meet it, mm. */
const MEETS_MM = 50;
/** How far a cut reaches beyond the border that it ends at, mm. */
const BEYOND_MM = 10;

export function separate(region: Region, lines: readonly RoofLine[]): readonly Region[] {
  const parting = lines.filter(
    (line) => PARTING.has(line.kind) && distance(line.from, line.to) > 2 * MEETS_MM,
  );
  if (parting.length === 0) return [region];
  let cuts: readonly Cut[] = [];
  let parts: readonly Region[] = [region];
  for (const line of parting)
    for (let beyond = 0; beyond <= MOST_BEYOND; beyond++) {
      const own = cutsOf(region, line, parting, beyond);
      if (own.length === 0) break;
      const tried = cutApart(region, [...cuts, ...own]);
      if (tried.length <= parts.length && beyond < MOST_BEYOND) continue;
      parts = tried;
      cuts = [...cuts, ...own];
      break;
    }
  return parts;
}

/** A part of one region as it shows in another: the roof under the membrane of a part. */
export function partOf(part: Region, within: Region): Region {
  return meetRings(
    within,
    part.filter((ring) => signedArea(ring) > 0),
  );
}

function cutApart(region: Region, cuts: readonly Cut[]): readonly Region[] {
  const pieces = subtractRings(
    region,
    cuts.map(({ from, to }) => hair(from, to)),
  );
  const sides = sidesOf(region);
  return grouped(pieces.map((ring) => ring.map((point) => restored(point, cuts, sides))));
}

/** Stretches of roof, beyond openings to either side, over which a line that parts nothing is carried on. */
const MOST_BEYOND = 4;

interface Cut {
  readonly from: RoofPoint;
  readonly to: RoofPoint;
}

/** The stretches of the region's chord that a line covers, each carried on to its ends. */
function cutsOf(region: Region, line: RoofLine, all: readonly RoofLine[], beyond: number): Cut[] {
  const length = distance(line.from, line.to);
  const [cos, sin] = [(line.to[0] - line.from[0]) / length, (line.to[1] - line.from[1]) / length];
  const flat = ([x, y]: RoofPoint): FramePoint => [x * cos + y * sin, y * cos - x * sin];
  const [start, v] = flat(line.from);
  const end = start + length;
  const others = all.filter((other) => other !== line);
  const at = (u: number): RoofPoint => [u * cos - v * sin, u * sin + v * cos];
  const stretches = chords(packRegion(region.map((ring) => ring.map(flat))), Float64Array.of(v))[0] ?? [];
  const stops = others.flatMap(({ from, to }) => crossingOf(flat(from), flat(to), v));
  const covered = stretches.map(([a, b]) => Math.min(b, end) - Math.max(a, start) > MEETS_MM);
  const [first, last] = [covered.indexOf(true), covered.lastIndexOf(true)];
  if (first < 0) return [];
  return stretches
    .filter((_, i) => covered[i] || (i < first && i >= first - beyond) || (i > last && i <= last + beyond))
    .map(([a, b]) => ({
      from: at(Math.max(a - BEYOND_MM, ...stops.filter((u) => u <= start + MEETS_MM && u < b)) - HAIR_MM),
      to: at(Math.min(b + BEYOND_MM, ...stops.filter((u) => u >= end - MEETS_MM && u > a)) + HAIR_MM),
    }));
}

/** Where another line, or its own end that only just misses, crosses the level v. */
function crossingOf(a: FramePoint, b: FramePoint, v: number): number[] {
  const [low, high] = a[1] <= b[1] ? [a, b] : [b, a];
  if (low[1] > v + MEETS_MM || high[1] < v - MEETS_MM) return [];
  const t = high[1] === low[1] ? 0 : Math.min(1, Math.max(0, (v - low[1]) / (high[1] - low[1])));
  return [low[0] + t * (high[0] - low[0])];
}

function hair(a: RoofPoint, b: RoofPoint): RoofRing {
  const length = distance(a, b);
  const [nx, ny] = [(-(b[1] - a[1]) / length) * HAIR_MM, ((b[0] - a[0]) / length) * HAIR_MM];
  return [
    [a[0] - nx, a[1] - ny],
    [b[0] - nx, b[1] - ny],
    [b[0] + nx, b[1] + ny],
    [a[0] + nx, a[1] + ny],
  ];
}

/** A clipped region with its corners back where rounding to the grid took them from. */
export function backOnto(clipped: Region, whole: Region): Region {
  const sides = sidesOf(whole);
  return clipped.map((ring) => ring.map((point) => restored(point, [], sides)));
}

const sidesOf = (region: Region): Cut[] =>
  region.flatMap((ring) =>
    ring.map((from, i): Cut => ({ from, to: ring[(i + 1) % ring.length] as RoofPoint })),
  );

/** Corners that a cut made go back onto its line, and where it ends at a side of the region, onto that too; all other
 * corners go back to where rounding to the grid took them from. */
function restored(point: RoofPoint, cuts: readonly Cut[], sides: readonly Cut[]): RoofPoint {
  const on = (lines: readonly Cut[], within: number) =>
    lines.find(({ from, to }) => distance(point, nearestOn(point, from, to)) <= within);
  const cut = on(cuts, 2 * HAIR_MM);
  const side = on(sides, ROUNDED_MM);
  if (cut && side) return meeting(cut, side) ?? nearestOn(point, cut.from, cut.to);
  if (cut) return nearestOn(point, cut.from, cut.to);
  const corner = sides.find(({ from }) => distance(from, point) <= ROUNDED_MM)?.from;
  return corner ?? (side ? nearestOn(point, side.from, side.to) : point);
}

/** Rounding to the grid moves a corner by less than this, mm. */
const ROUNDED_MM = 0.15;

/** Where two lines cross; null where they run along each other. */
function meeting(p: Cut, q: Cut): RoofPoint | null {
  const [ax, ay] = [p.to[0] - p.from[0], p.to[1] - p.from[1]];
  const [bx, by] = [q.to[0] - q.from[0], q.to[1] - q.from[1]];
  const turn = ax * by - ay * bx;
  if (Math.abs(turn) < LEAST_TURN * Math.hypot(ax, ay) * Math.hypot(bx, by)) return null;
  const t = ((q.from[0] - p.from[0]) * by - (q.from[1] - p.from[1]) * bx) / turn;
  return [p.from[0] + t * ax, p.from[1] + t * ay];
}

/** Sine below which a cut runs along a side. */
const LEAST_TURN = 0.002;

/** Outer rings with the holes that lie in them. */
function grouped(rings: Region): Region[] {
  const outers = rings.filter((ring) => signedArea(ring) > 0);
  const holes = rings.filter((ring) => signedArea(ring) < 0);
  const holder = (hole: RoofRing) =>
    outers
      .filter((outer) => hole.some((corner) => ringHolds(outer, corner)))
      .reduce<RoofRing | null>(
        (best, outer) => (best && signedArea(best) <= signedArea(outer) ? best : outer),
        null,
      );
  return outers
    .map((outer) => [outer, ...holes.filter((hole) => holder(hole) === outer)])
    .sort(([a], [b]) => lowest(a as RoofRing) - lowest(b as RoofRing));
}

const lowest = (ring: RoofRing) => Math.min(...ring.map(([, y]) => y));
