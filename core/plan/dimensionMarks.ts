// In: a line that may be a dimension line. Out: where it is marked: by strokes across it, arrow heads, dots, the ends of
// extension lines, its own ends; each with how surely it ends a dimension.
import type { PagePoint } from '../geometry/points';
import { boxOf, isCurve, placeOn } from './dimensionLine';
import type { Carrier } from './dimensionLine';
import type { PageLine } from './lines';
import { segmentAt } from './pageIndex';
import type { PageIndex } from './pageIndex';

export interface Spot {
  readonly at: number;
  readonly strength: number;
}

/** In text heights. */
export const NEAR = 0.3;
export const SAME_SPOT = 0.15;
const MARK_LENGTH = 3;
const PAST = 1.8;

/** Where the line is marked: by strokes across it, arrows, dots, the ends of extension lines, its own ends. */
export function terminators(index: PageIndex, carrier: Carrier, h: number): Spot[] {
  const { foot, along } = carrier;
  const raw: Spot[] = [
    { at: carrier.low, strength: 0.3 },
    { at: carrier.high, strength: 0.3 },
  ];
  const dots = new Map<number, { low: PagePoint; high: PagePoint }>();
  const heads = headsNear(index, carrier, h);
  const reach: [number, number] = [carrier.low - h, carrier.high + h];
  for (const k of index.boxes.search(boxOf(foot, along, ...reach, NEAR * h))) {
    const line = segmentAt(index.linework.segments, k);
    if (isCurve(index, k)) {
      growDot(dots, index.linework.path[k] ?? 0, line);
      continue;
    }
    if (heads.sides.has(k)) continue;
    const spot = markOf(carrier, line, h);
    if (spot) raw.push(spot);
  }
  for (const { low, high } of dots.values()) {
    if (high[0] - low[0] > 2 * h || high[1] - low[1] > 2 * h) continue;
    const { at, off } = placeOn(foot, along, [(low[0] + high[0]) / 2, (low[1] + high[1]) / 2]);
    if (Math.abs(off) < 0.2 * h) raw.push({ at, strength: 0.8 });
  }
  return merged([...raw, ...heads.tips], SAME_SPOT * h);
}

/** Arrow heads that are closed triangles: their tip marks the line, and not the side across it that they stand on. */
function headsNear(
  index: PageIndex,
  { foot, along, low, high }: Carrier,
  h: number,
): { readonly tips: readonly Spot[]; readonly sides: ReadonlySet<number> } {
  const { segments, path } = index.linework;
  const byPath = new Map<number, number[]>();
  for (const k of index.boxes.search(boxOf(foot, along, low - h, high + h, NEAR * h))) {
    if (isCurve(index, k)) continue;
    const own = path[k] ?? 0;
    byPath.set(own, [...(byPath.get(own) ?? []), k]);
  }
  const tips: Spot[] = [];
  const sides = new Set<number>();
  for (const own of byPath.values()) {
    if (own.length !== 3) continue;
    const corners = own.flatMap((k) => {
      const [x1, y1, x2, y2] = segmentAt(segments, k);
      return [placeOn(foot, along, [x1, y1]), placeOn(foot, along, [x2, y2])];
    });
    const at = corners.map((corner) => corner.at);
    const [first, last] = [Math.min(...at), Math.max(...at)];
    if (last - first > MARK_LENGTH * h || !isTriangle(corners, SAME_CORNER * h)) continue;
    const tip = corners.find(
      (corner) => Math.abs(corner.off) < 0.1 * h && (corner.at === first || corner.at === last),
    );
    // The other two stand on either side of the line.
    const others = corners.filter((corner) => tip && Math.abs(corner.at - tip.at) > SAME_CORNER * h);
    if (!tip || !others.some(({ off }) => off > 0) || !others.some(({ off }) => off < 0)) continue;
    tips.push({ at: tip.at, strength: 1 });
    for (const k of own) sides.add(k);
  }
  return { tips, sides };
}

/** In text heights. */
const SAME_CORNER = 0.05;

/** Six ends of three sides that meet by twos. */
function isTriangle(ends: readonly { readonly at: number; readonly off: number }[], within: number): boolean {
  return ends.every((a, i) =>
    ends.some(
      (b, j) => Math.floor(i / 2) !== Math.floor(j / 2) && Math.hypot(a.at - b.at, a.off - b.off) <= within,
    ),
  );
}

function markOf({ foot, along, low, high }: Carrier, line: PageLine, h: number): Spot | null {
  const a = placeOn(foot, along, [line[0], line[1]]);
  const b = placeOn(foot, along, [line[2], line[3]]);
  const length = Math.hypot(line[2] - line[0], line[3] - line[1]);
  const sine = Math.abs(b.off - a.off) / length;
  if (sine < 0.08) return null;
  const share = a.off / (a.off - b.off);
  const slack = (NEAR * h) / length;
  if (!(share >= -slack && share <= 1 + slack)) return null;
  const at = a.at + share * (b.at - a.at);
  if (at < low - NEAR * h || at > high + NEAR * h) return null;
  const short = length <= MARK_LENGTH * h;
  const fromEnd = Math.min(Math.abs(share), Math.abs(1 - share)) * length;
  if (short && Math.abs(share - 0.5) < 0.2 && sine > 0.4) return { at, strength: 1 };
  if (short && sine < 0.68 && fromEnd < 0.12 * h) return { at, strength: 0.45 };
  if (sine > 0.76) return { at, strength: fromEnd <= PAST * h ? 0.6 : 0.25 };
  return null;
}

function merged(raw: readonly Spot[], within: number): Spot[] {
  const sorted = [...raw].sort((a, b) => a.at - b.at);
  const spots: Spot[] = [];
  for (const spot of sorted) {
    const last = spots.at(-1);
    if (last && spot.at - last.at <= within) {
      const strength = last.strength + spot.strength;
      spots[spots.length - 1] = {
        at: (last.at * last.strength + spot.at * spot.strength) / strength,
        strength,
      };
    } else spots.push(spot);
  }
  return spots;
}

function growDot(
  dots: Map<number, { low: PagePoint; high: PagePoint }>,
  path: number,
  [x1, y1, x2, y2]: PageLine,
): void {
  const known = dots.get(path) ?? { low: [Infinity, Infinity], high: [-Infinity, -Infinity] };
  dots.set(path, {
    low: [Math.min(known.low[0], x1, x2), Math.min(known.low[1], y1, y2)],
    high: [Math.max(known.high[0], x1, x2), Math.max(known.high[1], y1, y2)],
  });
}
