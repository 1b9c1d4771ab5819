// A sheet of paper for each working day: the roof as it stands that evening, the sheets and welds of the day in bold
// with the numbers of the list, where the night is closed, and what is due in order.
import type { Estimate, RoofEstimate } from '../../core/job/result';
import type { Job } from '../../core/job/schema';
import { formatQuantity } from '../../core/units/figures';
import { formatMetres } from '../../core/units/lengths';
import { formatNumber } from '../../core/units/numbers';
import { formatScale } from '../../core/units/scales';
import { timeOf } from '../../core/units/times';
import { EARLIEST, hoursOf } from '../../core/welding/clock';
import { KINDS } from '../../core/welding/kinds';
import type { WeldRun, WorkDay } from '../../core/welding/types';
import { MM } from './canvas';
import type { Pack, PackPage, Spot } from './canvas';
import { drawScaleBar, fitPlaces, fitRoof, type Fit } from './fitRoof';
import { fitted, paperSize, RULES } from './paper';
import { COLUMN_WIDTH } from './roofColumn';
import { keyCorner, paintKey, workedOn } from './dayKey';
import { paintMarks } from './dayMarks';
import { paintCorners } from './paintCorners';

const MARGIN = 10 * MM;
const FOOT = 18 * MM;
/** Printed sizes for reading with gloves on, at arm's length. */
const LARGE = { size: 26, weight: 'bold' } as const;
const LINE = { size: 10.5 } as const;
const RULE = { size: 9 } as const;
const LINE_STRONG = { size: 10.5, weight: 'bold' } as const;

/** Draws the maps of one day after another, a sheet for each roof that is worked on. */
export function dayMapWriter(pack: Pack, job: Job, estimate: Estimate): (day: WorkDay) => void {
  const runs = new Map(estimate.weldPlan.runs.map((run) => [run.id, run]));
  return (day) => {
    const own = day.runs.flatMap((id) => runs.get(id) ?? []);
    const roofs = estimate.roofs.filter(
      ({ id, layout }) =>
        layout && (day.sheets.some((sheet) => sheet.roof === id) || own.some((run) => run.roof === id)),
    );
    for (const roof of roofs)
      drawDay(
        pack,
        job,
        estimate,
        day,
        roof,
        own.filter((run) => run.roof === roof.id),
      );
  };
}

function drawDay(
  pack: Pack,
  job: Job,
  estimate: Estimate,
  day: WorkDay,
  roof: RoofEstimate,
  runs: readonly WeldRun[],
): void {
  const size = paperSize(job.display, 'drawing');
  const page = pack.addPage(size.width, size.height);
  const low: Spot = [MARGIN, FOOT];
  const high: Spot = [size.width - MARGIN - COLUMN_WIDTH - 6 * MM, size.height - MARGIN];
  const whole = fitRoof(roof, low, high, job);
  const near = fitPlaces(workedOn(roof, day, runs), low, high, job);
  // As large as the day's own part allows; where that is no larger, the whole roof.
  const fit = near.ratio < whole.ratio ? near : whole;
  const laid = (until: number) =>
    new Set(
      estimate.workPlan.days
        .filter(({ number }) => number <= until)
        .flatMap(({ sheets }) => sheets.filter((sheet) => sheet.roof === roof.id).map(({ sheet }) => sheet)),
    );
  const [before, evening] = [laid(day.number - 1), laid(day.number)];
  const open = day.night?.roof === roof.id ? openLaps(roof, evening) : [];
  page.clipped([[low, [high[0], low[1]], high, [low[0], high[1]]]], () => {
    paintState(page, roof, fit, before, evening);
    for (const run of runs) paintRun(page, run, fit);
    for (const lap of open)
      page.line(fit.toPaper(lap.from), fit.toPaper(lap.to), { width: 3.4, dash: [9, 3, 2, 3] });
    paintCorners(page, roof, fit);
    paintMarks(page, { roof, day, runs, fit, low, high, open, keyed: fit !== whole });
  });
  if (fit !== whole) paintKey(page, roof, day, keyCorner(high));
  page.box(low, high, { stroke: RULES.firm });
  drawScaleBar(page, [low[0] + 8 * MM, low[1] + 7 * MM], fit.ratio, job);
  writeColumn(pack, page, [high[0] + 6 * MM, high[1]], { job, estimate, day, roof, runs, fit });
}

function paintState(
  page: PackPage,
  { roof, layout }: RoofEstimate,
  fit: Fit,
  before: ReadonlySet<string>,
  evening: ReadonlySet<string>,
): void {
  if (!roof || !layout) return;
  const rings = [roof.outline, ...roof.openings.map((opening) => opening.ring)].map((ring) =>
    ring.map(fit.toPaper),
  );
  page.clipped(rings, () => {
    for (const sheet of layout.sheets) {
      if (!evening.has(sheet.id)) continue;
      const ring = sheet.corners.map(fit.toPaper);
      page.area([ring], 0, before.has(sheet.id) ? 0.07 : 0.2);
      page.path(ring, { width: 0.5, ink: 0.35 }, 'closed');
    }
  });
  for (const ring of rings) page.path(ring, { width: 1.2 }, 'closed');
  for (const { at, kind } of roof.fittings)
    if (kind === 'drain' || kind === 'scupper')
      page.circle(fit.toPaper(at), 3, { stroke: { width: 0.8 }, fill: 1 });
}

function paintRun(page: PackPage, run: WeldRun, fit: Fit): void {
  const [from, to] = [fit.toPaper(run.from), fit.toPaper(run.to)];
  if (run.kind === 't-joint') return page.circle(from, 2, { fill: 0 });
  if (run.kind === 'corner' || run.kind === 'boot')
    return page.circle(from, 3, { stroke: { width: 1, dash: [1.6, 1.1] } });
  if (run.method !== 'machine') {
    // White beneath, so that the dashes show on the roof's own line as well.
    page.line(from, to, { width: 2.4, ink: 1 });
    return page.line(from, to, { width: 2.4, dash: [4, 3] });
  }
  page.line(from, to, { width: 2 });
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
  if (length < 24) return;
  const along: Spot = [(to[0] - from[0]) / length, (to[1] - from[1]) / length];
  const at = (back: number, aside: number): Spot => [
    to[0] - along[0] * back - along[1] * aside,
    to[1] - along[1] * back + along[0] * aside,
  ];
  page.area([[to, at(9, 3.4), at(9, -3.4)]], 0);
}

/** The laps that stay open: a sheet on one side only. */
function openLaps({ seams }: RoofEstimate, evening: ReadonlySet<string>) {
  return [...(seams?.sideLaps ?? []), ...(seams?.endLaps ?? [])].filter(
    ({ between }) => between.filter((sheet) => evening.has(sheet)).length === 1,
  );
}

interface DayColumn {
  readonly job: Job;
  readonly estimate: Estimate;
  readonly day: WorkDay;
  readonly roof: RoofEstimate;
  readonly runs: readonly WeldRun[];
  readonly fit: Fit;
}

function writeColumn(pack: Pack, page: PackPage, [left, top]: Spot, column: DayColumn): void {
  const { job, estimate, day, roof, runs, fit } = column;
  const right = left + COLUMN_WIDTH;
  const machine = (k: number) => job.rates.welding.machines[k]?.name ?? `Machine ${k + 1}`;
  let y = top - 18;
  const put = (name: string, figure: string, strong = false) => {
    y -= 15;
    const style = strong ? LINE_STRONG : LINE;
    const room = COLUMN_WIDTH - page.widthOf(figure, style) - 6;
    page.text([left, y], fitted(pack, name, style, room), style);
    page.text([right, y], figure, { ...style, align: 'right' });
    page.line([left, y - 3.6], [right, y - 3.6], RULES.thin);
  };
  const heading = (text: string) => {
    y -= 22;
    page.text([left, y], text, { size: 11, weight: 'bold' });
    y -= 4;
    page.line([left, y], [right, y], RULES.firm);
  };
  page.text([left, y], `Day ${day.number}`, LARGE);
  page.text([right, y], day.date ?? 'no start date given', { ...LINE, align: 'right' });
  y -= 14;
  page.text([left, y], fitted(pack, `${roof.name}, ${job.about.name}`, LINE, COLUMN_WIDTH), LINE);
  y -= 4;
  page.line([left, y], [right, y], RULES.firm);
  put('Scale of this sheet', formatScale(fit.ratio, job.display));
  put('Hours', hoursOf(day), true);
  put('Sheets to lay', `${day.sheets.filter((sheet) => sheet.roof === roof.id).length}`);
  put('Weld', formatMetres(runs.reduce((sum, run) => sum + run.length, 0) / 1000, job.display));
  put(
    'Crew time of the day',
    `${formatNumber(day.minutes / 60, 1)} of ${formatNumber(day.capacity / 60, 1)} h`,
  );
  day.machineMinutes.forEach((minutes, k) => {
    if (minutes > 0)
      put(machine(k), `${formatNumber(minutes / 60, 1)} of ${formatNumber(day.machineCapacity / 60, 1)} h`);
  });
  if (day.night?.roof === roof.id)
    put('Close for the night', formatQuantity(day.night.length / 1000, 'm', job.display), true);
  heading('Test strips due, before the seam');
  for (const strip of day.strips)
    put(
      `${timeOf(strip.at)}  ${strip.machine === null ? 'Hand gun' : machine(strip.machine)}, ${strip.reason}`,
      '[   ]',
    );
  heading('Welds in order');
  const listed = runs.filter((run) => run.kind !== 't-joint');
  const joints = runs.length - listed.length;
  const rules = [
    'Square: the sheet is set down at this corner; open arrow: the way it is unrolled. Solid: by machine, the full arrow is its way. Dashed: by hand. Chain: close for the night, a sheet lies on one side only.',
    estimate.workPlan.findings.some(
      (finding) => finding.rule === 'no-working-drain' && finding.roof === roof.id,
    )
      ? 'A drain for the night is in doubt on this roof: see the findings of the job.'
      : 'Keep a drain of the laid part open and clear this evening.',
    'Nothing is unrolled that is not fixed or welded today; windward edge first. Probe every metre when it is cold. Local law and the site’s safety plan come first: edges, openings, hot work, wet decks.',
    EARLIEST,
  ];
  const small = rules.flatMap((rule) => pack.broken(rule, RULE, COLUMN_WIDTH));
  // What stands beneath has its room; where not all welds have theirs, so has the line that says it.
  const beneath = FOOT + 6 + 11 * small.length + (joints > 0 ? 15 : 0);
  const lines = Math.floor((y - beneath) / 15);
  const shown = lines >= listed.length ? listed.length : Math.max(0, lines - 1);
  for (const run of listed.slice(0, shown))
    put(
      `${run.order}  ${calledInFull(run)}`,
      `${run.method}  ${formatMetres(run.length / 1000, job.display)}`,
    );
  if (shown < listed.length)
    put(`and ${listed.length - shown} more: see the list of welds, day ${day.number}`, '');
  if (joints > 0) put(`T-joints (dots): treat, then probe`, String(joints), true);
  y -= 6;
  for (const line of small) {
    y -= 11;
    page.text([left, y], line, RULE);
  }
}

/** The seam with its kind, which the names of flashings, corners and boots begin with already. */
function calledInFull({ seam, seams, kind }: WeldRun): string {
  if (seam.startsWith(KINDS[kind])) return seam;
  return `${seam}${seams.length > 1 ? ` and ${seams.length - 1} more` : ''}, ${KINDS[kind]}`;
}
