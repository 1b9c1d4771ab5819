// A small house as a floor plan, drawn in several hands: walls filled, in strokes, hatched or as one thick line, with doors and
// without leaves.
import type { CadPlan, CadShape } from './cadPlan';
import {
  A1,
  A2,
  A3,
  COMMA_M,
  DOT_M,
  dim,
  door,
  frame,
  IN_MM,
  inFeet,
  rect,
  ringAt,
  SPACED,
  strokes,
  writeText,
} from './cadPen';
import type { Placed } from './cadPen';
import type { RoughPen, Spot } from './roughPlan';

/** Walls of a small house: 12 × 8 m outside, walls 0.3 m, one partition 0.12 m with a doorway, a door outward. Each
 * wall a closed shape between its openings.
 *
 *   ┌──────┬─────────┐
 *   │ west  \  east  │    partition from x 5.0 to 5.12, doorway y 3.0 … 3.9
 *   └───/──┴─────────┘    front door x 2.0 … 3.0 in the south wall; windows x 7…9 south, 7…9 north
 */
const HOUSE = {
  outer: 12 * 8,
  west: 4.7 * 7.4,
  east: 6.58 * 7.4,
} as const;

const HOUSE_WALLS: readonly (readonly [Spot, Spot])[] = strokes(
  '0 0 2000 300, 3000 0 7000 300, 9000 0 12000 300, 0 300 300 7700, 11700 300 12000 7700, ' +
    '0 7700 7000 8000, 9000 7700 12000 8000, 5000 300 5120 3000, 5000 3900 5120 7700',
);

/** The faces of those walls as single strokes, jambs included. */
const HOUSE_FACES: readonly (readonly [Spot, Spot])[] = strokes(
  '0 0 2000 0, 3000 0 7000 0, 9000 0 12000 0, 12000 0 12000 8000, 12000 8000 9000 8000, ' +
    '7000 8000 0 8000, 0 8000 0 0, 300 300 2000 300, 3000 300 5000 300, 5120 300 7000 300, ' +
    '9000 300 11700 300, 11700 300 11700 7700, 11700 7700 9000 7700, 7000 7700 5120 7700, ' +
    '5000 7700 300 7700, 300 7700 300 300, 5000 300 5000 3000, 5120 300 5120 3000, ' +
    '5000 3900 5000 7700, 5120 3900 5120 7700, 5000 3000 5120 3000, 5000 3900 5120 3900, ' +
    '2000 0 2000 300, 3000 0 3000 300, 7000 0 7000 300, 9000 0 9000 300, 7000 7700 7000 8000, ' +
    '9000 7700 9000 8000',
);

function windows(pen: RoughPen, p: Placed, lines: readonly number[] = [0, 130, 170, 300]): void {
  pen.width(0.25);
  for (const base of [0, 7700]) for (const y of lines) pen.line(p([7000, base + y]), p([9000, base + y]));
}

function houseDims(
  pen: RoughPen,
  p: Placed,
  say: (mm: number) => string,
  how: Parameters<typeof dim>[5] = {},
): void {
  const d = (a: Spot, b: Spot, off: number, length: number): void =>
    dim(pen, p, [a, b], off, say(length), how);
  d([0, 0], [5000, 0], -30, 5000);
  d([5000, 0], [12_000, 0], -30, 7000);
  d([0, 0], [12_000, 0], -50, 12_000);
  d([0, 0], [0, 8000], 30, 8000);
  d([12_000, 0], [12_000, 8000], -30, 8000);
}

const HOUSE_SHAPES: readonly CadShape[] = [
  { name: 'outer', at: [1500, 4000], area: HOUSE.outer, mode: 'outer' },
  { name: 'west room', at: [1500, 5000], area: HOUSE.west },
  { name: 'east room', at: [8000, 5000], area: HOUSE.east },
];

export const HOUSE_PLANS: readonly CadPlan[] = [
  {
    name: 'house: walls filled black, swings as curves, mm ticks',
    page: A3,
    ratio: 50,
    origin: [250, 250],
    shapes: HOUSE_SHAPES,
    draw(pen, p, mm) {
      frame(pen, A3, ['FLOOR PLAN', 'SCALE 1:50', 'A-101']);
      pen.grey(0.2);
      for (const [a, b] of HOUSE_WALLS) pen.ring(ringAt(rect(a, b), p), 'f');
      pen.grey(0);
      windows(pen, p);
      door(pen, p, [2000, 300], [3000, 300], { mm });
      door(pen, p, [5000, 3900], [5000, 3000], { mm, side: -1 });
      houseDims(pen, p, IN_MM);
    },
  },
  {
    name: 'house: wall faces as single strokes, leaf as a box, flattened swings, spaced mm, arrows',
    page: { ...A3, rotation: 90 },
    ratio: 50,
    origin: [250, 250],
    shapes: HOUSE_SHAPES,
    draw(pen, p, mm) {
      frame(pen, A3, ['GRUNDRISS EG', 'Maßstab 1 : 50']);
      pen.width(0.7);
      for (const [a, b] of HOUSE_FACES) pen.line(p(a), p(b));
      windows(pen, p);
      door(pen, p, [2000, 300], [3000, 300], { mm, leaf: 'box', swing: 'flattened' });
      door(pen, p, [5000, 3900], [5000, 3000], { mm, side: -1, leaf: 'box', swing: 'flattened' });
      houseDims(pen, p, SPACED, { ends: 'arrow' });
    },
  },
  {
    name: 'house: bare doorways, comma metres, dots; gap widened',
    page: A3,
    ratio: 50,
    origin: [250, 250],
    shapes: [
      { name: 'outer', at: [1500, 4000], area: HOUSE.outer, mode: 'outer', gap: 60 },
      { name: 'west room', at: [1500, 5000], area: HOUSE.west, gap: 60 },
      { name: 'east room', at: [8000, 5000], area: HOUSE.east, gap: 60 },
    ],
    draw(pen, p) {
      frame(pen, A3, ['ÉTAGE', 'Échelle 1/50']);
      pen.width(0.7);
      for (const [a, b] of HOUSE_FACES) pen.line(p(a), p(b));
      windows(pen, p);
      houseDims(pen, p, COMMA_M, { ends: 'dot' });
    },
  },
  {
    name: 'house: walls as outlined polylines with hatch, letters one by one, open arrows, half size',
    page: { width: 842, height: 595.3, rotation: 270 },
    ratio: 100,
    origin: [180, 180],
    shapes: HOUSE_SHAPES,
    draw(pen, p, mm) {
      frame(pen, { width: 842, height: 595.3 }, ['1:50 @ A3']);
      pen.width(0.5);
      for (const [a, b] of HOUSE_WALLS) {
        pen.ring(ringAt(rect(a, b), p));
        pen.width(0.1);
        const [A, B] = [p(a), p(b)];
        pen.clipped(A, B, () => {
          for (let t = A[0] - (B[1] - A[1]); t < B[0]; t += 2.2) pen.line([t, A[1]], [t + B[1] - A[1], B[1]]);
        });
        pen.width(0.5);
      }
      windows(pen, p);
      door(pen, p, [2000, 300], [3000, 300], { mm });
      door(pen, p, [5000, 3900], [5000, 3000], { mm, side: -1 });
      houseDims(pen, p, DOT_M, { ends: 'open', write: 'letters', height: 5 });
    },
  },
  {
    name: 'house: turned 27°, nested forms, feet in pieces',
    page: { ...A2, forms: 'nested' },
    ratio: 48,
    origin: [700, 200],
    turn: 27,
    shapes: HOUSE_SHAPES,
    draw(pen, p, mm) {
      frame(pen, A2);
      pen.textOver([1000, 700], 'SCALE: 1/4" = 1\'-0"', 8);
      pen.width(0.7);
      for (const [a, b] of HOUSE_FACES) pen.line(p(a), p(b));
      windows(pen, p);
      door(pen, p, [2000, 300], [3000, 300], { mm });
      door(pen, p, [5000, 3900], [5000, 3000], { mm, side: -1 });
      houseDims(pen, p, inFeet, { write: 'pieces', ends: 'open' });
    },
  },
  {
    name: 'house: lettering in strokes, walls one thick line',
    page: A3,
    ratio: 50,
    scale: null,
    origin: [250, 250],
    shapes: [
      { name: 'outer', at: [1500, 4000], area: 11.7 * 7.7, mode: 'outer' },
      { name: 'west room', at: [1500, 5000], area: 4.91 * 7.7 },
    ],
    draw(pen, p, mm) {
      pen.width(300 / mm);
      pen.ring(ringAt(rect([150, 150], [11_850, 7850]), p));
      pen.width(120 / mm);
      pen.line(p([5060, 150]), p([5060, 3000]));
      pen.line(p([5060, 3900]), p([5060, 7850]));
      door(pen, p, [5060, 3900], [5060, 3000], { mm, side: -1 });
      houseDims(pen, p, DOT_M, { write: 'strokes', height: 9 });
      writeText(pen, p([2500, 6000]), 'LIVING 34.8', 12, 0, 'strokes');
      writeText(pen, p([8500, 4000]), 'SHOP', 12, 0, 'strokes');
    },
  },
  {
    name: 'tiles in the rooms, tens of thousands of paths',
    page: A1,
    ratio: 50,
    origin: [400, 400],
    shapes: HOUSE_SHAPES,
    draw(pen, p, mm) {
      frame(pen, A1, ['FLOOR PLAN', '1 : 50']);
      pen.width(0.1);
      for (let x = 400; x < 5000; x += 100) pen.line(p([x, 300]), p([x, 7700]));
      for (let y = 400; y < 7700; y += 100) pen.line(p([300, y]), p([5000, y]));
      for (let x = 5200; x < 11_700; x += 60)
        for (let y = 360; y < 7700; y += 120) pen.line(p([x, y]), p([x + 30, y]));
      pen.width(0.7);
      for (const [a, b] of HOUSE_FACES) pen.line(p(a), p(b));
      windows(pen, p);
      door(pen, p, [2000, 300], [3000, 300], { mm });
      door(pen, p, [5000, 3900], [5000, 3000], { mm, side: -1 });
      houseDims(pen, p, IN_MM);
    },
  },
];
