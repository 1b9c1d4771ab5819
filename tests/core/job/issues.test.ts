// Issues and the weld log: what is frozen, what is carried over, and what a failed test undoes.
import { describe, expect, it } from 'vitest';
import { applyCommand } from '../../../core/job/commands/applyCommand';
import { estimate } from '../../../core/job/estimate';
import { carryLog } from '../../../core/job/issueCarry';
import { issueLayout } from '../../../core/job/issueLayout';
import { packJob, unpackJob } from '../../../core/job/container';
import type { Job, JobIssue, LogEntry } from '../../../core/job/schema';
import { progressByDay, seamStates, stripDue, toProbeAgain, verdictOf } from '../../../core/job/weldLog';
import { applyAll, smallJob } from '../../support/jobs';

const TARGET = { value: 45, unit: 'lbf/in' } as const;

function issued(job: Job, number: number, date = '2026-03-02'): { job: Job; issue: JobIssue } {
  const result = issueLayout(estimate(job), { id: `i${number}`, number, date, note: '' });
  if ('refusal' in result) throw new Error(result.refusal);
  return { job: applyAll(job, [{ kind: 'addIssue', issue: result.issue }]), issue: result.issue };
}

/** An entry in the middle of a seam of an issue. */
function entry(
  issue: JobIssue,
  number: number,
  on: string | null,
  changes: Partial<LogEntry> = {},
): LogEntry {
  const seam = issue.roofs[0]?.seams.find((one) => one.id === on);
  return {
    id: `l${number}`,
    number,
    kind: 'welded',
    issue: issue.number,
    date: '2026-03-02',
    roof: on === null ? null : 'r1',
    on,
    at: seam ? [(seam.from[0] + seam.to[0]) / 2, (seam.from[1] + seam.to[1]) / 2] : null,
    machine: 'Machine 1',
    operator: 'AB',
    membrane: 'TPO 1.5',
    lead: '',
    speed: 3,
    temperature: null,
    ambient: 12,
    result: null,
    reading: null,
    target: TARGET,
    note: '',
    ...changes,
  };
}

const { issue } = issued(smallJob(), 1);
const byOrder = [...(issue.roofs[0]?.seams ?? [])].sort((a, b) => a.order - b.order);
const machine = byOrder.filter((seam) => seam.method === 'machine').map((seam) => seam.id);
const [first = '', second = '', third = '', fourth = ''] = machine;
const good = { result: 'reinforcement bared' } as const;
const cold = { result: 'peeled clean' } as const;
const stateOf = (log: readonly LogEntry[], seam: string, on: JobIssue = issue, issues = [issue]) =>
  seamStates(on, issues, log, '2026-12-31').find((one) => one.seam === seam)?.state;

describe('an issue', () => {
  it('freezes every sheet and seam with its place, run and day, and nothing laid later changes it', () => {
    const result = estimate(smallJob());
    const laid = result.roofs[0];
    expect(issue.roofs[0]?.sheets).toHaveLength(laid?.layout?.sheets.length ?? 0);
    expect(issue.roofs[0]?.seams.map((seam) => seam.id).sort()).toEqual(
      [...(laid?.seams?.sideLaps ?? []), ...(laid?.seams?.endLaps ?? [])].map((lap) => lap.id).sort(),
    );
    expect(issue.roofs[0]?.seams.every((seam) => seam.day >= 1)).toBe(true);
    const { job } = issued(smallJob(), 1);
    const changed = applyAll(job, [{ kind: 'moveCorner', edge: 'e1', at: [280, 0] }]);
    expect(changed.issues['i1']).toBe(job.issues['i1']);
  });
  it('is refused in words where a roof is not laid, and numbers follow on each other', () => {
    const blank = estimate(applyAll(smallJob(), [{ kind: 'setScale', page: 'p1', scale: null }]));
    const refused = issueLayout(blank, { id: 'i1', number: 1, date: '2026-03-02', note: '' });
    expect('refusal' in refused && refused.refusal).toMatch(/“Hall” is not laid/);
    const again = applyCommand(issued(smallJob(), 1).job, { kind: 'addIssue', issue });
    expect('refusal' in again && again.refusal).toMatch(/next issue is number 2/);
  });
  it('keeps its page from being set right, and no other page', () => {
    const level = { kind: 'correctPage', page: 'p1', degrees: 1, stretch: 1 } as const;
    expect(applyCommand(smallJob(), level)).toHaveProperty('job');
    const { job } = issued(smallJob(), 1);
    expect(applyCommand(job, level)).toMatchObject({
      refusal: expect.stringMatching(/layout of “Hall” was issued.*before a layout is issued/s),
    });
    const { p1 } = job.pages;
    if (!p1) throw new Error('the job has no page');
    const two = { ...job, pages: { ...job.pages, p2: { ...p1, id: 'p2' } } };
    expect(applyCommand(two, { ...level, page: 'p2' })).toHaveProperty('job');
  });
  it('and the log come back from a saved file', () => {
    const { job } = issued(smallJob(), 1);
    const logged = applyAll(job, [{ kind: 'addLogEntry', entry: entry(issue, 1, first) }]);
    const read = unpackJob(packJob(logged, new Map()));
    expect('job' in read && read.job).toEqual(logged);
  });
});

describe('the log', () => {
  it('refuses what points nowhere and what says too little', () => {
    const { job } = issued(smallJob(), 1);
    const refusal = (one: LogEntry) => {
      const result = applyCommand(job, { kind: 'addLogEntry', entry: one });
      return 'refusal' in result ? result.refusal : '';
    };
    expect(refusal(entry(issue, 1, 'C99.1|C98.1'))).toMatch(/is not a seam of issue 1/);
    expect(refusal({ ...entry(issue, 1, first), issue: 7 })).toMatch(/no issue 7/);
    expect(refusal(entry(issue, 1, null, { kind: 'strip' }))).toMatch(/how it came apart/);
    expect(refusal(entry(issue, 5, first))).toMatch(/next entry is number 1/);
    expect(refusal(entry(issue, 1, first))).toBe('');
  });
  it('brings a seam from planned through laid, welded, probed and tested to repaired', () => {
    const [a = '', b = ''] = byOrder.find((seam) => seam.id === first)?.between ?? [];
    const steps: [LogEntry, string][] = [
      [entry(issue, 1, a, { kind: 'laid' }), 'planned'],
      [entry(issue, 2, b, { kind: 'laid' }), 'laid'],
      [entry(issue, 3, first), 'welded'],
      [entry(issue, 4, first, { kind: 'probed' }), 'probed'],
      [entry(issue, 5, first, { kind: 'cut-out', ...good }), 'tested'],
      [entry(issue, 6, first, { kind: 'repaired' }), 'repaired'],
      [entry(issue, 7, first, { kind: 'probed' }), 'probed'],
    ];
    steps.forEach(([, state], k) =>
      expect(
        stateOf(
          steps.slice(0, k + 1).map(([e]) => e),
          first,
        ),
      ).toBe(state),
    );
  });
  it('knows the state by date', () => {
    const log = [entry(issue, 1, first), entry(issue, 2, first, { kind: 'probed', date: '2026-03-05' })];
    const on = (date: string) =>
      seamStates(issue, [issue], log, date).find((one) => one.seam === first)?.state;
    expect([on('2026-03-01'), on('2026-03-02'), on('2026-03-05')]).toEqual(['planned', 'welded', 'probed']);
  });
  it('a fail in the roof marks back to the last good test, and only probing clears it', () => {
    const log = [
      entry(issue, 1, null, { kind: 'strip', ...good }),
      entry(issue, 2, first),
      entry(issue, 3, first, { kind: 'cut-out', ...good }),
      entry(issue, 4, second),
      entry(issue, 5, third),
      entry(issue, 6, third, { kind: 'cut-out', ...cold, reading: { value: 90, unit: 'lbf/in' } }),
    ];
    expect(verdictOf(log[5] as LogEntry)?.follow).toMatch(
      /Probe again every seam back to the last good test/,
    );
    expect(toProbeAgain(issue, [issue], log).map(({ seam }) => seam)).toEqual(
      expect.arrayContaining([second, third]),
    );
    expect(stateOf(log, first)).toBe('tested');
    expect(stateOf(log, second)).toBe('to be re-probed');
    expect(stateOf(log, fourth)).toBe('planned');
    const after = [...log, entry(issue, 7, second, { kind: 'probed' })];
    expect(stateOf(after, second)).toBe('probed');
    expect(stateOf(after, third)).toBe('to be re-probed');
  });
  it('without any good test before it, a fail marks the day', () => {
    const log = [entry(issue, 1, third), entry(issue, 2, third, { kind: 'cut-out', ...cold })];
    const marked = toProbeAgain(issue, [issue], log).map(({ seam }) => seam);
    const day = byOrder.find((seam) => seam.id === third)?.day;
    for (const seam of byOrder)
      if (seam.day === day && seam.method === 'machine' && machine.indexOf(seam.id) <= 2)
        expect(marked).toContain(seam.id);
  });
  it('asks for a strip at the start, after a change, and after a fail', () => {
    const strip = entry(issue, 1, null, { kind: 'strip', ...good });
    const now = {
      date: strip.date,
      membrane: 'TPO 1.5',
      machine: 'Machine 1',
      operator: 'AB',
      lead: '',
      ambient: 12,
    };
    expect(stripDue([], now)).toEqual(['start of the day']);
    expect(stripDue([strip], now)).toEqual([]);
    expect(stripDue([strip], { ...now, operator: 'CD' })).toEqual(['change of operator']);
    expect(stripDue([{ ...strip, ...cold }], now)).toEqual(['the last strip failed']);
  });
  it('counts metres by day', () => {
    const days = progressByDay(issue, [issue], [entry(issue, 1, first)]);
    const length = byOrder.find((seam) => seam.id === first)?.length ?? NaN;
    expect(days.reduce((sum, day) => sum + day.welded, 0)).toBeCloseTo(length / 1000, 9);
    expect(days.reduce((sum, day) => sum + day.planned, 0)).toBeCloseTo(
      byOrder.reduce((sum, seam) => sum + seam.length, 0) / 1000,
      9,
    );
  });
});

describe('a later issue', () => {
  const { job } = issued(smallJob(), 1);
  const log = byOrder.map((seam, k) => entry(issue, k + 1, seam.id, { kind: 'cut-out', ...good }));

  it('with the same layout keeps every state', () => {
    const { issue: same } = issued(job, 2);
    expect(carryLog(log, [issue, same], same).unmapped).toEqual([]);
    for (const seam of machine) expect(stateOf(log, seam, same, [issue, same])).toBe('tested');
  });
  it('keeps a test at its place of the roof or lists it: nothing else', () => {
    // A narrower roof, courses from another offset, the other direction, and a curb that splits a lap elsewhere.
    const changes: Job[] = [
      applyAll(job, [
        { kind: 'moveCorner', edge: 'e1', at: [260, 0] },
        { kind: 'moveCorner', edge: 'e2', at: [260, 120] },
      ]),
      applyAll(job, [
        {
          kind: 'setRoof',
          roof: 'r1',
          fields: { laying: { direction: 0, firstCourse: -700, closing: null } },
        },
      ]),
      applyAll(job, [
        {
          kind: 'setRoof',
          roof: 'r1',
          fields: { laying: { direction: 90, firstCourse: null, closing: null } },
        },
      ]),
      applyAll(job, [{ kind: 'moveRing', edges: ['c0', 'c1', 'c2', 'c3'], by: [40, 0] }]),
    ];
    let kept = 0;
    for (const changed of changes) {
      const { issue: later } = issued(changed, 2);
      const { carried, unmapped } = carryLog(log, [issue, later], later);
      expect(carried.length + unmapped.length).toBe(log.length);
      for (const { entry: one, on } of carried) {
        const before = issue.roofs[0]?.seams.find((seam) => seam.id === one.on);
        const after = later.roofs[0]?.seams.find((seam) => seam.id === on);
        // The tested place lies on the seam that now carries the test, and that seam is no longer than what was tested.
        const [x, y] = one.at ?? [NaN, NaN];
        const far = Math.hypot(x - (after?.from[0] ?? 0), y - (after?.from[1] ?? 0));
        const rest = Math.hypot(x - (after?.to[0] ?? 0), y - (after?.to[1] ?? 0));
        expect(far + rest).toBeLessThan((before?.length ?? 0) + 40);
        expect(Math.abs((after?.length ?? 0) - (before?.length ?? NaN))).toBeLessThan(20.1);
        kept++;
      }
      const tested = seamStates(later, [issue, later], log, '2026-12-31').filter(
        ({ state }) => state === 'tested',
      );
      expect(tested.length).toBeLessThanOrEqual(carried.length);
      for (const { why } of unmapped) expect(why.length).toBeGreaterThan(10);
    }
    expect(kept).toBeGreaterThan(0);
  });
  it('says that a seam which shares only a part takes nothing over', () => {
    const shorter = applyAll(job, [
      { kind: 'moveCorner', edge: 'e1', at: [260, 0] },
      { kind: 'moveCorner', edge: 'e2', at: [260, 120] },
    ]);
    const { issue: later } = issued(shorter, 2);
    const { unmapped } = carryLog(log, [issue, later], later);
    expect(unmapped.some(({ why }) => /only shares a part/.test(why))).toBe(true);
  });
});
