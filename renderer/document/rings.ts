// Rings of the job in page points: outlines and openings, and which ring an edge belongs to.
import type { Job, JobEdge } from '../../core/job/schema';

/** Any pair: the arithmetic below is the same in every space. */
type Pair = readonly [number, number];

export interface RingOnPage {
  readonly owner: 'roof' | 'opening';
  readonly id: string;
  readonly roof: string;
  readonly edges: readonly JobEdge[];
}

/** Every ring on a page: outlines first, then openings. */
export function ringsOnPage(job: Job, page: string): readonly RingOnPage[] {
  const roofs = Object.values(job.roofs).filter((roof) => roof.page === page);
  const outlines = roofs.map((roof): RingOnPage => ({
    owner: 'roof',
    id: roof.id,
    roof: roof.id,
    edges: edgesOf(job, roof.outline),
  }));
  const openings = Object.values(job.openings)
    .filter((opening) => job.roofs[opening.roof]?.page === page)
    .map((opening): RingOnPage => ({
      owner: 'opening',
      id: opening.id,
      roof: opening.roof,
      edges: edgesOf(job, opening.ring),
    }));
  return [...outlines, ...openings];
}

/** The ring that an edge belongs to, or null. */
export function ringOfEdge(job: Job, edge: string): RingOnPage | null {
  for (const roof of Object.values(job.roofs))
    if (roof.outline.includes(edge))
      return { owner: 'roof', id: roof.id, roof: roof.id, edges: edgesOf(job, roof.outline) };
  for (const opening of Object.values(job.openings))
    if (opening.ring.includes(edge))
      return { owner: 'opening', id: opening.id, roof: opening.roof, edges: edgesOf(job, opening.ring) };
  return null;
}

/** Where an edge starts and ends, or null where the job does not hold it. */
export function edgeEnds(job: Job, edge: string): readonly [JobEdge, JobEdge] | null {
  const ring = ringOfEdge(job, edge);
  if (!ring) return null;
  const k = ring.edges.findIndex((e) => e.id === edge);
  const from = ring.edges[k];
  const to = ring.edges[(k + 1) % ring.edges.length];
  return from && to ? [from, to] : null;
}

export function distance(a: Pair, b: Pair): number {
  return Math.hypot(b[0] - a[0], b[1] - a[1]);
}

/** Signed area, positive counter-clockwise, in square points. */
export function ringArea(corners: readonly Pair[]): number {
  let twice = 0;
  corners.forEach((a, k) => {
    const b = corners[(k + 1) % corners.length] ?? a;
    twice += a[0] * b[1] - b[0] * a[1];
  });
  return twice / 2;
}

/** Whether a point lies inside a ring, by counting the sides to its right. */
export function isInside(corners: readonly Pair[], at: Pair): boolean {
  let inside = false;
  corners.forEach((a, k) => {
    const b = corners[(k + 1) % corners.length] ?? a;
    if (a[1] > at[1] === b[1] > at[1]) return;
    if (at[0] < a[0] + ((b[0] - a[0]) * (at[1] - a[1])) / (b[1] - a[1])) inside = !inside;
  });
  return inside;
}

/** Nearest point of the stretch a–b. */
export function nearestOn(a: Pair, b: Pair, at: Pair): Pair {
  const dx = b[0] - a[0];
  const dy = b[1] - a[1];
  const square = dx * dx + dy * dy;
  const t = square === 0 ? 0 : ((at[0] - a[0]) * dx + (at[1] - a[1]) * dy) / square;
  const held = Math.min(1, Math.max(0, t));
  return [a[0] + held * dx, a[1] + held * dy];
}

function edgesOf(job: Job, ids: readonly string[]): readonly JobEdge[] {
  return ids.flatMap((id) => job.edges[id] ?? []);
}
