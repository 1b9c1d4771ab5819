// Roof plans in several hands, and pages that give little: eaves under hips and grid lines, parapets, details beside the plan,
// outlines in pieces, a scan.
import type { CadPlan } from './cadPlan';
import { A2, A3, ARCH_D, dim, feet, frame, inFeet, rect, ringAt, strokes } from './cadPen';
import type { Spot } from './roughPlan';

export const ROOF_PLANS: readonly CadPlan[] = [
  {
    name: 'hip roof: eave, hips, ridge, wall dashed as strokes, solid grid with bubbles, feet',
    page: ARCH_D,
    ratio: 96,
    origin: [500, 500],
    shapes: [
      {
        name: 'eave',
        at: [feet(20), feet(12)],
        area: (feet(72) * feet(40) + feet(30) * feet(24)) / 1e6,
        mode: 'outer',
      },
    ],
    draw(pen, p) {
      frame(pen, ARCH_D, ['ROOF PLAN', 'SCALE: 1/8" = 1\'-0"', 'A1.05']);
      const F = (x: number, y: number): Spot => p([feet(x), feet(y)]);
      pen.width(0.7);
      // Eave in collinear pieces, as cut by hips and grid lines.
      const eave: Spot[] = [
        [0, 0],
        [24, 0],
        [50, 0],
        [72, 0],
        [72, 18],
        [72, 40],
        [50, 40],
        [30, 40],
        [30, 64],
        [14, 64],
        [0, 64],
        [0, 40],
        [0, 20],
      ];
      eave.forEach((a, k) => {
        const b = eave[(k + 1) % eave.length] as Spot;
        pen.line(F(...a), F(...b));
      });
      pen.width(0.35);
      for (const [a, b] of strokes(
        '0 0 20 20, 72 0 52 20, 72 40 52 20, 15 20 52 20, 30 40 10 20, 0 64 15 49, 30 64 15 49, ' +
          '15 49 15 20',
      ))
        pen.line(F(...a), F(...b));
      // The wall below, 2 ft in, as many short strokes.
      const wall: Spot[] = [
        [2, 2],
        [70, 2],
        [70, 38],
        [28, 38],
        [28, 62],
        [2, 62],
      ];
      pen.width(0.25);
      wall.forEach((a, k) => {
        const b = wall[(k + 1) % wall.length] as Spot;
        const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
        for (let t = 0; t + 0.9 < length; t += 1.5) {
          const at = (s: number): Spot =>
            F(a[0] + ((b[0] - a[0]) * s) / length, a[1] + ((b[1] - a[1]) * s) / length);
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
        dim(
          pen,
          p,
          [
            [feet(a[0]), feet(a[1])],
            [feet(b[0]), feet(b[1])],
          ],
          off,
          inFeet(feet(length)),
          { ends: 'arrow', height: 8, place: 'in' },
        );
      d([0, 0], [24, 0], -50, 24);
      d([24, 0], [72, 0], -50, 48);
      d([0, 0], [72, 0], -75, 72);
      d([0, 0], [0, 64], 60, 64);
      d([72, 0], [72, 40], -60, 40);
      // Arrows down each slope with its pitch.
      for (const [x, y, dx, dy] of [
        [36, 10, 0, -6],
        [36, 30, 0, 6],
        [62, 20, 6, 0],
        [7, 30, -5, 0],
      ] as const) {
        pen.line(F(x, y), F(x + dx, y + dy));
        const back: Spot = [Math.sign(dx), Math.sign(dy)];
        pen.ring(
          [
            F(x + dx, y + dy),
            F(x + dx - back[0] - 0.3 * back[1], y + dy - back[1] - 0.3 * back[0]),
            F(x + dx - back[0] + 0.3 * back[1], y + dy - back[1] + 0.3 * back[0]),
          ],
          'f',
        );
        pen.text(F(x + 0.5, y + 0.5), '4:12', 7);
      }
    },
  },
  {
    name: 'flat roof: parapet in boxes, skylights in a row, pavers, note of a sheet twice as large, no dimensions but a bar',
    page: A3,
    ratio: 200,
    origin: [200, 250],
    shapes: [
      { name: 'inner', at: [20_000, 3000], area: 39.4 * 19.4, openings: 8 },
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
      for (let k = 0; k <= 5; k++)
        pen.textOver([p([2000 + 2000 * k, 0])[0], y + 10], k === 5 ? '10 m' : String(2 * k), 6);
      pen.text([x, y - 10], 'METRES', 5);
    },
  },
  {
    name: 'two details at different scales',
    page: A2,
    ratio: 100,
    origin: [250, 500],
    shapes: [{ name: 'roof', at: [3000, 3000], area: 24 * 12 - 10 * 4, mode: 'outer' }],
    draw(pen, p) {
      frame(pen, A2, ['ROOF PLAN AND DETAIL', 'SCALE AS SHOWN']);
      pen.width(0.7);
      pen.ring(
        ringAt(
          [
            [0, 0],
            [24_000, 0],
            [24_000, 8000],
            [14_000, 8000],
            [14_000, 12_000],
            [0, 12_000],
          ],
          p,
        ),
      );
      const d = (a: Spot, b: Spot, off: number, text: string): void =>
        dim(pen, p, [a, b], off, text, { ends: 'dot' });
      d([0, 0], [24_000, 0], -30, '24000');
      d([0, 0], [0, 12_000], 30, '12000');
      d([14_000, 12_000], [0, 12_000], -30, '14000');
      d([24_000, 0], [24_000, 8000], -30, '8000');
      pen.text(p([8000, -3500]), '1  ROOF PLAN   1 : 100', 9);
      const q = ([x, y]: Spot): Spot => [1200 + x / ((10 * 25.4) / 72), 550 + y / ((10 * 25.4) / 72)];
      pen.width(0.7);
      pen.ring(
        ringAt(
          [
            [0, 0],
            [900, 0],
            [900, 250],
            [300, 250],
            [300, 700],
            [0, 700],
          ],
          q,
        ),
      );
      dim(
        pen,
        q,
        [
          [0, 0],
          [900, 0],
        ],
        -30,
        '900',
        { ends: 'dot' },
      );
      dim(
        pen,
        q,
        [
          [0, 0],
          [0, 700],
        ],
        30,
        '700',
        { ends: 'dot' },
      );
      dim(
        pen,
        q,
        [
          [300, 700],
          [0, 700],
        ],
        -20,
        '300',
        { ends: 'dot' },
      );
      pen.text(q([200, -220]), '2  PARAPET   1 : 10', 9);
    },
  },
  {
    name: 'curved bay, duplicated lines, cm and m, units of 1/36 inch',
    page: { ...A2, userUnit: 2, rotation: 180, crop: [33, -12] },
    ratio: 75,
    origin: [300, 300],
    shapes: [{ name: 'roof', at: [3000, 3000], area: 20 * 10 + (Math.PI / 2) * 9, openings: 1 }],
    draw(pen, p) {
      frame(pen, A2, ['DACHAUFSICHT', 'M 1:75']);
      pen.width(0.7);
      // A half-round bay of radius 3 m in the east, flattened by the author into 48 pieces; every side drawn twice.
      const sides: Spot[] = [
        [20_000, 7000],
        [20_000, 10_000],
        [0, 10_000],
        [0, 0],
        [20_000, 0],
        [20_000, 4000 - 2000 + 0],
      ];
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
      const say = (mm: number): string =>
        mm >= 1000 ? (mm / 1000).toFixed(2).replace('.', ',') : String(mm / 10);
      const d = (a: Spot, b: Spot, off: number, length: number): void =>
        dim(pen, p, [a, b], off, say(length), { ends: 'tick' });
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
    page: A2,
    ratio: 100,
    origin: [300, 300],
    shapes: [
      { name: 'roof', at: [6000, 3000], area: 26 * 14 - 8 * 6, mode: 'outer' },
      { name: 'roof', at: [6000, 3000], area: 26 * 14 - 8 * 6 },
    ],
    draw(pen, p) {
      frame(pen, A2, ['PLAN', 'SCALE 1:100']);
      const ring: Spot[] = [
        [0, 0],
        [26_000, 0],
        [26_000, 8000],
        [18_000, 8000],
        [18_000, 14_000],
        [0, 14_000],
      ];
      pen.width(0.5);
      ring.forEach((a, k) => {
        const b = ring[(k + 1) % ring.length] as Spot;
        const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
        const on = (s: number): Spot =>
          p([a[0] + ((b[0] - a[0]) * s) / length, a[1] + ((b[1] - a[1]) * s) / length]);
        for (let s = k + 1, n = 0; s < length - 5; n++) {
          const to = Math.min(length - 2, s + 1700 + 130 * n);
          pen.line(on(s), on(to));
          s = to + 3;
        }
      });
      dim(
        pen,
        p,
        [
          [0, 0],
          [26_000, 0],
        ],
        -30,
        '26.00 m',
      );
      dim(
        pen,
        p,
        [
          [0, 0],
          [0, 14_000],
        ],
        30,
        '14.00 m',
      );
      dim(
        pen,
        p,
        [
          [18_000, 14_000],
          [0, 14_000],
        ],
        -30,
        '18.00 m',
      );
    },
  },
  {
    name: 'outline with corners 1 to 5 mm of paper apart',
    page: A2,
    ratio: 100,
    scale: null,
    origin: [300, 300],
    shapes: [
      { name: 'roof', at: [6000, 3000], area: 26 * 14, mode: 'outer', gap: 15 },
      { name: 'roof', at: [6000, 3000], area: 26 * 14, gap: 15 },
    ],
    draw(pen, p) {
      const ring: Spot[] = [
        [0, 0],
        [26_000, 0],
        [26_000, 14_000],
        [0, 14_000],
      ];
      pen.width(0.5);
      ring.forEach((a, k) => {
        const b = ring[(k + 1) % ring.length] as Spot;
        const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
        const on = (s: number): Spot =>
          p([a[0] + ((b[0] - a[0]) * s) / length, a[1] + ((b[1] - a[1]) * s) / length]);
        pen.line(on(100 + 60 * k), on(length - 200));
      });
    },
  },
  {
    name: 'scan',
    page: { ...A3, picture: 'behind' },
    ratio: 100,
    scale: null,
    origin: [200, 200],
    shapes: [],
    draw() {},
  },
];
