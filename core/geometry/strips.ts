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
  const { sides } = region;
  const byStrip = sidesWithin(sides, lows, highs);
  const { from, side } = byStrip;
  const hand = handFor(byStrip.most);
  const spans = new Array<Span[]>(lows.length);
  for (let i = 0; i < lows.length; i++) {
    const low = lows[i] as number;
    const high = highs[i] as number;
    let [count, onLow, onHigh] = [0, 0, 0];
    for (let k = from[i] as number; k < (from[i + 1] as number); k++) {
      const s = side[k] as number;
      const u0 = sides[s] as number;
      const v0 = sides[s + 1] as number;
      const u1 = sides[s + 2] as number;
      const v1 = sides[s + 3] as number;
      const slope = v1 > v0 ? (u1 - u0) / (v1 - v0) : 0;
      const a = v0 > low ? u0 : u0 + (low - v0) * slope;
      const b = v1 < high ? u1 : u0 + (high - v0) * slope;
      count = a < b ? merge(hand, count, a, b) : merge(hand, count, b, a);
      if (v0 === v1) continue;
      if (v0 <= low) hand.low[onLow++] = a;
      if (v1 >= high) hand.high[onHigh++] = b;
    }
    count = mergeChords(hand, count, hand.low, onLow);
    count = mergeChords(hand, count, hand.high, onHigh);
    spans[i] = mergedSpans(hand, count);
  }
  return spans;
}

/** For each line v the stretches of u where the region is, taken just above the line. Lines ascend. */
export function chords(region: PackedRegion, lines: Float64Array): Span[][] {
  const { sides } = region;
  const byLine = sidesWithin(sides, lines, null);
  const hand = handFor(byLine.most);
  const spans: Span[][] = [];
  for (let i = 0; i < lines.length; i++) {
    const v = lines[i] as number;
    let crossings = 0;
    for (let k = byLine.from[i] as number; k < (byLine.from[i + 1] as number); k++) {
      const s = byLine.side[k] as number;
      const u0 = sides[s] as number;
      const v0 = sides[s + 1] as number;
      hand.low[crossings++] =
        u0 + (v - v0) * (((sides[s + 2] as number) - u0) / ((sides[s + 3] as number) - v0));
    }
    spans.push(mergedSpans(hand, mergeChords(hand, 0, hand.low, crossings)));
  }
  return spans;
}

/** The sides that reach into each strip, or cross each line: those of strip i are `side[from[i]]` and on to
 * `side[from[i + 1]]`, as places in the packed sides. */
interface SidesWithin {
  readonly from: Int32Array;
  readonly side: Int32Array;
  /** Sides of the strip that has the most. */
  readonly most: number;
}

/** Lines are strips without a high border, and a side that ends on one does not cross it. */
function sidesWithin(sides: Float64Array, lows: Float64Array, highs: Float64Array | null): SidesWithin {
  const count = lows.length;
  const reach = new Int32Array(sides.length / 2);
  const from = new Int32Array(count + 2);
  const starts = highs ?? lows;
  const perMm = count > 1 ? (count - 1) / ((starts[count - 1] as number) - (starts[0] as number)) : 0;
  for (let s = 0; s < sides.length; s += 4) {
    const v0 = sides[s + 1] as number;
    const v1 = sides[s + 3] as number;
    const guess = (v0 - (starts[0] as number)) * perMm;
    const low = highs ? firstAbove(highs, v0, guess) : firstAtLeast(lows, v0, guess);
    let high = low;
    for (; high < count && (lows[high] as number) < v1; high++)
      from[high + 2] = (from[high + 2] as number) + 1;
    reach[s / 2] = low;
    reach[s / 2 + 1] = high;
  }
  let most = 0;
  for (let i = 2; i < from.length; i++) {
    const own = from[i] as number;
    if (own > most) most = own;
    from[i] = own + (from[i - 1] as number);
  }
  // Each entry is moved on while its strip is filled, and stands at the next one's begin when that is done.
  const side = new Int32Array(from[count + 1] as number);
  for (let s = 0; s < sides.length; s += 4)
    for (let i = reach[s / 2] as number; i < (reach[s / 2 + 1] as number); i++) {
      const at = from[i + 1] as number;
      side[at] = s;
      from[i + 1] = at + 1;
    }
  return { from, side, most };
}

/** Room to work in, for one strip after the other. */
interface Hand {
  /** Stretches apart and in order. */
  readonly starts: Float64Array;
  readonly ends: Float64Array;
  /** Where sides cross the strip's borders. */
  readonly low: Float64Array;
  readonly high: Float64Array;
}

const handFor = (most: number): Hand => ({
  starts: new Float64Array(2 * most),
  ends: new Float64Array(2 * most),
  low: new Float64Array(most),
  high: new Float64Array(most),
});

/** Between the first and the second crossing of a line the region is inside, and so on. */
function mergeChords(hand: Hand, count: number, crossings: Float64Array, crossed: number): number {
  ascend(crossings, crossed);
  let merged = count;
  for (let k = 0; k + 1 < crossed; k += 2)
    merged = merge(hand, merged, crossings[k] as number, crossings[k + 1] as number);
  return merged;
}

/** Puts a stretch to those that are there, those that touch as one, and gives how many there are then. Most lie within
 * one that is there. */
function merge({ starts, ends }: Hand, count: number, from: number, to: number): number {
  let first = count > FEW ? firstAtLeast(ends.subarray(0, count), from - NOISE_MM, 0) : 0;
  while (first < count && (ends[first] as number) + NOISE_MM < from) first++;
  let after = first;
  while (after < count && (starts[after] as number) <= to + NOISE_MM) after++;
  if (after === first) {
    for (let k = count; k > first; k--) {
      starts[k] = starts[k - 1] as number;
      ends[k] = ends[k - 1] as number;
    }
    starts[first] = from;
    ends[first] = to;
    return count + 1;
  }
  if (from < (starts[first] as number)) starts[first] = from;
  const last = ends[after - 1] as number;
  ends[first] = to > last ? to : last;
  const gone = after - first - 1;
  if (gone > 0)
    for (let k = after; k < count; k++) {
      starts[k - gone] = starts[k] as number;
      ends[k - gone] = ends[k] as number;
    }
  return count - gone;
}

function mergedSpans({ starts, ends }: Hand, count: number): Span[] {
  const spans: Span[] = [];
  for (let k = 0; k < count; k++) {
    const [from, to] = [starts[k] as number, ends[k] as number];
    if (to - from > NOISE_MM) spans.push([from, to]);
  }
  return spans;
}

/** Few values are put in order by insertion, and found one after the other: that is done before more has begun. */
const FEW = 40;

function ascend(values: Float64Array, count: number): void {
  if (count > FEW) {
    values.subarray(0, count).sort();
    return;
  }
  for (let i = 1; i < count; i++) {
    const value = values[i] as number;
    let k = i - 1;
    while (k >= 0 && (values[k] as number) > value) {
      values[k + 1] = values[k] as number;
      k--;
    }
    values[k + 1] = value;
  }
}

/** Index of the first value above v in an ascending array. Courses lie all but evenly, so that a guess is mostly right. */
function firstAbove(values: Float64Array, v: number, guess: number): number {
  const at = guess > 0 ? Math.min(values.length, Math.ceil(guess)) : 0;
  if ((at === 0 || (values[at - 1] as number) <= v) && (at === values.length || (values[at] as number) > v))
    return at;
  let [low, high] = [0, values.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((values[middle] as number) > v) high = middle;
    else low = middle + 1;
  }
  return low;
}

/** Index of the first value not below v in an ascending array, with a guess. */
function firstAtLeast(values: Float64Array, v: number, guess: number): number {
  const at = guess > 0 ? Math.min(values.length, Math.ceil(guess)) : 0;
  if ((at === 0 || (values[at - 1] as number) < v) && (at === values.length || (values[at] as number) >= v))
    return at;
  let [low, high] = [0, values.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((values[middle] as number) >= v) high = middle;
    else low = middle + 1;
  }
  return low;
}
