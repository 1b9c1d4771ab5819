// Where to snap the lines: every course's edges, measured across the courses from a corner that is really there.
import { namedCorners, planHeading } from '../../core/drawing/setOut';
import type { Estimate } from '../../core/job/result';
import type { Job } from '../../core/job/schema';
import { formatLength } from '../../core/units/lengths';
import type { Pack } from './canvas';
import { ListWriter } from './paper';
import { Table, TICK } from './table';

export function writeChalkLines(pack: Pack, job: Job, estimate: Estimate): void {
  const list = new ListWriter(pack, job, 'Chalk lines');
  for (const { id, name, letter, roof, layout } of estimate.roofs) {
    if (!roof || !layout) continue;
    const { frame } = layout;
    const across = ([x, y]: readonly [number, number]) => y * frame.cos - x * frame.sin;
    const along = ([x, y]: readonly [number, number]) => x * frame.cos + y * frame.sin;
    const corner = namedCorners(roof, letter).reduce((a, b) =>
      (across(b.at) - across(a.at) || along(b.at) - along(a.at)) < 0 ? b : a,
    );
    const zero = across(corner.at);
    const dayOf = new Map(
      estimate.workPlan.days.flatMap((day) =>
        day.sheets.filter((sheet) => sheet.roof === id).map((sheet) => [sheet.course, day.number] as const),
      ),
    );
    list.heading(name);
    list.paragraph(
      `Measure from corner ${corner.name} (on every map; edge ${corner.edge} starts there), ${planHeading(frame.direction + 90)} and square to the courses, which run at ${frame.direction.toFixed(1).replace(/\.0$/, '')}° to the plan. Measure the roof before the first line: it is rarely as square as drawn.`,
      { size: 10 },
    );
    list.gap(6);
    const table = new Table(list, [
      { title: 'course', width: 90 },
      { title: 'sheet width', width: 100, align: 'right' },
      { title: 'lower edge at', width: 110, align: 'right' },
      { title: 'upper edge at', width: 110, align: 'right' },
      { title: 'day', width: 50, align: 'right' },
      { title: 'snapped', width: 50, align: 'right' },
    ]);
    for (const course of layout.courses)
      table.row([
        `Course ${course.index}`,
        formatLength(course.width, job.display),
        formatLength(course.low - zero, job.display),
        formatLength(course.low + course.width - zero, job.display),
        String(dayOf.get(course.index) ?? ''),
        TICK,
      ]);
  }
}
