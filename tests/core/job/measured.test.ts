// A job whose roof was measured on site after some of it was laid: measure, issue, lay, measure again.
import { describe, expect, it } from 'vitest';
import { applyCommand } from '../../../core/job/commands/applyCommand';
import type { Command } from '../../../core/job/commands/types';
import { packJob, unpackJob } from '../../../core/job/container';
import { estimate } from '../../../core/job/estimate';
import { issueLayout } from '../../../core/job/issueLayout';
import type { Job, LogEntry } from '../../../core/job/schema';
import { applyAll, smallJob } from '../../support/jobs';

/** One point is 100 mm: the hall is 30 × 12 m. */
const measure = (from: number, to = from): Command => ({
  kind: 'setEdges',
  edges: ['e1'],
  fields: { measured: { from, to } },
});

function issued(job: Job): Job {
  const number = Object.keys(job.issues).length + 1;
  const result = issueLayout(estimate(job), { id: `i${number}`, number, date: '2026-03-02', note: '' });
  if ('refusal' in result) throw new Error(result.refusal);
  return applyAll(job, [{ kind: 'addIssue', issue: result.issue }]);
}

function written(job: Job, kind: LogEntry['kind'], on: string): Job {
  const number = Object.keys(job.log).length + 1;
  const entry: LogEntry = {
    id: `l${number}`,
    number,
    kind,
    issue: Object.keys(job.issues).length,
    date: '2026-03-03',
    roof: 'r1',
    on,
    at: null,
    machine: 'Machine 1',
    operator: 'AB',
    membrane: 'lot 1',
    lead: 'lead 1',
    speed: null,
    temperature: null,
    ambient: null,
    result: null,
    reading: null,
    target: { value: 45, unit: 'lbf/in' },
    note: '',
  };
  return applyAll(job, [{ kind: 'addLogEntry', entry }]);
}

const lengthOf = (job: Job, id: string) =>
  estimate(job).roofs[0]?.layout?.sheets.find((sheet) => sheet.id === id)?.length;
const rules = (job: Job) => estimate(job).findings.map(({ rule }) => rule);

describe('a roof measured on site', () => {
  const drawn = smallJob();
  const plain = estimate(drawn).roofs[0];
  const first = plain?.layout?.sheets[0];
  if (!plain || !first) throw new Error('the small job is laid');

  it('the roof is as measured in every figure, and what was re-cut is told', () => {
    const { roofs, quantities } = estimate(applyAll(drawn, [measure(20)]));
    // 12 m of edge, 20 mm further out.
    expect((roofs[0]?.roof?.area ?? 0) - (plain.roof?.area ?? 0)).toBeCloseTo(12_000 * 20, 3);
    const area = quantities.find(({ key }) => key === 'roof.area')?.value;
    expect(area).toBeCloseTo(360 - 1.2 * 2.4 + 0.24, 6);
    expect(roofs[0]?.refit?.changed.length).toBeGreaterThan(0);
    expect(estimate(drawn).roofs[0]?.refit).toBeNull();
  });
  it('what the log says is laid stays, what is not laid follows the measure', () => {
    const laid = written(issued(drawn), 'laid', first.id);
    const short = applyAll(laid, [measure(-30)]);
    expect(lengthOf(short, first.id)).toBe(first.length);
    expect(estimate(short).roofs[0]?.refit?.kept).toEqual([first.id]);
    expect(rules(short)).not.toContain('laid-too-short');
    const long = applyAll(laid, [measure(30)]);
    expect(lengthOf(long, first.id)).toBe(first.length);
    expect(rules(long)).toContain('laid-too-short');
    expect(rules(long)).toContain('uncovered');
    // Taken back, everything is as drawn.
    expect(
      lengthOf(applyAll(long, [{ kind: 'setEdges', edges: ['e1'], fields: { measured: null } }]), first.id),
    ).toBe(first.length);
  });
  it('a sheet that was cut to one measure and laid keeps its length when the edge is measured again', () => {
    const cut = issued(applyAll(drawn, [measure(-25)]));
    const length = lengthOf(cut, first.id);
    const laid = applyAll(written(cut, 'laid', first.id), [measure(-60)]);
    expect(lengthOf(laid, first.id)).toBe(length);
    expect(length).not.toBe(first.length);
  });
  it('a weld says that both its sheets lie', () => {
    const lap = plain.seams?.sideLaps[0];
    if (!lap) throw new Error('there is a side lap');
    const welded = applyAll(written(issued(drawn), 'welded', lap.id), [measure(-10)]);
    expect([...(estimate(welded).roofs[0]?.refit?.kept ?? [])].sort()).toEqual([...lap.between].sort());
  });
  it('turning the courses under a sheet that lies is an error at its place', () => {
    const laid = written(issued(drawn), 'laid', first.id);
    const turned = applyAll(laid, [
      {
        kind: 'setRoof',
        roof: 'r1',
        fields: { laying: { direction: 90, firstCourse: null, closing: null } },
      },
    ]);
    expect(estimate(turned).findings[0]).toMatchObject({
      rule: 'lies-elsewhere',
      severity: 'error',
      ids: [first.id],
    });
  });
  it('a corner put into a measured edge leaves its line', () => {
    const split = applyAll(drawn, [
      measure(0, 40),
      { kind: 'insertCorner', after: 'e1', edge: 'e9', at: [300, 30] },
    ]);
    expect(split.edges['e1']?.measured).toEqual({ from: 0, to: 10 });
    expect(split.edges['e9']?.measured).toEqual({ from: 10, to: 40 });
  });
  it('is kept in the file, and an edge two metres off is refused', () => {
    const job = applyAll(drawn, [measure(20, -5)]);
    const back = unpackJob(packJob(job, new Map()));
    expect('job' in back && back.job.edges['e1']?.measured).toEqual({ from: 20, to: -5 });
    const far = applyCommand(drawn, measure(2500));
    expect('refusal' in far ? far.refusal : '').toMatch(/another roof.*move the corner/);
  });
});
