// Fasteners for who sets them: what, how far apart, how many in each row; what the job does not say is left to be
// filled in and never guessed.
import type { Estimate, RoofEstimate } from '../../core/job/result';
import type { Job } from '../../core/job/schema';
import type { FastenerRow } from '../../core/fastening/types';
import { formatLength } from '../../core/units/lengths';
import type { Pack } from './canvas';
import { ListWriter, TYPE } from './paper';
import { Table, TICK } from './table';

export function writeFastenerList(pack: Pack, job: Job, estimate: Estimate): void {
  const roofs = estimate.roofs.filter(({ fastening }) => (fastening?.count ?? 0) > 0);
  if (roofs.length === 0) return;
  const list = new ListWriter(pack, job, 'Fasteners');
  const { fastener, plate } = job.rates.packs;
  list.heading('Type, length, spacing');
  const asked = new Table(list, [
    { title: 'zone', width: 120 },
    { title: 'fastener and plate', width: 150 },
    { title: 'length', width: 90 },
    { title: 'at most apart', width: 80, align: 'right' },
    { title: 'in all', width: 60, align: 'right' },
  ]);
  const count = (where: FastenerRow['where']) =>
    roofs.reduce(
      (sum, { fastening }) =>
        sum + (fastening?.rows ?? []).reduce((all, row) => (row.where === where ? all + row.count : all), 0),
      0,
    );
  const type = `${fastener.name}, ${plate.name}`;
  const length = (mm: number) => formatLength(mm, job.display);
  if (count('lap') > 0)
    asked.row(['In side laps', type, '__________', length(job.system.fastenerSpacing), String(count('lap'))]);
  if (count('edge') > 0)
    asked.row([
      'Along edges',
      type,
      '__________',
      length(job.rates.edgeFastenerSpacing),
      String(count('edge')),
    ]);
  list.gap(6);
  list.paragraph(
    'The length is not in this job: it is what lies over the deck plus the grip that the deck asks for, by a pull-out test on this roof. Fill it in before the first one is driven. The job has one spacing for the whole roof: where the licensed designer gives perimeter and corner zones a closer one, that pattern comes first.',
    { size: 9.5 },
  );
  for (const roof of roofs) {
    list.heading(roof.name);
    const table = new Table(list, [
      { title: 'row', width: 180 },
      { title: 'day', width: 44, align: 'right' },
      { title: 'length', width: 74, align: 'right' },
      { title: 'fasteners', width: 62, align: 'right' },
      { title: 'apart', width: 70, align: 'right' },
      { title: 'set', width: 40, align: 'right' },
    ]);
    const dayOf = daysOfSeams(estimate, roof.id);
    const names = rowNames(roof, estimate);
    for (const row of roof.fastening?.rows ?? [])
      table.row([
        names.get(row.id) ?? `Edge ${row.along[0] ?? ''}`,
        row.where === 'edge' ? 'as laid' : String(dayOf.get(row.along[0] ?? '') ?? ''),
        length(row.step * (row.count - 1)),
        String(row.count),
        length(row.step),
        TICK,
      ]);
  }
  list.gap(8);
  list.paragraph(
    'Fasteners are spread evenly, so a row may stand a little closer than asked for. In a lap the plate stands back from the edge of the sheet that goes under, clear of the weld.',
    TYPE.body,
  );
}

/** By the courses that the lap joins, and its number where the line is broken by an opening. */
function rowNames(
  { id, seams, fastening }: RoofEstimate,
  { workPlan }: Estimate,
): ReadonlyMap<string, string> {
  const courses = new Map(
    workPlan.days.flatMap((day) =>
      day.sheets.filter(({ roof }) => roof === id).map(({ sheet, name }) => [sheet, name] as const),
    ),
  );
  const joins = new Map(
    seams?.sideLaps.map((lap) => [
      lap.id,
      lap.between.map((sheet) => courses.get(sheet) ?? sheet).join(' and '),
    ]),
  );
  const rows = (fastening?.rows ?? []).filter((row) => row.where === 'lap');
  const all = new Map<string, string[]>();
  for (const row of rows) {
    const name = joins.get(row.along[0] ?? '') ?? row.id;
    all.set(name, [...(all.get(name) ?? []), row.id]);
  }
  return new Map(
    [...all].flatMap(([name, ids]) =>
      ids.map(
        (row, k) => [row, `Lap of ${name}${ids.length > 1 ? `, ${k + 1} of ${ids.length}` : ''}`] as const,
      ),
    ),
  );
}

/** The day of the weld along a lap, or of what is welded along an edge. */
function daysOfSeams({ weldPlan, workPlan }: Estimate, roof: string): ReadonlyMap<string, number> {
  const dayOf = new Map(workPlan.days.flatMap((day) => day.runs.map((run) => [run, day.number] as const)));
  return new Map(
    weldPlan.runs
      .filter((run) => run.roof === roof)
      .flatMap((run) => run.seams.map((seam) => [seam, dayOf.get(run.id) ?? 0] as const)),
  );
}
