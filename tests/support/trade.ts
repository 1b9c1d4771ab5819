// Roofs with everything that the rules of the trade ask about: lines, valleys, drains, falls, rows along edges, tall
// units; and the shapes that break layouts: needles, spirals, near-straight corners, a kilometre long, 3 m wide.
import { buildRoof } from '../../core/roof/buildRoof';
import type { Fitting, Roof, RoofLine, RoofSpec } from '../../core/roof/types';
import { fourWayFall } from '../../core/roof/water';
import type { RoofPoint, RoofRing } from '../../core/geometry/points';
import { ringHolds } from '../../core/geometry/ring';
import type { LayoutSpec } from '../../core/sheets/types';
import { seeded, type Luck } from './random';
import { layoutSpec, PLAIN_TRADE, rectangle, ringSpec, roofSpec, starlike, stepped, turned } from './roofs';

export interface TradeCase {
  readonly kind: string;
  readonly roof: Roof;
  readonly spec: LayoutSpec;
}

const SHAPES: readonly (readonly [kind: string, shape: (luck: Luck) => readonly RoofRing[]])[] = [
  ['stepped', (luck) => [stepped(luck, luck.between(200e6, 3000e6))]],
  ['free', (luck) => [starlike(luck, luck.between(200e6, 2000e6))]],
  ['courtyard', courtyard],
  ['spiral', (luck) => [spiral(luck)]],
  ['needle', (luck) => [needle(luck)]],
  ['near-straight', (luck) => [nearStraight(luck)]],
  ['kilometre', (luck) => [rectangle(1_000_000, luck.between(6000, 30_000))]],
  ['three metres', (luck) => [rectangle(luck.between(10_000, 120_000), 3000)]],
];

/** By seed: every kind of roof in turn, with rules switched on by chance; always a sound roof. */
export function tradeCase(seed: number): TradeCase {
  for (let attempt = 0; ; attempt++) {
    const luck = seeded(seed * 977 + attempt * 7919 + 13);
    const [kind, shape] = SHAPES[seed % SHAPES.length] as (typeof SHAPES)[number];
    const angle = luck.next() < 0.4 ? luck.whole(0, 3) * 90 : luck.between(0, 360);
    const [outline, ...openings] = shape(luck).map((ring) => turned(ring, angle)) as [
      RoofRing,
      ...RoofRing[],
    ];
    const built = buildRoof(dressed(luck, outline, openings, angle));
    if ('faults' in built) continue;
    return { kind, roof: built.roof, spec: specFor(luck, angle) };
  }
}

function dressed(luck: Luck, outline: RoofRing, openings: readonly RoofRing[], angle: number): RoofSpec {
  const plain = roofSpec(outline, openings, { allowance: luck.next() < 0.3 ? luck.whole(5, 20) * 10 : 0 });
  const rows =
    luck.next() < 0.3 ? { sheets: luck.whole(1, 3), width: luck.next() < 0.5 ? 1500 : 1000 } : null;
  const every = luck.next() < 0.5;
  const edges = plain.outline.edges.map((edge) => ({
    ...edge,
    perimeter: rows && (every || luck.next() < 0.4) ? rows : null,
    clear: !rows && luck.next() < 0.2 ? 300 : 0,
  }));
  const drains = Array.from({ length: luck.whole(0, 3) }, (_, i): Fitting => ({
    id: `drain ${i}`,
    kind: 'drain',
    at: inside(luck, outline, openings),
    size: 200,
  }));
  const [first] = drains;
  const falls = luck.next();
  const lines: RoofLine[] = [];
  if (luck.next() < 0.3) lines.push(across(luck, outline, openings, angle, 'valley'));
  if (!rows && luck.next() < 0.3)
    lines.push(across(luck, outline, openings, angle, luck.next() < 0.5 ? 'expansion' : 'tie-in'));
  return {
    ...plain,
    outline: { ...ringSpec(outline), edges },
    openings: plain.openings.map((opening) => ({
      ...opening,
      blocks: luck.next() < 0.3 ? ('tall' as const) : null,
    })),
    fittings: [
      ...drains,
      ...(luck.next() < 0.3
        ? [
            {
              id: 'unit',
              kind: 'post' as const,
              at: inside(luck, outline, openings),
              size: 300,
              blocks: 'live' as const,
            },
          ]
        : []),
    ],
    fall: falls < 0.4 ? { downhill: luck.between(0, 360), ratio: 0.02 } : null,
    facets: falls > 0.7 && first ? fourWayFall(outline, first.at, 0.02, (side) => `f${side}`) : [],
    lines,
    deck:
      luck.next() < 0.2
        ? { kind: 'steel', flutes: luck.between(0, 180), pitch: null, flange: null, rib: null }
        : null,
  };
}

function specFor(luck: Luck, angle: number): LayoutSpec {
  const fleece = luck.next() < 0.2;
  const roll = luck.next() < 0.7 ? { width: 3000, length: 30_000 } : { width: 2100, length: 20_000 };
  return layoutSpec({
    roll: { id: 'field', ...roll, cost: 0 },
    direction: luck.next() < 0.6 ? 'auto' : (((angle + luck.whole(0, 1) * 90) % 180) + 180) % 180,
    ...(fleece ? { lap: { endLap: 0 } } : {}),
    trade: {
      ...PLAIN_TRADE,
      minWidth: luck.next() < 0.4 ? 600 : 0,
      cornerClear: luck.next() < 0.5 ? 300 : 0,
      strip: fleece ? 150 : null,
      reinforced: true,
      inLap: luck.next() < 0.5,
    },
  });
}

function inside(luck: Luck, outline: RoofRing, openings: readonly RoofRing[]): RoofPoint {
  const xs = outline.map((p) => p[0]);
  const ys = outline.map((p) => p[1]);
  for (let tries = 0; tries < 500; tries++) {
    const point: RoofPoint = [
      luck.between(Math.min(...xs), Math.max(...xs)),
      luck.between(Math.min(...ys), Math.max(...ys)),
    ];
    if (ringHolds(outline, point) && !openings.some((ring) => ringHolds(ring, point))) return point;
  }
  return outline[0] as RoofPoint;
}

/** A line through a place inside, square to the roof, along it, or any way. */
function across(
  luck: Luck,
  outline: RoofRing,
  openings: readonly RoofRing[],
  angle: number,
  kind: RoofLine['kind'],
): RoofLine {
  const [x, y] = inside(luck, outline, openings);
  const turn = luck.next() < 0.7 ? angle + luck.whole(0, 1) * 90 : luck.between(0, 180);
  const [dx, dy] = [Math.cos((turn * Math.PI) / 180), Math.sin((turn * Math.PI) / 180)];
  const reach = luck.between(3000, 40_000);
  return { id: kind, kind, from: [x - dx * reach, y - dy * reach], to: [x + dx * reach, y + dy * reach] };
}

function courtyard(luck: Luck): RoofRing[] {
  const [w, h] = [luck.between(20_000, 60_000), luck.between(15_000, 40_000)];
  const [a, b] = [luck.between(0.25, 0.4), luck.between(0.25, 0.4)];
  return [rectangle(w, h), rectangle(w * a, h * b, w * 0.35, h * 0.35)];
}

/** A band that winds round itself with square corners. */
function spiral(luck: Luck): RoofRing {
  const w = luck.between(5000, 9000);
  const gap = luck.between(2000, 4000);
  const p = w + gap;
  const outer: RoofPoint[] = [
    [0, 0],
    [6 * p, 0],
    [6 * p, 5 * p],
    [p, 5 * p],
    [p, 2 * p],
    [4 * p, 2 * p],
    [4 * p, 3 * p],
  ];
  const inner: RoofPoint[] = [
    [4 * p - w, 3 * p],
    [4 * p - w, 2 * p + w],
    [p + w, 2 * p + w],
    [p + w, 5 * p - w],
    [6 * p - w, 5 * p - w],
    [6 * p - w, w],
    [0, w],
  ];
  return [...outer, ...inner];
}

function needle(luck: Luck): RoofRing {
  const length = luck.between(20_000, 80_000);
  const height = luck.between(4000, 15_000);
  return [
    [0, 0],
    [length, luck.between(0, 2000)],
    [length * luck.between(0.2, 0.5), height],
  ];
}

/** A rectangle whose long sides carry many corners a few millimetres out of line. */
function nearStraight(luck: Luck): RoofRing {
  const [w, h] = [luck.between(20_000, 70_000), luck.between(8000, 30_000)];
  const count = luck.whole(3, 20);
  const bottom = Array.from({ length: count }, (_, i): RoofPoint => [
    (w * i) / (count - 1),
    i === 0 || i === count - 1 ? 0 : luck.between(-3, 3),
  ]);
  const top = Array.from({ length: count }, (_, i): RoofPoint => [
    w - (w * i) / (count - 1),
    i === 0 || i === count - 1 ? h : h + luck.between(-3, 3),
  ]);
  return [...bottom, ...top];
}
