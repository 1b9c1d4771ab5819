import { rm } from 'node:fs/promises';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { BIN, call, freshFolder, REFUSAL, runNode, written } from './call';

interface Answer {
  readonly rolls: readonly {
    readonly id: string;
    readonly pieces: readonly {
      readonly run: string;
      readonly copy: number;
      readonly part: number;
      readonly length: number;
    }[];
    readonly offcut: number;
  }[];
  readonly rollCount: number;
  readonly lowerBound: number;
  readonly joints: number;
  readonly optimal: boolean;
  readonly proof: {
    readonly by: string;
    readonly prices: readonly { readonly length: number; readonly price: number }[];
  };
}

const runs = (...list: (readonly [length: number, count: number])[]) =>
  list.map(([length, count], i) => ({ id: `C${i + 1}`, length, count }));

const plain = {
  rollLength: 30_000,
  endLap: 80,
  minPiece: 1500,
  joints: 'forbidden',
  runs: runs([12_400, 5], [8000, 3], [21_000, 2]),
};

let folder = '';
beforeAll(async () => {
  folder = await freshFolder();
});
afterAll(() => rm(folder, { recursive: true, force: true }));

const cut = async (order: unknown) => call(['cut', await written(folder, 'cuts.json', order)]);
const answered = async (order: unknown): Promise<Answer> => JSON.parse((await cut(order)).out) as Answer;

describe('cut', () => {
  // Two of 12.4 m to a roll, or one with two of 8 m; 21 m with one of 8 m: 21+8, 21+8, 12.4+12.4, 12.4+12.4, 12.4+8.
  test('joints forbidden: every run in one piece, proved the fewest', async () => {
    const answer = await answered(plain);
    expect([answer.rollCount, answer.lowerBound, answer.optimal, answer.joints]).toEqual([5, 5, true, 0]);
    expect(copiesIn(answer)).toEqual(
      plain.runs
        .flatMap(({ id, length, count }) =>
          Array.from({ length: count }, (_, k) => `${id} ${k + 1}/1 ${length}`),
        )
        .sort(),
    );
    for (const { pieces, offcut } of answer.rolls)
      expect(pieces.reduce((sum, { length }) => sum + length, offcut)).toBe(30_000);
  });

  test('the prices prove the bound: no set that fits is worth more than 1, the total rounded up is the bound', async () => {
    const { proof, lowerBound } = await answered(plain);
    const price = new Map(proof.prices.map((p) => [p.length, p.price]));
    const of = (length: number) => price.get(length) ?? 0;
    for (let a = 0; a <= 2; a++)
      for (let b = 0; b <= 3; b++)
        for (let c = 0; c <= 1; c++)
          if (a * 12_400 + b * 8000 + c * 21_000 <= 30_000)
            expect(a * of(12_400) + b * of(8000) + c * of(21_000)).toBeLessThanOrEqual(1);
    expect(Math.ceil(5 * of(12_400) + 3 * of(8000) + 2 * of(21_000))).toBe(lowerBound);
  });

  // 30 200 + 80 = 28 780 + 1500: a tail shorter than the least piece is not allowed. 5 × 30.28 = 151.4 m: 6 rolls.
  test('joints allowed: a run longer than the roll in two pieces, laps counted', async () => {
    const answer = await answered({ ...plain, joints: 'allowed', runs: runs([30_200, 5]) });
    expect([answer.rollCount, answer.lowerBound, answer.optimal, answer.joints]).toEqual([6, 6, true, 5]);
    const lengths = answer.rolls.flatMap(({ pieces }) => pieces.map(({ length }) => length));
    expect(lengths.reduce((a, b) => a + b)).toBe(5 * 30_280);
    expect(Math.min(...lengths)).toBeGreaterThanOrEqual(1500);
  });

  // 3 × 19 900 + 80 for one joint = 59 780 of two rolls; in one piece each they take three.
  test('joints allowed: fewer rolls for a joint', async () => {
    const order = { ...plain, runs: runs([19_900, 3]) };
    expect((await answered(order)).rollCount).toBe(3);
    expect(await answered({ ...order, joints: 'allowed' })).toMatchObject({
      rollCount: 2,
      joints: 1,
      optimal: true,
    });
  });

  test('a run shorter than the least piece is one legal piece, and the least piece may be 0', async () => {
    expect(await answered({ ...plain, runs: runs([900, 2]) })).toMatchObject({ rollCount: 1, joints: 0 });
    expect(
      await answered({ ...plain, minPiece: 0, endLap: 0, joints: 'allowed', runs: runs([20_000, 3]) }),
    ).toMatchObject({
      rollCount: 2,
      optimal: true,
    });
  });

  test('no runs take no roll', async () => {
    expect(await answered({ ...plain, runs: [] })).toMatchObject({
      rolls: [],
      rollCount: 0,
      lowerBound: 0,
      optimal: true,
    });
  });

  test('lengths with decimals come out as they went in', async () => {
    const { rolls } = await answered({ ...plain, rollLength: 10.5, runs: runs([3.35, 3], [7.1, 1]) });
    expect(
      rolls
        .map(({ pieces }) => pieces.map(({ length }) => length))
        .flat()
        .sort(),
    ).toEqual([3.35, 3.35, 3.35, 7.1]);
  });

  test('gives the same bytes twice', async () => {
    const order = {
      ...plain,
      runs: Array.from({ length: 60 }, (_, i) => ({ id: `C${i}`, length: 4000 + 173 * i, count: 2 })),
    };
    const [first, second] = [await cut(order), await cut(order)];
    expect(first.status).toBe(0);
    expect(first.error).toBe('');
    expect(second.out).toBe(first.out);
  });

  test.each(['forbidden', 'allowed'])(
    'cuts where the solver cannot be loaded, joints %s, and says so',
    async (joints) => {
      const path = await written(folder, `no-solver-${joints}.json`, { ...plain, joints });
      const { status, out, error } = await runNode(['--no-expose-wasm', BIN, 'cut', path]);
      expect(status).toBe(0);
      expect(error).toMatch(/^lapstrake: solver: it could not be loaded.*\n$/);
      const answer = JSON.parse(out) as Answer;
      expect(answer.rollCount).toBeGreaterThanOrEqual(answer.lowerBound);
      expect(answer.optimal).toBe(answer.rollCount === answer.lowerBound);
      expect(copiesIn(answer).length).toBeGreaterThanOrEqual(10);
    },
  );

  test.each<[string, unknown, RegExp]>([
    ['a run longer than the roll without joints', { ...plain, runs: runs([31_000, 1]) }, /runs\[0\].*roll/],
    ['a lap as long as the roll', { ...plain, joints: 'allowed', endLap: 30_000 }, /endLap/],
    [
      'pieces that cannot be long enough',
      { ...plain, joints: 'allowed', minPiece: 29_000, runs: runs([31_000, 1]) },
      /runs\[0\]/,
    ],
    ['a roll of no length', { ...plain, rollLength: 0 }, /rollLength/],
    ['half a run', { ...plain, runs: [{ id: 'C1', length: 900, count: 1.5 }] }, /runs\[0\]\.count/],
    ['more runs than any roof', { ...plain, runs: runs([900, 20_000], [800, 20_000]) }, /runs/],
    ['a field that nobody knows', { ...plain, roll: 3 }, /roll/],
    ['no JSON', '{', /not JSON/],
  ])('refuses %s', async (_what, order, speaksOf) => {
    const { status, out, error } = await cut(order);
    expect(error).toMatch(REFUSAL);
    expect(error).toMatch(speaksOf);
    expect([status, out]).toEqual([3, '']);
  });
});

const copiesIn = ({ rolls }: Answer): string[] =>
  rolls
    .flatMap(({ pieces }) => pieces.map(({ run, copy, part, length }) => `${run} ${copy}/${part} ${length}`))
    .sort();
