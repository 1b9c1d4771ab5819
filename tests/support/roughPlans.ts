// Two invented buildings, a floor plan and a roof plan, with what their shapes measure.
import type { RoughPen, Spot } from './roughPlan';

export interface RoughOptions {
  /** Millimetres on the building per point. */
  readonly mmPerPoint: number;
  /** Where the building's lower left corner stands, in points. */
  readonly origin: Spot;
  readonly say: (mm: number) => string;
  readonly lettering?: 'text' | 'none';
  readonly ends?: 'strokes' | 'arrows' | 'dots';
  readonly breaks?: boolean;
  /** How far strokes run past the corners they make, or stop short of them where it is below 0, in points. */
  readonly overshoot?: number;
  /** Extension lines begin on the building itself. */
  readonly extensions?: 'touching' | 'apart';
  /** Grid lines drawn without dashes. */
  readonly grid?: 'dashed' | 'solid';
}

export interface RoughShape {
  readonly name: string;
  /** A place inside, in mm of the building. */
  readonly at: Spot;
  readonly area: number;
  readonly openings?: number;
}

/** L-shaped, double walls, doors, windows, hatched walls, furniture, stairs, grid lines, names in the rooms. Doors are
 * closed along the faces of their walls, whatever leaf and swing are drawn. */
export const FLOOR = {
  outer: { name: 'outer wall', at: [3000, 3000], area: 18 * 9 + 11 * 4.5 },
  rooms: [
    { name: 'left room', at: [3500, 10_500], area: 6.64 * 12.9 },
    { name: 'lower right room', at: [14_000, 2500], area: 10.64 * 5.64 },
    { name: 'upper right room', at: [9000, 12_000], area: 10.64 * 2.64 + 3.64 * 4.5 },
  ] satisfies readonly RoughShape[],
} as const;

export function drawFloor(pen: RoughPen, options: RoughOptions): void {
  const { mmPerPoint, origin, overshoot = 0 } = options;
  const p = ([x, y]: Spot): Spot => [origin[0] + x / mmPerPoint, origin[1] + y / mmPerPoint];
  const outer: Spot[] = [
    [0, 0],
    [18_000, 0],
    [18_000, 9000],
    [11_000, 9000],
    [11_000, 13_500],
    [0, 13_500],
  ];
  const inner: Spot[] = [
    [300, 300],
    [17_700, 300],
    [17_700, 8700],
    [10_700, 8700],
    [10_700, 13_200],
    [300, 13_200],
  ];
  pen.width(0.7);
  const stroke = (a: Spot, b: Spot): void => pen.line(...stretched(p(a), p(b), overshoot));
  outer.forEach((a, k) => stroke(a, outer[(k + 1) % outer.length] as Spot));
  // The inner faces stop at the partitions.
  for (const [a, b] of [
    [
      [300, 300],
      [6940, 300],
    ],
    [
      [7060, 300],
      [17_700, 300],
    ],
    [
      [17_700, 300],
      [17_700, 5940],
    ],
    [
      [17_700, 6060],
      [17_700, 8700],
    ],
    [
      [17_700, 8700],
      [10_700, 8700],
    ],
    [
      [10_700, 8700],
      [10_700, 13_200],
    ],
    [
      [10_700, 13_200],
      [7060, 13_200],
    ],
    [
      [6940, 13_200],
      [300, 13_200],
    ],
    [
      [300, 13_200],
      [300, 300],
    ],
    [
      [6940, 300],
      [6940, 2000],
    ],
    [
      [6940, 2900],
      [6940, 13_200],
    ],
    [
      [7060, 300],
      [7060, 2000],
    ],
    [
      [7060, 2900],
      [7060, 5940],
    ],
    [
      [7060, 6060],
      [7060, 13_200],
    ],
    [
      [7060, 5940],
      [9000, 5940],
    ],
    [
      [9900, 5940],
      [17_700, 5940],
    ],
    [
      [7060, 6060],
      [9000, 6060],
    ],
    [
      [9900, 6060],
      [17_700, 6060],
    ],
    [
      [6940, 2000],
      [7060, 2000],
    ],
    [
      [6940, 2900],
      [7060, 2900],
    ],
    [
      [9000, 5940],
      [9000, 6060],
    ],
    [
      [9900, 5940],
      [9900, 6060],
    ],
  ] as const)
    stroke(a, b);
  pen.width(0.25);
  drawDoor(pen, p([6940, 2000]), p([6940, 2900]), 'left');
  drawDoor(pen, p([9900, 6060]), p([9000, 6060]), 'up');
  for (const x of [2000, 9500, 13_500]) drawWindow(pen, p([x, 0]), p([x + 1800, 300]));
  hatchWalls(pen, outer.map(p), inner.map(p));
  drawFurniture(pen, p, mmPerPoint);
  drawGrid(pen, p, options);
  if (options.lettering !== 'none') {
    pen.textOver(p([3500, 8000]), 'OFFICE 101', 7);
    pen.textOver(p([12_500, 3300]), 'WORKSHOP', 7);
    pen.textOver(p([12_500, 7400]), 'STORE', 7);
    pen.text(p([0, -6200]), 'SCALE AS NOTED', 6);
  }
  drawStrings(pen, options, [0, 7000, 11_000, 18_000], [0, 6000, 9000, 13_500]);
}

/** L-shaped with a parapet; ridges, falls, drains, curbs, a walkway, and a dimension line through it. */
export const ROOF = {
  outer: { name: 'parapet’s outer face', at: [6000, 5000], area: 30 * 12 + 16 * 8 },
  inner: { name: 'parapet’s inner face', at: [6000, 5000], area: 29.3 * 11.3 + 15.3 * 8, openings: 3 },
} as const;

export function drawRoof(pen: RoughPen, options: RoughOptions): void {
  const { mmPerPoint, origin, overshoot = 0 } = options;
  const p = ([x, y]: Spot): Spot => [origin[0] + x / mmPerPoint, origin[1] + y / mmPerPoint];
  const outer: Spot[] = [
    [0, 0],
    [30_000, 0],
    [30_000, 12_000],
    [16_000, 12_000],
    [16_000, 20_000],
    [0, 20_000],
  ];
  const inner: Spot[] = [
    [350, 350],
    [29_650, 350],
    [29_650, 11_650],
    [15_650, 11_650],
    [15_650, 19_650],
    [350, 19_650],
  ];
  pen.width(0.7);
  for (const ring of [outer, inner])
    ring.forEach((a, k) => pen.line(...stretched(p(a), p(ring[(k + 1) % ring.length] as Spot), overshoot)));
  pen.width(0.35);
  // Curbs: two units with a cross, a hatch with a double line.
  for (const [a, b] of [
    [
      [5000, 8000],
      [7400, 9800],
    ],
    [
      [20_000, 3000],
      [23_000, 5000],
    ],
  ] as const) {
    pen.box(p(a), p(b));
    pen.width(0.18);
    pen.line(p(a), p(b));
    pen.line(p([a[0], b[1]]), p([b[0], a[1]]));
    pen.width(0.35);
  }
  pen.box(p([11_000, 15_000]), p([12_200, 16_000]));
  pen.box(p([11_080, 15_080]), p([12_120, 15_920]));
  pen.width(0.18);
  for (const [x, y] of [
    [8000, 4000],
    [25_000, 8000],
    [8000, 17_000],
  ] as const) {
    pen.circle(p([x, y]), 150 / mmPerPoint);
    pen.line(p([x - 300, y]), p([x + 300, y]));
    pen.line(p([x, y - 300]), p([x, y + 300]));
  }
  // Falls to the drains: dashed valleys, arrows with their slopes.
  pen.dash(6, 3);
  pen.line(p([350, 12_000]), p([16_000, 12_000]));
  pen.line(p([16_000, 350]), p([16_000, 12_000]));
  pen.dash();
  for (const [x, y] of [
    [3000, 5500],
    [27_000, 4000],
    [4000, 17_500],
  ] as const) {
    pen.line(p([x, y]), p([x + 1500, y]));
    pen.ring([p([x + 1500, y]), p([x + 1200, y + 120]), p([x + 1200, y - 120])], 'f');
    if (options.lettering !== 'none') pen.textOver(p([x + 700, y + 250]), '2 %', 5);
  }
  // A walkway of pads, hatched; a leader to a curb.
  for (let k = 0; k < 8; k++) {
    const [a, b] = [p([9000 + k * 900, 6500]), p([9850 + k * 900, 7300])];
    pen.box(a, b);
    for (let n = 1; n < 8; n++)
      pen.line([a[0] + ((b[0] - a[0]) * n) / 8, a[1]], [a[0] + ((b[0] - a[0]) * n) / 8, b[1]]);
  }
  pen.polyline([p([23_000, 4500]), p([26_000, 14_000]), p([28_000, 14_000])]);
  pen.ring([p([23_000, 4500]), p([23_250, 4950]), p([23_000, 5000])], 'f');
  if (options.lettering !== 'none') {
    pen.textOver(p([13_000, 9500]), 'ROOF A', 9);
    pen.text(p([28_200, 14_000]), 'UNIT 2 ON CURB', 5);
    pen.text(p([22_000, -5600]), 'ROOF PLAN', 9);
  }
  if (options.grid === 'solid') drawGrid(pen, p, options);
  drawStrings(pen, options, [0, 16_000, 30_000], [0, 12_000, 20_000]);
  // Through the roof, from inner face to inner face.
  const { say, ends, breaks } = options;
  pen.dimensions([p([350, 0])[0], p([29_650, 0])[0]], p([0, 2000])[1], 'across', {
    say: options.lettering === 'none' ? () => '' : (points) => say(points * mmPerPoint),
    from: 0,
    ...(ends ? { ends } : {}),
    ...(breaks === undefined ? {} : { breaks }),
  });
}

function drawStrings(
  pen: RoughPen,
  options: RoughOptions,
  across: readonly number[],
  up: readonly number[],
): void {
  const { mmPerPoint, origin, say, ends, breaks } = options;
  pen.width(0.18);
  const with_ = {
    say: options.lettering === 'none' ? () => '' : (points: number) => say(points * mmPerPoint),
    ...(ends ? { ends } : {}),
    ...(breaks === undefined ? {} : { breaks }),
    from: options.extensions === 'touching' ? 28 : 20,
  };
  const xs = across.map((x) => origin[0] + x / mmPerPoint);
  const ys = up.map((y) => origin[1] + y / mmPerPoint);
  pen.dimensions(xs, origin[1] - 28, 'across', with_);
  pen.dimensions([xs[0] ?? 0, xs.at(-1) ?? 0], origin[1] - 46, 'across', with_);
  pen.dimensions(ys, origin[0] - 28, 'up', with_);
  pen.dimensions([ys[0] ?? 0, ys.at(-1) ?? 0], origin[0] - 46, 'up', with_);
}

function stretched(a: Spot, b: Spot, by: number): [Spot, Spot] {
  const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
  const [ux, uy] = [((b[0] - a[0]) / length) * by, ((b[1] - a[1]) / length) * by];
  return [
    [a[0] - ux, a[1] - uy],
    [b[0] + ux, b[1] + uy],
  ];
}

/** Leaf and swing; hinged at the first place. */
function drawDoor(pen: RoughPen, hinge: Spot, latch: Spot, side: 'left' | 'up'): void {
  const wide = Math.hypot(latch[0] - hinge[0], latch[1] - hinge[1]);
  const tip: Spot = side === 'left' ? [hinge[0] - wide, hinge[1]] : [hinge[0], hinge[1] + wide];
  pen.line(hinge, tip);
  pen.arc(hinge, wide, 90, 180);
}

function drawWindow(pen: RoughPen, low: Spot, high: Spot): void {
  pen.line(low, [low[0], high[1]]);
  pen.line([high[0], low[1]], high);
  for (const share of [0.35, 0.65]) {
    const y = low[1] + share * (high[1] - low[1]);
    pen.line([low[0], y], [high[0], y]);
  }
}

/** Oblique strokes between the faces of the wall along its lower and left side. */
function hatchWalls(pen: RoughPen, outer: readonly Spot[], inner: readonly Spot[]): void {
  const [a, b] = [outer[0] as Spot, inner[0] as Spot];
  const thick = b[1] - a[1];
  pen.width(0.13);
  for (let x = a[0]; x + thick < (outer[1] as Spot)[0]; x += 2.5) pen.line([x, a[1]], [x + thick, b[1]]);
  for (let y = b[1]; y + thick < (outer[5] as Spot)[1]; y += 2.5) pen.line([a[0], y], [b[0], y + thick]);
}

function drawFurniture(pen: RoughPen, p: (spot: Spot) => Spot, mmPerPoint: number): void {
  pen.width(0.18);
  pen.box(p([1000, 1000]), p([2600, 1800]));
  pen.circle(p([4500, 5000]), 600 / mmPerPoint);
  pen.box(p([14_000, 4000]), p([16_400, 5200]));
  // Stairs against the wall: treads in a well of their own.
  pen.box(p([300, 11_500]), p([2500, 13_200]));
  for (let k = 1; k < 8; k++) pen.line(p([300 + 275 * k, 11_500]), p([300 + 275 * k, 13_200]));
}

function drawGrid(pen: RoughPen, p: (spot: Spot) => Spot, options: RoughOptions): void {
  pen.width(0.13);
  for (const [k, x] of [150, 7000, 17_850].entries()) {
    if (options.grid !== 'solid') pen.dash(12, 2, 2, 2);
    const [from, to] = [p([x, -2600]), p([x, 15_500])];
    pen.line(from, to);
    pen.dash();
    pen.circle([to[0], to[1] + 8], 8);
    if (options.lettering !== 'none') pen.textOver([to[0], to[1] + 5.5], String(k + 1), 7);
  }
}
