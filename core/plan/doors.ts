// In: a page's lines. Out: where doors stand in walls, as the lines that close their openings, and the strokes of each
// leaf and swing marked as symbols. Promise: a door is a bow about its hinge with a leaf to one end of it; where no wall
// is found at both ends of the opening, the strokes stay what they were.
import type { PagePoint } from '../geometry/points';
import { nearestOn } from './contact';
import type { PageLine } from './lines';
import { segmentAt } from './pageIndex';
import type { PageIndex } from './pageIndex';
import { STROKE } from './strokes';
import { SEGMENT_MARK } from './types';

/** x1, y1, x2, y2 of each line that closes an opening. */
export function markDoors(
  index: PageIndex,
  kinds: Uint8Array,
  { samePoint, symbolSize }: { readonly samePoint: number; readonly symbolSize: number },
): Float64Array {
  const doors: Door[] = [];
  for (const bow of findBows(index, kinds, samePoint)) {
    if (bow.radius < LEAST_RADIUS * symbolSize || bow.radius > MOST_RADIUS * symbolSize) continue;
    const door = doorOf(index, kinds, bow);
    if (!door) continue;
    // Of two leaves each shuts against the other.
    const other = doors.findIndex(({ latch, radius }) => away(latch, door.latch) < FRAME * radius);
    const [first] = other < 0 ? [] : doors.splice(other, 1);
    doors.push(first ? bothLeaves(first, door) : door);
  }
  return Float64Array.from(
    doors.flatMap((door) => {
      const lines = linesAcross(index, kinds, door);
      if (lines.length > 0) for (const k of door.strokes) kinds[k] = (kinds[k] ?? 0) | STROKE.symbol;
      return lines.flat();
    }),
  );
}

function bothLeaves(a: Door, b: Door): Door {
  return {
    hinge: a.hinge,
    latch: b.hinge,
    radius: a.radius + b.radius,
    strokes: new Set([...a.strokes, ...b.strokes]),
  };
}

/** In symbol sizes: a leaf of 0.6 m at 1:200 on A0, one of 1.2 m at 1:20 on A3. */
const LEAST_RADIUS = 0.7;
const MOST_RADIUS = 40;

interface Bow {
  readonly first: number;
  readonly last: number;
  readonly middle: PagePoint;
  readonly radius: number;
}

/** Degrees: a door is drawn open by a quarter turn, or by a part of one. */
const LEAST_SWING = 20;
const MOST_SWING = 115;
const LEAST_CHORDS = 3;
const LARGEST_TURN = 36;
const LEAST_TURN = 0.5;

/** Strokes that follow each other in the file, end to end, and turn evenly one way: a curve, or one that its author
 * wrote as chords. */
function* findBows({ linework }: PageIndex, kinds: Uint8Array, samePoint: number): Generator<Bow> {
  const { segments, widths } = linework;
  const usable = (k: number): boolean => ((kinds[k] ?? 0) & ~STROKE.dashed) === 0;
  const count = widths.length;
  for (let first = 0; first < count;) {
    let last = first;
    let way = 0;
    let swing = 0;
    while (last + 1 < count && usable(last) && usable(last + 1)) {
      const turn = turnAt(segments, last, samePoint);
      const steep = Math.abs(turn);
      if (!(steep >= LEAST_TURN && steep <= LARGEST_TURN) || turn * way < 0) break;
      way = turn;
      swing += steep;
      last++;
    }
    const chords = last - first + 1;
    const whole = chords < 2 ? 0 : (swing * chords) / (chords - 1);
    if (chords >= LEAST_CHORDS && whole >= LEAST_SWING && whole <= MOST_SWING) {
      const bow = bowOf(segments, first, last);
      if (bow) yield bow;
    }
    first = Math.max(last, first + 1);
  }
}

/** Degrees from a segment to the next; NaN where they do not follow each other, or differ much in length. */
function turnAt(s: Float64Array, k: number, samePoint: number): number {
  const [ax, ay, bx, by] = segmentAt(s, k);
  const [cx, cy, dx, dy] = segmentAt(s, k + 1);
  if (Math.abs(cx - bx) > samePoint || Math.abs(cy - by) > samePoint) return NaN;
  const [ux, uy, vx, vy] = [bx - ax, by - ay, dx - cx, dy - cy];
  const lengths = Math.hypot(ux, uy) / Math.hypot(vx, vy);
  if (!(lengths > 0.4 && lengths < 2.5)) return NaN;
  return (Math.atan2(ux * vy - uy * vx, ux * vx + uy * vy) * 180) / Math.PI;
}

/** Of the radius: how far a bow's corners may lie off its circle. */
const ROUND = 0.03;

function bowOf(s: Float64Array, first: number, last: number): Bow | null {
  const [ax, ay] = segmentAt(s, first);
  const [bx, by] = segmentAt(s, Math.ceil((first + last) / 2));
  const [, , cx, cy] = segmentAt(s, last);
  // Circle through three points, from the first of them.
  const [px, py, qx, qy] = [bx - ax, by - ay, cx - ax, cy - ay];
  const cross = 2 * (px * qy - py * qx);
  if (cross === 0) return null;
  const [p, q] = [px * px + py * py, qx * qx + qy * qy];
  const middle: PagePoint = [ax + (qy * p - py * q) / cross, ay + (px * q - qx * p) / cross];
  const radius = Math.hypot(middle[0] - ax, middle[1] - ay);
  for (let k = first; k <= last; k++) {
    const [x, y] = segmentAt(s, k);
    if (Math.abs(Math.hypot(x - middle[0], y - middle[1]) / radius - 1) > ROUND) return null;
  }
  return { first, last, middle, radius };
}

interface Door {
  readonly hinge: PagePoint;
  readonly latch: PagePoint;
  readonly radius: number;
  readonly strokes: ReadonlySet<number>;
}

/** Of the radius: what a drafter leaves between hinge, leaf, swing and wall for a frame. */
const FRAME = 0.13;

function doorOf(index: PageIndex, kinds: Uint8Array, bow: Bow): Door | null {
  const { segments } = index.linework;
  const [ax, ay] = segmentAt(segments, bow.first);
  const [, , cx, cy] = segmentAt(segments, bow.last);
  const bowed = Array.from({ length: bow.last - bow.first + 1 }, (_, n) => bow.first + n);
  const found = [
    { tip: [ax, ay] as const, latch: [cx, cy] as const },
    { tip: [cx, cy] as const, latch: [ax, ay] as const },
  ].flatMap(({ tip, latch }) => {
    const leaf = leafTo(index, kinds, bow, tip);
    const strokes = new Set([...bowed, ...leaf]);
    if (leaf.length === 0 || runsOn(index, kinds, bow, tip, strokes)) return [];
    return [{ latch, strokes, others: endsThere(index, kinds, tip, strokes) }];
  });
  // A sill drawn across the opening runs from the hinge too: a leaf's tip touches nothing but the swing.
  const [door] = found.sort((a, b) => a.others - b.others);
  return door ? { hinge: bow.middle, radius: bow.radius, latch: door.latch, strokes: door.strokes } : null;
}

/** Strokes in the narrow band from the hinge to the swing's end, if one of them runs the whole way. */
function leafTo({ linework, boxes }: PageIndex, kinds: Uint8Array, bow: Bow, tip: PagePoint): number[] {
  const { middle, radius } = bow;
  const [ux, uy] = [(tip[0] - middle[0]) / radius, (tip[1] - middle[1]) / radius];
  const slack = FRAME * radius;
  const found: number[] = [];
  let whole = false;
  for (const k of boxes.search(around([middle, tip], slack))) {
    if (((kinds[k] ?? 0) & ~STROKE.dashed) !== 0 || (k >= bow.first && k <= bow.last)) continue;
    const [x1, y1, x2, y2] = segmentAt(linework.segments, k);
    const [a, b] = [
      (x1 - middle[0]) * ux + (y1 - middle[1]) * uy,
      (x2 - middle[0]) * ux + (y2 - middle[1]) * uy,
    ];
    const off = Math.max(
      Math.abs((y1 - middle[1]) * ux - (x1 - middle[0]) * uy),
      Math.abs((y2 - middle[1]) * ux - (x2 - middle[0]) * uy),
    );
    const [low, high] = [Math.min(a, b), Math.max(a, b)];
    if (off > slack || low < -slack || high > radius + slack) continue;
    // What stands near the hinge alone is the end of the wall.
    if (high - low < 0.5 * radius && low < 0.5 * radius) continue;
    found.push(k);
    whole ||= low < 2 * slack && high > radius - slack;
  }
  return whole ? found : [];
}

/** Whether the bow's line runs on from the tip of the leaf: then it is the edge of something round. */
function runsOn(
  { linework, boxes }: PageIndex,
  kinds: Uint8Array,
  { middle, radius }: Bow,
  tip: PagePoint,
  own: ReadonlySet<number>,
): boolean {
  const near = RUNS_ON * radius;
  return boxes.search(around([tip], near)).some((k) => {
    if (kinds[k] !== 0 || own.has(k)) return false;
    const [x1, y1, x2, y2] = segmentAt(linework.segments, k);
    const length = Math.hypot(x2 - x1, y2 - y1);
    const ends = Math.min(Math.hypot(x1 - tip[0], y1 - tip[1]), Math.hypot(x2 - tip[0], y2 - tip[1])) <= near;
    // Square to the radius.
    const along = ((x2 - x1) * (tip[0] - middle[0]) + (y2 - y1) * (tip[1] - middle[1])) / radius;
    return ends && Math.abs(along) < 0.2 * length;
  });
}

const RUNS_ON = 0.03;

function endsThere(
  { linework, boxes }: PageIndex,
  kinds: Uint8Array,
  tip: PagePoint,
  own: ReadonlySet<number>,
): number {
  const near = 0.2;
  const [x, y] = tip;
  return boxes.search(around([tip], near)).filter((k) => {
    const [px, py] = nearestOn(linework.segments, k, x, y);
    return kinds[k] === 0 && !own.has(k) && Math.hypot(px - x, py - y) <= near;
  }).length;
}

/** From each face of the wall on the hinge's side to the same face on the other. */
function linesAcross(index: PageIndex, kinds: Uint8Array, door: Door): PageLine[] {
  const { hinge, latch, radius } = door;
  const wide = Math.hypot(latch[0] - hinge[0], latch[1] - hinge[1]);
  const u: PagePoint = [(latch[0] - hinge[0]) / wide, (latch[1] - hinge[1]) / wide];
  const from = wallEnd(index, kinds, door, hinge, u);
  const to = wallEnd(index, kinds, door, latch, u);
  if (from.jamb && to.jamb) return paired(from.jamb, to.jamb, radius);
  const [jamb, other] = from.jamb ? [from.jamb, to] : to.jamb ? [to.jamb, from] : [null, null];
  if (jamb && other.flank) {
    const flank = other.flank;
    return jamb.flatMap((corner) => {
      const at = crossingOn(flank, corner, u);
      return at && Math.hypot(at[0] - corner[0], at[1] - corner[1]) < 1.4 * radius
        ? [lineOf(corner, at)]
        : [];
    });
  }
  const [a, b] = [from.nearest, to.nearest];
  return a && b && Math.hypot(b[0] - a[0], b[1] - a[1]) > 0.5 * radius ? [lineOf(a, b)] : [];
}

interface WallEnd {
  /** The two corners of a wall that ends here. */
  readonly jamb: readonly [PagePoint, PagePoint] | null;
  /** The face of a wall that runs past. */
  readonly flank: PageLine | null;
  /** An end of a line, or else the next place on one. */
  readonly nearest: PagePoint | null;
}

/** In radii: the thickest wall with a door in it. */
const THICKEST = 0.9;

function wallEnd(
  { linework, boxes }: PageIndex,
  kinds: Uint8Array,
  { radius, strokes }: Door,
  at: PagePoint,
  [ux, uy]: PagePoint,
): WallEnd {
  const slack = FRAME * radius;
  let jamb: WallEnd['jamb'] = null;
  let flank: PageLine | null = null;
  let longest = 0;
  let end: { readonly at: PagePoint; readonly away: number } | null = null;
  let beside: { readonly at: PagePoint; readonly away: number } | null = null;
  for (const k of boxes.search(around([at], slack))) {
    if (kinds[k] !== 0 || strokes.has(k) || ((linework.marks[k] ?? 0) & SEGMENT_MARK.curve) !== 0) continue;
    const line = segmentAt(linework.segments, k);
    const [px, py] = nearestOn(linework.segments, k, at[0], at[1]);
    const away = Math.hypot(px - at[0], py - at[1]);
    if (away > slack) continue;
    if (!beside || away < beside.away) beside = { at: [px, py], away };
    for (const [x, y] of [
      [line[0], line[1]],
      [line[2], line[3]],
    ] as const) {
      const off = Math.hypot(x - at[0], y - at[1]);
      if (off <= slack && (!end || off < end.away)) end = { at: [x, y], away: off };
    }
    const length = Math.hypot(line[2] - line[0], line[3] - line[1]);
    const along = Math.abs((line[2] - line[0]) * ux + (line[3] - line[1]) * uy) / length;
    if (along > 0.1) continue;
    if (length > THICKEST * radius) flank = line;
    else if (length > longest) {
      longest = length;
      jamb = [
        [line[0], line[1]],
        [line[2], line[3]],
      ];
    }
  }
  return { jamb: longest > 0.04 * radius ? jamb : null, flank, nearest: (end ?? beside)?.at ?? null };
}

function paired(
  a: readonly [PagePoint, PagePoint],
  b: readonly [PagePoint, PagePoint],
  radius: number,
): PageLine[] {
  const straight = away(a[0], b[0]) + away(a[1], b[1]);
  const crossed = away(a[0], b[1]) + away(a[1], b[0]);
  const [c, d] = straight <= crossed ? b : [b[1], b[0]];
  return [lineOf(a[0], c), lineOf(a[1], d)].filter(
    ([x1, y1, x2, y2]) => Math.hypot(x2 - x1, y2 - y1) < 1.4 * radius,
  );
}

/** Where the line through a corner meets a face that runs past. */
function crossingOn([x1, y1, x2, y2]: PageLine, [x, y]: PagePoint, [ux, uy]: PagePoint): PagePoint | null {
  const [ex, ey] = [x2 - x1, y2 - y1];
  const cross = ux * ey - uy * ex;
  const share = (ux * (y - y1) - uy * (x - x1)) / -cross;
  if (cross === 0 || !(share >= -0.05 && share <= 1.05)) return null;
  const held = Math.min(1, Math.max(0, share));
  return [x1 + held * ex, y1 + held * ey];
}

function away(p: PagePoint, q: PagePoint): number {
  return Math.hypot(p[0] - q[0], p[1] - q[1]);
}

function lineOf(a: PagePoint, b: PagePoint): PageLine {
  return [a[0], a[1], b[0], b[1]];
}

function around(points: readonly PagePoint[], by: number): [number, number, number, number] {
  const xs = points.map(([x]) => x);
  const ys = points.map(([, y]) => y);
  return [Math.min(...xs) - by, Math.min(...ys) - by, Math.max(...xs) + by, Math.max(...ys) + by];
}
