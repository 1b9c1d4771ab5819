// In: a roof and the frame of a band. Out: where a lap may not lie: stretches across the courses for side laps,
// stretches along a course for end laps. Promise: each stretch follows from one thing on the roof and one rule.
import type { FramePoint, RoofPoint, Span } from '../geometry/points';
import { BORDER_MM } from '../geometry/tolerances';
import type { Roof } from '../roof/types';
import { toFrame } from './frame';
import type { Course, Frame, TradeRule, TradeRules } from './types';

/** No lap nearer to a valley than this, mm, and none nearer to a drain's bowl where the drain says nothing
 * (common practice, no source). */
export const VALLEY_CLEAR_MM = 300;
export const DRAIN_CLEAR_MM = 300;
/** Lines that leave the courses' direction by less than this run along them. */
export const ALONG_DEG = 3;

export interface KeepClear {
  /** Stretches of v that no side lap may touch, ascending and apart. */
  readonly lines: readonly Span[];
  /** Those of them on which a lap would be a fault; on the others it is one only for want of room. */
  readonly firm: readonly Span[];
  /** Levels of v on which a course should lie in the middle. */
  readonly centres: readonly number[];
  /** Least width of a course over the roof; 0 for none. */
  readonly minWidth: number;
}

export const NOTHING_KEPT: KeepClear = { lines: [], firm: [], centres: [], minWidth: 0 };

export function keepClearIn(roof: Roof, frame: Frame, trade: TradeRules): KeepClear {
  const on = (rule: TradeRule) => !trade.off.includes(rule);
  const lines: Span[] = [];
  const firm: Span[] = [];
  const centres: number[] = [];
  if (on('valley-clear'))
    for (const line of roof.lines) {
      if (line.kind !== 'valley' || !runsAlong(frame, line.from, line.to)) continue;
      const [a, b] = [toFrame(frame, line.from)[1], toFrame(frame, line.to)[1]];
      firm.push([Math.min(a, b) - VALLEY_CLEAR_MM, Math.max(a, b) + VALLEY_CLEAR_MM]);
      centres.push((a + b) / 2);
    }
  if (on('edge-clear'))
    for (const edge of roof.edges) {
      if (edge.clear === 0 || !runsAlong(frame, edge.from, edge.to)) continue;
      const [a, b] = [toFrame(frame, edge.from), toFrame(frame, edge.to)];
      const [low, high] = [Math.min(a[1], b[1]), Math.max(a[1], b[1])];
      // The roof lies to the left of an edge. A lap on the edge's own line is not beside it.
      lines.push(b[0] > a[0] ? [low + BORDER_MM, high + edge.clear] : [low - edge.clear, high - BORDER_MM]);
    }
  return {
    lines: merged([...lines, ...firm]),
    firm: merged(firm),
    centres,
    minWidth: on('least-width') ? trade.minWidth : 0,
  };
}

/** Stretches in order, those that overlap as one. */
export function merged(lines: readonly Span[]): Span[] {
  const apart: [number, number][] = [];
  for (const [from, to] of [...lines].sort((p, q) => p[0] - q[0])) {
    const last = apart[apart.length - 1];
    if (last && from <= last[1]) last[1] = Math.max(last[1], to);
    else apart.push([from, to]);
  }
  return apart;
}

function runsAlong(frame: Frame, from: RoofPoint, to: RoofPoint): boolean {
  const [a, b] = [toFrame(frame, from), toFrame(frame, to)];
  return Math.abs(b[1] - a[1]) <= Math.abs(b[0] - a[0]) * Math.tan((ALONG_DEG * Math.PI) / 180);
}

/** Where along a course the centre of an end lap may not lie. */
export function endLapZones(
  roof: Roof,
  frame: Frame,
  course: Pick<Course, 'low' | 'width'>,
  endLap: number,
  trade: TradeRules,
): Span[] {
  const on = (rule: TradeRule) => !trade.off.includes(rule);
  const corners =
    on('corner-clear') && trade.cornerClear > 0 ? roof.openings.flatMap(({ ring }) => ring) : [];
  const kept: KeptClear[] = [
    ...(on('valley-clear') ? valleysOf(roof) : []),
    ...(on('drain-clear') ? drainsOf(roof) : []),
    ...corners.map((corner) => ({ from: corner, to: corner, clear: trade.cornerClear })),
  ];
  return nearAny(kept, frame, [course.low, course.low + course.width]).map(([from, to]): Span => [
    from - endLap / 2,
    to + endLap / 2,
  ]);
}

/** Where a level is as near to a valley or a drain as a lap that faces the water may not be. */
export const lowStretches = (roof: Roof, frame: Frame, v: number): Span[] =>
  nearAny([...valleysOf(roof), ...drainsOf(roof)], frame, [v, v]);

interface KeptClear {
  readonly from: RoofPoint;
  readonly to: RoofPoint;
  readonly clear: number;
}

const valleysOf = ({ lines }: Roof): KeptClear[] =>
  lines.flatMap(({ kind, from, to }) => (kind === 'valley' ? [{ from, to, clear: VALLEY_CLEAR_MM }] : []));

const drainsOf = ({ fittings }: Roof): KeptClear[] =>
  fittings.flatMap(({ kind, at, size, clear }) =>
    kind === 'drain' ? [{ from: at, to: at, clear: size / 2 + (clear ?? DRAIN_CLEAR_MM) }] : [],
  );

function nearAny(kept: readonly KeptClear[], frame: Frame, between: Span): Span[] {
  return kept.flatMap(({ from, to, clear }) => {
    const near = nearLine(toFrame(frame, from), toFrame(frame, to), clear, between);
    return near ? [near] : [];
  });
}

/** The stretch of u over which some place between two levels is nearer to a line than `clear`, or null. */
function nearLine(a: FramePoint, b: FramePoint, clear: number, [low, high]: Span): Span | null {
  const us: number[] = [];
  for (const [u, v] of [a, b]) {
    const off = Math.max(0, low - v, v - high);
    if (off < clear)
      us.push(u - Math.sqrt(clear * clear - off * off), u + Math.sqrt(clear * clear - off * off));
  }
  // Beside the line itself, as far off it on either side.
  const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
  if (length > 0)
    for (const side of [clear, -clear]) {
      const [du, dv] = [(-(b[1] - a[1]) / length) * side, ((b[0] - a[0]) / length) * side];
      const within = clipTo([a[0] + du, a[1] + dv], [b[0] + du, b[1] + dv], low, high);
      if (within) us.push(...within);
    }
  return us.length === 0 ? null : [Math.min(...us), Math.max(...us)];
}

/** The stretch of u over which a line lies between two levels, or null. */
function clipTo(a: FramePoint, b: FramePoint, low: number, high: number): Span | null {
  const [from, to] = a[1] <= b[1] ? [a, b] : [b, a];
  if (to[1] < low || from[1] > high) return null;
  const at = (v: number) =>
    to[1] === from[1] ? null : from[0] + ((v - from[1]) / (to[1] - from[1])) * (to[0] - from[0]);
  const first = from[1] >= low ? from[0] : (at(low) ?? from[0]);
  const last = to[1] <= high ? to[0] : (at(high) ?? to[0]);
  return [Math.min(first, last), Math.max(first, last)];
}
