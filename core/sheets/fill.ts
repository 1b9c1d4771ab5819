// Filling one roll as full as can be: the search that the cutting steps share. Whole numbers of grid steps.

/** Counts down the work a search may still do, so that it stops by counted work and never by the clock. */
export interface Work {
  left: number;
}

/** Indices into `lengths` (descending) whose sum is the largest not above `room`, among those with `usable` true;
 * stops early at `enough`. Depth-first over all but the last two, longest first; the last two by running inwards from
 * both ends of the list, so that four pieces cost no more than a square of their number. */
export function fillBest(
  lengths: readonly number[],
  usable: readonly boolean[],
  room: number,
  enough: number,
  work: Work,
): { readonly picked: readonly number[]; readonly sum: number } {
  const open: number[] = [];
  for (let i = 0; i < lengths.length; i++) if (usable[i] && (lengths[i] as number) <= room) open.push(i);
  const { picked, sum } = fillFrom(descending(open.map((i) => lengths[i] as number)), 0, room, enough, work);
  return { picked: picked.map((k) => open[k] as number), sum };
}

/** Lengths from the longest down, and what those from each on come to together. */
export interface Descending {
  readonly size: Float64Array;
  readonly rest: Float64Array;
}

export function descending(lengths: readonly number[]): Descending {
  const size = Float64Array.from(lengths);
  const rest = new Float64Array(size.length + 1);
  for (let k = size.length - 1; k >= 0; k--) rest[k] = (rest[k + 1] as number) + (size[k] as number);
  return { size, rest };
}

/** As `fillBest`, among those from number `from` on; those longer than the room are passed over. */
export function fillFrom(
  { size, rest }: Descending,
  from: number,
  room: number,
  enough: number,
  work: Work,
): { readonly picked: readonly number[]; readonly sum: number } {
  let best: number[] = [];
  let bestSum = 0;
  const picked: number[] = [];
  const take = (sum: number, ...last: number[]) => {
    if (sum <= bestSum) return false;
    bestSum = sum;
    best = [...picked, ...last];
    return sum >= enough;
  };
  /** The best one or two from k on for what is left. */
  const finish = (k: number, sum: number): boolean => {
    let high = size.length - 1;
    for (let low = k; low < size.length; low++) {
      if (work.left-- <= 0) return true;
      const one = sum + (size[low] as number);
      if (one > room) continue;
      if (take(one, low)) return true;
      // The second is the longest after `low` that still fits; as the first shrinks it only grows.
      while (high > low && one + (size[high] as number) <= room) high--;
      const second = Math.max(high + 1, low + 1);
      if (
        second < size.length &&
        one + (size[second] as number) <= room &&
        take(one + (size[second] as number), low, second)
      )
        return true;
    }
    return false;
  };
  const search = (k: number, sum: number): boolean => {
    if (finish(k, sum)) return true;
    for (let next = k; next < size.length; next++) {
      if (work.left-- <= 0) return true;
      if (sum + (rest[next] as number) <= bestSum) return false;
      const length = size[next] as number;
      if (sum + length > room) continue;
      if (next > k && length === size[next - 1]) continue;
      picked.push(next);
      if (search(next + 1, sum + length)) return true;
      picked.pop();
    }
    return false;
  };
  let [low, high] = [from, size.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((size[middle] as number) <= room) high = middle;
    else low = middle + 1;
  }
  search(low, 0);
  return { picked: best, sum: bestSum };
}

/** As `fillBest`, for just so many lengths; null where so many do not fit. `before[i]` is the sum of the first i. */
export function fillCount(
  size: Float64Array,
  before: Float64Array,
  count: number,
  room: number,
  enough: number,
  work: Work,
): { readonly picked: readonly number[]; readonly sum: number } | null {
  const n = size.length;
  if (count > n || room < 0) return null;
  if (count === 0) return { picked: [], sum: 0 };
  const sumOf = (from: number, to: number) => (before[to] as number) - (before[from] as number);
  let best: number[] | null = null;
  let bestSum = -1;
  const picked: number[] = [];
  const take = (sum: number, ...last: number[]) => {
    if (sum <= bestSum || sum > room) return false;
    bestSum = sum;
    best = [...picked, ...last];
    return sum >= enough;
  };
  const finishOne = (from: number, sum: number): boolean => {
    work.left--;
    let [low, high] = [from, n];
    while (low < high) {
      const middle = (low + high) >> 1;
      if (sum + (size[middle] as number) <= room) high = middle;
      else low = middle + 1;
    }
    return low < n && take(sum + (size[low] as number), low);
  };
  const finishTwo = (from: number, sum: number): boolean => {
    let high = n - 1;
    for (let low = from; low < n - 1; low++) {
      if (work.left-- <= 0) return true;
      const one = sum + (size[low] as number);
      while (high > low && one + (size[high] as number) <= room) high--;
      const second = Math.max(high + 1, low + 1);
      if (second < n && take(one + (size[second] as number), low, second)) return true;
      if (high <= low) return false;
    }
    return false;
  };
  const search = (from: number, sum: number, need: number): boolean => {
    if (need === 1) return finishOne(from, sum);
    if (need === 2) return finishTwo(from, sum);
    for (let next = from; next + need <= n; next++) {
      if (work.left-- <= 0) return true;
      if (sum + sumOf(next, next + need) <= bestSum) return false;
      if (sum + (size[next] as number) + sumOf(n - need + 1, n) > room) continue;
      if (next > from && size[next] === size[next - 1]) continue;
      picked.push(next);
      if (search(next + 1, sum + (size[next] as number), need - 1)) return true;
      picked.pop();
    }
    return false;
  };
  search(0, 0, count);
  return best && { picked: best, sum: bestSum };
}

/** Best fit, longest first: each length goes into the fullest bin that still takes it. Returns the bin of each. */
export function bestFit(
  lengths: readonly number[],
  roll: number,
): { readonly bin: readonly number[]; readonly bins: number } {
  const order = lengths
    .map((_, i) => i)
    .sort((a, b) => (lengths[b] as number) - (lengths[a] as number) || a - b);
  const room: number[] = [];
  const bin = new Array<number>(lengths.length).fill(-1);
  for (const i of order) {
    const length = lengths[i] as number;
    let best = -1;
    for (let k = 0; k < room.length; k++)
      if ((room[k] as number) >= length && (best < 0 || (room[k] as number) < (room[best] as number)))
        best = k;
    if (best < 0) best = room.push(roll) - 1;
    room[best] = (room[best] as number) - length;
    bin[i] = best;
  }
  return { bin, bins: room.length };
}
