// The plain ways that the engine is measured against: clip every course with clipper-lib, and cut roll by roll.
import ClipperLib from 'clipper-lib';
import type { Span } from '../../core/geometry/points';

const STEPS_PER_MM = 10;

/** Merged shadows of (strip ∩ region) along u, by clipping each strip with clipper-lib. */
export function clippedSpans(
  rings: readonly (readonly (readonly [number, number])[])[],
  strips: readonly (readonly [low: number, high: number])[],
): Span[][] {
  const path = (ring: readonly (readonly [number, number])[]) =>
    ring.map(([x, y]) => ({ X: Math.round(x * STEPS_PER_MM), Y: Math.round(y * STEPS_PER_MM) }));
  const subject = rings.map(path);
  const us = rings.flatMap((ring) => ring.map((p) => p[0]));
  const [left, right] = [Math.min(...us) - 1, Math.max(...us) + 1];
  return strips.map(([low, high]) => {
    const clipper = new ClipperLib.Clipper();
    clipper.AddPaths(subject, ClipperLib.PolyType.ptSubject, true);
    clipper.AddPath(
      path([
        [left, low],
        [right, low],
        [right, high],
        [left, high],
      ]),
      ClipperLib.PolyType.ptClip,
      true,
    );
    const pieces: ClipperLib.Paths = [];
    const fill = ClipperLib.PolyFillType.pftEvenOdd;
    clipper.Execute(ClipperLib.ClipType.ctIntersection, pieces, fill, fill);
    const outer = pieces.filter((p) => ClipperLib.Clipper.Orientation(p));
    const shadows = outer.map((p): Span => [
      Math.min(...p.map((q) => q.X)) / STEPS_PER_MM,
      Math.max(...p.map((q) => q.X)) / STEPS_PER_MM,
    ]);
    const merged: [number, number][] = [];
    for (const [a, b] of shadows.sort((p, q) => p[0] - q[0])) {
      const last = merged[merged.length - 1];
      if (last && a <= last[1]) last[1] = Math.max(last[1], b);
      else merged.push([a, b]);
    }
    return merged;
  });
}

/** First fit, longest first, with joints: a run goes on the first roll that holds it, else it is split where the last
 * roll ends, and again where that roll ends. */
export function firstFitSplit(
  lengths: readonly number[],
  { roll, lap, least }: { readonly roll: number; readonly lap: number; readonly least: number },
): { readonly rolls: number; readonly joints: number } {
  const room: number[] = [];
  let joints = 0;
  for (const length of [...lengths].sort((a, b) => b - a)) {
    const fits = room.findIndex((free) => free >= length);
    if (fits >= 0) {
      room[fits] = (room[fits] as number) - length;
      continue;
    }
    let rest = length;
    let free = room[room.length - 1] ?? 0;
    while (rest > free) {
      // Neither piece may be shorter than the least.
      const piece = Math.min(free, rest + lap - least);
      if (piece >= least) {
        room[room.length - 1] = free - piece;
        rest += lap - piece;
        joints++;
      }
      free = roll;
      room.push(roll);
    }
    room[room.length - 1] = free - rest;
  }
  return { rolls: room.length, joints };
}
