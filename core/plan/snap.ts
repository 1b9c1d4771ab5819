// In: the pointer on the page, the page's lines and the corners in play. Out: where the pointer is meant to be,
// what it caught, and the guide to draw; or nothing. Promise: snapping a snapped point returns it.
import type { PagePoint } from '../geometry/points';
import { guidesFrom } from './guides';
import type { Guide } from './guides';
import { IN_LINE_SINE } from '../geometry/tolerances';
import { crossing, distance, nearestOnSegment, onLine } from './lines';
import type { PageLine } from './lines';
import { nearestCrossing, nearLines } from './nearLines';
import type { NearLine } from './nearLines';
import type { PageIndex } from './pageIndex';

export type SnapKind =
  | 'first corner'
  | 'line end'
  | 'line crossing'
  | 'corner'
  | 'line middle'
  | 'line'
  | 'guides'
  | 'guide'
  | 'angle';

export interface Snap {
  readonly at: PagePoint;
  readonly kind: SnapKind;
  /** What it caught, in words for the status line. */
  readonly label: string;
  /** The drawing's lines behind it. */
  readonly lines: readonly PageLine[];
  /** Lines to draw from a corner in play to the snapped point. */
  readonly guides: readonly (readonly [PagePoint, PagePoint])[];
}

export interface SnapQuery {
  readonly pointer: PagePoint;
  /** In page points: the radius on the screen over the zoom. */
  readonly radius: number;
  /** Corners of the ring being drawn, in order. */
  readonly placed: readonly PagePoint[];
  /** Corners already in the job, without the one that is dragged. */
  readonly corners: readonly PagePoint[];
  /** locked: only square to, or in line with, the page and the last side. */
  readonly ortho: 'free' | 'locked';
  readonly last: Snap | null;
}

/** `index` is null where the page has no lines, such as a blank sheet or a scan. */
export function snapPoint(index: PageIndex | null, query: SnapQuery): Snap | null {
  const held = heldSnap(query);
  let snap = best(index, query.pointer, query);
  // A point caught on a line may lie within reach of something better; follow it until nothing better is near.
  for (let turns = 0; snap && turns < FOLLOWED && !isSettled(snap, query); turns++) {
    const next = best(index, snap.at, query);
    if (!next || distance(next.at, snap.at) < SAME_POINT_PT) break;
    snap = next;
  }
  if (!held) return snap;
  if (!snap || rank(held) < rank(snap)) return held;
  const closer = distance(query.pointer, snap.at) < distance(query.pointer, held.at) - SAME_POINT_PT;
  return rank(snap) < rank(held) || closer ? snap : held;
}

/** Classes in order; within a class the nearest wins. */
const CLASSES: readonly SnapKind[] = [
  'first corner',
  'line end',
  'line crossing',
  'corner',
  'line middle',
  'line',
  'guides',
  'guide',
  'angle',
];
const CLASS_OF = (kind: SnapKind): number => CLASSES.indexOf(kind === 'line crossing' ? 'line end' : kind);

/** Points nearer than this, in points of the page, are one point: a hundred-thousandth of a millimetre. */
const SAME_POINT_PT = 1e-7;
const FOLLOWED = 4;
const LET_GO = 1.5;
/** In radii: on a shorter line the middle would only be in the way of its ends. */
const MIDDLE_FROM = 6;
/** Where all crossings count, only so many of the nearest lines are tried against each other. */
const MOST_CROSSED = 28;

interface Candidate extends Snap {
  /** Breaks the order within a class before distance does. */
  readonly before: number;
}

/** Only a snap to a point is held; one on a line slides along it. */
function heldSnap({ last, pointer, radius, ortho }: SnapQuery): Snap | null {
  if (!last || ortho === 'locked' || CLASS_OF(last.kind) > CLASS_OF('line middle')) return null;
  return distance(pointer, last.at) <= LET_GO * radius ? last : null;
}

/** Nothing can be nearer to a caught end or crossing than itself, and only the first corner comes before it. */
function isSettled(snap: Snap, { placed, ortho }: SnapQuery): boolean {
  return rank(snap) <= CLASS_OF('line end') && placed.length < 3 && (ortho === 'free' || placed.length === 0);
}

function rank(snap: Snap): number {
  return CLASS_OF(snap.kind);
}

function best(index: PageIndex | null, pointer: PagePoint, query: SnapQuery): Snap | null {
  const near = index ? nearLines(index, pointer, query.radius) : [];
  const guides = guidesFrom(query.placed, query.ortho);
  const candidates =
    query.ortho === 'locked' && query.placed.length > 0
      ? lockedCandidates(pointer, near, guides, query)
      : freeCandidates(pointer, near, guides, query);
  const first = leastOf(candidates, pointer);
  if (!first) return null;
  const { at, kind, label, lines, guides: drawn } = first;
  return { at: distance(at, pointer) < SAME_POINT_PT ? pointer : at, kind, label, lines, guides: drawn };
}

function leastOf(candidates: readonly Candidate[], pointer: PagePoint): Candidate | null {
  let least: Candidate | null = null;
  for (const one of candidates) {
    const order =
      least === null
        ? -1
        : rank(one) - rank(least) ||
          one.before - least.before ||
          distance(pointer, one.at) - distance(pointer, least.at) ||
          one.at[0] - least.at[0] ||
          one.at[1] - least.at[1];
    if (order < 0) least = one;
  }
  return least;
}

function freeCandidates(
  pointer: PagePoint,
  near: readonly NearLine[],
  guides: readonly Guide[],
  query: SnapQuery,
): Candidate[] {
  const found = pointCandidates(pointer, near, query);
  // A crossing is as good as an end: only one that is nearer than the nearest end can be what is meant.
  const ends = found.filter(({ kind }) => kind === 'line end').map(({ at }) => distance(pointer, at));
  const cross = nearestCrossing(near, pointer, Math.min(query.radius, ...ends) + SAME_POINT_PT);
  if (cross && !ends.some((away) => away <= distance(pointer, cross.at)))
    found.push(candidate(cross.at, 'line crossing', CROSSING, { lines: cross.lines }));
  const within = (at: PagePoint) => distance(pointer, at) <= query.radius;
  for (const guide of guides) {
    const met = nearestOnGuide(near, guide, pointer, query.radius);
    if (met)
      found.push(
        candidate(met.at, 'line', `on a line, ${guide.label}`, { lines: [met.line], from: [guide] }),
      );
    const at = onLine(pointer, guide.through, guide.along);
    if (within(at) && guide.kind !== 'from first')
      found.push(candidate(at, guide.kind === 'angle' ? 'angle' : 'guide', guide.label, { from: [guide] }));
  }
  for (const [k, a] of guides.entries())
    for (const b of guides.slice(k + 1)) {
      if (a.kind === 'angle' || b.kind === 'angle' || (a.kind === 'from first') === (b.kind === 'from first'))
        continue;
      const at = crossing(guideLine(a), guideLine(b), 'lines');
      if (at && within(at)) found.push(candidate(at, 'guides', `${a.label}, ${b.label}`, { from: [a, b] }));
    }
  const last = query.placed.at(-1);
  const [nearest] = near;
  if (nearest)
    found.push(
      candidate(nearestOnSegment(pointer, nearest.line), 'line', 'on a line', {
        lines: [nearest.line],
        before: 1,
      }),
    );
  if (!last) return found;
  for (const { line } of near) {
    const foot = nearestOnSegment(last, line);
    if (within(foot) && distance(last, foot) > query.radius && isSquare(last, foot, line))
      found.push({
        ...candidate(foot, 'line', 'square to a line', { lines: [line] }),
        guides: [[last, foot]],
      });
  }
  return found;
}

/** Where a guide meets a line nearest to a place, within reach of it. */
function nearestOnGuide(
  near: readonly NearLine[],
  guide: Guide,
  [x, y]: PagePoint,
  reach: number,
): { readonly at: PagePoint; readonly line: PageLine } | null {
  const [gx, gy] = guide.through;
  const [ux, uy] = guide.along;
  let least = reach;
  let found: { readonly at: PagePoint; readonly line: PageLine } | null = null;
  // A guide that passes the place by does not meet a line within reach of it.
  if (Math.abs((y - gy) * ux - (x - gx) * uy) > reach) return null;
  for (const { line, away } of near) {
    if (away > least) break;
    const at = crossing(guideLine(guide), line, 'line and segment');
    const off = at ? distance([x, y], at) : Infinity;
    if (!at || off > least || (found && off === least)) continue;
    least = off;
    found = { at, line };
  }
  return found;
}

/** The nearest point of a segment may be its end, which is not square to it. */
function isSquare(from: PagePoint, foot: PagePoint, [x1, y1, x2, y2]: PageLine): boolean {
  const along = (foot[0] - from[0]) * (x2 - x1) + (foot[1] - from[1]) * (y2 - y1);
  return Math.abs(along) <= IN_LINE_SINE * distance(from, foot) * Math.hypot(x2 - x1, y2 - y1);
}

/** Locked: the nearest guide through the last corner, and on it whatever the drawing offers within reach. */
function lockedCandidates(
  pointer: PagePoint,
  near: readonly NearLine[],
  guides: readonly Guide[],
  query: SnapQuery,
): Candidate[] {
  const through = guides.filter((guide) => guide.kind === 'square');
  const nearest = [...through].sort(
    (a, b) =>
      distance(pointer, onLine(pointer, a.through, a.along)) -
      distance(pointer, onLine(pointer, b.through, b.along)),
  )[0];
  if (!nearest) return [];
  const foot = onLine(pointer, nearest.through, nearest.along);
  const within = (at: PagePoint) => distance(foot, at) <= query.radius;
  const found: Candidate[] = [];
  const crossed = crossingBeside(near, nearest, foot, pointer, query.radius);
  for (const point of [...pointCandidates(pointer, near, query), ...crossed]) {
    const at = onLine(point.at, nearest.through, nearest.along);
    if (within(at))
      found.push({
        ...point,
        at,
        label: `${nearest.label}, level with ${point.label}`,
        guides: drawn([nearest], at),
      });
  }
  const met = nearestOnGuide(near, nearest, pointer, Infinity);
  if (met && within(met.at))
    found.push(
      candidate(met.at, 'line', `${nearest.label}, on a line`, { lines: [met.line], from: [nearest] }),
    );
  for (const other of guides.filter((guide) => guide.kind === 'from first')) {
    const at = crossing(guideLine(nearest), guideLine(other), 'lines');
    if (at && within(at))
      found.push(candidate(at, 'guides', `${nearest.label}, ${other.label}`, { from: [nearest, other] }));
  }
  found.push(candidate(foot, 'guide', nearest.label, { from: [nearest] }));
  return found;
}

function pointCandidates(pointer: PagePoint, near: readonly NearLine[], query: SnapQuery): Candidate[] {
  const found: Candidate[] = [];
  const within = (at: PagePoint) => distance(pointer, at) <= query.radius;
  const [first] = query.placed;
  if (first && query.placed.length >= 3 && within(first))
    found.push(candidate(first, 'first corner', 'the first corner, to close'));
  for (const { line, curved } of near) {
    if (curved) continue;
    for (const end of [
      [line[0], line[1]],
      [line[2], line[3]],
    ] as const)
      if (within(end)) found.push(candidate(end, 'line end', 'the end of a line', { lines: [line] }));
    const middle: PagePoint = [(line[0] + line[2]) / 2, (line[1] + line[3]) / 2];
    const length = Math.hypot(line[2] - line[0], line[3] - line[1]);
    if (length > MIDDLE_FROM * query.radius && within(middle))
      found.push(candidate(middle, 'line middle', 'the middle of a line', { lines: [line] }));
  }
  for (const corner of query.corners)
    if (within(corner)) found.push(candidate(corner, 'corner', 'a corner already drawn'));
  return found;
}

const CROSSING = 'where two lines cross';

/** Of the crossings within reach of the pointer the one that lies nearest to it along the guide. */
function crossingBeside(
  near: readonly NearLine[],
  guide: Guide,
  foot: PagePoint,
  pointer: PagePoint,
  radius: number,
): Candidate[] {
  const crossed = near.slice(0, MOST_CROSSED);
  let least = radius;
  let found: Candidate[] = [];
  for (let k = 1; k < crossed.length; k++)
    for (let j = 0; j < k; j++) {
      const [a, b] = [crossed[j] as NearLine, crossed[k] as NearLine];
      const at = crossing(a.line, b.line, 'segments');
      if (!at || distance(pointer, at) > radius) continue;
      const off = distance(foot, onLine(at, guide.through, guide.along));
      if (off > least || (found.length > 0 && off === least)) continue;
      least = off;
      found = [candidate(at, 'line crossing', CROSSING, { lines: [a.line, b.line] })];
    }
  return found;
}

function candidate(
  at: PagePoint,
  kind: SnapKind,
  label: string,
  more: { lines?: readonly PageLine[]; from?: readonly Guide[]; before?: number } = {},
): Candidate {
  return {
    at,
    kind,
    label,
    lines: more.lines ?? [],
    guides: drawn(more.from ?? [], at),
    before: more.before ?? 0,
  };
}

function drawn(guides: readonly Guide[], at: PagePoint): (readonly [PagePoint, PagePoint])[] {
  return guides.map((guide) => [guide.through, at] as const);
}

function guideLine({ through, along }: Guide): PageLine {
  return [through[0], through[1], through[0] + along[0], through[1] + along[1]];
}
