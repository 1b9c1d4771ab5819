// In: a roof and how sheets lap. Out: its bands, the rows along edges before the field: what each must cover and the
// ground that its laps are counted on. Promise: grounds partition the roof; covers reach a side lap onto the bands
// laid before; no band lies across a line that parts the membrane.
//
//   ┌──────────────────────────────┐      E0 runs through at the corner; E1 ends on it, lapped by a side lap.
//   │ E0  two rows                 │      At a corner that points in, the row laid first runs on by the depth of
//   ├────┬─────────────────────────┤      the other's rows, and the other ends on it.
//   │ E1 │  F: courses end on E1   │   Where the outline bends gently a sheet lies across the rows (bends.ts).
import { growRegion, meetRegions, meetRings, subtractRegion, subtractRings } from '../geometry/clipping';
import type { FramePoint, RoofRing } from '../geometry/points';
import { ringLength, signedArea } from '../geometry/ring';
import { coveredRegion } from '../roof/coveredRegion';
import { backOnto, partOf, separate } from '../roof/separate';
import type { PerimeterRows, Roof } from '../roof/types';
import { acrossBend, bendsOf, GENTLE_DEG, leanOf, type Bend } from './bends';
import { frameOf, toFrame, toRoof } from './frame';
import { depthOf, laysRows, sidesInLine, turnBetween, type Side } from './rowSides';
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
export interface LaidBefore {
  readonly parts: readonly Region[];
  readonly order: readonly string[];
  readonly lying: ReadonlyMap<string, Lies>;
}

type Lies = Pick<RowsAlong, 'frame' | 'low'>;

export function placeBands(
  roof: Roof,
  sideLap: number,
  laid: LaidBefore | null = null,
): readonly BandPlace[] {
  const own = [roof.outline, ...roof.openings.map((o) => o.ring)];
  const covered = coveredRegion(roof);
  const sides = sidesInLine(roof.edges.filter((edge) => edge.ring === 0));
  const rowed = sides.filter(laysRows);
  const parts = asNumbered(separate(covered, roof.lines), laid?.parts ?? []);
  if (parts.length === 1 && rowed.length === 0)
    return [{ id: 'F', kind: 'field', part: 0, cover: parts[0] as Region, ground: own, along: null }];
  const bends = bendsOf(sides, sideLap, laid && ((bend) => laid.order.includes(nameOfBend(bend))));
  const order = laid ? asLaid(laid.order) : longestFirst;
  const lies = (id: string) => laid?.lying.get(id) ?? null;
  const strips = rowed.sort(order).flatMap((edge) => [
    // A sheet across a bend lies before the rows on both sides of it.
    ...bends
      .filter(({ before, after }) => (order(before, after) < 0 ? before : after) === edge)
      .map((bend) => atBend(bend, sideLap, lies(nameOfBend(bend)))),
    alongEdge(edge, { sides, bends, sideLap, order }, lies(nameOf(edge))),
  ]);
  const names = new Map<string, number>();
  return parts.flatMap((part, index) => {
    const places: BandPlace[] = [];
    let cover = part;
    let ground = parts.length === 1 ? own : backOnto(partOf(part, own), [...own, ...part]);
    for (const strip of strips) {
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
      const { id, kind, rows, frame, low } = strip;
      places.push({
        id: named(id, names),
        kind,
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

const nameOf = ({ number }: Side) => `E${number}`;

/** The sheet across a bend is named after the edge that begins there. */
const nameOfBend = ({ after }: Bend) => `${nameOf(after)}X`;

function named(id: string, used: Map<string, number>): string {
  const times = (used.get(id) ?? 0) + 1;
  used.set(id, times);
  // One edge in several parts of the roof: E3, E3b, E3c.
  return times === 1 ? id : `${id}${String.fromCharCode(96 + times)}`;
}

const isRegion = (ring: RoofRing) => Math.abs(signedArea(ring)) > (ringLength(ring) / 2) * SLIVER_MM;

interface Strip {
  readonly id: string;
  readonly kind: 'edge' | 'bend';
  readonly rows: PerimeterRows;
  readonly frame: Frame;
  readonly low: number;
  readonly rings: readonly RoofRing[];
  /** Where what reaches so far onto the strip would come round a corner that the row runs on past. */
  readonly roundCorners: (lap: number) => RoofRing[];
  /** Whether a piece of the strip lies beside the edge and not beyond its ends. */
  readonly touches: (ring: RoofRing) => boolean;
}

/** Which of two sides has its rows laid first. */
type RowOrder = (a: Side, b: Side) => number;

const longestFirst: RowOrder = (a, b) => b.length - a.length || a.number - b.number;

/** Sides that had no rows come last. */
function asLaid(order: readonly string[]): RowOrder {
  const rank = new Map(order.map((name, i) => [name, i]));
  const rankOf = (side: Side) => rank.get(nameOf(side)) ?? order.length;
  return (a, b) => rankOf(a) - rankOf(b) || longestFirst(a, b);
}

function atBend(bend: Bend, sideLap: number, lying: Lies | null): Strip {
  const { ring, ...rest } = acrossBend(bend, sideLap, lying);
  return { id: nameOfBend(bend), kind: 'bend', ...rest, rings: [ring], roundCorners: () => [] };
}

/** What the ends of rows hang on. */
interface RowsMeet {
  readonly sides: readonly Side[];
  readonly bends: readonly Bend[];
  readonly sideLap: number;
  readonly order: RowOrder;
}

function alongEdge(edge: Side, meet: RowsMeet, lying: Lies | null): Strip {
  const rows = edge.perimeter as PerimeterRows;
  const angle = (Math.atan2(edge.to[1] - edge.from[1], edge.to[0] - edge.from[0]) * 180) / Math.PI;
  const frame = lying?.frame ?? frameOf(tidy(angle));
  const [uA] = toFrame(frame, edge.from);
  const [uB] = toFrame(frame, edge.to);
  const levels = edge.corners.map((corner) => toFrame(frame, corner)[1]);
  const v = lying ? lying.low + edge.allowance : Math.min(...levels);
  const depth = depthOf(rows, meet.sideLap);
  const [low, high] = [v - edge.allowance, v - edge.allowance + depth];
  // What the roof as measured has beyond rows that lie is theirs to miss, and not the field's to fill.
  const outer = Math.min(low, Math.min(...levels) - edge.allowance);
  const start = endAt(edge, 'before', meet);
  const end = endAt(edge, 'after', meet);
  const from = (w: number) => (start.through ? uA : uA - start.by) + start.lean * (w - v);
  const to = (w: number) => (end.through ? uB : uB + end.by) - end.lean * (w - v);
  const main: FramePoint[] = [
    [from(outer), outer],
    [to(outer), outer],
    [to(high), high],
    [from(high), high],
  ];
  const box = (a: number, b: number, v0: number, v1 = high) => rectangle(frame, a, b, v0, v1);
  return {
    id: nameOf(edge),
    kind: 'edge',
    rows,
    frame,
    low,
    rings: [
      main.map((corner) => toRoof(frame, corner)),
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

interface End {
  /** How far a row goes on past its edge's end, mm. */
  readonly by: number;
  /** It runs on past a corner that points in, as deep as the other edge's rows. */
  readonly through: boolean;
  /** How far its end draws back per mm of depth. */
  readonly lean: number;
}

function endAt(edge: Side, which: 'before' | 'after', meet: RowsMeet): End {
  // A sheet lies across the bend, and the rows of either side end beneath its middle.
  const bend = meet.bends.find((b) => b[which === 'before' ? 'after' : 'before'] === edge);
  if (bend) return { by: 0, through: false, lean: leanOf(bend) };
  return { ...plainEnd(edge, which, meet), lean: 0 };
}

function plainEnd(
  edge: Side,
  which: 'before' | 'after',
  { sides, sideLap, order }: RowsMeet,
): Omit<End, 'lean'> {
  const step = which === 'before' ? sides.length - 1 : 1;
  const other = sides[(sides.indexOf(edge) + step) % sides.length] as Side;
  const turn = which === 'before' ? turnBetween(other, edge) : turnBetween(edge, other);
  const depth = depthOf(edge.perimeter as PerimeterRows, sideLap);
  const tangent = (degrees: number) => Math.tan((degrees * Math.PI) / 180);
  const first = order(edge, other) < 0;
  if (turn > 0) {
    // Nearly in line the row ends with its edge; at a corner it runs out to the other edge.
    if (turn < GENTLE_DEG) return { by: 0, through: false };
    const wedge = turn < 90 ? depth / tangent(turn) : 0;
    const by = wedge + 2 * Math.max(edge.allowance, other.allowance) + OUTSIDE_MM;
    return { by, through: false };
  }
  if (!laysRows(other)) return { by: 0, through: false };
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
