// The days of the job on one list, what slows the work in each, and how near the plan is to the least there is.
import type { Estimate } from '../../core/job/result';
import type { Job } from '../../core/job/schema';
import { formatMetres } from '../../core/units/lengths';
import { formatNumber } from '../../core/units/numbers';
import type { Pack } from './canvas';
import { ListWriter, TYPE } from './paper';
import { Table } from './table';

export function writeDaysAtAGlance(pack: Pack, job: Job, estimate: Estimate): void {
  const { days, leastDays, leastMinutes, method, findings } = estimate.workPlan;
  const list = new ListWriter(pack, job, 'Days');
  list.heading(`${days.length} working days`);
  const hours = (minutes: number) => formatNumber(minutes / 60, 1);
  const table = new Table(list, [
    { title: 'day', width: 34 },
    { title: 'date', width: 74 },
    { title: 'sheets', width: 44, align: 'right' },
    { title: 'weld', width: 62, align: 'right' },
    { title: 'crew h', width: 58, align: 'right' },
    { title: 'of', width: 44, align: 'right' },
    { title: 'machine h', width: 92, align: 'right' },
    { title: 'close for the night', width: 96, align: 'right' },
  ]);
  for (const day of days)
    table.row([
      String(day.number),
      day.date ?? '',
      String(day.sheets.length),
      formatMetres(day.weld / 1000, job.display),
      hours(day.minutes),
      hours(day.capacity),
      day.machineMinutes.map(hours).join(' + '),
      day.night ? formatMetres(day.night.length / 1000, job.display) : '',
    ]);
  const sum = (part: (day: (typeof days)[number]) => number) =>
    days.reduce((total, day) => total + part(day), 0);
  table.row(
    [
      'all',
      '',
      String(sum((day) => day.sheets.length)),
      formatMetres(sum((day) => day.weld) / 1000, job.display),
      hours(sum((day) => day.minutes)),
      hours(sum((day) => day.capacity)),
      hours(sum((day) => day.machineMinutes.reduce((all, minutes) => all + minutes, 0))),
      '',
    ],
    'bold',
  );
  list.gap(8);
  list.paragraph(
    `No plan of this work takes fewer than ${leastDays} days or ${hours(leastMinutes)} crew hours; this one takes ${days.length} and ${hours(sum((day) => day.minutes))}. ${method}`,
    { size: 9.5 },
  );
  writeSlowed(list, estimate);
  if (findings.length > 0) {
    list.heading('What stands against the days');
    for (const finding of findings) list.paragraph(finding.message, TYPE.body, 0);
  }
}

function writeSlowed(list: ListWriter, { workPlan }: Estimate): void {
  const { days } = workPlan;
  const parts = days[0]?.slowed ?? [];
  list.heading('What slows the work');
  if (parts.every(({ factor }) => factor === 1)) {
    list.paragraph(
      'Height, crowding and weather are all set to × 1: nothing is added for them. Where the roof is high, full of penetrations or worked on in the cold, set them in the job’s rates.',
      { size: 9.5 },
    );
    return;
  }
  list.paragraph(
    'Crew hours that each adds to laying, fastening, welding and probing, on top of those before it. They are within the hours above.',
    { size: 9.5 },
  );
  const table = new Table(list, [
    { title: 'day', width: 60 },
    ...parts.map(({ name, factor }) => ({
      title: `${name} × ${formatNumber(factor, 2)}`,
      width: 110,
      align: 'right' as const,
    })),
    { title: 'together', width: 90, align: 'right' },
  ]);
  const row = (name: string, minutes: readonly number[], weight?: 'bold') =>
    table.row(
      [name, ...minutes, minutes.reduce((sum, each) => sum + each, 0)].map((cell) =>
        typeof cell === 'number' ? `${formatNumber(cell / 60, 1)} h` : cell,
      ),
      weight,
    );
  for (const day of days)
    row(
      `Day ${day.number}`,
      day.slowed.map(({ minutes }) => minutes),
    );
  row(
    'all',
    parts.map((_, k) => days.reduce((sum, day) => sum + (day.slowed[k]?.minutes ?? 0), 0)),
    'bold',
  );
}
