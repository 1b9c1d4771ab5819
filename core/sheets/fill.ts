// Filling one roll as full as can be: the search that the cutting steps share. Whole numbers of grid steps.

/** Counts down the work a search may still do, so that it stops by counted work and never by the clock. */
export interface Work {
  left: number;
}

/** Indices into `lengths` (descending) whose sum is the largest not above `room`, among those with `usable` true;
 * stops early at `enough`. Depth-first, longest first, with the sum of what is left as the bound. */
export function fillBest(
  lengths: readonly number[],
  usable: readonly boolean[],
  room: number,
  enough: number,
  work: Work,
): { readonly picked: readonly number[]; readonly sum: number } {
  const open: number[] = [];
  for (let i = 0; i < lengths.length; i++) if (usable[i] && (lengths[i] as number) <= room) open.push(i);
  const rest = new Float64Array(open.length + 1);
  for (let k = open.length - 1; k >= 0; k--)
    rest[k] = (rest[k + 1] as number) + (lengths[open[k] as number] as number);
  let best: number[] = [];
  let bestSum = 0;
  const picked: number[] = [];
  const search = (k: number, sum: number): boolean => {
    if (sum > bestSum) {
      bestSum = sum;
      best = [...picked];
      if (sum >= enough) return true;
    }
    for (let next = k; next < open.length; next++) {
      if (work.left-- <= 0) return true;
      if (sum + (rest[next] as number) <= bestSum) return false;
      const length = lengths[open[next] as number] as number;
      if (sum + length > room) continue;
      if (next > k && length === lengths[open[next - 1] as number]) continue;
      picked.push(open[next] as number);
      if (search(next + 1, sum + length)) return true;
      picked.pop();
    }
    return false;
  };
  search(0, 0);
  return { picked: best, sum: bestSum };
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
