// Law: groups that change members stay within their rolls, and what is left over in the rest only becomes less. The
// lengths are generated; what a group holds (its rolls less a lap at each joint) is worked here anew.
import { describe, expect, it } from 'vitest';
import { priceRemainders, remainderOf, splicedBound } from '../../../core/sheets/bounds';
import { exchange } from '../../../core/sheets/exchange';
import { gather, gatherStock } from '../../../core/sheets/gather';
import { spliceLengths } from '../../../core/sheets/spliceLengths';
import { seeded } from '../../support/random';

/** Tenths of a millimetre: rolls of 30 m, end laps of 80 mm, pieces of 1.5 m at least. */
const RULES = { roll: 300_000, lap: 800, least: 15_000 };

const lengthsOf = (seed: number, count: number, least: number, most: number) => {
  const luck = seeded(seed);
  return Array.from({ length: count }, () => luck.whole(least, most));
};

const restsOf = (lengths: readonly number[]) =>
  lengths.map((length) => remainderOf(length, RULES.roll, RULES.lap));

/** One run grown until the rolls have 0.2 m to spare. */
function withLittleToSpare(lengths: readonly number[]): readonly number[] {
  const rests = restsOf(lengths);
  const total = rests.reduce((sum, rest) => sum + rest, 0);
  const more = Math.ceil((total + 2000) / RULES.roll) * RULES.roll - total - 2000;
  const grown = rests.findIndex((rest) => rest + more <= RULES.roll);
  return lengths.map((length, i) => (i === grown ? length + more : length));
}

describe('groups that change members', () => {
  it.each([1, 2, 3, 4, 5, 6])('hold every run once and no more than their rolls, seed %i', (seed) => {
    const luck = seeded(seed);
    const lengths = withLittleToSpare(lengthsOf(seed, 100, 10_000, 450_000));
    const rests = restsOf(lengths);
    const { stock, pool } = gatherStock(lengths, RULES, priceRemainders);
    const rolls = Math.ceil(rests.reduce((sum, rest) => sum + rest, 0) / RULES.roll);
    const manner = { mostRolls: 2, share: 0.2, start: () => 0 };
    const before = gather(stock, pool, rolls, manner, { left: 10_000_000 });
    const after = exchange(stock, before, () => luck.next(), { left: 3_000_000 });

    const members = [...after.groups.flatMap((group) => group.members), ...after.rest];
    expect([...members].sort((a, b) => a - b)).toEqual(lengths.map((_, i) => i));
    const lengthOf = (some: readonly number[]) => some.reduce((sum, i) => sum + (rests[i] as number), 0);
    for (const group of after.groups) {
      expect(lengthOf(group.members)).toBeLessThanOrEqual(
        group.rolls * RULES.roll - (group.rolls - 1) * RULES.lap,
      );
      for (const run of group.members) {
        const pieces = group.splice.pieces.filter((piece) => piece.run === run);
        const reach = pieces.reduce((sum, piece) => sum + piece.length - RULES.lap, RULES.lap);
        expect(reach).toBe(lengths[run]);
      }
    }
    expect(after.groups.reduce((sum, group) => sum + group.rolls, after.rolls)).toBe(rolls);
    expect(after.over).toBeCloseTo(
      lengthOf(after.rest) - (after.rolls * RULES.roll - (after.rolls - 1) * RULES.lap),
      6,
    );
    expect(after.over).toBeLessThan(before.over);
  });

  it('come out even where gathering anew does not: 300 runs with 0.06 % to spare', () => {
    const lengths = lengthsOf(98_300, 300, 10_000, 450_000);
    const { rolls, bound } = spliceLengths(lengths, RULES, null);
    expect(bound).toBe(splicedBound(lengths, RULES.roll, RULES.lap));
    expect(rolls).toBe(bound);
  });
});
