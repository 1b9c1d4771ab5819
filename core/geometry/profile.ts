// In: the rings of a region in a frame, the region to the left of every side. Out: how much of any line v = constant
// lies in it. Promise: told by two steps of arithmetic for each line, once the levels of the corners are in order:
// between two levels the length is straight in v.
import { NOISE_MM } from './tolerances';

type Pair = readonly [number, number];

/** From each level up to the next the length is `length + slope · (v − level)`. Levels ascend. */
export interface Profile {
  readonly level: Float64Array;
  readonly length: Float64Array;
  readonly slope: Float64Array;
}

export function profileOf(rings: readonly (readonly Pair[])[]): Profile {
  const events: { readonly v: number; readonly jump: number; readonly turn: number }[] = [];
  for (const ring of rings) {
    let a = ring[ring.length - 1] as Pair;
    for (const b of ring) {
      // A side up has the region on its low-u side and adds its u to the length, a side down takes it away.
      const sign = b[1] > a[1] ? 1 : -1;
      const [low, high] = sign > 0 ? [a, b] : [b, a];
      a = b;
      const rise = high[1] - low[1];
      if (rise < NOISE_MM) continue;
      const slope = (high[0] - low[0]) / rise;
      events.push({ v: low[1], jump: sign * low[0], turn: sign * slope });
      events.push({ v: high[1], jump: -sign * high[0], turn: -sign * slope });
    }
  }
  events.sort((p, q) => p.v - q.v);
  const level = new Float64Array(events.length);
  const length = new Float64Array(events.length);
  const slope = new Float64Array(events.length);
  let [at, own, turn] = [events[0]?.v ?? 0, 0, 0];
  events.forEach((event, i) => {
    own += turn * (event.v - at) + event.jump;
    turn += event.turn;
    at = event.v;
    level[i] = at;
    length[i] = own;
    slope[i] = turn;
  });
  return { level, length, slope };
}

/** mm of the region on a line, taken just above it. */
export function lengthAt({ level, length, slope }: Profile, v: number): number {
  let [low, high] = [0, level.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((level[middle] as number) <= v) low = middle + 1;
    else high = middle;
  }
  const i = low - 1;
  if (i < 0) return 0;
  return Math.max(0, (length[i] as number) + (slope[i] as number) * (v - (level[i] as number)));
}
