// The crew's plan and the estimator's figures are the same hours and metres.
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { unpackJob } from '../../../core/job/container';
import { estimate } from '../../../core/job/estimate';
import { isSound } from '../../../core/job/estimateRoof';
import { faultsOfWork } from '../../support/checkWork';
import { applyAll, smallJob } from '../../support/jobs';
import type { Job } from '../../../core/job/schema';

function demo(name: string): Job {
  const read = unpackJob(readFileSync(new URL(`../../../demo-data/${name}`, import.meta.url)));
  if ('refusal' in read) throw new Error(read.refusal);
  return read.job;
}

const slowed = applyAll(smallJob(), [
  { kind: 'setRate', path: ['welding', 'productivity', 'crowding'], value: 1.2 },
  { kind: 'setSystem', fields: { attachment: 'adhered' } },
]);
const farEndFirst = applyAll(smallJob(), [{ kind: 'setWork', fields: { order: 'high to low' } }]);

describe.each([
  ['the school', demo('school.lapjob')],
  ['the office', demo('office.lapjob')],
  ['a small job', smallJob()],
  ['a small job, adhered and crowded', slowed],
  ['a small job, far end first', farEndFirst],
])('%s', (_name, job) => {
  const result = estimate(job);
  const value = (key: string) => result.quantities.find((q) => q.key === key)?.value ?? NaN;

  it('stands before the independent checker', () => {
    const faults = faultsOfWork(result.roofs.filter(isSound), result.weldPlan, result.workPlan, {
      rates: job.rates,
      adhered: job.system.attachment === 'adhered',
      first: job.work.order === 'high to low' ? 'over' : 'under',
    });
    expect(faults).toEqual([]);
  });
  it('Σ weld runs = Σ seams by kind to the millimetre', () => {
    for (const [kind, key] of [
      ['side-lap', 'weld.side'],
      ['end-lap', 'weld.end'],
    ] as const) {
      const metres = result.weldPlan.runs
        .filter((run) => run.kind === kind)
        .reduce((sum, run) => sum + run.length / 1000, 0);
      expect(Math.abs(metres - value(key))).toBeLessThan(0.0005);
    }
  });
  it('night seals are ordered by the metre, and what is cut back after them is disposed of', () => {
    const strip = result.order.lines.find((line) => line.key === 'nightSeal');
    expect(strip?.need ?? 0).toBeCloseTo(value('night.seal'), 9);
    const gone = value('area.offcut') - value('area.reused') + value('area.trimmed');
    const disposal = result.bid.lines.find((line) => line.key === 'plant.disposal');
    expect(Math.abs(Number(disposal?.quantity) - gone - value('night.cutBack'))).toBeLessThanOrEqual(0.01);
  });
  it('the person-hours of the bid are the person-minutes of the days', () => {
    const minutes = result.workPlan.days.reduce((sum, day) => sum + day.minutes, 0);
    expect(value('hours.total')).toBeCloseTo(minutes / 60, 6);
    expect(value('days')).toBe(result.workPlan.days.length);
    expect(value('days')).toBeGreaterThanOrEqual(result.workPlan.leastDays);
  });
});
