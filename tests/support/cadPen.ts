// How drafting programs write what stands on a plan: dimensions in several hands, lettering, doors, the sheet's frame.
import type { RoughPage, RoughPen, Spot } from './roughPlan';

/** From millimetres of the building to the page. */
export type Placed = (mm: Spot) => Spot;

export const A3: RoughPage = { width: 1190.55, height: 841.89 };
export const A2: RoughPage = { width: 1683.78, height: 1190.55 };
export const A1: RoughPage = { width: 2383.94, height: 1683.78 };
export const ARCH_D: RoughPage = { width: 2592, height: 1728 };

export const rect = (a: Spot, b: Spot): Spot[] => [a, [b[0], a[1]], b, [a[0], b[1]]];

/** Pairs of places, written as `x y x y, x y x y`. */
export function strokes(text: string): (readonly [Spot, Spot])[] {
  return text.split(', ').map((four) => {
    const [a = 0, b = 0, c = 0, d = 0] = four.split(' ').map(Number);
    return [
      [a, b],
      [c, d],
    ];
  });
}

export function ringAt(points: readonly Spot[], p: Placed): Spot[] {
  return points.map(p);
}

export const feet = (n: number): number => n * 304.8;

export function inFeet(mm: number): string {
  const halves = Math.round((mm / 25.4) * 2);
  const inches = Math.floor((halves % 24) / 2);
  return `${Math.floor(halves / 24)}'-${inches}${halves % 2 ? ' 1/2' : ''}"`;
}

export const IN_MM = (mm: number): string => String(mm);
export const SPACED = (mm: number): string =>
  mm >= 1000 ? `${Math.floor(mm / 1000)} ${String(mm % 1000).padStart(3, '0')}` : String(mm);
export const COMMA_M = (mm: number): string => `${(mm / 1000).toFixed(1).replace('.', ',')} m`;
export const DOT_M = (mm: number): string => (mm / 1000).toFixed(2);

/** A dimension from a to b (mm), its line set off to the left of a → b by so many points. */
export function dim(
  pen: RoughPen,
  p: Placed,
  [a, b]: readonly [Spot, Spot],
  off: number,
  text: string,
  how: {
    ends?: 'tick' | 'arrow' | 'open' | 'dot' | 'circle';
    height?: number;
    place?: 'above' | 'in';
    write?: 'text' | 'letters' | 'strokes' | 'pieces';
    gap?: number;
  } = {},
): void {
  const { ends = 'tick', height = 6, place = 'above', write = 'text', gap = 4 } = how;
  const [A, B] = [p(a), p(b)];
  const length = Math.hypot(B[0] - A[0], B[1] - A[1]);
  const u: Spot = [(B[0] - A[0]) / length, (B[1] - A[1]) / length];
  const n: Spot = [-u[1], u[0]];
  const on = (from: Spot, s: number, t: number): Spot => [
    from[0] + s * u[0] + t * n[0],
    from[1] + s * u[1] + t * n[1],
  ];
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
    const wide = text.length * 0.6 * height;
    [...text].forEach((sign, n) => {
      for (const bar of BARS_OF[sign] ?? '0356') {
        const [x1 = 0, y1 = 0, x2 = 0, y2 = 0] = BARS[Number(bar)] ?? [];
        const at = (x: number, y: number): Spot => {
          const [s, t] = [n * 0.6 * height - wide / 2 + 0.42 * height * x, 0.36 * height * y];
          return [
            middle[0] + s * Math.cos(turned) - t * Math.sin(turned),
            middle[1] + s * Math.sin(turned) + t * Math.cos(turned),
          ];
        };
        pen.line(at(x1, y1), at(x2, y2));
      }
    });
    return;
  }
  const wide = pen.widthOf(text) * height;
  const start: Spot = [middle[0] - (wide / 2) * Math.cos(turned), middle[1] - (wide / 2) * Math.sin(turned)];
  if (write === 'letters') return pen.letters(start, text, height, angle);
  // In pieces: feet, dash, inches, fraction, each by itself.
  let along = 0;
  for (const piece of text.split(/(?<=['\-=]) ?|(?<=\d) (?=\d)|(?<=:) /)) {
    pen.text(
      [start[0] + along * Math.cos(turned), start[1] + along * Math.sin(turned)],
      piece,
      height,
      angle,
    );
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
  p: Placed,
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

/** Figures of seven bars: top, upper left and right, middle, lower left and right, foot; each from and to, in a box 1
 * wide and 2 high. */
const BARS: readonly (readonly [number, number, number, number])[] = [
  [0, 2, 1, 2],
  [0, 1, 0, 2],
  [1, 1, 1, 2],
  [0, 1, 1, 1],
  [0, 0, 0, 1],
  [1, 0, 1, 1],
  [0, 0, 1, 0],
];
const BARS_OF: Readonly<Record<string, string>> = {
  '0': '012456',
  '1': '25',
  '2': '02346',
  '3': '02356',
  '4': '1235',
  '5': '01356',
  '6': '013456',
  '7': '025',
  '8': '0123456',
  '9': '012356',
  '.': '',
  ' ': '',
};
