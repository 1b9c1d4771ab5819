// In: the sides of a roof's outline. Out: the bends at which rows of both sides would bring four sheets together.
// Promise: there a sheet lies across the rows, and those of either side end on it, so that their laps never meet.
//
//        b  ╱──────╲  a          Where an outline turns gently the laps of equal rows come to the bend in almost one
//         ╱ ──┬──┬── ╲           place. A sheet from the edge inwards, as wide as a row, keeps them apart by its width.
//           ╱ │  │ ╲
import type { FramePoint, RoofRing } from '../geometry/points';
import type { PerimeterRows } from '../roof/types';
import { frameOf, toFrame, toRoof } from './frame';
import { depthOf, lapMiddles, laysRows, turnBetween, type Side } from './rowSides';
import type { Frame } from './types';

export interface Bend {
  /** The sides before and after it. */
  readonly before: Side;
  readonly after: Side;
  /** Degrees that the outline turns left here. */
  readonly turn: number;
}

/** An outline that turns by less has rows that end against each other; one that turns more, rows that run through. */
export const GENTLE_DEG = 45;

/** Where a layout says which bends have a sheet these keep theirs, and no other gets one. */
export function bendsOf(
  sides: readonly Side[],
  sideLap: number,
  hadSheet: ((bend: Bend) => boolean) | null = null,
): readonly Bend[] {
  const wanted = hadSheet ?? ((bend: Bend) => needsSheet(bend, sideLap));
  return sides.flatMap((after, i) => {
    const before = sides[(i + sides.length - 1) % sides.length] as Side;
    const bend = { before, after, turn: turnBetween(before, after) };
    return before !== after && wanted(bend) ? [bend] : [];
  });
}

/** How far the line that halves a bend leans over the side before it, and over the one after, per mm of depth. */
export const leanOf = ({ turn }: Bend) => Math.tan((turn * Math.PI) / 360);

function needsSheet(bend: Bend, sideLap: number): boolean {
  const { before, after, turn } = bend;
  if (Math.abs(turn) >= GENTLE_DEG || !laysRows(before) || !laysRows(after)) return false;
  const taken = widthOf(bend) / 2;
  const halfOf = (side: Side) => side.length / 2;
  const leans = Math.max(0, leanOf(bend)) * Math.max(reachOf(before, sideLap), reachOf(after, sideLap));
  if (Math.min(halfOf(before), halfOf(after)) < taken + leans) return false;
  const spread = Math.cos((turn * Math.PI) / 180);
  return lapsOf(before, sideLap).some((a) =>
    lapsOf(after, sideLap).some((b) => Math.abs(a - b / spread) < sideLap),
  );
}

/** So far past the rows does the sheet reach, lest rounding leave a thread of them along its end, mm. */
const PAST_MM = 2;

const rowsOf = (side: Side) => side.perimeter as PerimeterRows;

/** How far inwards of the edge its rows reach, mm. */
const reachOf = (side: Side, sideLap: number) => depthOf(rowsOf(side), sideLap) - side.allowance;

/** How far inwards of the edge the middles of the laps between its rows lie, mm. */
const lapsOf = (side: Side, sideLap: number) =>
  lapMiddles(rowsOf(side), sideLap).map((middle) => middle - side.allowance);

const widthOf = ({ before, after }: Bend) => Math.min(rowsOf(before).width, rowsOf(after).width);

export interface AcrossBend {
  readonly rows: PerimeterRows;
  /** Its courses run inwards along the line that halves the bend. */
  readonly frame: Frame;
  readonly low: number;
  readonly ring: RoofRing;
  readonly touches: (ring: RoofRing) => boolean;
}

/** `lying`: where it lies already. */
export function acrossBend(
  bend: Bend,
  sideLap: number,
  lying: Pick<AcrossBend, 'frame' | 'low'> | null,
): AcrossBend {
  const { before, after, turn } = bend;
  const heading = Math.atan2(after.to[1] - after.from[1], after.to[0] - after.from[0]);
  const frame = lying?.frame ?? frameOf((heading * 180) / Math.PI - turn / 2 + 90);
  const [u, across] = toFrame(frame, after.from);
  const width = widthOf(bend);
  const half = width / 2;
  const v = lying ? lying.low + half : across;
  const lean = leanOf(bend);
  const cos = Math.cos((turn * Math.PI) / 360);
  // The edges fall back from a corner that juts out and come forward at one that points in.
  const outmost = u - Math.max(before.allowance, after.allowance) / cos + Math.min(0, lean) * half - 1;
  const inmost = (side: Side, off: number) => u + reachOf(side, sideLap) / cos + off * lean + PAST_MM;
  const corners: FramePoint[] = [
    [outmost, v - half],
    [inmost(after, half), v - half],
    [inmost(after, 0), v],
    [inmost(before, 0), v],
    [inmost(before, half), v + half],
    [outmost, v + half],
  ];
  return {
    rows: { sheets: 1, width },
    frame,
    low: v - half,
    ring: corners
      .filter((corner, i) => i !== 3 || corner[0] !== corners[2]?.[0])
      .map((c) => toRoof(frame, c)),
    touches: (piece) => {
      const us = piece.map((point) => toFrame(frame, point)[0]);
      return Math.min(...us) < u + half && Math.max(...us) > u;
    },
  };
}
