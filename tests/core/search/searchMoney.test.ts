// What the search says a layout costs is what the estimate of the job says once it is laid so, by its own figures: rolls,
// laps, target sheets, waste, and what comes out of offcuts.
import { describe, expect, it } from 'vitest';
import { estimate, patchesIn } from '../../../core/job/estimate';
import type { Estimate } from '../../../core/job/result';
import type { Job } from '../../../core/job/schema';
import { layingOf, searchRoof } from '../../../core/job/searchRoof';
import { jointCost, layMoney } from '../../../core/price/layMoney';
import type { Priced } from '../../../core/search/types';
import { applyAll, jobOfRoof, SCALE } from '../../support/jobs';
import { generatedRoof } from '../../support/roofs';
import { ringBounds } from '../../../core/geometry/ring';

/** A generated roof with three drains on it, flashings out of offcuts first. */
function jobOf(seed: number): Job {
  const roof = generatedRoof(seed, { area: 600e6, turn: 'none' });
  const { x, y } = ringBounds([roof.outline]);
  const job = jobOfRoof(roof, { direction: 0, firstCourse: 0, closing: null });
  const drained = applyAll(
    job,
    [0.3, 0.5, 0.7].map((share, k) => ({
      kind: 'placeFitting' as const,
      fitting: {
        id: `f${k}`,
        roof: 'r1',
        kind: 'drain' as const,
        at: [
          (x[0] + share * (x[1] - x[0])) / SCALE.mmPerPoint,
          (y[0] + share * (y[1] - y[0])) / SCALE.mmPerPoint,
        ] as const,
        size: 200,
      },
    })),
  );
  return { ...drained, system: { ...drained.system, flashing: 'offcuts first' } };
}

/** The same money, from the figures of the estimate. Flashings are counted from what they take of a roll where nothing
 * comes out of offcuts, as the search does; end laps as wide as a sheet. */
function moneyOf(job: Job, { roofs, quantities }: Estimate): number {
  const [laid] = roofs;
  if (!laid?.layout || !laid.seams || !laid.details || !laid.roof) throw new Error('it is not laid');
  const value = (key: string) => quantities.find((q) => q.key === key)?.value ?? 0;
  const { rates } = job;
  const money = layMoney(rates, patchesIn(job));
  const priceOf = (id: string) => Number(rates.rolls.find((roll) => roll.id === id)?.price);
  const rolls = laid.layout.cutList.rolls.reduce((sum, { product }) => sum + priceOf(product), 0);
  const lanes = (height: number) => Math.max(1, Math.floor(rates.flashingRoll.width / height));
  const whole = laid.details.flashings.reduce((sum, { length, height }) => sum + length / lanes(height), 0);
  const perM = Number(rates.flashingRoll.price) / (rates.flashingRoll.length / 1000);
  const upright = laid.details.flashings.reduce((sum, { weld }) => sum + weld, 0);
  const without = estimate({ ...job, system: { ...job.system, flashing: 'rolls only' } });
  const before = (without.roofs[0]?.details?.flashings ?? []).reduce((sum, { weld }) => sum + weld, 0);
  return (
    rolls +
    laid.seams.endLaps.length * jointCost(money, laid.layout.spec.roll.width) +
    value('weld.side') * money.weldPerM +
    laid.seams.targets.reduce(
      (sum, { weld }) => sum + (weld / 1000) * money.handWeldPerM + money.perJoint,
      0,
    ) +
    (value('area.bought') - laid.roof.area / 1e6 - value('area.reused')) * money.disposalPerM2 +
    (value('flashing.roll') - whole / 1000) * perM +
    ((upright - before) / 1000) * money.handWeldPerM
  );
}

function bestOf(job: Job): readonly Priced[] {
  const started = searchRoof(job, 'r1');
  if ('faults' in started) throw new Error(started.faults[0]?.message);
  for (;;) {
    const step = started.search.next();
    if (step.done) return step.value.best;
  }
}

describe('the money of a search', () => {
  it('is that of the layout once it is laid, or it is cut better then', () => {
    let [same, all, patched] = [0, 0, 0];
    for (let seed = 1; seed <= 8; seed++) {
      const job = jobOf(seed);
      const record = job.roofs.r1;
      if (!record) throw new Error('the job has a roof');
      for (const found of bestOf(job)) {
        const laid = { ...job, roofs: { r1: { ...record, laying: layingOf(found, record.laying) } } };
        const result = estimate(laid);
        // Drains at end laps are known only when these are placed.
        if (result.roofs[0]?.seams?.targets.length !== found.targets) continue;
        const money = moneyOf(laid, result);
        all++;
        if (Math.abs(money - found.cost) < 0.01) same++;
        else expect(money, `seed ${seed}, ${found.rules.direction}°`).toBeLessThan(found.cost);
        patched += result.roofs[0].cutPatches.filter(({ from }) => from !== null).length;
      }
    }
    expect(all).toBeGreaterThan(20);
    expect(same / all).toBeGreaterThan(0.9);
    expect(patched).toBeGreaterThan(0);
  });
});
