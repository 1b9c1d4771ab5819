// In: an arrangement and a half-edge. Out: the boundary of the face on its left as simple cycles: what the walk passes
// on both sides, such as a dangling line, belongs to no boundary and falls away.
import type { PagePoint, PageRing } from '../geometry/points';
import { signedArea } from '../geometry/ring';
import type { Arrangement } from './arrangement';

export type HalfEdge = readonly [from: number, to: number];

export interface Cycle {
  readonly nodes: readonly number[];
  readonly ring: PageRing;
  /** Positive where the face lies inside. */
  readonly area: number;
}

export interface Face {
  readonly cycles: readonly Cycle[];
  readonly passed: readonly HalfEdge[];
}

/** Null where the walk passes more edges than a person could check. */
export function walkFace(arrangement: Arrangement, start: HalfEdge): Face | null {
  const passed: HalfEdge[] = [];
  let edge = start;
  do {
    passed.push(edge);
    if (passed.length > MOST_EDGES) return null;
    edge = nextEdge(arrangement, edge);
  } while (edge[0] !== start[0] || edge[1] !== start[1]);
  return { cycles: cyclesOf(arrangement, passed), passed };
}

/** The half-edge at a node whose left side holds the direction, an angle in (−π, π]. */
export function edgeFacing(arrangement: Arrangement, node: number, angle: number): HalfEdge | null {
  const spokes = arrangement.star(node);
  const below = spokes.filter((spoke) => spoke.angle <= angle).at(-1) ?? spokes.at(-1);
  return below ? [node, below.to] : null;
}

const MOST_EDGES = 200_000;
const EDGE_STRIDE = 2 ** 26;

/** Face on the left: at each node the first edge clockwise from where the walk came. */
function nextEdge(arrangement: Arrangement, [from, at]: HalfEdge): HalfEdge {
  const spokes = arrangement.star(at);
  const i = spokes.findIndex((spoke) => spoke.to === from);
  const next = spokes[(i + spokes.length - 1) % spokes.length];
  return [at, next?.to ?? from];
}

function cyclesOf(arrangement: Arrangement, passed: readonly HalfEdge[]): Cycle[] {
  const keys = new Set(passed.map(([a, b]) => a * EDGE_STRIDE + b));
  const out = new Map<number, number[]>();
  for (const [a, b] of passed) {
    if (keys.has(b * EDGE_STRIDE + a)) continue;
    const list = out.get(a);
    if (!list) out.set(a, [b]);
    else if (!list.includes(b)) list.push(b);
  }
  const cycles: Cycle[] = [];
  for (const [start, list] of out)
    while (list.length > 0) {
      const nodes = [start];
      let from = start;
      let at = list.pop() as number;
      while (at !== start) {
        nodes.push(at);
        const next = clockwiseFrom(arrangement, out.get(at) ?? [], from, at);
        if (next === null) break;
        from = at;
        at = next;
      }
      if (at !== start || nodes.length < 3) continue;
      for (const simple of apart(nodes)) {
        const ring = simple.map((node) => arrangement.at(node));
        cycles.push({ nodes: simple, ring, area: signedArea(ring) });
      }
    }
  return cycles;
}

/** Takes an edge out of those left at a node. */
function clockwiseFrom(arrangement: Arrangement, left: number[], from: number, at: number): number | null {
  const [x, y] = arrangement.at(at);
  const angleTo = (node: number): number => {
    const [tx, ty] = arrangement.at(node);
    return Math.atan2(ty - y, tx - x);
  };
  const back = angleTo(from);
  let best: number | null = null;
  let least = Infinity;
  for (const node of left) {
    const turn = (((back - angleTo(node)) % TURN) + TURN) % TURN || TURN;
    if (turn < least) {
      least = turn;
      best = node;
    }
  }
  if (best !== null) left.splice(left.indexOf(best), 1);
  return best;
}

const TURN = 2 * Math.PI;

/** A cycle that passes a node twice is two. */
function apart(nodes: readonly number[]): number[][] {
  const cycles: number[][] = [];
  const path: number[] = [];
  const place = new Map<number, number>();
  for (const node of nodes) {
    const before = place.get(node);
    if (before !== undefined) {
      const loop = path.splice(before);
      for (const one of loop) place.delete(one);
      if (loop.length >= 3) cycles.push(loop);
    }
    place.set(node, path.push(node) - 1);
  }
  if (path.length >= 3) cycles.push(path);
  return cycles;
}

/** Corners that turn; the outline starts at the lowest, then leftmost, of them. */
export function corneredRing(ring: PageRing, slack: number): PageRing {
  let kept = [...ring];
  for (let again = true; again && kept.length > 3;) {
    const count = kept.length;
    const next = kept.filter((point, i) => {
      const before = kept[(i + count - 1) % count] as PagePoint;
      const after = kept[(i + 1) % count] as PagePoint;
      // Every other one at most, so that a flat arc is not eaten corner by corner.
      return i % 2 === 0 || offLine(point, before, after) > slack;
    });
    const turned = [...next.slice(1), ...next.slice(0, 1)];
    again = next.length < count;
    if (!again) {
      const other = kept.filter((point, i) => {
        const before = kept[(i + count - 1) % count] as PagePoint;
        const after = kept[(i + 1) % count] as PagePoint;
        return i % 2 === 1 || offLine(point, before, after) > slack;
      });
      again = other.length < count;
      kept = other;
    } else kept = turned;
  }
  const first = kept.reduce((best, [x, y], i) => {
    const [bx, by] = kept[best] as PagePoint;
    return y < by - slack || (y < by + slack && x < bx) ? i : best;
  }, 0);
  return [...kept.slice(first), ...kept.slice(0, first)];
}

function offLine([x, y]: PagePoint, [ax, ay]: PagePoint, [bx, by]: PagePoint): number {
  const length = Math.hypot(bx - ax, by - ay);
  if (length === 0) return Math.hypot(x - ax, y - ay);
  return Math.abs((bx - ax) * (y - ay) - (by - ay) * (x - ax)) / length;
}
