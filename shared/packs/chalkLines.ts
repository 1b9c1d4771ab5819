// Where to snap the lines: every course's edges, measured across the courses from a corner that is really there.
import type { Estimate } from '../../core/job/result';
import type { Job } from '../../core/job/schema';
import { formatLength } from '../../core/units/lengths';
import type { Pack } from './canvas';
import { ListWriter, RULES, TYPE } from './paper';

const AT = { width: 150, lower: 250, upper: 350, day: 430 };

export function writeChalkLines(pack: Pack, job: Job, estimate: Estimate): void {
  const list = new ListWriter(pack, job, 'Chalk lines');
  for (const { id, name, roof, layout } of estimate.roofs) {
    if (!roof || !layout) continue;
    const { frame } = layout;
    const across = ([x, y]: readonly [number, number]) => y * frame.cos - x * frame.sin;
    const along = ([x, y]: readonly [number, number]) => x * frame.cos + y * frame.sin;
    const corner = roof.edges
      .filter((edge) => edge.ring === 0)
      .reduce((a, b) => ((across(b.from) - across(a.from) || along(b.from) - along(a.from)) < 0 ? b : a));
    const zero = across(corner.from);
    const dayOf = new Map(
      estimate.workPlan.days.flatMap((day) =>
        day.sheets.filter((sheet) => sheet.roof === id).map((sheet) => [sheet.course, day.number] as const),
      ),
    );
    list.heading(name);
    list.paragraph(
      `Measure from the corner where edge ${corner.id} starts (${formatLength(corner.from[0], job.display)}, ${formatLength(corner.from[1], job.display)} on the plan), square to the courses, which run at ${frame.direction.toFixed(1).replace(/\.0$/, '')}° to the plan. Measure the roof before the first line: it is rarely as square as drawn.`,
    );
    list.gap(12);
    const head = (x: number, text: string) =>
      list.page.text([list.left + x, list.y], text, { ...TYPE.small, align: x === 0 ? 'left' : 'right' });
    head(0, 'course');
    head(AT.width, 'sheet width');
    head(AT.lower, 'lower edge at');
    head(AT.upper, 'upper edge at');
    head(AT.day, 'day');
    for (const course of layout.courses) {
      list.need(15);
      list.gap(14);
      const put = (x: number, text: string, bold = false) =>
        list.page.text([list.left + x, list.y], text, {
          size: 9.5,
          weight: bold ? 'bold' : 'regular',
          align: 'right',
        });
      list.page.text([list.left, list.y], `Course ${course.index}`, { size: 9.5, weight: 'bold' });
      put(AT.width, formatLength(course.width, job.display));
      put(AT.lower, formatLength(course.low - zero, job.display));
      put(AT.upper, formatLength(course.low + course.width - zero, job.display), true);
      put(AT.day, String(dayOf.get(course.index) ?? ''));
      list.page.line([list.left, list.y - 3.4], [list.left + AT.day, list.y - 3.4], RULES.thin);
    }
  }
}
