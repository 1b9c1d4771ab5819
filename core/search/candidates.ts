// Which directions and first-course offsets are worth looking at. Between two offsets at which some corner meets a
// course line every run's end moves in a straight line, so run lengths have their least at such offsets and
// nowhere between.
import type { PackedRegion } from '../geometry/strips';
import { GRID_MM, SAME_DIRECTION_DEG } from '../geometry/tolerances';
import type { Roof } from '../roof/types';
import { autoDirections, decksDirection } from '../sheets/layRoof';
import type { TradeRules } from '../sheets/types';

/** Directions between those of the edges, for roofs whose edges point everywhere, degrees. */
const GRID_DEG = 5;
/** More edge directions than this are thinned to the ones with the most edge. */
const MOST_EDGE_DIRECTIONS = 24;

/** In [0, 180): each edge's direction and the one across it, those with the most edge first, then a coarse grid. */
export function candidateDirections(roof: Roof, trade: TradeRules): readonly number[] {
  const weight = new Map<number, number>();
  if (decksDirection(roof, trade) !== null) return autoDirections(roof, trade);
  for (const edge of roof.edges) {
    const angle = (Math.atan2(edge.to[1] - edge.from[1], edge.to[0] - edge.from[0]) * 180) / Math.PI;
    for (const turn of [0, 90]) {
      const direction = settle(angle + turn, weight);
      weight.set(direction, (weight.get(direction) ?? 0) + edge.length);
    }
  }
  // What the falls dictate is looked at whatever the edges say.
  for (const fall of [...roof.facets, ...(roof.fall ? [roof.fall] : [])])
    for (const turn of [0, 90]) {
      const direction = settle(fall.downhill + turn, weight);
      weight.set(direction, (weight.get(direction) ?? 0) + roof.perimeter);
    }
  const ranked = [...weight].sort((a, b) => b[1] - a[1] || a[0] - b[0]).map(([direction]) => direction);
  const edges = ranked.slice(0, MOST_EDGE_DIRECTIONS);
  const grid = Array.from({ length: 180 / GRID_DEG }, (_, i) => i * GRID_DEG);
  return [...edges, ...grid.filter((g) => !edges.some((e) => apart(e, g) < 1))];
}

/** Degrees between two directions, which repeat every 180. */
export function apart(a: number, b: number): number {
  const difference = Math.abs(a - b) % 180;
  return Math.min(difference, 180 - difference);
}

/** The direction in [0, 180), whole degrees exact, and the same number for edges that run the same way. */
function settle(angle: number, known: ReadonlyMap<number, number>): number {
  let direction = ((angle % 180) + 180) % 180;
  const whole = Math.round(direction);
  if (Math.abs(direction - whole) < SAME_DIRECTION_DEG) direction = whole % 180;
  for (const other of known.keys()) if (apart(other, direction) < SAME_DIRECTION_DEG) return other;
  return direction;
}

/** Offsets in (−cover, 0] at which a corner meets a course's low or high edge, those that meet the most corners
 * first, of several that all but coincide one before the others; at most `most`. */
export function criticalOffsets(
  region: PackedRegion,
  cover: number,
  sideLap: number,
  most: number,
): readonly number[] {
  const { sides, v } = region;
  const met = new Int32Array(sides.length + 1);
  let count = 0;
  const note = (distance: number) => {
    const step = Math.round(-(((-distance % cover) + cover) % cover) / GRID_MM);
    met[count++] = step * GRID_MM <= -cover ? 0 : step;
  };
  for (let s = 0; s < sides.length; s += 4)
    for (const end of [s + 1, s + 3]) {
      const distance = (sides[end] as number) - v[0];
      note(distance);
      note(distance - sideLap);
    }
  // 0 is always there.
  met.sort();
  const byCount: number[][] = [];
  for (let k = met.length - 1; k >= 0;) {
    const step = met[k] as number;
    let same = 0;
    for (; k >= 0 && met[k] === step; k--) same++;
    (byCount[same] ??= []).push(step);
  }
  return apartFirst(byCount.reverse().flat(), most).map(
    (step) => -Math.abs(step) / Math.round(1 / GRID_MM) || 0,
  );
}

/** Offsets nearer to a better one than this come after all others: they say little new. */
const NEAR_STEPS = 50;

function apartFirst(ranked: readonly number[], most: number): readonly number[] {
  const places = new Set<number>();
  const first: number[] = [];
  const after: number[] = [];
  for (const step of ranked) {
    const place = Math.round(step / NEAR_STEPS);
    (places.has(place) ? after : first).push(step);
    places.add(place);
    if (first.length === most) return first;
  }
  return [...first, ...after].slice(0, most);
}
