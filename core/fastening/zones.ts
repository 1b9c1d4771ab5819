// In: a roof and the zones that an engineer gave it. Out: which stretches of a line lie in which zone. Promise: how
// deep a zone is and how close its fasteners stand is always a person's word; nothing here is computed from wind.
//
//   ┌────┬───────────┬────┐    perimeter: nearer to the outline than its depth
//   │ c  │ perimeter │  c │    corner: nearer than its depth to both edges of a corner that juts out
//   ├────┼───────────┼────┤    Edges where the membrane goes on (expansion joint, tie-in, phase line) have none.
//   │    │   field   │    │
import type { RoofPoint, Span } from '../geometry/points';
import { distance } from '../geometry/ring';
import { NOISE_MM } from '../geometry/tolerances';
import type { Edge, Roof } from '../roof/types';

export const ZONE_NAMES = ['field', 'perimeter', 'corner'] as const;
export type ZoneName = (typeof ZONE_NAMES)[number];

/** mm: how far in from the edge, between fasteners along a lap, and the most between rows where that was given. */
export interface FasteningZone {
  readonly depth: number;
  readonly spacing: number;
  readonly rows?: number | undefined;
}

export interface FasteningZones {
  readonly perimeter?: FasteningZone | undefined;
  readonly corner?: FasteningZone | undefined;
}

export interface ZoneStretch {
  readonly zone: ZoneName;
  /** Shares of the line, 0 … 1. */
  readonly span: Span;
}

/** Edges where the field sheet goes on or is closed off by others: nothing is fastened there. */
export const UNFASTENED: ReadonlySet<Edge['kind']> = new Set(['expansion', 'phase', 'tie-in']);

/** The line from end to end in stretches of one zone each; corner before perimeter before field. */
export function zonesAlong(
  roof: Pick<Roof, 'edges'>,
  { perimeter, corner }: FasteningZones,
  from: RoofPoint,
  to: RoofPoint,
): readonly ZoneStretch[] {
  const line = { from, to };
  const corners =
    corner === undefined ? [] : cornersOf(roof).flatMap((pair) => inCorner(line, pair, corner.depth));
  const near =
    perimeter === undefined ? [] : outerEdges(roof).flatMap((edge) => nearEdge(line, edge, perimeter.depth));
  const within = (spans: readonly Span[], t: number) => spans.some(([a, b]) => t >= a && t <= b);
  const cuts = [...new Set([0, 1, ...[...corners, ...near].flat()])].sort((a, b) => a - b);
  const stretches: { zone: ZoneName; span: [number, number] }[] = [];
  const least = NOISE_MM / Math.max(distance(from, to), NOISE_MM);
  cuts.slice(1).forEach((end, k) => {
    const start = cuts[k] as number;
    if (end - start <= least) return;
    const middle = (start + end) / 2;
    const zone = within(corners, middle) ? 'corner' : within(near, middle) ? 'perimeter' : 'field';
    const last = stretches.at(-1);
    if (last?.zone === zone) last.span[1] = end;
    else stretches.push({ zone, span: [last?.span[1] ?? 0, end] });
  });
  const last = stretches.at(-1);
  if (last) last.span[1] = 1;
  return stretches;
}

const outerEdges = ({ edges }: Pick<Roof, 'edges'>) =>
  edges.filter(({ ring, kind }) => ring === 0 && !UNFASTENED.has(kind));

/** Pairs of edges that meet in a corner of the outline that juts out. */
function cornersOf({ edges }: Pick<Roof, 'edges'>): readonly (readonly [Edge, Edge])[] {
  const outline = edges.filter(({ ring }) => ring === 0);
  return outline.flatMap((next, k) => {
    const before = outline.at(k - 1) as Edge;
    if (UNFASTENED.has(before.kind) || UNFASTENED.has(next.kind)) return [];
    const [ax, ay] = [before.to[0] - before.from[0], before.to[1] - before.from[1]];
    const [bx, by] = [next.to[0] - next.from[0], next.to[1] - next.from[1]];
    const sine = (ax * by - ay * bx) / (before.length * next.length);
    return sine > LEAST_CORNER_SINE ? [[before, next] as const] : [];
  });
}

/** Edges that turn by less than about 10° run on rather than meet in a corner. */
const LEAST_CORNER_SINE = 0.17;

interface Line {
  readonly from: RoofPoint;
  readonly to: RoofPoint;
}

/** Beyond the outline, in the allowance, a zone goes on as far as it is deep. */
function inCorner(line: Line, pair: readonly [Edge, Edge], depth: number): Span[] {
  return clipped(
    line,
    pair.map((edge) => ({ at: (point) => inwards(edge, point), low: -depth, high: depth })),
  );
}

function nearEdge(line: Line, edge: Edge, depth: number): Span[] {
  const along = (point: RoofPoint) =>
    ((point[0] - edge.from[0]) * (edge.to[0] - edge.from[0]) +
      (point[1] - edge.from[1]) * (edge.to[1] - edge.from[1])) /
    edge.length;
  const middle = edge.length / 2;
  const beside = clipped(line, [
    { at: (point) => inwards(edge, point), low: -depth, high: depth },
    { at: (point) => along(point) - middle, low: -middle, high: middle },
  ]);
  const parts = [...beside, ...inDisc(line, edge.from, depth), ...inDisc(line, edge.to, depth)];
  // What lies near a stretch is convex, so a line runs through it once.
  return parts.length === 0
    ? []
    : [[Math.min(...parts.map(([a]) => a)), Math.max(...parts.map(([, b]) => b))]];
}

/** Left of the way along an edge is the roof. */
function inwards({ from, to, length }: Edge, [x, y]: RoofPoint): number {
  return ((to[0] - from[0]) * (y - from[1]) - (to[1] - from[1]) * (x - from[0])) / length;
}

interface Between {
  readonly at: (point: RoofPoint) => number;
  readonly low: number;
  readonly high: number;
}

/** Where all of some distances, each straight along the line, lie between their limits. */
function clipped({ from, to }: Line, limits: readonly Between[]): Span[] {
  let [low, high] = [0, 1];
  for (const { at, low: least, high: most } of limits) {
    const [a, b] = [at(from), at(to)];
    if (Math.abs(b - a) < NOISE_MM) {
      if (a < least || a > most) return [];
      continue;
    }
    const [s, t] = [(least - a) / (b - a), (most - a) / (b - a)];
    low = Math.max(low, Math.min(s, t));
    high = Math.min(high, Math.max(s, t));
  }
  return low < high ? [[low, high]] : [];
}

function inDisc({ from, to }: Line, centre: RoofPoint, radius: number): Span[] {
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  const [ex, ey] = [from[0] - centre[0], from[1] - centre[1]];
  const square = dx * dx + dy * dy;
  if (square === 0) return [];
  const half = (ex * dx + ey * dy) / square;
  const rest = half * half - (ex * ex + ey * ey - radius * radius) / square;
  if (rest <= 0) return [];
  const root = Math.sqrt(rest);
  const [low, high] = [Math.max(0, -half - root), Math.min(1, -half + root)];
  return low < high ? [[low, high]] : [];
}
