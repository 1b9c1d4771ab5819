// Commands on the plan of work.
import { describe, expect, it } from 'vitest';
import { applyCommand } from '../../../core/job/commands/applyCommand';
import type { Command } from '../../../core/job/commands/types';
import { applyDifference, differenceOf, reverseDifference } from '../../../core/job/difference';
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
