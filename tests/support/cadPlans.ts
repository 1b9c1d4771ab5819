// Plans as drafting programs write them, each in a hand of its own: walls filled, in pieces or as one thick line, doors
// with and without leaves, roofs with hips and valleys, lettering in strokes, dimensions in the styles of several countries.
// What each measures is worked out from the lengths it is drawn with.
import { lettering } from '../../demo-data/draw/strokeFont';
import type { RoughPage, RoughPen, Spot } from './roughPlan';

export interface CadShape {
  readonly at: Spot;
  /** m². */
  readonly area: number;
  readonly mode?: 'shape' | 'outer';
  readonly openings?: number;
  readonly gap?: number;
  readonly name: string;
}

export interface CadPlan {
  readonly name: string;
  readonly page: RoughPage;
  readonly ratio: number;
  /** What `scale` says first; absent where it is the ratio; null where nothing on the page gives one. */
  readonly scale?: number | null;
  readonly shapes: readonly CadShape[];
  draw(pen: RoughPen, p: (mm: Spot) => Spot, mm: number): void;
  /** Where the building's lower left corner stands. */
  readonly origin: Spot;
  /** Degrees by which the building is turned on the page. */
  readonly turn?: number;
}

export function placer({ origin, ratio, turn = 0 }: CadPlan): { p: (mm: Spot) => Spot; mm: number } {
  const mm = (ratio * 25.4) / 72;
  const [c, s] = [Math.cos((turn * Math.PI) / 180), Math.sin((turn * Math.PI) / 180)];
  return {
    mm,
    p: ([x, y]) => [origin[0] + (c * x - s * y) / mm, origin[1] + (s * x + c * y) / mm],
  };
}

const A3: RoughPage = { width: 1190.55, height: 841.89 };
const A2: RoughPage = { width: 1683.78, height: 1190.55 };
const A1: RoughPage = { width: 2383.94, height: 1683.78 };
const ARCH_D: RoughPage = { width: 2592, height: 1728 };

const rect = (a: Spot, b: Spot): Spot[] => [a, [b[0], a[1]], b, [a[0], b[1]]];

function ringAt(points: readonly Spot[], p: (mm: Spot) => Spot): Spot[] {
  return points.map(p);
}

const feet = (n: number): number => n * 304.8;

function inFeet(mm: number): string {
  const halves = Math.round((mm / 25.4) * 2);
  const inches = Math.floor((halves % 24) / 2);
  return `${Math.floor(halves / 24)}'-${inches}${halves % 2 ? ' 1/2' : ''}"`;
}

/** A dimension from a to b (mm), its line set off to the left of a → b by so many points. */
export function dim(
  pen: RoughPen,
  p: (mm: Spot) => Spot,
  [a, b]: readonly [Spot, Spot],
  off: number,
  text: string,
  how: { ends?: 'tick' | 'arrow' | 'open' | 'dot' | 'circle'; height?: number; place?: 'above' | 'in'; write?: 'text' | 'letters' | 'strokes' | 'pieces'; gap?: number } = {},
): void {
  const { ends = 'tick', height = 6, place = 'above', write = 'text', gap = 4 } = how;
  const [A, B] = [p(a), p(b)];
  const length = Math.hypot(B[0] - A[0], B[1] - A[1]);
  const u: Spot = [(B[0] - A[0]) / length, (B[1] - A[1]) / length];
  const n: Spot = [-u[1], u[0]];
  const on = (from: Spot, s: number, t: number): Spot => [from[0] + s * u[0] + t * n[0], from[1] + s * u[1] + t * n[1]];
  const sign = Math.sign(off);
  pen.width(0.18);
  for (const end of [A, B]) pen.line(on(end, 0, gap * sign), on(end, 0, off + 4 * sign));
  let angle = (Math.atan2(u[1], u[0]) * 180) / Math.PI;
  let flip = 1;
  if (angle > 91 || angle < -89) {
    angle += 180;
    flip = -1;
  }
  const half = text.length * 0.3 * height;
  const D = on(A, 0, off);
  if (place === 'in') {
    pen.line(D, on(D, length / 2 - half, 0));
    pen.line(on(D, length / 2 + half, 0), on(D, length, 0));
  } else pen.line(D, on(D, length, 0));
  for (const [s, way] of [
    [0, 1],
    [length, -1],
  ] as const) {
    const at = on(D, s, 0);
    if (ends === 'tick') {
      pen.width(0.5);
      pen.line(on(at, -2.2, -2.2), on(at, 2.2, 2.2));
      pen.width(0.18);
    } else if (ends === 'arrow') pen.ring([at, on(at, 6 * way, 1), on(at, 6 * way, -1)], 'f');
    else if (ends === 'open') {
      pen.line(at, on(at, 6 * way, 1.6));
      pen.line(at, on(at, 6 * way, -1.6));
    } else if (ends === 'dot') pen.disc(at, 1.1);
    else pen.circle(at, 1.6);
  }
  const middle = on(D, length / 2, (place === 'in' ? -0.35 * height : 2) * flip);
  writeText(pen, middle, text, height, angle, write);
}

export function writeText(
  pen: RoughPen,
  middle: Spot,
  text: string,
  height: number,
  angle: number,
  write: 'text' | 'letters' | 'strokes' | 'pieces',
): void {
  if (write === 'text') return pen.textOver(middle, text, height, angle);
  const turned = (angle * Math.PI) / 180;
  if (write === 'strokes') {
    const { strokes, width } = lettering(text);
    const cap = 0.7 * height;
    const at = ([x, y]: Spot): Spot => {
      const [s, t] = [cap * (x - width / 2), cap * y];
      return [middle[0] + s * Math.cos(turned) - t * Math.sin(turned), middle[1] + s * Math.sin(turned) + t * Math.cos(turned)];
    };
    for (const stroke of strokes)
      for (let k = 1; k < stroke.length; k++) pen.line(at(stroke[k - 1] as Spot), at(stroke[k] as Spot));
    return;
  }
  const wide = pen.widthOf(text) * height;
  const start: Spot = [middle[0] - (wide / 2) * Math.cos(turned), middle[1] - (wide / 2) * Math.sin(turned)];
  if (write === 'letters') return pen.letters(start, text, height, angle);
  // In pieces: feet, dash, inches, fraction, each by itself.
  let along = 0;
  for (const piece of text.split(/(?<=['\-=]) ?|(?<=\d) (?=\d)|(?<=:) /)) {
    pen.text([start[0] + along * Math.cos(turned), start[1] + along * Math.sin(turned)], piece, height, angle);
    along += (pen.widthOf(piece) + 0.2) * height;
  }
}

export function frame(pen: RoughPen, { width, height }: RoughPage, title: readonly string[] = []): void {
  pen.width(1.4);
  pen.box([30, 30], [width - 30, height - 30]);
  pen.width(0.25);
  pen.box([10, 10], [width - 10, height - 10]);
  pen.width(0.7);
  pen.box([width - 230, 30], [width - 30, 150]);
  title.forEach((line, k) => {
    pen.line([width - 230, 150 - 20 * (k + 1)], [width - 30, 150 - 20 * (k + 1)]);
    pen.text([width - 224, 150 - 20 * (k + 1) + 6], line, 8);
  });
}

/** A doorway in a wall from a to b (mm), jambs drawn by the wall; leaf from the hinge at a, swinging to the left. */
export function door(
  pen: RoughPen,
  p: (mm: Spot) => Spot,
  a: Spot,
  b: Spot,
  how: { leaf?: 'line' | 'box'; swing?: 'curve' | 'flattened' | 'none'; side?: 1 | -1; mm: number },
): void {
  const { leaf = 'line', swing = 'curve', side = 1, mm } = how;
  const r = Math.hypot(b[0] - a[0], b[1] - a[1]);
  const u: Spot = [(b[0] - a[0]) / r, (b[1] - a[1]) / r];
  const n: Spot = [-u[1] * side, u[0] * side];
  const at = (s: number, t: number): Spot => p([a[0] + s * u[0] + t * n[0], a[1] + s * u[1] + t * n[1]]);
  pen.width(0.25);
  if (leaf === 'line') pen.line(at(0, 0), at(0, r));
  else pen.ring([at(0, 0), at(40, 0), at(40, r), at(0, r)]);
  if (swing === 'none') return;
  if (swing === 'flattened') {
    const points = Array.from({ length: 13 }, (_, k): Spot => {
      const t = (k / 12) * (Math.PI / 2);
      return at(r * Math.cos(t), r * Math.sin(t));
    });
    pen.polyline(points);
    return;
  }
  const start = Math.atan2(at(r, 0)[1] - at(0, 0)[1], at(r, 0)[0] - at(0, 0)[0]) * (180 / Math.PI);
  if (side > 0) pen.arc(at(0, 0), r / mm, start, start + 90);
  else pen.arc(at(0, 0), r / mm, start - 90, start);
}

/** Walls of a small house: 12 × 8 m outside, walls 0.3 m, one partition 0.12 m with a doorway, a door outward. Each
 * wall a closed shape between its openings.
 *
 *   ┌──────┬─────────┐
 *   │ west  \  east  │    partition from x 5.0 to 5.12, doorway y 3.0 … 3.9
 *   └───/──┴─────────┘    front door x 2.0 … 3.0 in the south wall; windows x 7…9 south, 7…9 north
 */
export const HOUSE = {
  outer: 12 * 8,
  west: 4.7 * 7.4,
  east: 6.58 * 7.4,
} as const;

export const HOUSE_WALLS: readonly (readonly [Spot, Spot])[] = [
  [[0, 0], [2000, 300]],
  [[3000, 0], [7000, 300]],
  [[9000, 0], [12_000, 300]],
  [[0, 300], [300, 7700]],
  [[11_700, 300], [12_000, 7700]],
  [[0, 7700], [7000, 8000]],
  [[9000, 7700], [12_000, 8000]],
  [[5000, 300], [5120, 3000]],
  [[5000, 3900], [5120, 7700]],
];

/** The faces of those walls as single strokes, jambs included. */
export const HOUSE_FACES: readonly (readonly [Spot, Spot])[] = [
  [[0, 0], [2000, 0]], [[3000, 0], [7000, 0]], [[9000, 0], [12_000, 0]],
  [[12_000, 0], [12_000, 8000]],
  [[12_000, 8000], [9000, 8000]], [[7000, 8000], [0, 8000]],
  [[0, 8000], [0, 0]],
  [[300, 300], [2000, 300]], [[3000, 300], [5000, 300]], [[5120, 300], [7000, 300]], [[9000, 300], [11_700, 300]],
  [[11_700, 300], [11_700, 7700]],
  [[11_700, 7700], [9000, 7700]], [[7000, 7700], [5120, 7700]], [[5000, 7700], [300, 7700]],
  [[300, 7700], [300, 300]],
  [[5000, 300], [5000, 3000]], [[5120, 300], [5120, 3000]], [[5000, 3900], [5000, 7700]], [[5120, 3900], [5120, 7700]],
  [[5000, 3000], [5120, 3000]], [[5000, 3900], [5120, 3900]],
  [[2000, 0], [2000, 300]], [[3000, 0], [3000, 300]],
  [[7000, 0], [7000, 300]], [[9000, 0], [9000, 300]], [[7000, 7700], [7000, 8000]], [[9000, 7700], [9000, 8000]],
];

export function windows(pen: RoughPen, p: (mm: Spot) => Spot, lines: readonly number[] = [0, 130, 170, 300]): void {
  pen.width(0.25);
  for (const base of [0, 7700]) for (const y of lines) pen.line(p([7000, base + y]), p([9000, base + y]));
}

export function houseDims(pen: RoughPen, p: (mm: Spot) => Spot, say: (mm: number) => string, how: Parameters<typeof dim>[5] = {}): void {
  const d = (a: Spot, b: Spot, off: number, length: number): void => dim(pen, p, [a, b], off, say(length), how);
  d([0, 0], [5000, 0], -30, 5000);
  d([5000, 0], [12_000, 0], -30, 7000);
  d([0, 0], [12_000, 0], -50, 12_000);
  d([0, 0], [0, 8000], 30, 8000);
  d([12_000, 0], [12_000, 8000], -30, 8000);
}

const IN_MM = (mm: number): string => String(mm);
const SPACED = (mm: number): string => (mm >= 1000 ? `${Math.floor(mm / 1000)} ${String(mm % 1000).padStart(3, '0')}` : String(mm));
const COMMA_M = (mm: number): string => `${(mm / 1000).toFixed(1).replace('.', ',')} m`;
const DOT_M = (mm: number): string => (mm / 1000).toFixed(2);

const HOUSE_SHAPES: readonly CadShape[] = [
  { name: 'outer', at: [1500, 4000], area: HOUSE.outer, mode: 'outer' },
  { name: 'west room', at: [1500, 5000], area: HOUSE.west },
  { name: 'east room', at: [8000, 5000], area: HOUSE.east },
];

export const CAD_PLANS: readonly CadPlan[] = [
  {
    name: 'house: walls filled black, swings as curves, mm ticks',
    page: A3, ratio: 50, origin: [250, 250], shapes: HOUSE_SHAPES,
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
    page: { ...A3, rotation: 90 }, ratio: 50, origin: [250, 250], shapes: HOUSE_SHAPES,
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
    page: A3, ratio: 50, origin: [250, 250],
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
    page: { width: 842, height: 595.3, rotation: 270 }, ratio: 100, origin: [180, 180], shapes: HOUSE_SHAPES,
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
    page: { ...A3, forms: 'nested' }, ratio: 48, origin: [480, 160], turn: 27, shapes: HOUSE_SHAPES,
    draw(pen, p, mm) {
      frame(pen, A3);
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
    page: A3, ratio: 50, scale: null, origin: [250, 250],
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
    name: 'hip roof: eave, hips, ridge, wall dashed as strokes, solid grid with bubbles, feet',
    page: ARCH_D, ratio: 96, origin: [500, 500],
    shapes: [
      { name: 'eave', at: [feet(20), feet(12)], area: (feet(72) * feet(40) + feet(30) * feet(24)) / 1e6, mode: 'outer' },
    ],
    draw(pen, p) {
      frame(pen, ARCH_D, ['ROOF PLAN', 'SCALE: 1/8" = 1\'-0"', 'A1.05']);
      const F = (x: number, y: number): Spot => p([feet(x), feet(y)]);
      pen.width(0.7);
      // Eave in collinear pieces, as cut by hips and grid lines.
      const eave: Spot[] = [[0, 0], [24, 0], [50, 0], [72, 0], [72, 18], [72, 40], [50, 40], [30, 40], [30, 64], [14, 64], [0, 64], [0, 40], [0, 20]];
      eave.forEach((a, k) => { const b = eave[(k + 1) % eave.length] as Spot; pen.line(F(...a), F(...b)); });
      pen.width(0.35);
      for (const [a, b] of [
        [[0, 0], [20, 20]], [[72, 0], [52, 20]], [[72, 40], [52, 20]], [[15, 20], [52, 20]], [[30, 40], [10, 20]],
        [[0, 64], [15, 49]], [[30, 64], [15, 49]], [[15, 49], [15, 20]],
      ] as const) pen.line(F(...a), F(...b));
      // The wall below, 2 ft in, as many short strokes.
      const wall: Spot[] = [[2, 2], [70, 2], [70, 38], [28, 38], [28, 62], [2, 62]];
      pen.width(0.25);
      wall.forEach((a, k) => {
        const b = wall[(k + 1) % wall.length] as Spot;
        const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
        for (let t = 0; t + 0.9 < length; t += 1.5) {
          const at = (s: number): Spot => F(a[0] + ((b[0] - a[0]) * s) / length, a[1] + ((b[1] - a[1]) * s) / length);
          pen.line(at(t), at(t + 0.9));
        }
      });
      for (const [k, x] of [0, 24, 48, 72].entries()) {
        pen.line(F(x, -14), F(x, 78));
        const [bx, by] = F(x, 78);
        pen.circle([bx, by + 12], 12);
        pen.textOver([bx, by + 8], String(k + 1), 10);
      }
      for (const [k, y] of [0, 40, 64].entries()) {
        pen.line(F(-14, y), F(86, y));
        const [bx, by] = F(86, y);
        pen.circle([bx + 12, by], 12);
        pen.textOver([bx + 12, by - 4], 'ABC'[k] ?? '', 10);
      }
      const d = (a: Spot, b: Spot, off: number, length: number): void =>
        dim(pen, p, [[feet(a[0]), feet(a[1])], [feet(b[0]), feet(b[1])]], off, inFeet(feet(length)), { ends: 'arrow', height: 8, place: 'in' });
      d([0, 0], [24, 0], -50, 24);
      d([24, 0], [72, 0], -50, 48);
      d([0, 0], [72, 0], -75, 72);
      d([0, 0], [0, 64], 60, 64);
      d([72, 0], [72, 40], -60, 40);
      // Arrows down each slope with its pitch.
      for (const [x, y, dx, dy] of [[36, 10, 0, -6], [36, 30, 0, 6], [62, 20, 6, 0], [7, 30, -5, 0]] as const) {
        pen.line(F(x, y), F(x + dx, y + dy));
        const back: Spot = [Math.sign(dx), Math.sign(dy)];
        pen.ring([F(x + dx, y + dy), F(x + dx - back[0] - 0.3 * back[1], y + dy - back[1] - 0.3 * back[0]), F(x + dx - back[0] + 0.3 * back[1], y + dy - back[1] + 0.3 * back[0])], 'f');
        pen.text(F(x + 0.5, y + 0.5), '4:12', 7);
      }
    },
  },
  {
    name: 'flat roof: parapet in boxes, skylights in a row, pavers, note of a sheet twice as large, no dimensions but a bar',
    page: A3, ratio: 200, origin: [200, 250],
    shapes: [
      { name: 'inner', at: [20_000, 3000], area: 39.4 * 19.4, openings: 7 },
      { name: 'outer', at: [20_000, 3000], area: 40 * 20, mode: 'outer' },
    ],
    draw(pen, p) {
      frame(pen, A3, ['ROOF', '1:100 (A1)']);
      pen.width(0.7);
      pen.box(p([0, 0]), p([40_000, 20_000]));
      pen.box(p([300, 300]), p([39_700, 19_700]));
      pen.width(0.35);
      for (let k = 0; k < 6; k++) {
        pen.box(p([4000 + 5000 * k, 9000]), p([5500 + 5000 * k, 12_000]));
        pen.line(p([4000 + 5000 * k, 9000]), p([5500 + 5000 * k, 12_000]));
      }
      pen.box(p([34_000, 13_000]), p([37_000, 16_000]));
      pen.width(0.13);
      for (let k = 0; k <= 30; k++) pen.line(p([2000 + 600 * k, 4000]), p([2000 + 600 * k, 5800]));
      for (let k = 0; k <= 3; k++) pen.line(p([2000, 4000 + 600 * k]), p([20_000, 4000 + 600 * k]));
      pen.grey(0.85);
      pen.ring(ringAt(rect([24_000, 3000], [30_000, 7000]), p), 'f');
      pen.grey(0);
      pen.width(0.35);
      const [x, y] = p([2000, -6000]);
      for (let k = 0; k < 5; k++) {
        const [a, b] = [p([2000 + 2000 * k, -6000]), p([4000 + 2000 * k, -5600])];
        pen.box(a, b, k % 2 === 0 ? 'B' : 'S');
      }
      for (let k = 0; k <= 5; k++) pen.textOver([p([2000 + 2000 * k, 0])[0], y + 10], k === 5 ? '10 m' : String(2 * k), 6);
      pen.text([x, y - 10], 'METRES', 5);
    },
  },
  {
    name: 'two details at different scales',
    page: A2, ratio: 100, origin: [250, 500],
    shapes: [{ name: 'roof', at: [3000, 3000], area: 24 * 12 - 10 * 4, mode: 'outer' }],
    draw(pen, p) {
      frame(pen, A2, ['ROOF PLAN AND DETAIL', 'SCALE AS SHOWN']);
      pen.width(0.7);
      pen.ring(ringAt([[0, 0], [24_000, 0], [24_000, 8000], [14_000, 8000], [14_000, 12_000], [0, 12_000]], p));
      const d = (a: Spot, b: Spot, off: number, text: string): void => dim(pen, p, [a, b], off, text, { ends: 'dot' });
      d([0, 0], [24_000, 0], -30, '24000');
      d([0, 0], [0, 12_000], 30, '12000');
      d([14_000, 12_000], [0, 12_000], -30, '14000');
      d([24_000, 0], [24_000, 8000], -30, '8000');
      pen.text(p([8000, -3500]), '1  ROOF PLAN   1 : 100', 9);
      const q = ([x, y]: Spot): Spot => [1200 + x / ((10 * 25.4) / 72), 550 + y / ((10 * 25.4) / 72)];
      pen.width(0.7);
      pen.ring(ringAt([[0, 0], [900, 0], [900, 250], [300, 250], [300, 700], [0, 700]], q));
      dim(pen, q, [[0, 0], [900, 0]], -30, '900', { ends: 'dot' });
      dim(pen, q, [[0, 0], [0, 700]], 30, '700', { ends: 'dot' });
      dim(pen, q, [[300, 700], [0, 700]], -20, '300', { ends: 'dot' });
      pen.text(q([200, -220]), '2  PARAPET   1 : 10', 9);
    },
  },
  {
    name: 'curved bay, duplicated lines, cm and m, units of 1/36 inch',
    page: { ...A2, userUnit: 2, rotation: 180, crop: [33, -12] }, ratio: 75, origin: [300, 300],
    shapes: [
      { name: 'roof', at: [3000, 3000], area: 20 * 10 + (Math.PI / 2) * 9, openings: 1 },
    ],
    draw(pen, p) {
      frame(pen, A2, ['DACHAUFSICHT', 'M 1:75']);
      pen.width(0.7);
      // A half-round bay of radius 3 m in the east, flattened by the author into 48 pieces; every side drawn twice.
      const sides: Spot[] = [[20_000, 7000], [20_000, 10_000], [0, 10_000], [0, 0], [20_000, 0], [20_000, 4000 - 2000 + 0]];
      const bay = Array.from({ length: 97 }, (_, k): Spot => {
        const t = -Math.PI / 2 + (k / 96) * Math.PI;
        return [20_000 + 3000 * Math.cos(t), 5000 + 3000 * Math.sin(t)];
      });
      const west: Spot[] = [[20_000, 8000], ...sides.slice(1, 5), [20_000, 2000]];
      for (let n = 0; n < 2; n++) {
        for (let k = 1; k < west.length; k++) pen.line(p(west[k - 1] as Spot), p(west[k] as Spot));
        for (let k = 1; k < bay.length; k++) pen.line(p(bay[k - 1] as Spot), p(bay[k] as Spot));
      }
      pen.ring(ringAt(rect([8000, 4000], [9500, 5200]), p));
      const say = (mm: number): string => (mm >= 1000 ? (mm / 1000).toFixed(2).replace('.', ',') : String(mm / 10));
      const d = (a: Spot, b: Spot, off: number, length: number): void => dim(pen, p, [a, b], off, say(length), { ends: 'tick' });
      d([0, 0], [8000, 0], -30, 8000);
      d([8000, 0], [20_000, 0], -30, 12_000);
      d([0, 0], [20_000, 0], -55, 20_000);
      d([0, 0], [0, 10_000], 40, 10_000);
      d([0, 4000], [0, 5200], 20, 1200);
      d([8000, 5200], [9500, 5200], 14, 1500);
      d([8000, 0], [8000, 400], 10, 400);
    },
  },
  {
    name: 'outline in broken pieces with gaps of 1 to 5 mm on the building',
    page: A2, ratio: 100, origin: [300, 300],
    shapes: [{ name: 'roof', at: [6000, 3000], area: 26 * 14 - 8 * 6, mode: 'outer' }, { name: 'roof', at: [6000, 3000], area: 26 * 14 - 8 * 6 }],
    draw(pen, p) {
      frame(pen, A2, ['PLAN', 'SCALE 1:100']);
      const ring: Spot[] = [[0, 0], [26_000, 0], [26_000, 8000], [18_000, 8000], [18_000, 14_000], [0, 14_000]];
      pen.width(0.5);
      ring.forEach((a, k) => {
        const b = ring[(k + 1) % ring.length] as Spot;
        const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
        const on = (s: number): Spot => p([a[0] + ((b[0] - a[0]) * s) / length, a[1] + ((b[1] - a[1]) * s) / length]);
        for (let s = k + 1, n = 0; s < length - 5; n++) {
          const to = Math.min(length - 2, s + 1700 + 130 * n);
          pen.line(on(s), on(to));
          s = to + 3;
        }
      });
      dim(pen, p, [[0, 0], [26_000, 0]], -30, '26.00 m');
      dim(pen, p, [[0, 0], [0, 14_000]], 30, '14.00 m');
      dim(pen, p, [[18_000, 14_000], [0, 14_000]], -30, '18.00 m');
    },
  },
  {
    name: 'outline with corners 1 to 5 mm of paper apart',
    page: A2, ratio: 100, origin: [300, 300],
    shapes: [{ name: 'roof', at: [6000, 3000], area: 26 * 14, mode: 'outer', gap: 15 }, { name: 'roof', at: [6000, 3000], area: 26 * 14, gap: 15 }],
    draw(pen, p) {
      const ring: Spot[] = [[0, 0], [26_000, 0], [26_000, 14_000], [0, 14_000]];
      pen.width(0.5);
      ring.forEach((a, k) => {
        const b = ring[(k + 1) % ring.length] as Spot;
        const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
        const on = (s: number): Spot => p([a[0] + ((b[0] - a[0]) * s) / length, a[1] + ((b[1] - a[1]) * s) / length]);
        pen.line(on(100 + 60 * k), on(length - 200));
      });
    },
  },
  {
    name: 'tiles in the rooms, tens of thousands of paths',
    page: A1, ratio: 50, origin: [400, 400], shapes: HOUSE_SHAPES,
    draw(pen, p, mm) {
      frame(pen, A1, ['FLOOR PLAN', '1 : 50']);
      pen.width(0.1);
      for (let x = 400; x < 5000; x += 100) pen.line(p([x, 300]), p([x, 7700]));
      for (let y = 400; y < 7700; y += 100) pen.line(p([300, y]), p([5000, y]));
      for (let x = 5200; x < 11_700; x += 60) for (let y = 360; y < 7700; y += 120) pen.line(p([x, y]), p([x + 30, y]));
      pen.width(0.7);
      for (const [a, b] of HOUSE_FACES) pen.line(p(a), p(b));
      windows(pen, p);
      door(pen, p, [2000, 300], [3000, 300], { mm });
      door(pen, p, [5000, 3900], [5000, 3000], { mm, side: -1 });
      houseDims(pen, p, IN_MM);
    },
  },
  {
    name: 'scan', page: { ...A3, picture: 'behind' }, ratio: 100, scale: null, origin: [200, 200], shapes: [],
    draw() {},
  },
];
