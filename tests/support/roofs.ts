// Generated roofs: concave, with openings, turned by any angle, from a shed to a warehouse.
import { buildRoof } from '../../core/roof/buildRoof';
import type { EdgeSpec, OpeningSpec, RingSpec, Roof, RoofSpec } from '../../core/roof/types';
import type { RoofPoint, RoofRing } from '../../core/geometry/points';
import type { LayoutSpec, TradeRules } from '../../core/sheets/types';
import { seeded, type Luck } from './random';

export function ringSpec(corners: RoofRing, prefix = 'e', fields: Partial<EdgeSpec> = {}): RingSpec {
  return {
    corners,
    edges: corners.map((_, i) => ({
      kind: 'parapet',
      upstand: 300,
      allowance: 0,
      ...fields,
      id: `${prefix}${i}`,
    })),
  };
}

export function roofSpec(
  outline: RoofRing,
  openings: readonly RoofRing[] = [],
  edge: Partial<EdgeSpec> = {},
): RoofSpec {
  return {
    id: 'roof',
    name: 'roof',
    outline: ringSpec(outline, 'e', edge),
    openings: openings.map((ring, i): OpeningSpec => ({
      id: `o${i}`,
      name: `opening ${i}`,
      kind: 'curb',
      ...ringSpec(ring, `o${i}-`, { kind: 'curb' }),
    })),
    fittings: [],
    fall: null,
  };
}

/** Builds or fails the test with the faults in words. */
export function built(spec: RoofSpec): Roof {
  const result = buildRoof(spec);
  if ('faults' in result) throw new Error(result.faults.map((fault) => fault.message).join(' '));
  return result.roof;
}

export const rectangle = (width: number, height: number, x = 0, y = 0): RoofRing => [
  [x, y],
  [x + width, y],
  [x + width, y + height],
  [x, y + height],
];

/** No rule of the trade beyond laps, stagger and shortest piece. */
export const PLAIN_TRADE: TradeRules = {
  minWidth: 0,
  cornerClear: 0,
  strip: null,
  reinforced: false,
  inLap: false,
  off: [],
  order: null,
  pins: [],
};

/** The field roll of the worked cases, with their laps. */
export function layoutSpec(
  changes: Partial<Omit<LayoutSpec, 'lap'>> & { readonly lap?: Partial<LayoutSpec['lap']> } = {},
): LayoutSpec {
  return {
    roll: { id: 'field', width: 3000, length: 30_000, cost: 0 },
    sideLap: 120,
    direction: 0,
    firstCourse: null,
    closing: null,
    rolls: [],
    trade: PLAIN_TRADE,
    prefix: '',
    ...changes,
    lap: {
      endLap: 80,
      endLapStagger: 300,
      minPiece: 1500,
      joints: 'allowed',
      cutAllowance: 0,
      ...changes.lap,
    },
  };
}

export function turned(ring: RoofRing, degrees: number): RoofRing {
  const [cos, sin] = [Math.cos((degrees * Math.PI) / 180), Math.sin((degrees * Math.PI) / 180)];
  return ring.map(([x, y]): RoofPoint => [x * cos - y * sin, x * sin + y * cos]);
}

export function mirrored(ring: RoofRing): RoofRing {
  return ring.map(([x, y]): RoofPoint => [-x, y]).reverse();
}

/** A roof of about `area` mm² by seed: rectilinear or free, with openings, turned, always sound. */
export function generatedRoof(
  seed: number,
  changes: { readonly area?: number; readonly turn?: 'free' | 'none' } = {},
): Roof {
  for (let attempt = 0; ; attempt++) {
    const luck = seeded(seed * 1000 + attempt);
    const area = changes.area ?? 20e6 * Math.pow(1000, luck.next());
    const angle =
      changes.turn === 'none' ? 0 : luck.next() < 0.3 ? luck.whole(0, 3) * 90 : luck.between(0, 360);
    const outline = luck.next() < 0.6 ? stepped(luck, area) : starlike(luck, area);
    const openings = placeOpenings(luck, outline, luck.whole(0, 6));
    const allowance = luck.next() < 0.3 ? luck.whole(1, 15) * 10 : 0;
    const spec = roofSpec(
      turned(outline, angle),
      openings.map((ring) => turned(ring, angle)),
      { allowance },
    );
    const result = buildRoof(spec);
    if ('roof' in result) return result.roof;
  }
}

/** A rectilinear outline: columns of different heights on a common base line. */
export function stepped(luck: Luck, area: number): RoofRing {
  const columns = luck.whole(1, 6);
  const width = Math.sqrt(area) * luck.between(0.7, 2.2);
  const mean = area / width;
  const corners: RoofPoint[] = [];
  let x = 0;
  const foot: RoofPoint[] = [];
  for (let i = 0; i < columns; i++) {
    const next = i + 1 === columns ? width : x + (width / columns) * luck.between(0.6, 1.2);
    const top = mean * luck.between(0.5, 1.5);
    const bottom = luck.next() < 0.4 ? mean * luck.between(0, 0.35) : 0;
    corners.push([x, top], [Math.min(next, width), top]);
    foot.push([x, bottom], [Math.min(next, width), bottom]);
    x = Math.min(next, width);
    if (x >= width) break;
  }
  return [...foot, ...corners.reverse()];
}

/** A free outline: corners at growing angles round a middle, far and near by turns. */
export function starlike(luck: Luck, area: number, corners = luck.whole(4, 24)): RoofRing {
  const radius = Math.sqrt(area / Math.PI) * 1.25;
  return Array.from({ length: corners }, (_, i): RoofPoint => {
    const angle = ((i + luck.between(0.1, 0.9)) / corners) * 2 * Math.PI;
    const r = radius * luck.between(0.45, 1);
    return [r * Math.cos(angle) * 1.4, r * Math.sin(angle) * 0.8];
  });
}

/** Up to `count` small openings within the outline, kept apart by trying. */
function placeOpenings(luck: Luck, outline: RoofRing, count: number): RoofRing[] {
  const xs = outline.map((p) => p[0]);
  const ys = outline.map((p) => p[1]);
  const size = Math.min(Math.max(...xs) - Math.min(...xs), Math.max(...ys) - Math.min(...ys));
  const placed: RoofRing[] = [];
  for (let i = 0; i < count * 4 && placed.length < count; i++) {
    const w = Math.max(600, size * luck.between(0.03, 0.15));
    const h = Math.max(600, size * luck.between(0.03, 0.15));
    const ring = rectangle(
      w,
      h,
      luck.between(Math.min(...xs), Math.max(...xs)),
      luck.between(Math.min(...ys), Math.max(...ys)),
    );
    const shaped = luck.next() < 0.5 ? ring : turnedAround(ring, luck.between(0, 90));
    if ('roof' in buildRoof(roofSpec(outline, [...placed, shaped]))) placed.push(shaped);
  }
  return placed;
}

function turnedAround(ring: RoofRing, degrees: number): RoofRing {
  const [cx, cy] = [(ring[0]?.[0] ?? 0) + ((ring[2]?.[0] ?? 0) - (ring[0]?.[0] ?? 0)) / 2, ring[0]?.[1] ?? 0];
  return turned(
    ring.map(([x, y]): RoofPoint => [x - cx, y - cy]),
    degrees,
  ).map(([x, y]): RoofPoint => [x + cx, y + cy]);
}

/** A roof with about `corners` corners and exactly `openings` openings, for benchmarks. */
export function busyRoof(seed: number, area: number, corners: number, openings: number): Roof {
  const luck = seeded(seed);
  const teeth = Math.max(1, Math.round(corners / 4) - 1);
  const width = Math.sqrt(area * 1.6);
  const height = area / width;
  const bottom: RoofPoint[] = [];
  const top: RoofPoint[] = [];
  // Steps in and out along the two long sides: four corners a tooth, two of them on each side.
  for (let i = 0; i <= teeth; i++) {
    const [a, b] = [(width * i) / (teeth + 1), (width * (i + 1)) / (teeth + 1)];
    const low = luck.between(0, height * 0.12);
    const high = height - luck.between(0, height * 0.12);
    bottom.push([a, low], [b, low]);
    top.push([a, high], [b, high]);
  }
  const outline = [...bottom, ...top.reverse()];
  const across = Math.ceil(Math.sqrt(openings * 1.6));
  const down = Math.ceil(openings / across);
  const rings = Array.from({ length: openings }, (_, k): RoofRing => {
    const [i, j] = [k % across, Math.floor(k / across)];
    const [cw, ch] = [(width * 0.96) / across, (height * 0.72) / down];
    const w = cw * luck.between(0.1, 0.5);
    const h = ch * luck.between(0.1, 0.5);
    return rectangle(
      w,
      h,
      width * 0.02 + cw * i + luck.between(0.05, 0.4) * cw,
      height * 0.14 + ch * j + luck.between(0.05, 0.4) * ch,
    );
  });
  return built(roofSpec(outline, rings));
}
