// Timing for benchmarks: warm first, old and new by turns in one run, medians with the spread beside them.

export interface Timing {
  readonly median: number;
  readonly least: number;
  readonly most: number;
}

/** Milliseconds of each of several ways of doing the same thing, taken by turns so that a busy moment hits all. */
export function timeByTurns(ways: readonly (() => unknown)[], rounds: number, warm = 2): Timing[] {
  const samples = ways.map((): number[] => []);
  for (let round = -warm; round < rounds; round++)
    ways.forEach((way, i) => {
      const start = performance.now();
      way();
      const took = performance.now() - start;
      if (round >= 0) (samples[i] as number[]).push(took);
    });
  return samples.map((list) => {
    const sorted = [...list].sort((a, b) => a - b);
    return {
      median: sorted[Math.floor(sorted.length / 2)] as number,
      least: sorted[0] as number,
      most: sorted[sorted.length - 1] as number,
    };
  });
}

/** One line of the table. A gate is a ratio within this run; times are printed and never gate. */
export interface Row {
  readonly name: string;
  readonly figure: string;
  readonly ratio?: { readonly value: number; readonly atLeast: number; readonly against: string };
}

export const ms = ({ median, least, most }: Timing) =>
  `${median.toFixed(2)} ms (${least.toFixed(2)} … ${most.toFixed(2)})`;
