// Seeded luck for generators and benchmarks: the same seed gives the same roofs everywhere.

export interface Luck {
  /** In [0, 1). */
  readonly next: () => number;
  readonly between: (low: number, high: number) => number;
  /** A whole number from low to high, both included. */
  readonly whole: (low: number, high: number) => number;
}

/** Mulberry32 (public domain, T. Ettinger). */
export function seeded(seed: number): Luck {
  let state = seed >>> 0;
  const next = () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
  const between = (low: number, high: number) => low + (high - low) * next();
  return { next, between, whole: (low, high) => Math.floor(between(low, high + 1)) };
}
