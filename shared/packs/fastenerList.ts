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
  const length = (mm: number) => formatLength(mm, job.display);
  for (const roof of roofs) {
    const rows = roof.fastening?.rows ?? [];
    const type = `${fastener.name}, ${plate.name}`;
    const long = roof.fastener?.length ?? null;
    if (roofs.length > 1) asked.band(roof.name);
    for (const { name, apart, own } of zonesOf(job, roof))
      if (own.length > 0)
        asked.row([
          name,
          type,
          long === null ? '__________' : length(long),
          length(apart),
          String(own.reduce((sum, row) => sum + row.count, 0)),
        ]);
    if (rows.length > 0 && roof.fastener)
      list.paragraph(`Length: ${roof.fastener.formula.replace(/\.$/, '')}.`, { size: 9.5 });
  }
  list.gap(6);
  list.paragraph(
    'The grip counted here is common practice only: a pull-out test on this roof and the maker’s approval come first. Where the licensed designer gives perimeter and corner zones a closer pattern than stands here, theirs holds.',
    { size: 9.5 },
  );
  for (const roof of roofs) {
    list.heading(roof.name);
    const table = new Table(list, [
      { title: 'row', width: 196 },
      { title: 'day', width: 44, align: 'right' },
      { title: 'length', width: 70, align: 'right' },
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
        length(row.first + row.step * (row.count - 1)),
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

interface ZoneRows {
  readonly name: string;
  readonly apart: number;
  readonly own: readonly FastenerRow[];
}

/** What is asked for in each zone of a roof; zones that nobody gave have no rows. */
export function zonesOf({ rates, system, roofs }: Job, { id, fastening }: RoofEstimate): readonly ZoneRows[] {
  const rows = fastening?.rows ?? [];
  const zones = roofs[id]?.fastening;
  const inLaps = (zone: FastenerRow['zone']) =>
    rows.filter((row) => row.where === 'lap' && row.zone === zone);
  const closest = (spacing = system.fastenerSpacing) => Math.min(spacing, system.fastenerSpacing);
  return [
    {
      name: zones?.perimeter || zones?.corner ? 'In laps, field' : 'In laps',
      apart: system.fastenerSpacing,
      own: inLaps('field'),
    },
    { name: 'In laps, perimeter', apart: closest(zones?.perimeter?.spacing), own: inLaps('perimeter') },
    { name: 'In laps, corners', apart: closest(zones?.corner?.spacing), own: inLaps('corner') },
    {
      name: 'Along edges',
      apart: rates.edgeFastenerSpacing,
      own: rows.filter((row) => row.where === 'edge'),
    },
  ];
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
  const zoneOf = new Map(rows.map((row) => [row.id, row.zone]));
  const all = new Map<string, string[]>();
  for (const row of rows) {
    const name = joins.get(row.along[0] ?? '') ?? row.id;
    all.set(name, [...(all.get(name) ?? []), row.id]);
  }
  return new Map(
    [...all].flatMap(([name, ids]) =>
      ids.map((row, k) => {
        const zone = zoneOf.get(row) ?? 'field';
        const part = ids.length > 1 ? `, ${k + 1} of ${ids.length}` : '';
        return [row, `Lap of ${name}${part}${zone === 'field' ? '' : `, ${zone}`}`] as const;
      }),
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
