// Cutting in one piece against published and hand-counted instances of the one-dimensional cutting-stock problem.
// The optima were proved by integer programming; FFD and L2 miss several of them.
import { beforeAll, describe, expect, test } from 'vitest';
import { packWhole } from '../../core/sheets/stock/packWhole';
import type { Solver } from '../../core/sheets/stock/solver';
import { loadSolver } from '../../shared/solver/highs';
import { PRICE_UNIT, worthiestSet, worthInRolls } from '../support/knapsack';

let solver: Solver;
beforeAll(async () => {
  solver = await loadSolver();
});

type Instance = readonly [name: string, roll: number, lengths: readonly number[], optimum: number];

const times = (...demand: (readonly [length: number, count: number])[]): number[] =>
  demand.flatMap(([length, count]) => Array.from({ length: count }, () => length));

const SMALL: readonly Instance[] = [
  ['halves that are over a half', 10, [6, 6, 6, 6], 4],
  ['three over a half and six under', 100, [70, 60, 50, 33, 33, 33, 11, 7, 3], 4],
  ['a trap for first fit', 61, [44, 24, 24, 22, 21, 17, 8, 8, 6, 6], 3],
  ['halves and quarters', 100, times([51, 3], [27, 3], [26, 3], [23, 3]), 4],
  ['ten that fit three exactly', 100, [49, 41, 34, 33, 29, 26, 26, 22, 20, 19], 3],
  ['L2 one short', 100, [99, 94, 79, 64, 50, 46, 43, 37, 32, 19, 18, 7, 6, 3], 7],
  ['a published small example', 10, [8, 5, 4, 4, 3, 2, 1, 1], 3],
  ['first fit one over', 10, [5, 5, 4, 4, 3, 3, 3, 3], 3],
];

// By counting: 2 × 10.1 > 20, so one to a roll; ⌊25 / 5.1⌋ = 4 to a roll; two to a roll.
const ROOFING: readonly Instance[] = [
  ['11 pieces of 10.1 m from 20 m', 200, times([101, 11]), 11],
  ['11 pieces of 5.1 m from 25 m', 250, times([51, 11]), 3],
  ['6 pieces of 9.9 m from 20 m', 200, times([99, 6]), 3],
];

const TEXTBOOK: readonly Instance[] = [
  ['E1', 100, times([45, 97], [36, 610], [31, 395], [14, 211]), 453],
  ['E2', 110, times([75, 8], [55, 10], [50, 24], [45, 35], [20, 48]), 47],
  [
    'E3: 13 widths from 5600 mm',
    5600,
    times(
      [1380, 22],
      [1520, 25],
      [1560, 12],
      [1710, 14],
      [1820, 18],
      [1880, 18],
      [1930, 20],
      [2000, 10],
      [2050, 12],
      [2100, 14],
      [2140, 16],
      [2150, 18],
      [2200, 20],
    ),
    73,
  ],
  ['E4: boards of 17 ft', 17, times([9, 15], [5, 20], [3, 25]), 19],
  ['E5', 22, times([7, 110], [5, 120], [3, 80]), 74],
];

/** Falkenauer's u120_00 from the OR-Library: 120 weights between 20 and 100. */
const U120_00 =
  '42 69 67 57 93 90 38 36 45 42 33 79 27 57 44 84 86 92 46 38 85 33 82 73 49 70 59 23 57 72 74 69 33 42 28 46 30 64 29 74 41 49 55 98 80 32 25 38 82 30 35 39 57 84 62 50 55 27 30 36 20 78 47 26 45 41 58 98 91 96 73 84 37 93 91 43 73 85 81 79 71 80 76 83 41 78 70 23 42 87 43 84 60 55 49 78 73 62 36 44 94 69 32 96 70 84 58 78 25 80 58 66 83 24 98 60 42 43 43 39'
    .split(' ')
    .map(Number);

const ALL = [...SMALL, ...ROOFING, ...TEXTBOOK, ['u120_00', 150, U120_00, 48] satisfies Instance];

describe('cutting stock, joints forbidden', () => {
  test.each(ALL)('%s: the optimum, proved by prices', (_name, roll, lengths, optimum) => {
    const packed = packWhole(lengths, roll, solver);
    expect([packed.bins, packed.bound]).toEqual([optimum, optimum]);
    expect(loads(packed.bin, lengths).every((load) => load <= roll)).toBe(true);

    const distinct = packed.prices.map(({ length }) => length);
    const prices = packed.prices.map(({ price }) => price);
    const wanted = distinct.map((length) => lengths.filter((l) => l === length).length);
    expect(worthiestSet(distinct, wanted, prices, roll)).toBeLessThanOrEqual(BigInt(PRICE_UNIT));
    expect(worthInRolls(wanted, prices)).toBe(packed.bound);
  });

  test('without the solver the bound is L2, proved by prices too, and nothing is claimed beyond', () => {
    for (const [, roll, lengths, optimum] of ALL) {
      const { bins, bound } = packWhole(lengths, roll, null);
      expect(bound).toBeLessThanOrEqual(optimum);
      expect(bins).toBeGreaterThanOrEqual(optimum);
    }
  });
});

function loads(bin: readonly number[], lengths: readonly number[]): number[] {
  const sums: number[] = [];
  bin.forEach((b, i) => (sums[b] = (sums[b] ?? 0) + (lengths[i] as number)));
  return sums;
}
