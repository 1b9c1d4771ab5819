// Commands on the plan of work.
import { describe, expect, it } from 'vitest';
import { applyCommand } from '../../../core/job/commands/applyCommand';
import type { Command } from '../../../core/job/commands/types';
import { applyDifference, differenceOf, reverseDifference } from '../../../core/job/difference';
import { readJob } from '../../../core/job/container';
import { jobSchema } from '../../../core/job/schema';
import { estimate } from '../../../core/job/estimate';
import { applyAll, smallJob } from '../../support/jobs';

const refusal = (command: Command) => {
  const result = applyCommand(smallJob(), command);
  return 'refusal' in result ? result.refusal : '';
};

describe('the plan of work', () => {
  it('takes a calendar and refuses what is no date', () => {
    const job = applyAll(smallJob(), [
      { kind: 'setWork', fields: { start: '2026-03-06', lost: ['2026-03-09'] } },
    ]);
    const dates = estimate(job).workPlan.days.map((day) => day.date);
    expect(dates.slice(0, 2)).toEqual(['2026-03-06', '2026-03-10']);
    expect(refusal({ kind: 'setWork', fields: { start: '6 March' } })).toMatch(
      /year-month-day.*old value was kept/,
    );
    expect(refusal({ kind: 'setWork', fields: { access: { roof: 'r9', at: [0, 0] } } })).toMatch(
      /no roof “r9”/,
    );
  });
  it('lays from the windward edge only once the wind is known', () => {
    expect(refusal({ kind: 'setWork', fields: { order: 'windward first' } })).toMatch(
      /where the wind comes from/,
    );
    const job = applyAll(smallJob(), [{ kind: 'setWork', fields: { wind: 90, order: 'windward first' } }]);
    const first = estimate(job).workPlan.days[0]?.sheets[0]?.course ?? 0;
    const last = Math.max(...estimate(job).workPlan.days.flatMap((day) => day.sheets.map((s) => s.course)));
    expect(first).toBe(last);
  });
  it('takes one forecast for each day', () => {
    const calm = { day: 2, from: null, speed: 3, celsius: null, humidity: null, hours: [] };
    expect(refusal({ kind: 'setWork', fields: { forecast: [calm, { ...calm, speed: 5 }] } })).toMatch(
      /one forecast for each day/,
    );
  });
  it('moves the course at a place of the page, replaces the move, and takes it back', () => {
    // One point is 100 mm: course 2 has its middle at about 4.4 m.
    const move = (day: number | null): Command => ({ kind: 'moveCourse', roof: 'r1', at: [150, 44], day });
    const dayOf = (job: ReturnType<typeof smallJob>) =>
      estimate(job).workPlan.days.find((day) => day.sheets.some((sheet) => sheet.course === 2))?.number;
    const moved = applyAll(smallJob(), [move(4), move(5)]);
    expect(moved.work.moved).toHaveLength(1);
    expect(dayOf(moved)).toBe(5);
    expect(dayOf(applyAll(moved, [move(null)]))).toBe(dayOf(smallJob()));
    expect(refusal({ kind: 'moveCourse', roof: 'r1', at: [0, 0], day: 0 })).toMatch(/no working day 0/);
  });
  it('is undone like anything else', () => {
    const before = smallJob();
    const after = applyAll(before, [{ kind: 'setWork', fields: { start: '2026-03-06' } }]);
    expect(applyDifference(after, reverseDifference(differenceOf(before, after)))).toEqual(before);
  });
});

describe('lists of rates', () => {
  const machine = (name: string) => ({ name, factor: 0.9, handed: 'left' as const, amps: 16 });
  const withTwo = applyAll(smallJob(), [
    {
      kind: 'setRate',
      path: ['welding', 'machines'],
      value: [...smallJob().rates.welding.machines, machine('Second')],
    },
  ]);

  it('an added row is a person’s, and the shipped one beside it stays assumed', () => {
    expect(withTwo.confirmed).toContain('rates.welding.machines.1.amps');
    expect(withTwo.confirmed).not.toContain('rates.welding.machines.0.amps');
  });
  it('taking a row out moves what was confirmed of those behind it', () => {
    const [, second] = withTwo.rates.welding.machines;
    const one = applyAll(withTwo, [{ kind: 'setRate', path: ['welding', 'machines'], value: [second] }]);
    expect(one.rates.welding.machines).toEqual([machine('Second')]);
    expect(one.confirmed).toContain('rates.welding.machines.0.amps');
    expect(one.confirmed.some((path) => path.startsWith('rates.welding.machines.1'))).toBe(false);
  });
  it('the last machine and the last row of a table stay', () => {
    for (const list of ['machines', 'sheets', 'ambient', 'surfaces'])
      expect(refusal({ kind: 'setRate', path: ['welding', list], value: [] })).toMatch(/old value was kept/);
  });
  it('the surface planned for cannot leave the table', () => {
    const rest = smallJob().rates.welding.surfaces.slice(1);
    expect(refusal({ kind: 'setRate', path: ['welding', 'surfaces'], value: rest })).toMatch(
      /“new and clean” is planned for/,
    );
  });
});

describe('a job of the first version', () => {
  const old = (longBreaks: number) => {
    const job = JSON.parse(JSON.stringify(smallJob())) as {
      version: number;
      confirmed: string[];
      rates: { welding: Record<string, unknown> };
    };
    delete job.rates.welding['clock'];
    job.rates.welding['longBreaks'] = longBreaks;
    return { ...job, version: 1, confirmed: [...job.confirmed, 'rates.welding.longBreaks'] };
  };
  const read = (longBreaks: number) => {
    const result = readJob(JSON.stringify(old(longBreaks)));
    if ('refusal' in result) throw new Error(result.refusal);
    return result.job;
  };

  it('its count of long breaks becomes breaks with times, as many and long enough for new strips', () => {
    // Eight hours from seven, cut in equal parts.
    expect(read(0).rates.welding.clock).toEqual({ start: '07:00', breaks: [] });
    expect(read(1).rates.welding.clock.breaks).toEqual([{ at: '11:00', minutes: 30 }]);
    expect(read(3).rates.welding.clock.breaks.map(({ at }) => at)).toEqual(['09:00', '11:00', '13:00']);
    expect(read(1).confirmed).toContain('rates.welding.clock.breaks');
    expect(read(1).version).toBe(2);
  });
  it('without a version, or with a broken one, it is refused in words', () => {
    for (const version of [undefined, 0, 1.5, 'one'])
      expect(readJob(JSON.stringify({ ...old(1), version }))).toMatchObject({
        refusal: expect.stringMatching(/no version of its format/) as string,
      });
  });
});

describe('a job from before wind and leads', () => {
  it('is read with nothing said of the wind and shipped limits', () => {
    const old = JSON.parse(JSON.stringify(smallJob())) as Record<
      string,
      Record<string, Record<string, unknown>>
    >;
    delete old['work']?.['wind'];
    delete old['work']?.['forecast'];
    const welding = old['rates']?.['welding'] as Record<string, Record<string, unknown>>;
    delete welding['wind'];
    delete old['rates']?.['packs']?.['nightSeal'];
    delete welding['adhering']?.['drying'];
    delete welding['supply']?.['leads'];
    expect(jobSchema.parse(old)).toEqual(smallJob());
  });
});
