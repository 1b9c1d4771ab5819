// In: rings, edge kinds, fittings and the fall, as given. Out: a `Roof` that later steps may trust (outline
// counter-clockwise, openings clockwise, edges with ids, areas), or every fault found, each with its place.
// Promise: area = outline − openings, and a corner added on an edge changes neither area nor the edge's kind.
import { findCrossing } from '../geometry/crossings';
import type { RoofPoint, RoofRing } from '../geometry/points';
import { distance, ringHolds, ringLength, signedArea } from '../geometry/ring';
import { FARTHEST_MM, SAME_POINT_MM } from '../geometry/tolerances';
import type { Edge, Opening, RingSpec, Roof, RoofFault, RoofSpec } from './types';

export type Built = { readonly roof: Roof } | { readonly faults: readonly RoofFault[] };

/** Least area of a ring that is taken for one: a hundredth of a square metre, mm². */
const LEAST_AREA_MM2 = 10_000;

export function buildRoof(spec: RoofSpec): Built {
  const rings = [spec.outline, ...spec.openings].map((ring, i) =>
    tidy(ring, i === 0 ? 'outline' : 'opening'),
  );
  const names = ['outline', ...spec.openings.map((o) => o.name || o.id)];
  const faults = rings.flatMap((ring, i) => ringFaults(ring, names[i] as string));
  if (faults.length === 0) faults.push(...placeFaults(rings, names));
  if (faults.length > 0) return { faults };

  const [outline, ...openingRings] = rings as [RingSpec, ...RingSpec[]];
  const openings: Opening[] = spec.openings.map((opening, i) => {
    const ring = (openingRings[i] as RingSpec).corners;
    return {
      id: opening.id,
      name: opening.name,
      kind: opening.kind,
      blocks: opening.blocks ?? null,
      ring,
      area: -signedArea(ring),
    };
  });
  const roof: Roof = {
    id: spec.id,
    name: spec.name,
    outline: outline.corners,
    openings,
    edges: rings.flatMap(edgesOf),
    fittings: spec.fittings,
    fall: spec.fall,
    lines: spec.lines ?? [],
    facets: (spec.facets ?? []).map((facet) => ({ ...facet, ring: anticlockwise(facet.ring) })),
    deck: spec.deck ?? null,
    area: signedArea(outline.corners) - openings.reduce((sum, o) => sum + o.area, 0),
    perimeter: ringLength(outline.corners),
  };
  return { roof };
}

const anticlockwise = (ring: RoofRing): RoofRing => (signedArea(ring) < 0 ? [...ring].reverse() : ring);

/** Drops corners on top of each other and turns the ring the way its role asks, edges with it. */
function tidy(ring: RingSpec, role: 'outline' | 'opening'): RingSpec {
  const keep = ring.corners
    .map((_, i) => i)
    .filter((i) => {
      const next = ring.corners[(i + 1) % ring.corners.length] as RoofPoint;
      // Written so that a corner without a position is kept, and then told of.
      return !(distance(ring.corners[i] as RoofPoint, next) <= SAME_POINT_MM);
    });
  const corners = keep.map((i) => ring.corners[i] as RoofPoint);
  const edges = keep.map((i) => ring.edges[i] as RingSpec['edges'][number]);
  const anticlockwise = signedArea(corners) > 0;
  if (anticlockwise === (role === 'outline')) return { corners, edges };
  // Turned round, edge k runs from corner k+1 back to corner k.
  return {
    corners: [...corners].reverse(),
    edges: edges.map((_, i) => edges[(2 * edges.length - 2 - i) % edges.length] as RingSpec['edges'][number]),
  };
}

function edgesOf(ring: RingSpec, number: number): Edge[] {
  return ring.edges.map((edge, i) => {
    const from = ring.corners[i] as RoofPoint;
    const to = ring.corners[(i + 1) % ring.corners.length] as RoofPoint;
    // Field by field: a spread of so many edges is what a drag would wait for.
    return {
      id: edge.id,
      kind: edge.kind,
      upstand: edge.upstand,
      allowance: edge.allowance,
      clear: edge.clear ?? 0,
      perimeter: edge.perimeter ?? null,
      number: edge.number ?? i,
      from,
      to,
      length: distance(from, to),
      ring: number,
    };
  });
}

function ringFaults(ring: RingSpec, where: string): RoofFault[] {
  const at = ring.corners[0] ?? null;
  const bad = ring.corners.find(([x, y]) => !Number.isFinite(x) || !Number.isFinite(y));
  if (bad)
    return [
      {
        rule: 'not-finite',
        where,
        at: null,
        message: `A corner of the ${where} has no position. Place it again.`,
      },
    ];
  if (ring.corners.length < 3)
    return [
      {
        rule: 'too-few-corners',
        where,
        at,
        message: `The ${where} has fewer than three separate corners. Trace it again.`,
      },
    ];
  const far = ring.corners.find(([x, y]) => Math.max(Math.abs(x), Math.abs(y)) > FARTHEST_MM);
  if (far)
    return [
      {
        rule: 'too-large',
        where,
        at: far,
        message: `The ${where} reaches further than ${FARTHEST_MM / 1e6} km from the page's corner. Check the scale.`,
      },
    ];
  const crossing = findCrossing([ring.corners]);
  if (crossing)
    return [
      {
        rule: 'self-crossing',
        where,
        at: crossing.at,
        message: `The ${where} crosses itself: its sides ${crossing.first[1] + 1} and ${crossing.second[1] + 1} meet near ${metres(crossing.at)}. Move a corner so that they don't.`,
      },
    ];
  if (Math.abs(signedArea(ring.corners)) < LEAST_AREA_MM2)
    return [
      {
        rule: 'no-area',
        where,
        at,
        message: `The ${where} encloses less than 0.01 m². Trace it again, or check the scale.`,
      },
    ];
  return [];
}

function placeFaults(rings: readonly RingSpec[], names: readonly string[]): RoofFault[] {
  const corners = rings.map((ring) => ring.corners);
  const crossing = findCrossing(corners);
  if (crossing) {
    const [a, b] = [crossing.first[0], crossing.second[0]];
    const withOutline = a === 0 || b === 0;
    const where = names[Math.max(a, b)] as string;
    return [
      {
        rule: withOutline ? 'opening-outside' : 'openings-overlap',
        where,
        at: crossing.at,
        message: withOutline
          ? `The opening “${where}” crosses the outline near ${metres(crossing.at)}. Move it inside, or trace the outline round it.`
          : `The openings “${names[a]}” and “${names[b]}” overlap near ${metres(crossing.at)}. Move one, or trace the two as one.`,
      },
    ];
  }
  const [outline, ...openings] = corners as [RoofRing, ...RoofRing[]];
  const faults: RoofFault[] = [];
  openings.forEach((ring, i) => {
    const where = names[i + 1] as string;
    const inner = innerPoint(ring);
    if (!ringHolds(outline, inner))
      faults.push({
        rule: 'opening-outside',
        where,
        at: inner,
        message: `The opening “${where}” lies outside the roof's outline. Move it inside, or remove it.`,
      });
    openings.forEach((other, k) => {
      if (k !== i && ringHolds(other, inner) && Math.abs(signedArea(other)) > Math.abs(signedArea(ring)))
        faults.push({
          rule: 'openings-overlap',
          where,
          at: inner,
          message: `The opening “${where}” lies inside the opening “${names[k + 1]}”. Remove one of them.`,
        });
    });
  });
  return faults;
}

/** A point just inside the ring, by the middle of its longest side. */
function innerPoint(ring: RoofRing): RoofPoint {
  let best = 0;
  ring.forEach((a, i) => {
    const length = distance(a, ring[(i + 1) % ring.length] as RoofPoint);
    const longest = distance(ring[best] as RoofPoint, ring[(best + 1) % ring.length] as RoofPoint);
    if (length > longest) best = i;
  });
  const a = ring[best] as RoofPoint;
  const b = ring[(best + 1) % ring.length] as RoofPoint;
  const length = distance(a, b);
  const turn = signedArea(ring) > 0 ? 1 : -1;
  const [nx, ny] = [(-(b[1] - a[1]) / length) * turn, ((b[0] - a[0]) / length) * turn];
  return [(a[0] + b[0]) / 2 + nx * SAME_POINT_MM, (a[1] + b[1]) / 2 + ny * SAME_POINT_MM];
}

const metres = ([x, y]: readonly [number, number]) =>
  `(${(x / 1000).toFixed(2)}, ${(y / 1000).toFixed(2)}) m`;
