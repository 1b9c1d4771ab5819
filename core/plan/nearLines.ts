// The lines within reach of the pointer, and where they cross nearest to it: what every move of the hand asks, so that
// nothing here makes an object for a line that is not among the nearest.
import type { PagePoint } from '../geometry/points';
import { IN_LINE_SINE } from '../geometry/tolerances';
import type { PageLine } from './lines';
import { segmentAt } from './pageIndex';
import type { PageIndex } from './pageIndex';
import { SEGMENT_MARK } from './types';

export interface NearLine {
  readonly line: PageLine;
  readonly curved: boolean;
  readonly away: number;
}

/** In a thicket of lines only the nearest are looked at: this many, and those as near as the last of them. */
const MOST_NEAR = 96;
/** Of distances, for finding out how near that is. */
const STEPS = 64;

/** Nearest first. */
export function nearLines(index: PageIndex, [x, y]: PagePoint, radius: number): NearLine[] {
  const { segments, marks } = index.linework;
  const numbers: number[] = [];
  const squares: number[] = [];
  const reach = radius * radius;
  index.boxes.each([x - radius, y - radius, x + radius, y + radius], (k) => {
    if (index.hidden?.[k] === 1) return;
    const square = squareAway(segments, k, x, y);
    if (square > reach) return;
    numbers.push(k);
    squares.push(square);
  });
  const limit = numbers.length > MOST_NEAR ? nearestLimit(squares, reach) : reach;
  const found: (NearLine & { readonly k: number })[] = [];
  for (let n = 0; n < numbers.length; n++) {
    const square = squares[n] ?? 0;
    if (square > limit) continue;
    const k = numbers[n] ?? 0;
    const curved = ((marks[k] ?? 0) & SEGMENT_MARK.curve) !== 0;
    found.push({ k, line: segmentAt(segments, k), curved, away: Math.sqrt(square) });
  }
  return found.sort((a, b) => a.away - b.away || a.k - b.k);
}

export interface Crossing {
  readonly at: PagePoint;
  readonly lines: readonly [PageLine, PageLine];
}

/** The crossing nearest to the pointer, if it is nearer than `within`. */
export function nearestCrossing(
  near: readonly NearLine[],
  [x, y]: PagePoint,
  within: number,
): Crossing | null {
  let least = within;
  let best: Crossing | null = null;
  for (let i = 1; i < near.length; i++) {
    const a = near[i] as NearLine;
    // A crossing is no nearer than either of its lines.
    if (a.away >= least) break;
    const [ax, ay, a2, a3] = a.line;
    const [dx, dy] = [a2 - ax, a3 - ay];
    const long = dx * dx + dy * dy;
    for (let j = 0; j < i; j++) {
      const other = near[j] as NearLine;
      const b = other.line;
      const bx = b[0];
      const by = b[1];
      const ex = b[2] - bx;
      const ey = b[3] - by;
      const cross = dx * ey - dy * ex;
      if (cross * cross <= IN_LINE_SINE * IN_LINE_SINE * long * (ex * ex + ey * ey)) continue;
      const s = ((bx - ax) * ey - (by - ay) * ex) / cross;
      const t = ((bx - ax) * dy - (by - ay) * dx) / cross;
      if (!(s >= 0 && s <= 1 && t >= 0 && t <= 1)) continue;
      const px = ax + s * dx;
      const py = ay + s * dy;
      const away = Math.hypot(px - x, py - y);
      if (away >= least) continue;
      least = away;
      best = { at: [px, py], lines: [b, a.line] };
    }
  }
  return best;
}

/** The square of a distance that at least `MOST_NEAR` of them lie within. */
function nearestLimit(squares: readonly number[], reach: number): number {
  const counts = new Uint32Array(STEPS);
  for (const square of squares) {
    const step = Math.min(STEPS - 1, Math.floor(STEPS * Math.sqrt(square / reach)));
    counts[step] = (counts[step] ?? 0) + 1;
  }
  let sum = 0;
  for (let step = 0; step < STEPS; step++) {
    sum += counts[step] ?? 0;
    if (sum >= MOST_NEAR) return reach * ((step + 1) / STEPS) ** 2;
  }
  return reach;
}

function squareAway(segments: Float64Array, k: number, x: number, y: number): number {
  const ax = segments[4 * k] ?? 0;
  const ay = segments[4 * k + 1] ?? 0;
  const dx = (segments[4 * k + 2] ?? 0) - ax;
  const dy = (segments[4 * k + 3] ?? 0) - ay;
  const long = dx * dx + dy * dy;
  const share = long === 0 ? 0 : ((x - ax) * dx + (y - ay) * dy) / long;
  const held = share < 0 ? 0 : share > 1 ? 1 : share;
  const px = ax + held * dx - x;
  const py = ay + held * dy - y;
  return px * px + py * py;
}
