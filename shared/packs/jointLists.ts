// Two lists for after the machine has gone by: every T-joint with its place and its treatment; and what is probed when,
// with how far back to go after a failed trial.
import { namedCorners, setOutFrom } from '../../core/drawing/setOut';
import type { Estimate } from '../../core/job/result';
import type { Job } from '../../core/job/schema';
import { issuesOf, logOf, toProbeAgain } from '../../core/job/weldLog';
import { formatMetres } from '../../core/units/lengths';
import type { WeldRun, WorkDay } from '../../core/welding/types';
import type { Pack } from './canvas';
import { ListWriter, TYPE } from './paper';
import { placeWords } from './setOutWords';
import { Table, TICK } from './table';

export function writeJointList(pack: Pack, job: Job, estimate: Estimate): void {
  const joints = estimate.weldPlan.runs.filter((run) => run.kind === 't-joint');
  if (joints.length === 0) return;
  const list = new ListWriter(pack, job, 'T-joints');
  const dayOf = new Map(estimate.workPlan.days.flatMap((day) => day.runs.map((run) => [run, day.number])));
  const patched = joints.some((run) => run.length > 0);
  list.heading(`${joints.length} T-joints`);
  list.paragraph(
    patched
      ? 'Three layers meet at each: chamfer the edge of the middle sheet, weld hard into the step, and set a patch over it once it has cooled. Probe all round, cold.'
      : 'Three layers meet at each: chamfer the edge of the middle sheet, weld hard into the step and roll it down. Probe across the step, cold.',
    { size: 10 },
  );
  for (const { id, name, letter, roof, layout, seams } of estimate.roofs) {
    const own = joints.filter((run) => run.roof === id);
    if (!roof || !layout || !seams || own.length === 0) continue;
    const corners = namedCorners(roof, letter);
    const laps = new Map(seams.tJoints.map((joint) => [joint.id, joint.endLap]));
    list.gap(10);
    list.paragraph(name, TYPE.heading);
    const table = new Table(list, [
      { title: 'T-joint', width: 62 },
      { title: 'day', width: 30, align: 'right' },
      { title: 'place on the plan', width: 232 },
      { title: 'end lap', width: 74 },
      { title: 'do', width: 52 },
      { title: 'done', width: 30 },
      { title: 'probed', width: 30 },
    ]);
    for (const run of own)
      table.row([
        run.seam,
        String(dayOf.get(run.id) ?? ''),
        placeWords(setOutFrom(corners, layout.frame, run.from), layout.frame, job.display),
        laps.get(run.seam) ?? '',
        run.length > 0 ? 'patch' : 'chamfer',
        TICK,
        TICK,
      ]);
  }
}

export function writeProbeList(pack: Pack, job: Job, estimate: Estimate): void {
  const list = new ListWriter(pack, job, 'Probing');
  writeLogged(list, job);
  list.heading('What is probed, and when');
  list.paragraph(
    'Every metre, by hand, with a blunt probe along the edge, once the weld is cold: the morning’s before the long break, the rest before the crew leaves. Mark what opens, weld or patch it the same day, probe it again. Nothing is covered or walked over before.',
    { size: 10 },
  );
  list.gap(4);
  list.paragraph(
    'After a failed trial: stop that machine. Every weld in its row from the failed one back to the last good trial is probed again; cut out a piece where the probe is in doubt. A trial that fails on scrap before the first seam costs nothing but the strip.',
    { size: 10, weight: 'bold' },
  );
  const table = new Table(list, [
    { title: 'with', width: 96 },
    { title: 'welds, in order, back to the day’s first good trial', width: 236 },
    { title: 'metres', width: 56, align: 'right' },
    { title: 'probed', width: 34 },
    { title: 'by', width: 44 },
    { title: 'again', width: 34 },
  ]);
  const runs = new Map(estimate.weldPlan.runs.map((run) => [run.id, run]));
  for (const day of estimate.workPlan.days) {
    table.band(`Day ${day.number}${day.date === null ? '' : `, ${day.date}`}`);
    for (const { name, own } of byTool(day, runs, job))
      table.row([
        name,
        orders(own),
        formatMetres(own.reduce((sum, run) => sum + run.length, 0) / 1000, job.display),
        TICK,
        '',
        TICK,
      ]);
  }
}

/** What the log asks for now, worst first on the page. */
function writeLogged(list: ListWriter, job: Job): void {
  const issues = issuesOf(job);
  const issue = issues.at(-1);
  if (!issue) return;
  const again = toProbeAgain(issue, issues, logOf(job));
  if (again.length === 0) return;
  list.heading(`To be probed again now, issue ${issue.number}`);
  const table = new Table(list, [
    { title: 'seam', width: 150 },
    { title: 'after the failed trial on', width: 180 },
    { title: 'of', width: 90 },
    { title: 'probed', width: 40 },
    { title: 'by', width: 40 },
  ]);
  for (const { seam, entry } of again)
    table.row([seam, `${entry.on ?? ''}, ${entry.machine}`, entry.date, TICK, ''], 'bold');
}

function byTool(
  day: WorkDay,
  runs: ReadonlyMap<string, WeldRun>,
  job: Job,
): { readonly name: string; readonly own: readonly WeldRun[] }[] {
  const own = day.runs.flatMap((id) => runs.get(id) ?? []);
  const tools = [...new Set(own.map((run) => run.machine))].sort((a, b) => (a ?? Infinity) - (b ?? Infinity));
  return tools.map((machine) => ({
    name: machine === null ? 'Hand gun' : (job.rates.welding.machines[machine]?.name ?? 'Machine'),
    own: own.filter((run) => run.machine === machine),
  }));
}

/** 3–7, 9, 12–14 */
function orders(runs: readonly WeldRun[]): string {
  const spans: [number, number][] = [];
  for (const { order } of runs) {
    const last = spans.at(-1);
    if (last && order === last[1] + 1) last[1] = order;
    else spans.push([order, order]);
  }
  return spans.map(([a, b]) => (a === b ? String(a) : `${a}–${b}`)).join(', ');
}
