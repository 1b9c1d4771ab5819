// Where on a map a name or a number has room. In: what is drawn already, as convex shapes, and a label's own wishes in
// their order. Out: the first that stands clear. Promise: a label is never put on another label or mark while any of
// the places asked for is free.
import type { Spot } from './canvas';

/** A box by its middle, turned by so many degrees. */
export interface LabelBox {
  readonly middle: Spot;
  readonly width: number;
  readonly height: number;
  readonly angle: number;
}

/** Two, three or more corners in turn, of no shape with a hollow. */
export type Shape = readonly Spot[];

export class LabelRoom {
  /** No label on these. */
  private readonly taken: Bounded[] = [];
  /** No label on these if there is a choice, but for the one that they belong to. */
  private readonly spared: (Bounded & { readonly of: string })[] = [];

  constructor(
    private readonly low: Spot,
    private readonly high: Spot,
  ) {}

  take(shape: Shape): void {
    this.taken.push(bounded(shape));
  }

  spare(shape: Shape, of: string): void {
    this.spared.push({ ...bounded(shape), of });
  }

  /** The first box that stands clear of everything, else the first on nothing but what is only spared; its room is
   * taken. null where neither is to be had. */
  put(wishes: readonly LabelBox[], own = ''): LabelBox | null {
    let second: LabelBox | null = null;
    for (const wish of wishes) {
      const box = bounded(cornersOf(wish));
      if (!this.within(box) || this.taken.some((other) => meet(box, other))) continue;
      if (!this.spared.some((other) => other.of !== own && meet(box, other))) return this.settle(wish);
      second ??= wish;
    }
    return second && this.settle(second);
  }

  private settle(box: LabelBox): LabelBox {
    this.take(cornersOf(box));
    return box;
  }

  private within({ low, high }: Bounded): boolean {
    return (
      low[0] >= this.low[0] && low[1] >= this.low[1] && high[0] <= this.high[0] && high[1] <= this.high[1]
    );
  }
}

export function cornersOf({ middle, width, height, angle }: LabelBox): readonly [Spot, Spot, Spot, Spot] {
  const turn = (angle * Math.PI) / 180;
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  const at = (along: number, up: number): Spot => [
    middle[0] + along * cos - up * sin,
    middle[1] + along * sin + up * cos,
  ];
  const [w, h] = [width / 2, height / 2];
  return [at(-w, -h), at(w, -h), at(w, h), at(-w, h)];
}

/** Places along a stretch from the share that is wished for on, near ones first, both ways. */
export function sharesFrom(wished: number, low: number, high: number): number[] {
  const shares = [wished];
  for (let step = 1; step <= SHARES; step++) shares.push(wished - step / SHARES, wished + step / SHARES);
  return shares.filter((share) => share >= low && share <= high);
}

const SHARES = 24;

/** Boxes round a spot, in rings that grow, to be joined to it by a line. */
export function boxesRound(spot: Spot, width: number, height: number): LabelBox[] {
  const boxes: LabelBox[] = [];
  for (let ring = 1; ring <= 6; ring++)
    for (let k = 0; k < 16; k++) {
      const turn = (k / 16) * 2 * Math.PI;
      const middle: Spot = [
        spot[0] + Math.cos(turn) * (width / 2 + 9 * ring),
        spot[1] + Math.sin(turn) * (height / 2 + 9 * ring),
      ];
      boxes.push({ middle, width, height, angle: 0 });
    }
  return boxes;
}

interface Bounded {
  readonly shape: Shape;
  readonly low: Spot;
  readonly high: Spot;
}

function bounded(shape: Shape): Bounded {
  const [xs, ys] = [shape.map(([x]) => x), shape.map(([, y]) => y)];
  return { shape, low: [Math.min(...xs), Math.min(...ys)], high: [Math.max(...xs), Math.max(...ys)] };
}

/** Convex shapes are apart where some side of one of them parts them. */
function meet(a: Bounded, b: Bounded): boolean {
  if (a.low[0] > b.high[0] || b.low[0] > a.high[0] || a.low[1] > b.high[1] || b.low[1] > a.high[1])
    return false;
  return !parts(a.shape, b.shape) && !parts(b.shape, a.shape);
}

function parts(sides: Shape, other: Shape): boolean {
  return sides.some((from, k) => {
    const to = sides[(k + 1) % sides.length] as Spot;
    const [nx, ny] = [from[1] - to[1], to[0] - from[0]];
    const reach = (shape: Shape) => shape.map(([x, y]) => x * nx + y * ny);
    const [own, others] = [reach(sides), reach(other)];
    return Math.max(...own) < Math.min(...others) || Math.max(...others) < Math.min(...own);
  });
}
