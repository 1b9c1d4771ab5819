// Target sheets and strips over slits out of offcuts.
import { describe, expect, it } from 'vitest';
import { patchOffcuts, type Patch } from '../../../core/sheets/patchOffcuts';
import type { ReusedStrip } from '../../../core/sheets/reuseOffcuts';
import type { RollProduct } from '../../../core/sheets/types';
import { seeded } from '../../support/random';

const FIELD: RollProduct = { id: 'field', width: 3000, length: 30_000, cost: 990 };
const target = (id: string, side: number): Patch => ({
  id,
  kind: 'target',
  on: id,
  length: side,
  width: side,
});
const slit = (id: string, length: number): Patch => ({ id, kind: 'slit', on: id, length, width: 200 });
const strip = (lane: number, length: number): ReusedStrip => ({
  roll: 'R1',
  edge: `e${lane}`,
  start: 28_000,
  lane,
  length,
  height: 400,
  covers: length,
});

describe('patchOffcuts', () => {
  it('worked: an offcut of 2 m with two strips on it holds four target sheets of five and a slit’s strip', () => {
    // The strips take 0.8 m of the width, so that 2.0 × 2.2 m are left beside them and 0.5 × 0.4 m beyond the shorter.
    // Target sheets are 1.0 m square: the first leaves 1.0 × 1.2 m beside it, which takes the second, and 1.0 × 2.2 m
    // beyond it, which takes the third and the fourth in the same way; what is left is 0.2 m wide. The slit's strip of
    // 0.4 × 0.2 m lies beyond the shorter strip.
    const rolls = [{ id: 'R1', product: 'field', offcut: 2000 }];
    const targets = ['a', 'b', 'c', 'd', 'e'].map((id) => target(id, 1000));
    const cut = patchOffcuts(
      { rolls },
      [FIELD],
      [strip(0, 2000), strip(400, 1500)],
      [...targets, slit('s', 400)],
    );
    expect(cut.map(({ id, from }) => [id, from && [from.start, from.lane]])).toEqual([
      ['a', [28_000, 800]],
      ['b', [28_000, 1800]],
      ['c', [29_000, 800]],
      ['d', [29_000, 1800]],
      ['e', null],
      ['s', [29_500, 400]],
    ]);
  });

  it('keeps patches within their offcuts, apart from each other and from strips, on 300 sets', () => {
    let served = 0;
    for (let seed = 1; seed <= 300; seed++) {
      const luck = seeded(seed);
      const rolls = Array.from({ length: luck.whole(1, 4) }, (_, k) => ({
        id: `R${k + 1}`,
        product: 'field',
        offcut: luck.whole(1, 60) * 100,
      }));
      const strips = rolls.flatMap(({ id, offcut }) =>
        Array.from({ length: luck.whole(0, 5) }, (_, k) => ({
          ...strip(400 * k, luck.whole(1, offcut)),
          roll: id,
          start: 30_000 - offcut,
        })),
      );
      const patches = Array.from({ length: luck.whole(1, 20) }, (_, k) =>
        luck.next() < 0.5 ? target(`t${k}`, luck.whole(5, 14) * 100) : slit(`s${k}`, luck.whole(1, 15) * 100),
      );
      const cut = patchOffcuts({ rolls }, [FIELD], strips, patches);
      expect(cut.map(({ id }) => id)).toEqual(patches.map(({ id }) => id));
      const taken = [
        ...strips.map(({ roll, start, lane, length, height }) => ({
          roll,
          start,
          lane,
          length,
          width: height,
        })),
        ...cut.flatMap(({ from, length, width }) => (from ? [{ ...from, length, width }] : [])),
      ];
      served += taken.length - strips.length;
      taken.forEach((a, i) => {
        const roll = rolls.find(({ id }) => id === a.roll);
        expect(a.start, `seed ${seed}`).toBeGreaterThanOrEqual(30_000 - (roll?.offcut ?? 0));
        expect(a.start + a.length, `seed ${seed}`).toBeLessThanOrEqual(30_000);
        expect(a.lane + a.width, `seed ${seed}`).toBeLessThanOrEqual(3000);
        for (const b of taken.slice(i + 1)) {
          const apart =
            a.roll !== b.roll ||
            a.start + a.length <= b.start ||
            b.start + b.length <= a.start ||
            a.lane + a.width <= b.lane ||
            b.lane + b.width <= a.lane;
          expect(apart, `seed ${seed}`).toBe(true);
        }
      });
    }
    expect(served).toBeGreaterThan(1000);
  });
});
