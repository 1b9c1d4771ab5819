// The welds in the order of laying, for the crew: where, how, how long, and room to note what was done.
import type { Estimate } from '../../core/job/result';
import type { Job } from '../../core/job/schema';
import { formatMetres } from '../../core/units/lengths';
import { formatNumber } from '../../core/units/numbers';
import { KINDS } from '../../core/welding/kinds';
import type { WeldRun } from '../../core/welding/types';
import type { Pack } from './canvas';
import { CREW_CAUTIONS } from './cautions';
import { fitted, ListWriter, RULES, TYPE } from './paper';

export function writeWeldList(pack: Pack, job: Job, estimate: Estimate): void {
  const list = new ListWriter(pack, job, 'Welds in order');
  const roofs = estimate.roofs.filter((roof) => estimate.weldPlan.runs.some((run) => run.roof === roof.id));
  const dayOf = new Map(estimate.workPlan.days.flatMap((each) => each.runs.map((run) => [run, each.number])));
  if (roofs.length === 0) {
    list.gap(20);
    list.paragraph('There is no weld yet: no roof of this job is laid.');
  }
  for (const roof of roofs) {
    const runs = estimate.weldPlan.runs.filter((run) => run.roof === roof.id);
    list.heading(roof.name);
    writeHead(list);
    let day = 0;
    for (const run of runs) {
      const today = dayOf.get(run.id) ?? 0;
      if (today !== day) writeDay(list, today);
      day = today;
      writeRun(list, run, job);
    }
    const metres = runs.reduce((sum, run) => sum + run.length, 0) / 1000;
    list.need(16);
    list.gap(13);
    list.page.text([list.left, list.y], `${runs.length} welds, together`, TYPE.strong);
    list.page.text([list.left + COLUMNS.length, list.y], formatMetres(metres, job.display), {
      ...TYPE.strong,
      align: 'right',
    });
  }
  list.heading('Before work');
  for (const caution of CREW_CAUTIONS) list.paragraph(caution, TYPE.body, 0);
}

const COLUMNS = { seam: 26, kind: 128, method: 176, length: 268, time: 318, settings: 334, checked: 424 };

function writeHead(list: ListWriter): void {
  list.gap(10);
  const at = (x: number, text: string, align: 'left' | 'right' = 'left') =>
    list.page.text([list.left + x, list.y], text, { ...TYPE.small, align });
  at(0, 'no.');
  at(COLUMNS.seam, 'seam');
  at(COLUMNS.kind, 'kind');
  at(COLUMNS.method, 'method');
  at(COLUMNS.length, 'length', 'right');
  at(COLUMNS.time, 'minutes', 'right');
  at(COLUMNS.settings, 'settings');
  at(COLUMNS.checked, 'probed, by');
}

function writeDay(list: ListWriter, day: number): void {
  list.need(30);
  list.gap(15);
  list.page.text([list.left, list.y], `Day ${day}`, TYPE.strong);
  list.gap(3);
}

function writeRun(list: ListWriter, run: WeldRun, job: Job): void {
  list.need(13);
  list.gap(11.6);
  const { page, left, y } = list;
  const minutes =
    run.weldMinutes +
    run.handMinutes +
    run.setupMinutes +
    run.walkMinutes +
    run.turnMinutes +
    run.slowMinutes +
    run.nozzleMinutes;
  const right = { ...TYPE.body, align: 'right' } as const;
  page.text([left, y], String(run.order), TYPE.strong);
  page.text(
    [left + COLUMNS.seam, y],
    fitted(
      list.pack,
      run.seams.length > 1 ? `${run.seam} +${run.seams.length - 1}` : run.seam,
      TYPE.body,
      98,
    ),
    TYPE.body,
  );
  page.text([left + COLUMNS.kind, y], KINDS[run.kind], TYPE.body);
  page.text([left + COLUMNS.method, y], run.method, run.method === 'hand' ? TYPE.strong : TYPE.body);
  page.text([left + COLUMNS.length, y], formatMetres(run.length / 1000, job.display), right);
  page.text([left + COLUMNS.time, y], formatNumber(minutes, 1), right);
  page.line([left, y - 3], [list.right, y - 3], RULES.thin);
  for (const x of [COLUMNS.settings - 4, COLUMNS.checked - 4])
    page.line([left + x, y - 3], [left + x, y + 8.6], RULES.thin);
}
