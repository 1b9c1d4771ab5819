// Laws of chains whose rolls may end in two runs: what is cut can be cut, and one length many times is cut from the
// fewest rolls.
import { describe, expect, it } from 'vitest';
import { cutRuns } from '../../../core/sheets/cutRuns';
import { spliceLengths } from '../../../core/sheets/spliceLengths';
import type { Run } from '../../../core/sheets/types';
import { weave } from '../../../core/sheets/weave';
import { DEEP } from '../../support/deep';
import { seeded } from '../../support/random';

const RULES = { roll: 300_000, lap: 800, least: 15_000 };
const ROLL = { id: 'roll', width: 3000, length: 30_000, cost: 990 };
const LAP = { endLap: 80, endLapStagger: 300, minPiece: 1500, joints: 'allowed', cutAllowance: 0 } as const;

describe('a weave', () => {
  it('reaches its runs, fits its rolls, keeps the least and leaves whole what may not be joined', () => {
    let [found, shared] = [0, 0];
    for (let seed = 1; seed <= (DEEP ? 4000 : 600); seed++) {
      const luck = seeded(seed);
      const kinds = Array.from({ length: luck.whole(1, 8) }, () => luck.whole(5000, 700_000));
      const lengths = Array.from(
        { length: luck.whole(1, 60) },
        () => kinds[luck.whole(0, kinds.length - 1)] ?? 0,
      );
      const whole = lengths.map((length) => length <= RULES.roll && luck.next() < 0.2);
      const laps = luck.whole(0, lengths.length * 2) * RULES.lap;
      const rolls = Math.ceil((lengths.reduce((sum, length) => sum + length, 0) + laps) / RULES.roll);
      const splice = weave(lengths, whole, RULES, rolls);
      if (!splice) continue;
      found++;
      const reach = lengths.map(() => RULES.lap);
      const loads = new Map<number, number>();
      const cut = new Map<number, number>();
      for (const { run, roll, length } of splice.pieces) {
        reach[run] = (reach[run] as number) + length - RULES.lap;
        loads.set(roll, (loads.get(roll) ?? 0) + length);
        expect(length >= RULES.least || length === lengths[run], `seed ${seed}`).toBe(true);
        if (length < (lengths[run] as number)) {
          expect(whole[run], `seed ${seed}`).toBe(false);
          cut.set(roll, (cut.get(roll) ?? 0) + 1);
        }
      }
      expect(reach, `seed ${seed}`).toEqual(lengths);
      expect(Math.max(...loads.values()), `seed ${seed}`).toBeLessThanOrEqual(RULES.roll);
      expect(loads.size, `seed ${seed}`).toBe(splice.rolls);
      expect(splice.rolls, `seed ${seed}`).toBeLessThanOrEqual(rolls);
      expect(splice.joints).toBe(splice.pieces.length - lengths.length);
      if (splice.joints > splice.rolls - 1) shared++;
    }
    expect(found).toBeGreaterThan(200);
    // Some have more joints than a chain has.
    expect(shared).toBeGreaterThan(20);
  });

  // By hand: thirty-three runs of 29 m and 31 laps of 80 mm leave 0.52 m of 32 rolls of 30 m. A run left whole leaves
  // 1 m of its roll, and a roll with one piece of a run that is cut holds 27.58 m at most: so every run has a joint.
  // 33 joints take 2.64 m, and 957 m + 2.64 m fit 960 m.
  it('takes 33 runs of 29 m out of 32 rolls with 33 joints, where a chain of 32 joints cannot be', () => {
    const lengths = new Array<number>(33).fill(290_000);
    const splice = weave(
      lengths,
      lengths.map(() => false),
      RULES,
      32,
    );
    expect(splice?.rolls).toBe(32);
    expect(splice?.joints).toBeGreaterThanOrEqual(33);
  });
});

describe('one length three hundred times', () => {
  const COUNT = 300;
  /** m */
  const LENGTHS = [...Array.from({ length: 49 }, (_, k) => k + 1), 14.42, 28.84, 37.08, 44.29, 49.44, 58.71];

  /** A group is told by how many it holds, so the fewest rolls are a sum over counts; the least piece and the stagger
   * could only ask for more. */
  function fewestRolls(length: number): number {
    const fewest = [0];
    for (let n = 1; n <= COUNT; n++) {
      let best = Infinity;
      for (let own = 1; own <= n; own++) {
        const rolls = Math.max(1, Math.ceil((own * length - RULES.lap) / (RULES.roll - RULES.lap)));
        best = Math.min(best, (fewest[n - own] as number) + rolls);
      }
      fewest[n] = best;
    }
    return fewest[COUNT] as number;
  }

  it('is cut from the fewest rolls there are, with its joints staggered', { timeout: 60_000 }, () => {
    for (const metres of LENGTHS) {
      const length = Math.round(metres * 10_000);
      const fewest = fewestRolls(length);
      const luck = seeded(length);
      const runs = Array.from({ length: COUNT }, (_, i): Run => {
        const from = luck.whole(0, 30_000) / 10;
        return { course: i + 1, span: [from, from + length / 10] };
      });
      const cut = cutRuns(runs, ROLL, LAP, { money: null });
      if ('fault' in cut) throw new Error(`${metres} m cannot be cut`);
      expect(cut.rolls, `${metres} m`).toBe(fewest);
      expect(cut.lowerBound, `${metres} m`).toBeLessThanOrEqual(fewest);
      expect(spliceLengths(new Array<number>(COUNT).fill(length), RULES, null).rolls, `${metres} m`).toBe(
        fewest,
      );
    }
  });
});
