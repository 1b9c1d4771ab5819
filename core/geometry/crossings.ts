// Where rings cross themselves or each other. Exact: the orientation test is robust-predicates'.
import { orient2d } from 'robust-predicates';
import type { Ring } from './points';

type Pair = readonly [number, number];
interface Side {
  readonly ring: number;
  readonly index: number;
  readonly a: Pair;
  readonly b: Pair;
  readonly low: number;
  readonly high: number;
}

export interface Crossing {
  /** Ring and side numbers of the two that cross. */
  readonly first: readonly [ring: number, side: number];
  readonly second: readonly [ring: number, side: number];
  readonly at: Pair;
}

/** The first place where two sides cross properly or run along each other; touching in a point is no crossing,
 * except that neighbours folding back onto each other are. Null where there is none. */
export function findCrossing(rings: readonly Ring<Pair>[]): Crossing | null {
  const sides: Side[] = [];
  rings.forEach((ring, r) =>
    ring.forEach((a, index) => {
      const b = ring[(index + 1) % ring.length] as Pair;
      sides.push({ ring: r, index, a, b, low: Math.min(a[0], b[0]), high: Math.max(a[0], b[0]) });
    }),
  );
  sides.sort((p, q) => p.low - q.low);
  for (let i = 0; i < sides.length; i++) {
    const p = sides[i] as Side;
    for (let j = i + 1; j < sides.length; j++) {
      const q = sides[j] as Side;
      if (q.low > p.high) break;
      const at = meet(p, q);
      if (at) return { first: [p.ring, p.index], second: [q.ring, q.index], at };
    }
  }
  return null;
}

function meet(p: Side, q: Side): Pair | null {
  if (
    Math.max(p.a[1], p.b[1]) < Math.min(q.a[1], q.b[1]) ||
    Math.max(q.a[1], q.b[1]) < Math.min(p.a[1], p.b[1])
  )
    return null;
  const a = side(p, q.a);
  const b = side(p, q.b);
  const c = side(q, p.a);
  const d = side(q, p.b);
  if (a === 0 && b === 0) return overlapAt(p, q);
  return a * b < 0 && c * d < 0 ? cross(p, q) : null;
}

const side = (s: Side, point: Pair) =>
  Math.sign(orient2d(s.a[0], s.a[1], s.b[0], s.b[1], point[0], point[1]));

/** In line with each other: the middle of what they share, where they share more than a point. */
function overlapAt(p: Side, q: Side): Pair | null {
  const axis = Math.abs(p.b[0] - p.a[0]) >= Math.abs(p.b[1] - p.a[1]) ? 0 : 1;
  const low = Math.max(Math.min(p.a[axis], p.b[axis]), Math.min(q.a[axis], q.b[axis]));
  const high = Math.min(Math.max(p.a[axis], p.b[axis]), Math.max(q.a[axis], q.b[axis]));
  if (!(high > low)) return null;
  const t = ((low + high) / 2 - p.a[axis]) / (p.b[axis] - p.a[axis]);
  return [p.a[0] + t * (p.b[0] - p.a[0]), p.a[1] + t * (p.b[1] - p.a[1])];
}

function cross(p: Side, q: Side): Pair {
  const [rx, ry] = [p.b[0] - p.a[0], p.b[1] - p.a[1]];
  const [sx, sy] = [q.b[0] - q.a[0], q.b[1] - q.a[1]];
  const t = ((q.a[0] - p.a[0]) * sy - (q.a[1] - p.a[1]) * sx) / (rx * sy - ry * sx);
  return [p.a[0] + t * rx, p.a[1] + t * ry];
}
