// Where to snap the lines: every course's edges, measured across the courses from a corner that is really there; the
// rows along an edge from the corner where that edge starts.
import { namedCorners, planHeading, type NamedCorner } from '../../core/drawing/setOut';
import type { Estimate, RoofEstimate } from '../../core/job/result';
import type { Job } from '../../core/job/schema';
import type { Band } from '../../core/sheets/types';
import { formatLength } from '../../core/units/lengths';
import type { Pack } from './canvas';
import { ListWriter } from './paper';
import { Table, TICK } from './table';

export function writeChalkLines(pack: Pack, job: Job, estimate: Estimate): void {
  const list = new ListWriter(pack, job, 'Chalk lines');
  for (const roof of estimate.roofs) {
    if (!roof.roof || !roof.layout) continue;
    list.heading(roof.name);
    list.paragraph('Measure the roof before the first line: it is rarely as square as drawn.', { size: 10 });
    const corners = namedCorners(roof.roof, roof.letter);
    for (const band of roof.layout.bands) writeBand(list, job, estimate, { roof, band, corners });
  }
}

interface BandLines {
  readonly roof: RoofEstimate;
  readonly band: Band;
  readonly corners: readonly NamedCorner[];
}

function whatRuns(band: Band): string {
  if (band.kind === 'field') return 'The courses run';
  return band.kind === 'bend'
    ? `The sheet across the bend (${band.id}) runs`
    : `The rows along an edge (${band.id}) run`;
}

function writeBand(list: ListWriter, job: Job, estimate: Estimate, lines: BandLines): void {
  const { roof, band, corners } = lines;
  const { frame } = band;
  const courses = roof.layout?.courses.filter((course) => course.band === band.id) ?? [];
  if (courses.length === 0) return;
  const across = ([x, y]: readonly [number, number]) => y * frame.cos - x * frame.sin;
  const along = ([x, y]: readonly [number, number]) => x * frame.cos + y * frame.sin;
  const corner = corners.reduce((a, b) =>
    (across(b.at) - across(a.at) || along(b.at) - along(a.at)) < 0 ? b : a,
  );
  const zero = across(corner.at);
  const laid = new Map(
    estimate.workPlan.days.flatMap((day) =>
      day.sheets
        .filter((sheet) => sheet.roof === roof.id)
        .map(({ course, name }) => [course, { name, day: day.number }] as const),
    ),
  );
  list.gap(6);
  list.paragraph(
    `${whatRuns(band)} at ${frame.direction.toFixed(1).replace(/\.0$/, '')}° to the plan. Measure from corner ${corner.name} (on every map; edge ${corner.edge} starts there), ${planHeading(frame.direction + 90)} and square to them.`,
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
  const length = (mm: number) => formatLength(mm, job.display);
  for (const course of courses)
    table.row([
      laid.get(course.index)?.name ?? `Course ${course.number}`,
      length(course.width),
      length(course.low - zero),
      length(course.low + course.width - zero),
      String(laid.get(course.index)?.day ?? ''),
      TICK,
    ]);
}
