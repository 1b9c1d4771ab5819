// The job document: commands, differences, the container, and the estimate as a whole.
import { describe, expect, it } from 'vitest';
import { strToU8, zipSync } from 'fflate';
import { applyCommand } from '../../../core/job/commands/applyCommand';
import type { Command } from '../../../core/job/commands/types';
import { packJob, unpackJob } from '../../../core/job/container';
import {
  applyDifference,
  differenceOf,
  foldDifferences,
  isEmpty,
  reverseDifference,
} from '../../../core/job/difference';
import { estimate } from '../../../core/job/estimate';
import { makeEstimator } from '../../../core/job/reuse';
import { jobSchema, type Job } from '../../../core/job/schema';
import { applyAll, edges, smallJob } from '../../support/jobs';

const refusalOf = (job: Job, command: Command) => {
  const result = applyCommand(job, command);
  return 'refusal' in result ? result.refusal : null;
};

const EDITS: readonly Command[] = [
  { kind: 'setAbout', fields: { client: 'Harbour trust' } },
  { kind: 'setDisplay', display: 'imperial' },
  { kind: 'renamePage', page: 'p1', name: 'Roof plan' },
  { kind: 'addCheck', page: 'p1', check: { a: [0, 0], b: [300, 0], length: 30_000 } },
  { kind: 'removeCheck', page: 'p1', index: 0 },
  {
    kind: 'setRegion',
    page: 'p1',
    region: {
      id: 's1',
      low: [400, 0],
      high: [800, 300],
      scale: { mmPerPoint: 50, from: { by: 'ratio', ratio: 142, text: '1:142' } },
    },
  },
  { kind: 'correctPage', page: 'p1', degrees: 1.5, stretch: 1.01 },
  { kind: 'correctPage', page: 'p1', degrees: 0, stretch: 1 },
  { kind: 'removeRegion', page: 'p1', region: 's1' },
  { kind: 'setRoof', roof: 'r1', fields: { fall: { downhill: 270, ratio: 0.02 } } },
  { kind: 'moveCorner', edge: 'e2', at: [310, 125] },
  { kind: 'insertCorner', after: 'e1', edge: 'x1', at: [305, 60] },
  { kind: 'removeCorner', edge: 'x1' },
  { kind: 'moveRing', edges: ['c0', 'c1', 'c2', 'c3'], by: [10, 5] },
  { kind: 'setEdges', edges: ['e0', 'e1'], fields: { kind: 'eave', allowance: 75 } },
  { kind: 'setOpening', opening: 'o1', fields: { name: 'Air handler' } },
  { kind: 'setFitting', fitting: 'f1', fields: { size: 160 } },
  { kind: 'setFitting', fitting: 'f1', fields: { clear: 450, blocks: 'tall' } },
  { kind: 'addLine', roof: 'r1', line: { id: 'l1', kind: 'valley', from: [0, 0], to: [50, 50] } },
  { kind: 'setLine', roof: 'r1', line: 'l1', fields: { kind: 'tie-in' } },
  {
    kind: 'setFacets',
    roof: 'r1',
    facets: [
      {
        id: 'w1',
        ring: [
          [0, 0],
          [50, 0],
          [0, 50],
        ],
        downhill: 90,
        ratio: null,
      },
    ],
  },
  { kind: 'pinEndLap', roof: 'r1', at: [20, 20], instead: null },
  { kind: 'moveMarks', roof: 'r1', by: [5, 5] },
  { kind: 'unpinEndLap', roof: 'r1', index: 0 },
  { kind: 'removeLine', roof: 'r1', line: 'l1' },
  { kind: 'removeFitting', fitting: 'f1' },
  { kind: 'removeOpening', opening: 'o1' },
  { kind: 'setSystem', fields: { sideLap: 110 } },
  { kind: 'setRate', path: ['speeds', 'machine'], value: 2.5 },
  { kind: 'removeRoof', roof: 'r1' },
  { kind: 'removePage', page: 'p1' },
];

describe('commands', () => {
  it('leave a job that passes its own schema, and never edit the one they got', () => {
    let job = smallJob();
    for (const command of EDITS) {
      const before = JSON.stringify(job);
      const next = applyAll(job, [command]);
      expect(JSON.stringify(job)).toBe(before);
      expect(jobSchema.safeParse(next).error?.issues ?? [], command.kind).toEqual([]);
      job = next;
    }
    expect(job.edges).toEqual({});
    expect(job.fittings).toEqual({});
  });
  it('move the way up and the moved courses with their roof, and leave those of another', () => {
    const job = smallJob();
    const work: typeof job.work = {
      ...job.work,
      access: { roof: 'r1', at: [10, 20] },
      moved: [{ roof: 'elsewhere', at: [1, 2], day: 3 }],
    };
    const placed: Job = { ...job, work };
    const moved = applyAll(placed, [{ kind: 'moveMarks', roof: 'r1', by: [5, -5] }]);
    expect(moved.work.access).toEqual({ roof: 'r1', at: [15, 15] });
    expect(moved.work.moved).toEqual(work.moved);
  });
  it('split an edge into two of its kind', () => {
    const job = applyAll(smallJob(), [
      { kind: 'setEdges', edges: ['e1'], fields: { kind: 'gutter', allowance: 50 } },
      { kind: 'insertCorner', after: 'e1', edge: 'x1', at: [305, 60] },
    ]);
    expect(job.edges['x1']).toEqual({ id: 'x1', at: [305, 60], kind: 'gutter', upstand: 300, allowance: 50 });
    expect(job.roofs['r1']?.outline).toEqual(['e0', 'e1', 'x1', 'e2', 'e3']);
  });
  const refused: readonly (readonly [command: Command, says: RegExp])[] = [
    [
      { kind: 'setScale', page: 'p1', scale: { mmPerPoint: 0, from: { by: 'ratio', ratio: 1, text: '' } } },
      /comes to nothing.*ratio such as 1:100/,
    ],
    [{ kind: 'setSystem', fields: { sideLap: 3000 } }, /as wide as the sheet.*narrower/],
    [{ kind: 'setSystem', fields: { minPiece: 40_000 } }, /longer than the roll.*shorter piece/],
    [{ kind: 'setSystem', fields: { endLap: 30_000 } }, /as long as the roll/],
    [{ kind: 'setSystem', fields: { sideLap: -1 } }, /system\.sideLap.*The old value was kept/],
    [{ kind: 'setSystem', fields: { roll: 'none' } }, /no roll “none”/],
    [{ kind: 'setRate', path: ['speeds', 'machine'], value: 0 }, /rates\.speeds\.machine/],
    [{ kind: 'setRate', path: ['labour', 'wage'], value: '12,50' }, /write money as digits/],
    [{ kind: 'removePage', page: 'p1' }, /traced on this page.*Remove the roof first/],
    [{ kind: 'moveCorner', edge: 'gone', at: [0, 0] }, /no corner “gone”/],
    [{ kind: 'setAbout', fields: { name: ' ' } }, /no name/],
    [{ kind: 'setAbout', fields: { date: 'May' } }, /not a date/],
    [{ kind: 'setEdges', edges: ['e0'], fields: { allowance: -5 } }, /below zero/],
    [{ kind: 'addCheck', page: 'p1', check: { a: [0, 0], b: [1, 0], length: 0 } }, /above zero/],
  ];
  it.each(refused)('%o is refused in words', (command, says) => {
    expect(refusalOf(smallJob(), command)).toMatch(says);
  });
  it('keep three corners', () => {
    const three = edges('t', [
      [0, 0],
      [10, 0],
      [0, 10],
    ]);
    const job = applyAll(smallJob(), [
      {
        kind: 'addRoof',
        roof: {
          id: 'r2',
          letter: 'B',
          name: 'Porch',
          page: 'p1',
          outline: ['t0', 't1', 't2'],
          fall: null,
          lines: [],
          facets: [],
          deck: null,
          laying: { direction: 'auto', firstCourse: null, closing: null },
        },
        edges: three,
      },
    ]);
    expect(refusalOf(job, { kind: 'removeCorner', edge: 't0' })).toMatch(/Three corners/);
  });
  it('remember what a person set, so that it is not called assumed', () => {
    const before = estimate(smallJob());
    expect(before.quantities.find((q) => q.key === 'hours.machine')?.assumed).toMatch(/machine/);
    const paths = ['machine', 'handLap', 'handDetail', 'efficiency', 'setupPerSeam', 'walking'] as const;
    const allowances = ['handEfficiency', 'turning', 'slowAtTJoint', 'nozzleCleaning', 'handAtStop'] as const;
    const { speeds, welding } = smallJob().rates;
    const job = applyAll(smallJob(), [
      ...paths.map((name): Command => ({ kind: 'setRate', path: ['speeds', name], value: speeds[name] })),
      ...allowances.map((name): Command => ({
        kind: 'setRate',
        path: ['welding', name],
        value: welding[name],
      })),
    ]);
    expect(estimate(job).quantities.find((q) => q.key === 'hours.machine')?.assumed).toBeNull();
  });
});

describe('differences', () => {
  it('carry one job to the next and back, folded or in turn', () => {
    const jobs = [smallJob()];
    for (const command of EDITS) jobs.push(applyAll(jobs[jobs.length - 1] as Job, [command]));
    for (let a = 0; a < jobs.length; a++)
      for (let b = a; b < jobs.length; b++) {
        const difference = differenceOf(jobs[a] as Job, jobs[b] as Job);
        expect(applyDifference(jobs[a] as Job, difference)).toEqual(jobs[b]);
        expect(applyDifference(jobs[b] as Job, reverseDifference(difference))).toEqual(jobs[a]);
        expect(reverseDifference(reverseDifference(difference))).toEqual(difference);
      }
    const steps = jobs.slice(1).map((job, i) => differenceOf(jobs[i] as Job, job));
    const folded = steps.reduce(foldDifferences);
    expect(applyDifference(jobs[0] as Job, folded)).toEqual(jobs[jobs.length - 1]);
  });
  it('vanish when a change is taken back', () => {
    const job = smallJob();
    const moved = applyAll(job, [{ kind: 'moveCorner', edge: 'e0', at: [5, 5] }]);
    const there = differenceOf(job, moved);
    expect(isEmpty(there)).toBe(false);
    expect(isEmpty(foldDifferences(there, reverseDifference(there)))).toBe(true);
  });
});

describe('the container', () => {
  const pdf = strToU8('%PDF-1.7 stands for a drawing');
  const sha = 'a'.repeat(64);
  const withDrawing = () =>
    applyAll(smallJob(), [
      {
        kind: 'addDrawing',
        drawing: { id: 'd1', name: 'plan.pdf', kind: 'pdf', sha256: sha, bytes: pdf.length, pageCount: 1 },
        pages: [],
      },
    ]);
  it('gives the same bytes for the same job, and the job and its drawings back', () => {
    const job = withDrawing();
    const bytes = packJob(job, new Map([[sha, pdf]]));
    expect(packJob(job, new Map([[sha, pdf]]))).toEqual(bytes);
    const read = unpackJob(bytes);
    if ('refusal' in read) throw new Error(read.refusal);
    expect(read.job).toEqual(job);
    expect(read.drawings.get(sha)).toEqual(pdf);
  });
  const job = (edit: (value: Record<string, unknown>) => void) => {
    const value = JSON.parse(JSON.stringify(smallJob())) as Record<string, unknown>;
    edit(value);
    return zipSync({ 'job.json': strToU8(JSON.stringify(value)) });
  };
  const broken: readonly (readonly [name: string, bytes: () => Uint8Array, says: RegExp])[] = [
    ['an empty file', () => new Uint8Array(), /empty.*earlier version/],
    ['a text file', () => strToU8('hello'), /not a job file.*\.lapjob/],
    [
      'a half-written file',
      () => packJob(withDrawing(), new Map([[sha, pdf]])).slice(0, 900),
      /damaged or only half written/,
    ],
    ['another ZIP', () => zipSync({ 'letter.txt': strToU8('x') }), /no job in this file/],
    ['a job cut short', () => zipSync({ 'job.json': strToU8('{"format":"lapjob",') }), /cut short/],
    ['a newer version', () => job((j) => (j['version'] = 99)), /newer version of Lapstrake \(format 99/],
    [
      'a value out of range',
      () => job((j) => ((j['system'] as Record<string, unknown>)['sideLap'] = -3)),
      /system\.sideLap/,
    ],
    [
      'an edge that is not there',
      () => job((j) => delete (j['edges'] as Record<string, unknown>)['e2']),
      /names an edge that is not there/,
    ],
    [
      'a drawing that is not there',
      () =>
        job(
          (j) =>
            ((j['drawings'] as Record<string, unknown>)['d9'] = {
              id: 'd9',
              name: 'lost.pdf',
              kind: 'pdf',
              sha256: sha,
              bytes: 1,
              pageCount: 1,
            }),
        ),
      /“lost.pdf” is missing/,
    ],
  ];
  it.each(broken)('refuses %s in words', (_name, bytes, says) => {
    const read = unpackJob(bytes());
    expect('refusal' in read ? read.refusal : '').toMatch(says);
  });
});

describe('the estimate', () => {
  it('is the same from scratch and with a memory, and remembers what did not change', () => {
    const job = smallJob();
    const remembering = makeEstimator();
    expect(remembering(job)).toEqual(estimate(job));
    const wage = applyAll(job, [{ kind: 'setRate', path: ['speeds', 'perTestStrip'], value: 9 }]);
    const first = remembering(job);
    const second = remembering(wage);
    expect(second).toEqual(estimate(wage));
    expect(second.roofs[0]?.layout?.sheets).toBe(first.roofs[0]?.layout?.sheets);
  });
  it('remembers across threads, which hand over copies, and plans no weld anew for a course that is moved', () => {
    const job = smallJob();
    const remembering = makeEstimator();
    const first = remembering(structuredClone(job));
    const move = { kind: 'moveCourse', roof: 'r1', at: [150, 44], day: 4 } as const;
    const moved = applyAll(job, [move]);
    const second = remembering(structuredClone(moved));
    expect(second).toEqual(estimate(moved));
    expect(second.workPlan).not.toEqual(first.workPlan);
    expect(second.weldPlan).toBe(first.weldPlan);
    expect(second.roofs[0]?.layout).toBe(first.roofs[0]?.layout);
  });
  it('balances: bought = roof + laps + trimmed + offcut, and metres by method are metres by kind', () => {
    const { quantities, weldPlan } = estimate(smallJob());
    const value = (key: string) => quantities.find((q) => q.key === key)?.value ?? Number.NaN;
    expect(value('roof.area') + value('area.lap') + value('area.trimmed') + value('area.offcut')).toBeCloseTo(
      value('area.bought'),
      9,
    );
    expect(value('weld.machine') + value('weld.hand')).toBeCloseTo(value('weld.total'), 9);
    expect(value('weld.side') + value('weld.end') + value('weld.upstand') + value('weld.detail')).toBeCloseTo(
      value('weld.total'),
      9,
    );
    expect(value('weld.total')).toBeCloseTo(
      weldPlan.runs.reduce((sum, run) => sum + run.length, 0) / 1000,
      9,
    );
    expect(value('waste.percent')).toBeCloseTo(
      (100 * (value('area.trimmed') + value('area.offcut') - value('area.reused'))) / value('area.bought'),
      9,
    );
  });
  it('says which roof is missing from the figures and why', () => {
    const bad = applyAll(smallJob(), [{ kind: 'moveCorner', edge: 'e1', at: [-50, 60] }]);
    const { findings, roofs } = estimate(bad);
    expect(roofs[0]?.layout).toBeNull();
    expect(findings[0]).toMatchObject({ severity: 'error' });
    expect(findings[0]?.message).toMatch(/“Hall” is not in the figures/);
    const blank = applyAll(smallJob(), [{ kind: 'setScale', page: 'p1', scale: null }]);
    expect(estimate(blank).findings[0]?.message).toMatch(/has no scale yet. Set it on the Plan stage/);
  });
  it('sums several roofs and puts the roof’s letter before ids', () => {
    const porch = edges('t', [
      [400, 0],
      [460, 0],
      [460, 40],
      [400, 40],
    ]);
    const two = applyAll(smallJob(), [
      {
        kind: 'addRoof',
        roof: {
          id: 'r2',
          letter: 'B',
          name: 'Porch',
          page: 'p1',
          outline: porch.map((e) => e.id),
          fall: null,
          lines: [],
          facets: [],
          deck: null,
          laying: { direction: 'auto', firstCourse: null, closing: null },
        },
        edges: porch,
      },
    ]);
    const result = estimate(two);
    const area = (quantities: typeof result.quantities) =>
      quantities.find((q) => q.key === 'roof.area')?.value ?? 0;
    expect(area(result.quantities)).toBeCloseTo(
      area(result.byRoof['r1'] ?? []) + area(result.byRoof['r2'] ?? []),
      9,
    );
    expect(result.roofs[1]?.layout?.sheets[0]?.id).toBe('B-C01.1');
    expect(result.roofs[1]?.layout?.cutList.rolls[0]?.id).toBe('B-R1');
  });
});
