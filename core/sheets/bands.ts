// In: a roof and how sheets lap. Out: its bands, the rows along edges before the field: what each must cover and the
// ground that its laps are counted on. Promise: grounds partition the roof; covers reach a side lap onto the bands
// laid before; no band lies across a line that parts the membrane.
//
//   ┌──────────────────────────────┐      E0 runs through at the corner; E1 ends on it, lapped by a side lap.
//   │ E0  two rows                 │      At a corner that points in, the row laid first runs on by the depth of
//   ├────┬─────────────────────────┤      the other's rows, and the other ends on it.
//   │ E1 │  F: courses end on E1   │
import { growRegion, meetRegions, meetRings, subtractRegion, subtractRings } from '../geometry/clipping';
import type { FramePoint, RoofRing } from '../geometry/points';
import { ringLength, signedArea } from '../geometry/ring';
import { coveredRegion } from '../roof/coveredRegion';
import { backOnto, partOf, separate } from '../roof/separate';
import type { Edge, PerimeterRows, Roof } from '../roof/types';
import { frameOf, toFrame, toRoof } from './frame';
import type { Band, Frame } from './types';

type Region = readonly RoofRing[];

/** A band before its courses are laid; the field's direction is still open. */
export interface BandPlace extends Omit<Band, 'frame'> {
  /** The edge it runs along and its rows; null for the field. */
  readonly along: RowsAlong | null;
}

/** `low` is where the first row begins across its frame. */
export interface RowsAlong {
  readonly rows: PerimeterRows;
  readonly frame: Frame;
  readonly low: number;
}

/** Less of a region than this across is what rounding to the grid left, mm: more would show as laps too short. */
export const SLIVER_MM = 0.3;

/** What a layout has already: the parts of the roof in their order, and rows by the names of their bands: they keep
 * their order, and those of which sheets lie their place too. */
export interface BandsLaid {
  readonly parts: readonly Region[];
  readonly order: readonly string[];
  readonly lying: ReadonlyMap<string, Pick<RowsAlong, 'frame' | 'low'>>;
}

export function placeBands(roof: Roof, sideLap: number, laid: BandsLaid | null = null): readonly BandPlace[] {
  const own = [roof.outline, ...roof.openings.map((o) => o.ring)];
  const covered = coveredRegion(roof);
  const sides = sidesInLine(roof.edges.filter((edge) => edge.ring === 0));
  // Along a step shorter than its rows are wide there is nothing to roll out.
  const rowed = sides.filter((side) => hasRows(side) && side.length >= (side.perimeter?.width ?? 0));
  const parts = asNumbered(separate(covered, roof.lines), laid?.parts ?? []);
  if (parts.length === 1 && rowed.length === 0)
    return [{ id: 'F', kind: 'field', part: 0, cover: parts[0] as Region, ground: own, along: null }];
  const order = laid ? asLaid(laid.order) : longestFirst;
  const edges = rowed
    .map((edge) => alongEdge(edge, sides, sideLap, order, laid?.lying.get(nameOf(edge)) ?? null))
    .sort((a, b) => order(a.edge, b.edge));
  const names = new Map<string, number>();
  return parts.flatMap((part, index) => {
    const places: BandPlace[] = [];
    let cover = part;
    let ground = parts.length === 1 ? own : backOnto(partOf(part, own), [...own, ...part]);
    for (const strip of edges) {
      const reach = meetRings(cover, strip.rings).filter(strip.touches).filter(isRegion);
      if (reach.length === 0) continue;
      // Drawn in and out again, so that what rounding left between two outlines grows no membrane.
      const rest = growRegion(subtractRegion(cover, reach), -SLIVER_MM / 2);
      const reaching = (lap: number) =>
        subtractRings(growRegion(rest, lap + SLIVER_MM / 2), strip.roundCorners(lap));
      cover = meetRegions(cover, reaching(sideLap)).filter(isRegion);
      const halfway = reaching(sideLap / 2);
      const share = subtractRegion(ground, halfway).filter(isRegion);
      ground = meetRegions(ground, halfway).filter(isRegion);
      const { edge, rows, frame, low } = strip;
      const name = named(nameOf(edge), names);
      places.push({
        id: name,
        kind: 'edge',
        part: index,
        cover: backOnto(reach, part),
        ground: share,
        along: { rows, frame, low },
      });
    }
    cover = backOnto(cover, part);
    const field: BandPlace = {
      id: index === 0 ? 'F' : `F${index + 1}`,
      kind: 'field',
      part: index,
      cover,
      ground,
      along: null,
    };
    return cover.length > 0 ? [...places, field] : places;
  });
}

/** Whether a course is a row along an edge, by the name of its band. */
export const isRow = ({ band }: { readonly band: string }) => band.startsWith('E');

/** How deep the rows along an edge reach, from where the membrane begins, mm. */
export const depthOf = ({ sheets, width }: PerimeterRows, sideLap: number) =>
  sheets * width - (sheets - 1) * sideLap;

/** Parts in the order of those that they share most with. */
function asNumbered(parts: readonly Region[], before: readonly Region[]): readonly Region[] {
  if (parts.length === 1 || before.length === 0) return parts;
  const area = (region: Region) => region.reduce((sum, ring) => sum + signedArea(ring), 0);
  const rankOf = (part: Region) => {
    const shared = before.map((old) => area(meetRegions(part, old)));
    return shared.indexOf(Math.max(...shared));
  };
  return parts
    .map((part) => ({ part, rank: rankOf(part) }))
    .sort((a, b) => a.rank - b.rank)
    .map(({ part }) => part);
}

const nameOf = ({ number }: Edge) => `E${number}`;

function named(id: string, used: Map<string, number>): string {
  const times = (used.get(id) ?? 0) + 1;
  used.set(id, times);
  // One edge in several parts of the roof: E3, E3b, E3c.
  return times === 1 ? id : `${id}${String.fromCharCode(96 + times)}`;
}

const isRegion = (ring: RoofRing) => Math.abs(signedArea(ring)) > (ringLength(ring) / 2) * SLIVER_MM;

/** An edge, or several in line that have the same rows: they are laid as one. */
interface Side extends Edge {
  readonly corners: RoofRing;
}

/** Edges that turn by less and leave the line by no more than this are one side, degrees and mm. */
const IN_LINE_DEG = 2;
const OFF_LINE_MM = 25;

const hasRows = ({ perimeter }: Edge) => perimeter !== null && perimeter.sheets > 0;

const sameRows = (a: Edge, b: Edge) =>
  hasRows(a) &&
  hasRows(b) &&
  a.perimeter?.sheets === b.perimeter?.sheets &&
  a.perimeter?.width === b.perimeter?.width &&
  a.allowance === b.allowance;

function sidesInLine(ring: readonly Edge[]): Side[] {
  const alone = (edge: Edge): Side => ({ ...edge, corners: [edge.from, edge.to] });
  // Begin where a side begins, so that none is cut in two by where the ring happens to start.
  const start = ring.findIndex(
    (edge, i) => !goesOn(alone(ring[(i + ring.length - 1) % ring.length] as Edge), edge),
  );
  const sides: Side[] = [];
  for (let i = 0; i < ring.length; i++) {
    const edge = ring[(Math.max(0, start) + i) % ring.length] as Edge;
    const last = sides[sides.length - 1];
    if (last && goesOn(last, edge)) sides[sides.length - 1] = joined(last, edge);
    else sides.push(alone(edge));
  }
  return sides;
}

function goesOn(side: Side, edge: Edge): boolean {
  if (!sameRows(side, edge) || Math.abs(turnBetween(side, edge)) > IN_LINE_DEG) return false;
  const { from, corners, length } = joined(side, edge);
  return corners.every(
    ([x, y]) =>
      Math.abs((x - from[0]) * (edge.to[1] - from[1]) - (y - from[1]) * (edge.to[0] - from[0])) <=
      OFF_LINE_MM * length,
  );
}

const joined = (side: Side, edge: Edge): Side => ({
  ...side,
  to: edge.to,
  corners: [...side.corners, edge.to],
  length: Math.hypot(edge.to[0] - side.from[0], edge.to[1] - side.from[1]),
});

interface Strip {
  readonly edge: Edge;
  readonly rows: PerimeterRows;
  readonly frame: Frame;
  readonly low: number;
  readonly rings: readonly RoofRing[];
  /** Where what reaches so far onto the strip would come round a corner that the row runs on past. */
  readonly roundCorners: (lap: number) => RoofRing[];
  /** Whether a piece of the strip lies beside the edge and not beyond its ends. */
  readonly touches: (ring: RoofRing) => boolean;
}

/** Which of two edges has its rows laid first. */
type RowOrder = (a: Edge, b: Edge) => number;

const longestFirst: RowOrder = (a, b) => b.length - a.length || a.number - b.number;

/** Edges that had no rows come last. */
function asLaid(order: readonly string[]): RowOrder {
  const rank = new Map(order.map((name, i) => [name, i]));
  const rankOf = (edge: Edge) => rank.get(nameOf(edge)) ?? order.length;
  return (a, b) => rankOf(a) - rankOf(b) || longestFirst(a, b);
}

function alongEdge(
  edge: Side,
  sides: readonly Side[],
  sideLap: number,
  order: RowOrder,
  lying: Pick<RowsAlong, 'frame' | 'low'> | null,
): Strip {
  const rows = edge.perimeter as PerimeterRows;
  const angle = (Math.atan2(edge.to[1] - edge.from[1], edge.to[0] - edge.from[0]) * 180) / Math.PI;
  const frame = lying?.frame ?? frameOf(tidy(angle));
  const [uA] = toFrame(frame, edge.from);
  const [uB] = toFrame(frame, edge.to);
  const levels = edge.corners.map((corner) => toFrame(frame, corner)[1]);
  const v = lying ? lying.low + edge.allowance : Math.min(...levels);
  const depth = depthOf(rows, sideLap);
  const [low, high] = [v - edge.allowance, v - edge.allowance + depth];
  // What the roof as measured has beyond rows that lie is theirs to miss, and not the field's to fill.
  const outer = Math.min(low, Math.min(...levels) - edge.allowance);
  const at = sides.indexOf(edge);
  const before = sides[(at + sides.length - 1) % sides.length] as Side;
  const after = sides[(at + 1) % sides.length] as Side;
  const start = endAt(edge, before, turnBetween(before, edge), depth, { sideLap, order });
  const end = endAt(edge, after, turnBetween(edge, after), depth, { sideLap, order });
  const box = (a: number, b: number, from: number, to = high) => rectangle(frame, a, b, from, to);
  return {
    edge,
    rows,
    frame,
    low,
    rings: [
      box(start.through ? uA : uA - start.by, end.through ? uB : uB + end.by, outer),
      // Past a corner that points in the row has membrane on its outer side too.
      ...(start.through ? [box(uA - start.by, uA + 1, v)] : []),
      ...(end.through ? [box(uB - 1, uB + end.by, v)] : []),
    ],
    roundCorners: (lap) => [
      ...(start.through ? [box(uA, uA + lap, low, v + lap)] : []),
      ...(end.through ? [box(uB - lap, uB, low, v + lap)] : []),
    ],
    touches: (piece) => {
      const flat = piece.map((point) => toFrame(frame, point));
      const us = flat.map(([u]) => u);
      const beside = Math.min(...us) < uB - SLIVER_MM && Math.max(...us) > uA + SLIVER_MM;
      // Cut off from the edge by rows laid before it is the field's.
      return beside && Math.min(...flat.map(([, w]) => w)) < v + rows.width / 2;
    },
  };
}

const tidy = (angle: number) => (Math.abs(angle - Math.round(angle)) < 1e-9 ? Math.round(angle) : angle);

/** Degrees that the outline turns left from one edge to the next. */
function turnBetween(edge: Edge, next: Edge): number {
  const [ax, ay] = [edge.to[0] - edge.from[0], edge.to[1] - edge.from[1]];
  const [bx, by] = [next.to[0] - next.from[0], next.to[1] - next.from[1]];
  return (Math.atan2(ax * by - ay * bx, ax * bx + ay * by) * 180) / Math.PI;
}

interface End {
  /** How far a row goes on past its edge's end, mm. */
  readonly by: number;
  /** It runs on past a corner that points in, as deep as the other edge's rows. */
  readonly through: boolean;
}

function endAt(
  edge: Edge,
  other: Edge,
  turn: number,
  depth: number,
  { sideLap, order }: { readonly sideLap: number; readonly order: RowOrder },
): End {
  const tangent = (degrees: number) => Math.tan((degrees * Math.PI) / 180);
  const rowed = hasRows(other) && other.length >= (other.perimeter?.width ?? 0);
  const first = order(edge, other) < 0;
  if (turn > 0) {
    // Nearly in line the row ends with its edge; at a corner it runs out to the other edge.
    if (turn < GENTLE_DEG) return { by: 0, through: false };
    const wedge = turn < 90 ? depth / tangent(turn) : 0;
    const by = wedge + 2 * Math.max(edge.allowance, other.allowance) + OUTSIDE_MM;
    return { by, through: false };
  }
  if (!rowed) return { by: 0, through: false };
  // Nearly in line both rows end against each other; the one laid later takes up the wedge between.
  if (-turn < GENTLE_DEG) return { by: sideLap + depth * tangent(-turn), through: first };
  // Where the two are not square to each other the whole depth of the row has to reach.
  const angle = (-turn * Math.PI) / 180;
  const reach = (across: number) =>
    (across + depth * Math.abs(Math.cos(angle))) / Math.max(LEAST_SINE, Math.sin(angle));
  if (!first) return { by: reach(sideLap), through: false };
  return { by: reach(depthOf(other.perimeter as PerimeterRows, sideLap)), through: true };
}

/** Past a corner that juts out there is no roof; the row's end lies clear of it, mm. */
const OUTSIDE_MM = 500;
const GENTLE_DEG = 45;
const LEAST_SINE = 0.5;

function rectangle(frame: Frame, u0: number, u1: number, v0: number, v1: number): RoofRing {
  const corners: FramePoint[] = [
    [u0, v0],
    [u1, v0],
    [u1, v1],
    [u0, v1],
  ];
  return corners.map((corner) => toRoof(frame, corner));
}
