// One plan as a drafting program writes it, with what it measures by the lengths it is drawn with.
import type { RoughPage, RoughPen, Spot } from './roughPlan';
import type { Placed } from './cadPen';

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
  draw(pen: RoughPen, p: Placed, mm: number): void;
  /** Where the building's lower left corner stands. */
  readonly origin: Spot;
  /** Degrees by which the building is turned on the page. */
  readonly turn?: number;
}

export function placer({ origin, ratio, turn = 0 }: CadPlan): { p: Placed; mm: number } {
  const mm = (ratio * 25.4) / 72;
  const [c, s] = [Math.cos((turn * Math.PI) / 180), Math.sin((turn * Math.PI) / 180)];
  return {
    mm,
    p: ([x, y]) => [origin[0] + (c * x - s * y) / mm, origin[1] + (s * x + c * y) / mm],
  };
}
