// The planar arrangement of a page's drawn part, made as it is walked: a line is cut where others meet it the first
// time it is asked for, so that a trace costs what it passes and not the whole page. Loose ends within the gap of
// something else are joined to it by a bridge. Promise: the same page and gap give the same nodes and bridges,
// wherever the walk begins.
import type { PagePoint } from '../geometry/points';
import { crossingShare, nearestOn } from './contact';
import type { PageIndex } from './pageIndex';
import { acrossOpening } from './wallEnds';

export interface Arrangement {
  at(node: number): PagePoint;
  /** Nodes along a segment, from its first end to its second, each with its share of the way. */
  nodesOn(segment: number): readonly CutNode[];
  /** Neighbours of a node, counter-clockwise from the left: each with its angle. */
  star(node: number): readonly Spoke[];
  /** Segments that run through a node. */
  through(node: number): readonly number[];
  isBridge(a: number, b: number): boolean;
}

export interface CutNode {
  readonly node: number;
  readonly share: number;
}

export interface Spoke {
  readonly to: number;
  readonly angle: number;
}

export function arrange(
  { boxes, linework: { segments: s } }: PageIndex,
  options: {
    readonly counts: (segment: number) => boolean;
    readonly samePoint: number;
    readonly gap: number;
  },
): Arrangement {
  const { counts, samePoint, gap } = options;
  const xs: number[] = [];
  const ys: number[] = [];
  const cells = new Map<number, number[]>();
  const cuts = new Map<number, CutNode[]>();
  const stars = new Map<number, Spoke[]>();
  const passing = new Map<number, number[]>();
  const landings = new Map<number, Landing | null>();
  const bridged = new Set<number>();
  const lines = { segments: s, boxes, counts, samePoint };

  const cellOf = (x: number, y: number): number =>
    Math.floor(x / samePoint) * CELL_STRIDE + Math.floor(y / samePoint);

  function nodeAt(x: number, y: number): number {
    let best = -1;
    let least = samePoint * samePoint;
    for (const dx of NEIGHBOURS)
      for (const dy of NEIGHBOURS)
        for (const node of cells.get(cellOf(x + dx * samePoint, y + dy * samePoint)) ?? []) {
          const away = ((xs[node] ?? 0) - x) ** 2 + ((ys[node] ?? 0) - y) ** 2;
          if (away <= least) {
            least = away;
            best = node;
          }
        }
    if (best >= 0) return best;
    const node = xs.push(x) - 1;
    ys.push(y);
    const cell = cellOf(x, y);
    const there = cells.get(cell);
    if (there) there.push(node);
    else cells.set(cell, [node]);
    return node;
  }

  function near(k: number, reach: number): number[] {
    const x1 = s[4 * k] ?? 0;
    const y1 = s[4 * k + 1] ?? 0;
    const x2 = s[4 * k + 2] ?? 0;
    const y2 = s[4 * k + 3] ?? 0;
    return boxes
      .search([
        Math.min(x1, x2) - reach,
        Math.min(y1, y2) - reach,
        Math.max(x1, x2) + reach,
        Math.max(y1, y2) + reach,
      ])
      .filter((t) => t !== k && counts(t));
  }

  function around(x: number, y: number, reach: number): number[] {
    return boxes.search([x - reach, y - reach, x + reach, y + reach]).filter(counts);
  }

  function nodesOn(k: number): readonly CutNode[] {
    const known = cuts.get(k);
    if (known) return known;
    const found: CutNode[] = [];
    const add = (x: number, y: number): void => {
      const node = nodeAt(x, y);
      const [, , share] = nearestOn(s, k, xs[node] ?? 0, ys[node] ?? 0);
      found.push({ node, share });
    };
    const addEnd = (t: number, end: 0 | 1): void => add(s[4 * t + 2 * end] ?? 0, s[4 * t + 2 * end + 1] ?? 0);
    addEnd(k, 0);
    addEnd(k, 1);
    for (const t of near(k, Math.max(samePoint, gap))) {
      let ends = 0;
      for (const end of [0, 1] as const) {
        const x = s[4 * t + 2 * end] ?? 0;
        const y = s[4 * t + 2 * end + 1] ?? 0;
        const [px, py] = nearestOn(s, k, x, y);
        const away = Math.hypot(px - x, py - y);
        if (away <= samePoint) {
          add(x, y);
          ends++;
        } else if (away <= gap) {
          const landing = landingOf(t, end);
          if (landing && landing.on === k) add(landing.x, landing.y);
        }
      }
      if (ends === 2) continue;
      // Always worked out from the lower of the two, so that both find the very same point.
      const [a, b] = k < t ? [k, t] : [t, k];
      const share = crossingShare(s, a, b);
      if (share < 0) continue;
      const ax = s[4 * a] ?? 0;
      const ay = s[4 * a + 1] ?? 0;
      add(ax + share * ((s[4 * a + 2] ?? 0) - ax), ay + share * ((s[4 * a + 3] ?? 0) - ay));
    }
    found.sort((a, b) => a.share - b.share || a.node - b.node);
    const distinct = found.filter(({ node }, i) => found.findIndex((other) => other.node === node) === i);
    const list = found.length < MANY ? distinct : distinctSorted(found);
    cuts.set(k, list);
    return list;
  }

  interface Landing {
    readonly x: number;
    readonly y: number;
    readonly on: number;
  }

  /** Where a loose end is joined to something else, or a wall's face goes on beyond an opening; null where nothing is
   * in reach. */
  function landingOf(k: number, end: 0 | 1): Landing | null {
    if (gap <= samePoint) return null;
    const key = 2 * k + end;
    const known = landings.get(key);
    if (known !== undefined) return known;
    const x = s[4 * k + 2 * end] ?? 0;
    const y = s[4 * k + 2 * end + 1] ?? 0;
    let best: Landing | null = null;
    let least = gap * gap;
    let loose = true;
    const [otherX, otherY] = [s[4 * k + 2 - 2 * end] ?? 0, s[4 * k + 3 - 2 * end] ?? 0];
    for (const t of around(x, y, gap)) {
      if (t === k) continue;
      const [px, py] = nearestOn(s, t, x, y);
      const away = (px - x) ** 2 + (py - y) ** 2;
      if (away <= samePoint * samePoint) {
        loose = false;
        break;
      }
      // A line whose other end is as near closes nothing: a mark beside it, or a barb that springs from it.
      const [ox, oy] = nearestOn(s, t, otherX, otherY);
      if (Math.hypot(ox - otherX, oy - otherY) <= gap) continue;
      if (away > least || (away === least && best && best.on < t)) continue;
      least = away;
      best = { x: px, y: py, on: t };
    }
    if (!loose) best = gap < LEAST_OPENING ? null : acrossOpening(lines, k, end, gap);
    else if (best) best = atItsEnd(best, x, y, least);
    landings.set(key, best);
    return best;
  }

  /** An end of the other line is where a drafter meant to meet it, so it wins over a nearer middle. */
  function atItsEnd({ x: px, y: py, on }: Landing, x: number, y: number, nearest: number): Landing {
    for (const other of [0, 1] as const) {
      const ex = s[4 * on + 2 * other] ?? 0;
      const ey = s[4 * on + 2 * other + 1] ?? 0;
      const far = (ex - x) ** 2 + (ey - y) ** 2;
      if (far <= gap * gap && far * END_FAVOUR <= nearest) return { x: ex, y: ey, on };
    }
    return { x: px, y: py, on };
  }

  function through(node: number): readonly number[] {
    const known = passing.get(node);
    if (known) return known;
    const found = around(xs[node] ?? 0, ys[node] ?? 0, 2 * samePoint).filter((t) =>
      nodesOn(t).some((cut) => cut.node === node),
    );
    passing.set(node, found);
    return found;
  }

  function star(node: number): readonly Spoke[] {
    const known = stars.get(node);
    if (known) return known;
    const x = xs[node] ?? 0;
    const y = ys[node] ?? 0;
    const neighbours = new Set<number>();
    for (const t of through(node)) {
      const list = nodesOn(t);
      const i = list.findIndex((cut) => cut.node === node);
      const before = list[i - 1];
      const after = list[i + 1];
      if (before) neighbours.add(before.node);
      if (after) neighbours.add(after.node);
    }
    if (gap > samePoint)
      for (const t of around(x, y, gap + samePoint))
        for (const end of [0, 1] as const) {
          const ex = s[4 * t + 2 * end] ?? 0;
          const ey = s[4 * t + 2 * end + 1] ?? 0;
          if (Math.hypot(ex - x, ey - y) > gap + 2 * samePoint) continue;
          const landing = landingOf(t, end);
          if (!landing) continue;
          const from = nodeAt(ex, ey);
          const to = nodeAt(landing.x, landing.y);
          if (from === to || (from !== node && to !== node)) continue;
          const other = from === node ? to : from;
          if (!neighbours.has(other)) bridged.add(pairOf(node, other));
          neighbours.add(other);
        }
    const spokes = [...neighbours]
      .filter((to) => to !== node)
      .map((to) => ({ to, angle: Math.atan2((ys[to] ?? 0) - y, (xs[to] ?? 0) - x) }))
      .sort((a, b) => a.angle - b.angle || a.to - b.to);
    stars.set(node, spokes);
    return spokes;
  }

  return {
    at: (node) => [xs[node] ?? 0, ys[node] ?? 0],
    nodesOn,
    star,
    through,
    isBridge: (a, b) => bridged.has(pairOf(a, b)),
  };
}

/** Points: a doorway of 0.8 m at 1:500. */
const LEAST_OPENING = 4;
const NEIGHBOURS = [-1, 0, 1] as const;
const CELL_STRIDE = 2 ** 24;
const MANY = 400;
/** On squared distances. */
const END_FAVOUR = 0.5;

/** Sorted by share, and the same node comes at the same share. */
function distinctSorted(found: readonly CutNode[]): CutNode[] {
  const seen = new Set<number>();
  return found.filter(({ node }) => !seen.has(node) && seen.add(node));
}

function pairOf(a: number, b: number): number {
  return Math.min(a, b) * 2 ** 26 + Math.max(a, b);
}
