// What of a region lies in a strip, and what of it lies on a line: the two questions that laying asks, answered for
// all strips and lines in one pass over the region's sides.
//
//        v ▲   ┌───────────┐
//          │   │  region   └────┐        strip [low, high]: its span is where the region's shadow falls
//     high ┼ ─ ┼ ─ ─ ─ ─ ─ ─ ─ ─┼ ─      on u. Every part of the region inside the strip is bounded by
//          │   │                │        sides of the region and by chords on the strip's two borders, and
//      low ┼ ─ ┼ ─ ─ ─ ─ ─ ─ ─ ─┼ ─      a connected part casts the same shadow as its border: so the
//          │   └────────────────┘        union of those few stretches is the whole answer.
//          └──────────────────────▶ u
import type { Span } from './points';
import { NOISE_MM } from './tolerances';

type Pair = readonly [number, number];

/** A region's sides, packed: u0, v0, u1, v1 for each, with v0 ≤ v1. */
export interface PackedRegion {
  readonly sides: Float64Array;
  readonly v: Span;
  readonly u: Span;
}

export function packRegion(rings: readonly (readonly Pair[])[]): PackedRegion {
  let count = 0;
  for (const ring of rings) count += ring.length;
  const sides = new Float64Array(count * 4);
  let at = 0;
  let [u0, u1, v0, v1] = [Infinity, -Infinity, Infinity, -Infinity];
  for (const ring of rings) {
    let a = ring[ring.length - 1] as Pair;
    for (const b of ring) {
      const up = a[1] <= b[1];
      const low = up ? a : b;
      const high = up ? b : a;
      sides[at] = low[0];
      sides[at + 1] = low[1];
      sides[at + 2] = high[0];
      sides[at + 3] = high[1];
      at += 4;
      if (b[0] < u0) u0 = b[0];
      if (b[0] > u1) u1 = b[0];
      if (b[1] < v0) v0 = b[1];
      if (b[1] > v1) v1 = b[1];
      a = b;
    }
  }
  return { sides, u: [u0, u1], v: [v0, v1] };
}

/** For each strip the merged stretches of u over which the region has area in it; both arrays ascend.
 * A region that only touches a strip's border is not in it. */
export function stripSpans(region: PackedRegion, lows: Float64Array, highs: Float64Array): Span[][] {
  const count = lows.length;
  const stretches: number[][] = Array.from({ length: count }, () => []);
  const onLow: number[][] = Array.from({ length: count }, () => []);
  const onHigh: number[][] = Array.from({ length: count }, () => []);
  const { sides } = region;
  for (let s = 0; s < sides.length; s += 4) {
    const u0 = sides[s] as number;
    const v0 = sides[s + 1] as number;
    const u1 = sides[s + 2] as number;
    const v1 = sides[s + 3] as number;
    const slope = v1 > v0 ? (u1 - u0) / (v1 - v0) : 0;
    for (let i = firstAbove(highs, v0); i < count; i++) {
      const low = lows[i] as number;
      const high = highs[i] as number;
      if (low >= v1) break;
      const a = v0 > low ? u0 : u0 + (low - v0) * slope;
      const b = v1 < high ? u1 : u0 + (high - v0) * slope;
      (stretches[i] as number[]).push(a < b ? a : b, a < b ? b : a);
      if (v0 === v1) continue;
      if (v0 <= low) (onLow[i] as number[]).push(a);
      if (v1 >= high) (onHigh[i] as number[]).push(b);
    }
  }
  return stretches.map((list, i) => {
    addChords(list, onLow[i] as number[]);
    addChords(list, onHigh[i] as number[]);
    return mergeStretches(list);
  });
}

/** For each line v the stretches of u where the region is, taken just above the line. Lines ascend. */
export function chords(region: PackedRegion, lines: Float64Array): Span[][] {
  const crossings: number[][] = Array.from({ length: lines.length }, () => []);
  const { sides } = region;
  for (let s = 0; s < sides.length; s += 4) {
    const u0 = sides[s] as number;
    const v0 = sides[s + 1] as number;
    const u1 = sides[s + 2] as number;
    const v1 = sides[s + 3] as number;
    if (v0 === v1) continue;
    const slope = (u1 - u0) / (v1 - v0);
    for (let i = firstAtLeast(lines, v0); i < lines.length; i++) {
      const v = lines[i] as number;
      if (v >= v1) break;
      (crossings[i] as number[]).push(u0 + (v - v0) * slope);
    }
  }
  return crossings.map((list) => {
    const flat: number[] = [];
    addChords(flat, list);
    return mergeStretches(flat);
  });
}

function addChords(list: number[], crossings: number[]): void {
  crossings.sort((a, b) => a - b);
  for (let k = 0; k + 1 < crossings.length; k += 2)
    list.push(crossings[k] as number, crossings[k + 1] as number);
}

function mergeStretches(flat: readonly number[]): Span[] {
  const order = Array.from({ length: flat.length / 2 }, (_, i) => i * 2);
  order.sort((a, b) => (flat[a] as number) - (flat[b] as number));
  const merged: Span[] = [];
  let from = 0;
  let to = -Infinity;
  for (const k of order) {
    const a = flat[k] as number;
    const b = flat[k + 1] as number;
    if (a > to + NOISE_MM) {
      if (to - from > NOISE_MM) merged.push([from, to]);
      from = a;
      to = b;
    } else if (b > to) to = b;
  }
  if (to - from > NOISE_MM) merged.push([from, to]);
  return merged;
}

/** Index of the first value above v in an ascending array. */
function firstAbove(values: Float64Array, v: number): number {
  let [low, high] = [0, values.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((values[middle] as number) > v) high = middle;
    else low = middle + 1;
  }
  return low;
}

/** Index of the first value not below v in an ascending array. */
function firstAtLeast(values: Float64Array, v: number): number {
  let [low, high] = [0, values.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((values[middle] as number) >= v) high = middle;
    else low = middle + 1;
  }
  return low;
}
