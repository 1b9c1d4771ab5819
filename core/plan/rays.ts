// A ray from a point of the page through the lines of its drawing: what it meets, and the edge of the arrangement there.
import type { PagePoint } from '../geometry/points';
import type { Arrangement } from './arrangement';
import type { PageIndex } from './pageIndex';
import type { HalfEdge } from './walkFace';

/** To the left first, then down, to the right and up. */
export const RAYS: readonly PagePoint[] = [
  [-1, 0],
  [0, -1],
  [1, 0],
  [0, 1],
];

export interface RayHit {
  readonly segment: number;
  readonly spot: PagePoint;
  readonly away: number;
}

/** Where the ray crosses lines, nearest first; looked up in widening stretches. */
export function* rayHits(
  { boxes, linework }: PageIndex,
  counts: (k: number) => boolean,
  [x, y]: PagePoint,
  [dx, dy]: PagePoint,
): Generator<RayHit> {
  const s = linework.segments;
  const end = dx === 0 ? linework.height : linework.width;
  const axis = dx === 0 ? 0 : 1;
  const level = axis === 1 ? y : x;
  for (let from = 0, reach = 16; from < 2 * end; from = reach, reach *= 2) {
    const a: PagePoint = [x + from * dx, y + from * dy];
    const b: PagePoint = [x + reach * dx, y + reach * dy];
    const hits: RayHit[] = [];
    for (const k of boxes.search([
      Math.min(a[0], b[0]),
      Math.min(a[1], b[1]),
      Math.max(a[0], b[0]),
      Math.max(a[1], b[1]),
    ])) {
      if (!counts(k)) continue;
      const p = s[4 * k + axis] ?? 0;
      const q = s[4 * k + 2 + axis] ?? 0;
      if (p > level === q > level) continue;
      const share = (level - p) / (q - p);
      const px = (s[4 * k] ?? 0) + share * ((s[4 * k + 2] ?? 0) - (s[4 * k] ?? 0));
      const py = (s[4 * k + 1] ?? 0) + share * ((s[4 * k + 3] ?? 0) - (s[4 * k + 1] ?? 0));
      const away = (px - x) * dx + (py - y) * dy;
      if (away >= from && away < reach) hits.push({ segment: k, spot: [px, py], away });
    }
    yield* hits.sort((m, n) => m.away - n.away || m.segment - n.segment);
  }
}

/** The half-edge of the segment at the spot, turned so that where the ray comes from lies on its left. */
export function edgeAlong(
  arrangement: Arrangement,
  segment: number,
  spot: PagePoint,
  [dx, dy]: PagePoint,
): HalfEdge | null {
  const cuts = arrangement.nodesOn(segment);
  const first = cuts[0];
  const last = cuts.at(-1);
  if (!first || !last || first === last) return null;
  const [ax, ay] = arrangement.at(first.node);
  const [bx, by] = arrangement.at(last.node);
  const share = ((spot[0] - ax) * (bx - ax) + (spot[1] - ay) * (by - ay)) / ((bx - ax) ** 2 + (by - ay) ** 2);
  let i = cuts.findIndex((cut) => cut.share > share);
  if (i <= 0) i = i === 0 ? 1 : cuts.length - 1;
  const from = cuts[i - 1];
  const to = cuts[i];
  if (!from || !to) return null;
  // Left of a → b is (−(b−a).y, (b−a).x); the ray runs into the line, so its left must face back along the ray.
  const [px, py] = arrangement.at(from.node);
  const [qx, qy] = arrangement.at(to.node);
  const facesBack = -(qy - py) * dx + (qx - px) * dy < 0;
  return facesBack ? [from.node, to.node] : [to.node, from.node];
}
