// Roof plans with much around and across them: seams of metal, boundary and section lines, gutters, leaders, clouds, key plans;
// dimensions as they are written in several countries, beside figures that are none.
import type { CadPlan } from './cadPlan';
import { A1, A2, A3, ARCH_D, dim, feet, frame, inFeet, rect, ringAt, strokes, writeText } from './cadPen';
import type { Placed } from './cadPen';
import type { RoughPen, Spot } from './roughPlan';

/** A line in dashes and dots, each a stroke by itself. */
function dashDot(pen: RoughPen, a: Spot, b: Spot, pattern: readonly number[]): void {
  const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
  const on = (s: number): Spot => [a[0] + ((b[0] - a[0]) * s) / length, a[1] + ((b[1] - a[1]) * s) / length];
  for (let s = 0, n = 0; s < length; n++) {
    const step = pattern[n % pattern.length] ?? 1;
    if (n % 2 === 0) pen.line(on(s), on(Math.min(length, s + step)));
    s += step;
  }
}

function leader(pen: RoughPen, from: Spot, knee: Spot, text: string, end: 'arrow' | 'dot' | 'none'): void {
  pen.width(0.18);
  pen.line(from, knee);
  pen.line(knee, [knee[0] + 18, knee[1]]);
  const length = Math.hypot(knee[0] - from[0], knee[1] - from[1]);
  const u: Spot = [(knee[0] - from[0]) / length, (knee[1] - from[1]) / length];
  if (end === 'arrow')
    pen.ring(
      [
        from,
        [from[0] + 5 * u[0] - 1 * u[1], from[1] + 5 * u[1] + 1 * u[0]],
        [from[0] + 5 * u[0] + 1 * u[1], from[1] + 5 * u[1] - 1 * u[0]],
      ],
      'f',
    );
  if (end === 'dot') pen.disc(from, 1);
  pen.text([knee[0] + 20, knee[1] - 2], text, 5);
}

/** A section line through the building: a stroke at each end, a flag and a bubble. */
function sectionMark(pen: RoughPen, at: Spot, way: 1 | -1): void {
  pen.width(0.7);
  pen.line(at, [at[0], at[1] + 20 * way]);
  pen.circle([at[0], at[1] + 28 * way], 8);
  pen.ring(
    [
      [at[0] - 8, at[1] + 28 * way],
      [at[0] - 16, at[1] + 28 * way],
      [at[0] - 4, at[1] + 34 * way],
    ],
    'f',
  );
  pen.textOver([at[0], at[1] + 26 * way], 'A', 7);
}

const L: readonly Spot[] = [
  [0, 0],
  [36_000, 0],
  [36_000, 16_000],
  [20_000, 16_000],
  [20_000, 24_000],
  [0, 24_000],
];
const L_AREA = 36 * 16 + 20 * 8;

function dimsOf(pen: RoughPen, p: Placed, say: (mm: number) => string, how: Parameters<typeof dim>[5]): void {
  dim(
    pen,
    p,
    [
      [0, 0],
      [20_000, 0],
    ],
    -40,
    say(20_000),
    how,
  );
  dim(
    pen,
    p,
    [
      [20_000, 0],
      [36_000, 0],
    ],
    -40,
    say(16_000),
    how,
  );
  dim(
    pen,
    p,
    [
      [0, 0],
      [36_000, 0],
    ],
    -65,
    say(36_000),
    how,
  );
  dim(
    pen,
    p,
    [
      [0, 0],
      [0, 16_000],
    ],
    40,
    say(16_000),
    how,
  );
  dim(
    pen,
    p,
    [
      [0, 16_000],
      [0, 24_000],
    ],
    40,
    say(8000),
    how,
  );
  dim(
    pen,
    p,
    [
      [0, 0],
      [0, 24_000],
    ],
    65,
    say(24_000),
    how,
  );
}

export const BUSY_PLANS: readonly CadPlan[] = [
  {
    name: 'metal roof: seams over both slopes, gutter beside the eave, section line, boundary, key plan',
    page: { ...A1, rotation: 270 },
    ratio: 100,
    origin: [500, 500],
    shapes: [{ name: 'outer', at: [9000, 4000], area: L_AREA, mode: 'outer' }],
    draw(pen, p) {
      frame(pen, A1, ['ROOF PLAN', 'M 1:100']);
      pen.width(0.6);
      pen.ring(ringAt(L, p));
      pen.width(0.13);
      for (let x = 400; x < 36_000; x += 400) pen.line(p([x, 0]), p([x, 16_000]));
      for (let y = 16_400; y < 24_000; y += 400) pen.line(p([0, y]), p([20_000, y]));
      pen.width(0.35);
      pen.line(p([0, 8000]), p([36_000, 8000]));
      pen.line(p([0, 16_000]), p([20_000, 16_000]));
      pen.line(p([10_000, 16_000]), p([10_000, 24_000]));
      const ring = rect([-6000, -5000], [42_000, 30_000]);
      pen.width(0.5);
      ring.forEach((a, k) => dashDot(pen, p(a), p(ring[(k + 1) % 4] as Spot), [24, 5, 2, 5]));
      dashDot(pen, p([18_000, -3000]), p([18_000, 27_000]), [12, 3, 2, 3]);
      sectionMark(pen, p([18_000, -3000]), -1);
      sectionMark(pen, p([18_000, 27_000]), 1);
      leader(pen, p([30_000, 12_000]), [p([38_000, 0])[0], p([0, 20_000])[1]], 'METAL ROOF', 'arrow');
      leader(pen, p([36_000, 6000]), [p([38_500, 0])[0], p([0, 9000])[1]], 'GUTTER', 'dot');
      const key = ([x, y]: Spot): Spot => [1900 + x / 400, 1400 + y / 400];
      pen.ring(ringAt(L, key));
      dimsOf(pen, p, (mm) => (mm / 1000).toFixed(2), { ends: 'tick', height: 7 });
      pen.text(p([5000, 20_000]), '+ 7.25', 7);
      pen.text(p([25_000, 5000]), 'A = 288.00 m\u00b2', 7);
    },
  },
  {
    name: 'flat roof in feet: filled and stroked, thick, fractions stacked, dashed grid, drains, curbs with clearances',
    page: { ...ARCH_D, rotation: 90, crop: [-60, 45] },
    ratio: 192,
    origin: [600, 500],
    shapes: [
      { name: 'outer', at: [feet(100), feet(20)], area: (feet(210) * feet(110)) / 1e6, mode: 'outer' },
      { name: 'inner', at: [feet(100), feet(20)], area: (feet(208) * feet(108)) / 1e6, openings: 3 },
    ],
    draw(pen, p) {
      frame(pen, ARCH_D, ['ROOF PLAN', 'A-140']);
      const F = (x: number, y: number): Spot => p([feet(x), feet(y)]);
      // The scale in pieces.
      pen.text([900, 180], 'SCALE:', 9);
      pen.text([940, 180], '1/16"', 9);
      pen.text([966, 180], '=', 9);
      pen.text([976, 180], '1\'-0"', 9);
      pen.grey(0.93);
      pen.ring(ringAt(rect([0, 0], [feet(210), feet(110)]), p), 'f');
      pen.grey(0);
      pen.width(1.4);
      pen.box(F(0, 0), F(210, 110));
      pen.width(0.5);
      pen.box(F(1, 1), F(209, 109));
      for (const [x, y] of [
        [30, 70],
        [90, 70],
        [150, 30],
      ] as const) {
        pen.width(0.5);
        pen.box(F(x, y), F(x + 14, y + 9));
        pen.width(0.2);
        pen.dash(4, 2);
        pen.box(F(x - 4, y - 4), F(x + 18, y + 13));
        pen.dash();
        pen.textOver(F(x + 7, y + 4), 'RTU', 6);
      }
      for (const x of [40, 105, 170])
        for (const y of [55]) {
          pen.width(0.3);
          pen.circle(F(x, y), 4);
          pen.circle(F(x, y), 2);
          pen.width(0.2);
          for (const [dx, dy] of [
            [1, 1],
            [-1, 1],
            [1, -1],
            [-1, -1],
          ] as const) {
            pen.line(F(x + 3 * dx, y + 3 * dy), F(x + 12 * dx, y + 12 * dy));
            pen.ring([F(x + 3 * dx, y + 3 * dy), F(x + 5 * dx, y + 4 * dy), F(x + 4 * dx, y + 5 * dy)], 'f');
          }
          leader(pen, F(x + 1, y), F(x + 12, y + 22), 'RD-1 TYP.', 'none');
        }
      for (const [k, x] of [0, 70, 140, 210].entries()) {
        pen.width(0.2);
        pen.dash(18, 3, 3, 3);
        pen.line(F(x, -25), F(x, 125));
        pen.dash();
        const [bx, by] = F(x, 125);
        pen.circle([bx, by + 10], 10);
        pen.textOver([bx, by + 7], String(k + 1), 8);
      }
      // Feet and inches by themselves, the fraction small and stacked behind them.
      const d = (a: Spot, b: Spot, off: number, text: string): void =>
        dim(
          pen,
          p,
          [
            [feet(a[0]), feet(a[1])],
            [feet(b[0]), feet(b[1])],
          ],
          off,
          text,
          { ends: 'arrow', height: 7 },
        );
      d([0, 0], [70, 0], -40, '70\'-0"');
      d([70, 0], [140, 0], -40, '70\'-0"');
      d([140, 0], [210, 0], -40, '70\'-0"');
      d([0, 0], [210, 0], -60, '210\'-0"');
      d([0, 0], [0, 110], 50, '110\'-0"');
      d([0, 70], [30, 70], 0.01, '30\'-0"');
    },
  },
  {
    name: 'note of A1 on A3, no other evidence; outline in a clip, re operators, white masks',
    page: A3,
    ratio: 200,
    origin: [250, 250],
    shapes: [
      { name: 'outer', at: [9000, 4000], area: L_AREA, mode: 'outer' },
      { name: 'shape', at: [9000, 4000], area: L_AREA, openings: 2 },
    ],
    draw(pen, p) {
      frame(pen, A3, ['DACH', 'Ma\u00dfstab', '1:100 @ A1']);
      pen.clipped(p([-2000, -2000]), p([40_000, 30_000]), () => {
        pen.grey(1);
        pen.ring(ringAt(L, p), 'f');
        pen.grey(0);
        pen.width(0.5);
        pen.ring(ringAt(L, p));
        pen.ring(ringAt(rect([5000, 5000], [8000, 8000]), p));
        pen.line(p([5000, 5000]), p([8000, 8000]));
        pen.ring(ringAt(rect([25_000, 9000], [31_000, 13_000]), p));
      });
      // What is clipped away must not count.
      pen.clipped(p([50_000, 0]), p([52_000, 2000]), () => {
        pen.line(p([10_000, -4000]), p([10_000, 40_000]));
        pen.line(p([51_000, 500]), p([51_500, 1500]));
      });
    },
  },
  {
    name: 'metres and centimetres with raised halves, levels and areas about, turned by 270',
    page: { ...A2, rotation: 270 },
    ratio: 100,
    origin: [350, 300],
    shapes: [{ name: 'outer', at: [9000, 4000], area: L_AREA, mode: 'outer' }],
    draw(pen, p) {
      frame(pen, A2, ['DACHAUFSICHT', 'Ma\u00dfstab 1 : 100']);
      pen.width(0.7);
      pen.ring(ringAt(L, p));
      pen.width(0.25);
      for (const [a, b] of strokes(
        '0 0 8000 8000, 8000 8000 0 16000, 8000 8000 28000 8000, 28000 8000 36000 0',
      ))
        pen.line(p(a), p(b));
      const say = (mm: number): string => (mm >= 1000 ? (mm / 1000).toFixed(2) : String(mm / 10));
      dimsOf(pen, p, say, { ends: 'tick', height: 6 });
      // 2.36⁵: the half centimetre small and raised.
      dim(
        pen,
        p,
        [
          [20_000, 24_000],
          [17_635, 24_000],
        ],
        -25,
        '2.36',
        { ends: 'tick' },
      );
      pen.text([p([18_900, 0])[0] + 3, p([0, 24_000])[1] + 29], '5', 3.5);
      dim(
        pen,
        p,
        [
          [36_000, 16_000],
          [36_000, 15_635],
        ],
        20,
        '36',
        { ends: 'tick' },
      );
      for (const [x, y, text] of [
        [12_000, 18_000, '+9.85'],
        [25_000, 4000, '3.5 %'],
        [30_000, 12_000, 'DN 100'],
        [4000, 20_000, '45.30 m\u00b2'],
      ] as const) {
        pen.text(p([x, y]), text, 6);
        pen.line([p([x, y])[0], p([x, y])[1] - 2], [p([x, y])[0] + 30, p([x, y])[1] - 2]);
      }
      writeText(pen, p([28_000, 14_000]), 'ATTIKA H=60', 6, 0, 'letters');
    },
  },
  {
    name: 'imperial decimals and inches, small gaps in the eave, cloud and tags, units of a quarter inch',
    page: { ...ARCH_D, userUnit: 4 },
    ratio: 120,
    origin: [600, 500],
    shapes: [{ name: 'outer', at: [feet(30), feet(10)], area: (feet(120) * feet(60)) / 1e6, mode: 'outer' }],
    draw(pen, p) {
      frame(pen, ARCH_D, ['ROOF', 'Scale: 1" = 10\'']);
      pen.width(0.6);
      for (const [a, b] of strokes(
        '0 0 59.9 0, 60.05 0 120 0, 120 0.05 120 60, 119.95 60 30 60, 29.9 60 0 60, 0 59.95 0 0.04',
      ))
        pen.line(p([feet(a[0]), feet(a[1])]), p([feet(b[0]), feet(b[1])]));
      const d = (a: Spot, b: Spot, off: number, length: number): void =>
        dim(
          pen,
          p,
          [
            [feet(a[0]), feet(a[1])],
            [feet(b[0]), feet(b[1])],
          ],
          off,
          inFeet(feet(length)).replace("'-", "' - "),
          { ends: 'circle', height: 8 },
        );
      d([0, 0], [60, 0], -40, 60);
      d([60, 0], [120, 0], -40, 60);
      d([0, 0], [120, 0], -70, 120);
      d([0, 0], [0, 60], 50, 60);
      d([120, 60], [120, 0], 50, 60);
      // A revision cloud over the corner, a triangle with its number.
      const [cx, cy] = p([feet(120), feet(60)]);
      for (let k = 0; k < 14; k++) {
        const t = (k / 14) * 2 * Math.PI;
        pen.arc(
          [cx + 60 * Math.cos(t), cy + 40 * Math.sin(t)],
          13,
          (t * 180) / Math.PI - 80,
          (t * 180) / Math.PI + 80,
        );
      }
      pen.ring([
        [cx + 80, cy + 50],
        [cx + 100, cy + 50],
        [cx + 90, cy + 66],
      ]);
      pen.textOver([cx + 90, cy + 53], '2', 7);
    },
  },
];
