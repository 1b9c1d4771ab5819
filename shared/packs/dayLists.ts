// For each day the work in its order, to be ticked off: prove, set down and unroll, fasten, weld, treat, probe, close.
import { namedCorners, planHeading, setDownPoint, setOutFrom } from '../../core/drawing/setOut';
import type { Estimate, RoofEstimate } from '../../core/job/result';
import type { Job } from '../../core/job/schema';
import { formatLength, formatMetres } from '../../core/units/lengths';
import { formatNumber } from '../../core/units/numbers';
import type { WeldRun, WorkDay } from '../../core/welding/types';
import type { Pack } from './canvas';
import { fitted, ListWriter, RULES } from './paper';
import { frameOf, placeWords } from './setOutWords';
import { KINDS } from './weldList';

const STEP = 19;
const WORDS = { size: 11 } as const;
const STRONG = { size: 11, weight: 'bold' } as const;
const BESIDE = { size: 9, ink: 0.2 } as const;

/** Writes the list of one day after another. */
export function dayListWriter(pack: Pack, job: Job, estimate: Estimate): (day: WorkDay) => void {
  const runs = new Map(estimate.weldPlan.runs.map((run) => [run.id, run]));
  const roofs = new Map(estimate.roofs.map((roof) => [roof.id, roof]));
  const fasteners = fastenersBySheet(estimate);
  return (day) => {
    const list = new ListWriter(pack, job, `Day ${day.number} in order`);
    writeHead(list, job, day);
    let number = 0;
    const step = (text: string, beside: string, strong = false) => {
      const before = list.page;
      list.need(STEP);
      if (list.page !== before) list.gap(6);
      list.gap(STEP);
      number++;
      const { page, left, right, y } = list;
      page.box([left, y - 2.5], [left + 13, y + 10.5], { stroke: { width: 0.9 } });
      page.text([left + 38, y], String(number), { ...WORDS, align: 'right', ink: 0.4 });
      const room = right - left - 46 - pack.widthOf(beside, BESIDE) - 8;
      const style = strong ? STRONG : WORDS;
      page.text([left + 46, y], fitted(pack, text, style, room), style);
      page.text([right, y], beside, { ...BESIDE, align: 'right' });
      page.line([left, y - 5.5], [right, y - 5.5], RULES.thin);
    };
    const machine = (k: number | null) =>
      k === null ? 'Hand gun' : (job.rates.welding.machines[k]?.name ?? `Machine ${k + 1}`);
    for (const strip of day.strips)
      if (strip.reason !== 'after a break')
        step(`Trial strip: ${machine(strip.machine)}`, `${strip.reason}, pull it cold`, true);
    const own = day.runs.flatMap((id) => runs.get(id) ?? []);
    const sheets = new Set(day.sheets.map(({ roof, sheet }) => `${roof}/${sheet}`));
    const weld = (run: WeldRun) => step(...weldWords(run, machine(run.machine), job));
    for (const run of own) if (!sheets.has(`${run.roof}/${run.after}`)) weld(run);
    for (const sheet of day.sheets) {
      const roof = roofs.get(sheet.roof);
      if (roof) for (const [text, beside] of layWords(roof, sheet, job)) step(text, beside, true);
      const count = fasteners.get(`${sheet.roof}/${sheet.sheet}`) ?? 0;
      const long = roof?.fastener?.length ?? null;
      if (count > 0)
        step(
          `Fasten the lap under ${sheet.sheet}`,
          `${count} fasteners${long === null ? '' : ` of ${formatLength(long, job.display)}`} and plates`,
        );
      for (const run of own) if (run.roof === sheet.roof && run.after === sheet.sheet) weld(run);
    }
    for (const strip of day.strips)
      if (strip.reason === 'after a break')
        step(`After the long break, before welding on: trial strip, ${machine(strip.machine)}`, '', true);
    step(
      'Probe every metre, cold; mend, and probe the mending again',
      formatMetres(day.weld / 1000, job.display),
      true,
    );
    if (day.night)
      step(
        `Close for the night along course ${day.night.name}`,
        `${formatMetres(day.night.length / 1000, job.display)}, a drain open`,
        true,
      );
    step('Fire watch after the last weld, machines cold and put away', '', true);
  };
}

function writeHead(list: ListWriter, job: Job, day: WorkDay): void {
  const { unroll, stop } = job.rates.welding.wind;
  list.gap(30);
  list.page.text([list.left, list.y], `Day ${day.number}`, { size: 24, weight: 'bold' });
  list.page.text([list.right, list.y], day.date ?? '', { size: 13, align: 'right' });
  list.gap(6);
  list.paragraph(
    `${day.sheets.length} sheets, ${formatMetres(day.weld / 1000, job.display)} of weld, ${formatNumber(day.minutes / 60, 1)} of ${formatNumber(day.capacity / 60, 1)} crew hours. ${windWords(job, day)}From ${formatNumber(unroll, 1)} m/s nothing is unrolled, from ${formatNumber(stop, 1)} m/s all work stops; the site’s own limits come first. Nothing is unrolled that is not fixed or welded today.`,
    { size: 10 },
  );
  list.gap(4);
  list.page.line([list.left, list.y], [list.right, list.y], RULES.firm);
}

function windWords({ work }: Job, day: WorkDay): string {
  const own = work.forecast.find((one) => one.day === day.number);
  const from = own?.from ?? work.wind;
  const speed = own?.speed ?? null;
  if (from === null && speed === null) return '';
  const where = from === null ? '' : ` blowing ${planHeading(from + 180)} over the plan`;
  return `Wind${own ? ' forecast' : ''}${where}${speed === null ? '' : `, ${formatNumber(speed, 1)} m/s`}: the windward edge first. `;
}

function layWords(
  { roof, layout, letter }: RoofEstimate,
  { sheet, towards }: WorkDay['sheets'][number],
  job: Job,
): (readonly [string, string])[] {
  const piece = layout?.sheets.find(({ id }) => id === sheet);
  if (!roof || !layout || !piece) return [];
  const frame = frameOf(layout, piece);
  const at = setOutFrom(namedCorners(roof, letter), frame, setDownPoint(piece, towards));
  return [
    [
      `Lay ${sheet}, unroll ${planHeading(towards)}`,
      `roll ${piece.cut.roll}, set down ${placeWords(at, frame, job.display)}`,
    ],
  ];
}

function weldWords(run: WeldRun, tool: string, job: Job): readonly [string, string] {
  if (run.kind === 't-joint') return [`T-joint ${run.seam}: treat`, 'probe it cold'];
  const more = run.seams.length > 1 ? ` and ${run.seams.length - 1} more` : '';
  return [
    `Weld ${run.order}: ${run.seam.startsWith(KINDS[run.kind]) ? '' : `${KINDS[run.kind]} `}${run.seam}${more}`,
    `${tool}, ${formatMetres(run.length / 1000, job.display)}`,
  ];
}

/** The row of a lap is set with the sheet that closes that lap. */
function fastenersBySheet({ weldPlan, roofs }: Estimate): ReadonlyMap<string, number> {
  const after = new Map(
    weldPlan.runs.flatMap((run) => run.seams.map((seam) => [`${run.roof}/${seam}`, run.after] as const)),
  );
  const counts = new Map<string, number>();
  for (const { id, fastening } of roofs)
    for (const row of fastening?.rows ?? []) {
      const sheet = row.where === 'lap' ? after.get(`${id}/${row.along[0]}`) : undefined;
      if (sheet !== undefined) counts.set(`${id}/${sheet}`, (counts.get(`${id}/${sheet}`) ?? 0) + row.count);
    }
  return counts;
}
