// In: a checked roof. Out: the region that the field sheets must cover: the roof grown at each edge by that edge's
// allowance, mitred at corners up to a limit of 2. Promise: without allowances it is the roof itself.
import { addRings } from '../geometry/clipping';
import type { RoofPoint, RoofRing } from '../geometry/points';
import type { Edge, Roof } from './types';

const MITRE_LIMIT = 2;

export function coveredRegion(roof: Roof): readonly RoofRing[] {
  const rings = [roof.outline, ...roof.openings.map((o) => o.ring)];
  if (roof.edges.every((edge) => edge.allowance === 0)) return rings;
  return addRings(rings, growth(roof.edges));
}

//            grown corner
//   a quad    ·────────┬
//   per edge  │ wedge  │ quad      Outside is to the right of an edge. A corner that juts out gets a wedge
//         ────┼────────┤           between its two quads; one that points in needs none, its quads overlap.
//             │ roof   │
function growth(edges: readonly Edge[]): RoofRing[] {
  const added: RoofRing[] = [];
  edges.forEach((edge) => {
    if (edge.allowance > 0)
      added.push([edge.from, outwards(edge, edge.from), outwards(edge, edge.to), edge.to]);
  });
  for (const ring of byRing(edges))
    ring.forEach((edge, i) => {
      const next = ring[(i + 1) % ring.length] as Edge;
      const wedge = mitre(edge, next);
      if (wedge) added.push(wedge);
    });
  return added;
}

function byRing(edges: readonly Edge[]): Edge[][] {
  const rings: Edge[][] = [];
  for (const edge of edges) (rings[edge.ring] ??= []).push(edge);
  return rings;
}

function outwards(edge: Edge, point: RoofPoint): RoofPoint {
  const [nx, ny] = normal(edge);
  return [point[0] + nx * edge.allowance, point[1] + ny * edge.allowance];
}

function normal(edge: Edge): readonly [number, number] {
  return [(edge.to[1] - edge.from[1]) / edge.length, -(edge.to[0] - edge.from[0]) / edge.length];
}

function mitre(edge: Edge, next: Edge): RoofRing | null {
  const [ax, ay] = normal(edge);
  const [bx, by] = normal(next);
  const turn = ax * by - ay * bx;
  const most = Math.max(edge.allowance, next.allowance);
  if (turn <= 0 || most === 0) return null;
  const corner = edge.to;
  const p = outwards(edge, corner);
  const q = outwards(next, corner);
  // The point at edge.allowance from one line and next.allowance from the other.
  const tip: RoofPoint = [
    corner[0] + (edge.allowance * by - next.allowance * ay) / turn,
    corner[1] + (next.allowance * ax - edge.allowance * bx) / turn,
  ];
  const reach = Math.hypot(tip[0] - corner[0], tip[1] - corner[1]);
  return reach <= MITRE_LIMIT * most ? [corner, p, tip, q] : [corner, p, q];
}
