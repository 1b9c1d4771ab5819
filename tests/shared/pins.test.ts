// Any one choice pinned on the demo roofs and searched again stays as it is, or a finding says which rule it breaks.
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { unpackJob } from '../../core/job/container';
import { estimate } from '../../core/job/estimate';
import { lapsAtPins } from '../../core/job/pins';
import type { Job, JobRoof } from '../../core/job/schema';
import { layingOf, searchRoof } from '../../core/job/searchRoof';

const opened = unpackJob(readFileSync(new URL('../../demo-data/school.lapjob', import.meta.url)));
if ('refusal' in opened) throw new Error(opened.refusal);
const demo = opened.job;
const main = Object.values(demo.roofs)[0] as JobRoof;

describe('on the main roof of the demo job', () => {
  const before = estimate(demo).roofs.find(({ id }) => id === main.id);
  const laps = before?.seams?.endLaps ?? [];
  const mmPerPoint = before?.mmPerPoint ?? NaN;

  it('every end lap in turn', () => {
    let kept = 0;
    for (const { id, from, to } of laps) {
      const at = [(from[0] + to[0]) / 2 / mmPerPoint, (from[1] + to[1]) / 2 / mmPerPoint] as const;
      const job = searched(withLaying({ ...main.laying, pins: [at] }));
      const { roofs, findings } = estimate(job);
      const seams = roofs.find((roof) => roof.id === main.id)?.seams;
      const [lap] = seams ? lapsAtPins(seams, [at], mmPerPoint) : [];
      const said = findings.some(({ rule, roof }) => rule === 'pin-not-kept' && roof === main.id);
      expect(lap ? !said : said, id).toBe(true);
      if (lap) kept++;
    }
    expect(laps.length).toBeGreaterThan(10);
    expect(kept).toBeGreaterThan(laps.length / 2);
  });

  it.each([0, 37, 90])('the direction %d°', (direction) => {
    const job = searched(withLaying({ ...main.laying, direction, keep: ['direction'] }));
    expect(job.roofs[main.id]?.laying.direction).toBe(direction);
  });

  it.each([-1, -700, -2500])('the first course at %d mm', (firstCourse) => {
    const job = searched(withLaying({ ...main.laying, firstCourse, keep: ['firstCourse'] }));
    expect(job.roofs[main.id]?.laying.firstCourse).toBe(firstCourse);
  });

  it('the last course slit, and the last course laid first', () => {
    const closing = { kind: 'rip', lanes: 3 } as const;
    const job = searched(withLaying({ ...main.laying, closing, keep: ['closing'], order: 'down' }));
    expect(job.roofs[main.id]?.laying).toMatchObject({ closing, order: 'down' });
    const layout = estimate(job).roofs.find(({ id }) => id === main.id)?.layout;
    expect(layout?.courses.map(({ nextOver }) => nextOver)).not.toContain(true);
  });
});

function withLaying(laying: JobRoof['laying']): Job {
  return { ...demo, roofs: { ...demo.roofs, [main.id]: { ...main, laying } } };
}

function searched(job: Job): Job {
  const roof = job.roofs[main.id] as JobRoof;
  const started = searchRoof(job, roof.id);
  if ('faults' in started) throw new Error(started.faults[0]?.message);
  let step = started.search.next();
  while (!step.done) step = started.search.next();
  const [best] = step.value.best;
  if (!best) throw new Error('nothing was found');
  return { ...job, roofs: { ...job.roofs, [roof.id]: { ...roof, laying: layingOf(best, roof.laying) } } };
}
