// Timing for benchmarks: warm first, old and new by turns in one run, medians with the spread beside them.

export interface Timing {
  readonly median: number;
  readonly least: number;
  readonly most: number;
}

/** Milliseconds of each of several ways of doing the same thing, taken by turns so that a busy moment hits all. What
 * is over sooner than a clock can tell is repeated within a sample. */
export function timeByTurns(ways: readonly (() => unknown)[], rounds: number): Timing[] {
  const samples = ways.map((): number[] => []);
  const repeats = ways.map((way) => {
    const once = time(way, 1);
    time(way, Math.ceil(WARM_MS / Math.max(once, WARM_MS / MOST_WARM)));
    return Math.max(1, Math.ceil(LEAST_SAMPLE_MS / Math.max(time(way, 1), LEAST_SAMPLE_MS / MOST_REPEATS)));
  });
  for (let round = 0; round < rounds; round++)
    ways.forEach((way, i) => (samples[i] as number[]).push(time(way, repeats[i] as number)));
  return samples.map((list) => {
    const sorted = [...list].sort((a, b) => a - b);
    return {
      median: sorted[Math.floor(sorted.length / 2)] as number,
      least: sorted[0] as number,
      most: sorted[sorted.length - 1] as number,
    };
  });
}

const LEAST_SAMPLE_MS = 4;
const MOST_REPEATS = 100;
const WARM_MS = 300;
const MOST_WARM = 400;

function time(way: () => unknown, times: number): number {
  const start = performance.now();
  for (let k = 0; k < times; k++) way();
  return (performance.now() - start) / times;
}

/** One line of the table. A gate is a ratio within this run; times are printed and never gate. */
export interface Row {
  readonly name: string;
  readonly figure: string;
  readonly ratio?: { readonly value: number; readonly atLeast: number; readonly against: string };
}

export const ms = ({ median, least, most }: Timing) =>
  `${median.toFixed(2)} ms (${least.toFixed(2)} … ${most.toFixed(2)})`;
