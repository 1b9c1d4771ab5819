// What rolls have left comes together in few long offcuts, and nothing else changes.
import { describe, expect, it } from 'vitest';
import { cutRuns } from '../../../core/sheets/cutRuns';
import { gatherOffcuts, type OnRoll } from '../../../core/sheets/gatherOffcuts';
import type { Run } from '../../../core/sheets/types';
import { seeded } from '../../support/random';

const ROLL = 30_000;

function leftOn(pieces: readonly OnRoll[], rolls: readonly number[]): number[] {
  const left = new Map<number, number>();
  pieces.forEach(({ length }, p) => {
    const k = rolls[p] as number;
    left.set(k, (left.get(k) ?? ROLL) - length);
  });
  return [...left.values()].sort((a, b) => b - a);
}

const squares = (left: readonly number[], rolls: number) =>
  left.reduce((sum, own) => sum + own ** 2, (rolls - left.length) * ROLL ** 2);

describe('offcuts', () => {
  it('of 2 m and 2 m become one of 3 m and one of 1 m: 20 + 9 and 19 + 8 for 20 + 8 and 19 + 9', () => {
    const pieces = [20, 8, 19, 9].map((metres, p) => ({ roll: p >> 1, length: metres * 1000 }));
    expect(leftOn(pieces, gatherOffcuts(pieces, ROLL))).toEqual([3000, 1000]);
  });

  it('of 8 m, 4 m and 5 m become one of 17 m, where the lengths allow it', () => {
    // 22 + 8, 18 + 12 and 13 are left of 22, 18 + 8 and 12 + 13.
    const pieces = [
      { roll: 0, length: 22_000 },
      { roll: 1, length: 18_000 },
      { roll: 1, length: 8000 },
      { roll: 2, length: 12_000 },
      { roll: 2, length: 13_000 },
    ];
    expect(leftOn(pieces, gatherOffcuts(pieces, ROLL))).toEqual([17_000, 0, 0]);
  });

  it('never overfill a roll nor take another, and never get shorter by the sum of their squares', () => {
    let longer = 0;
    for (let seed = 1; seed <= 300; seed++) {
      const luck = seeded(seed);
      const pieces: OnRoll[] = [];
      const rolls = luck.whole(1, 30);
      for (let roll = 0; roll < rolls; roll++)
        for (let room = ROLL; room >= 500;) {
          const length = luck.whole(500, room);
          pieces.push({ roll, length });
          room -= length;
          if (luck.next() < 0.3) break;
        }
      const before = leftOn(
        pieces,
        pieces.map((piece) => piece.roll),
      );
      const after = leftOn(pieces, gatherOffcuts(pieces, ROLL));
      expect(Math.min(...after), `seed ${seed}`).toBeGreaterThanOrEqual(0);
      expect(after.length, `seed ${seed}`).toBeLessThanOrEqual(before.length);
      expect(squares(after, rolls), `seed ${seed}`).toBeGreaterThanOrEqual(squares(before, rolls));
      if (squares(after, rolls) > squares(before, rolls)) longer++;
      expect(gatherOffcuts(pieces, ROLL)).toEqual(gatherOffcuts(pieces, ROLL));
    }
    expect(longer).toBeGreaterThan(200);
  });

  it('of a cut of runs come after rolls and joints: the same of both as where a search compares costs, or fewer', () => {
    const roll = { id: 'roll', width: 3000, length: ROLL, cost: 990 };
    const lap = {
      endLap: 80,
      endLapStagger: 300,
      minPiece: 1500,
      joints: 'allowed',
      cutAllowance: 0,
    } as const;
    for (let seed = 1; seed <= 60; seed++) {
      const luck = seeded(seed);
      const runs = Array.from({ length: luck.whole(2, 25) }, (_, i): Run => {
        const from = luck.between(0, 4000);
        return { course: i + 1, span: [from, from + luck.between(1000, 45_000)] };
      });
      const money = { roll: 1100, joint: 9 };
      const [quick, laid] = (['search', 'lay'] as const).map((effort) =>
        cutRuns(runs, roll, lap, { money, effort }),
      );
      if (!quick || !laid || 'fault' in quick || 'fault' in laid)
        throw new Error(`seed ${seed} cannot be cut`);
      expect(laid.rolls * money.roll + laid.joints * money.joint, `seed ${seed}`).toBeLessThanOrEqual(
        quick.rolls * money.roll + quick.joints * money.joint,
      );
      expect(laid.rolls, `seed ${seed}`).toBeGreaterThanOrEqual(laid.lowerBound);
      const used = new Map<number, number>();
      for (const { pieces } of laid.runs)
        for (const piece of pieces) {
          expect(piece.start, `seed ${seed}`).toBeCloseTo(used.get(piece.roll) ?? 0, 6);
          used.set(piece.roll, (used.get(piece.roll) ?? 0) + piece.length);
        }
      expect(used.size, `seed ${seed}`).toBe(laid.rolls);
      expect(Math.max(...used.values()), `seed ${seed}`).toBeLessThanOrEqual(ROLL + 1e-6);
    }
  });
});
