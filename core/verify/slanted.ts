// The same sweep as in cover.ts for sheets that lie at an angle to each other: slices also end where two sides cross,
// so that within a slice nothing changes and its middle stands for all of it.
import type { Flat } from './cover';

export interface Quad {
  readonly id: string;
  readonly corners: readonly Flat[];
}

interface Slice {
  readonly v: number;
  readonly roof: readonly (readonly [number, number])[];
  readonly sheets: readonly { readonly id: string; readonly from: number; readonly to: number }[];
}

/** The first place of a polygon with holes that lies under no quad, or null. */
export function firstBare(
  rings: readonly (readonly Flat[])[],
  quads: readonly Quad[],
  slack: number,
): Flat | null {
  for (const { v, roof, sheets } of slices(rings, quads, slack)) {
    const sorted = [...sheets].sort((a, b) => a.from - b.from);
    for (const [from, to] of roof) {
      let reached = from;
      for (const sheet of sorted) {
        if (sheet.from > reached + slack) break;
        reached = Math.max(reached, sheet.to);
      }
      if (reached < to - slack) return [reached, v];
    }
  }
  return null;
}

function* slices(
  rings: readonly (readonly Flat[])[],
  quads: readonly Quad[],
  slack: number,
): Generator<Slice> {
  const boxes = quads.map(({ corners }) => boxOf(corners));
  const levels = new Set<number>(
    [...rings, ...quads.map(({ corners }) => corners)].flatMap((ring) => ring.map((p) => p[1])),
  );
  quads.forEach((quad, i) => {
    for (let k = i + 1; k < quads.length; k++)
      if (touch(boxes[i] as Box, boxes[k] as Box))
        addCrossings(quad.corners, (quads[k] as Quad).corners, levels);
    for (const ring of rings) addCrossings(quad.corners, ring, levels);
  });
  const sorted = [...levels].sort((a, b) => a - b);
  for (let i = 0; i + 1 < sorted.length; i++) {
    const [low, high] = [sorted[i] as number, sorted[i + 1] as number];
    if (high - low <= slack) continue;
    const v = (low + high) / 2;
    const roof = pairs(rings.flatMap((ring) => crossingsAt(ring, v)));
    if (roof.length === 0) continue;
    const sheets = quads.flatMap(({ id, corners }, k) => {
      const box = boxes[k] as Box;
      if (v < box.v0 || v > box.v1) return [];
      const [from, to] = crossingsAt(corners, v).sort((a, b) => a - b);
      return from === undefined || to === undefined ? [] : [{ id, from, to }];
    });
    yield { v, roof, sheets };
  }
}

interface Box {
  readonly u0: number;
  readonly u1: number;
  readonly v0: number;
  readonly v1: number;
}

function boxOf(points: readonly Flat[]): Box {
  const us = points.map((p) => p[0]);
  const vs = points.map((p) => p[1]);
  return { u0: Math.min(...us), u1: Math.max(...us), v0: Math.min(...vs), v1: Math.max(...vs) };
}

const touch = (a: Box, b: Box) => a.u0 <= b.u1 && b.u0 <= a.u1 && a.v0 <= b.v1 && b.v0 <= a.v1;

function addCrossings(p: readonly Flat[], q: readonly Flat[], levels: Set<number>): void {
  p.forEach((a, i) => {
    const b = p[(i + 1) % p.length] as Flat;
    q.forEach((c, k) => {
      const d = q[(k + 1) % q.length] as Flat;
      const turn = (b[0] - a[0]) * (d[1] - c[1]) - (b[1] - a[1]) * (d[0] - c[0]);
      if (turn === 0) return;
      const t = ((c[0] - a[0]) * (d[1] - c[1]) - (c[1] - a[1]) * (d[0] - c[0])) / turn;
      const s = ((c[0] - a[0]) * (b[1] - a[1]) - (c[1] - a[1]) * (b[0] - a[0])) / turn;
      if (t > 0 && t < 1 && s > 0 && s < 1) levels.add(a[1] + t * (b[1] - a[1]));
    });
  });
}

function crossingsAt(ring: readonly Flat[], v: number): number[] {
  const found: number[] = [];
  ring.forEach((a, i) => {
    const b = ring[(i + 1) % ring.length] as Flat;
    if (a[1] <= v !== b[1] <= v) found.push(a[0] + ((v - a[1]) / (b[1] - a[1])) * (b[0] - a[0]));
  });
  return found;
}

function pairs(values: number[]): [number, number][] {
  values.sort((a, b) => a - b);
  const found: [number, number][] = [];
  for (let k = 0; k + 1 < values.length; k += 2) found.push([values[k] as number, values[k + 1] as number]);
  return found;
}
