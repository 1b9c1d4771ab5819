// For each day the work in its order, to be ticked off: prove, set down and unroll, fasten, weld, treat, probe, close.
import { namedCorners, planHeading, setDownPoint, setOutFrom } from '../../core/drawing/setOut';
import type { Estimate, RoofEstimate } from '../../core/job/result';
import type { Job } from '../../core/job/schema';
import { formatLength, formatMetres } from '../../core/units/lengths';
import { formatNumber } from '../../core/units/numbers';
import { timeOf } from '../../core/units/times';
import { EARLIEST, hoursOf } from '../../core/welding/clock';
import { KINDS } from '../../core/welding/kinds';
import type { DueStrip, WeldRun, WorkDay } from '../../core/welding/types';
import type { Pack, PackPage, Spot } from './canvas';
import { fitted, ListWriter, RULES } from './paper';
import { frameOf, placeWords } from './setOutWords';

const STEP = 19;
const CLOSE_STEP = 16;
const WORDS = { size: 11 } as const;
const STRONG = { size: 11, weight: 'bold' } as const;
const BESIDE = { size: 9.5, ink: 0.1 } as const;
/** From the left edge to the words: room for the box, the number and the time. */
const INDENT = 78;

/** Writes the list of one day after another. */
export function dayListWriter(pack: Pack, job: Job, estimate: Estimate): (day: WorkDay) => void {
  const runs = new Map(estimate.weldPlan.runs.map((run) => [run.id, run]));
  const roofs = new Map(estimate.roofs.map((roof) => [roof.id, roof]));
  const fasteners = fastenersBySheet(estimate);
  return (day) => {
    const list = new ListWriter(pack, job, `Day ${day.number} in order`);
    const heads = [writeHead(list, job, day)];
    const lines: Line[] = [];
    const step: Step = (text, beside, at = null, look = 'plain') => lines.push({ text, beside, at, look });
    const machine = (k: number | null) =>
      k === null ? 'Hand gun' : (job.rates.welding.machines[k]?.name ?? `Machine ${k + 1}`);
    const own = day.runs.flatMap((id) => runs.get(id) ?? []);
    const weld = (run: WeldRun, at: number | null = null) =>
      step(...weldWords(run, machine(run.machine), job), at);
    const pauses = [...day.clock.pauses];
    const restUntil = (time: number) => {
      while (pauses[0] && pauses[0].from <= time) {
        const pause = pauses.shift() as (typeof pauses)[number];
        step(
          pause.why === 'break' ? 'Break' : `No work: ${pause.why}`,
          `until ${timeOf(pause.to)}`,
          pause.from,
          'rest',
        );
      }
    };
    for (const { what, roof: on, sheet, run, from } of day.steps) {
      restUntil(from);
      for (const strip of day.strips)
        if (what === 'strips again' ? isAgain(strip) && strip.at === from : what === FIRST && !isAgain(strip))
          step(`Test strip: ${machine(strip.machine)}`, `${strip.reason}, pull it cold`, strip.at, 'bold');
      const laid = day.sheets.find((one) => one.roof === on && one.sheet === sheet);
      const roof = roofs.get(on ?? '');
      if (what === 'sheet' && laid && roof) {
        for (const [text, beside] of layWords(roof, laid, job)) step(text, beside, from, 'bold');
        const count = fasteners.get(`${laid.roof}/${laid.sheet}`) ?? 0;
        const long = roof.fastener?.length ?? null;
        if (count > 0)
          step(
            `Fasten the lap under ${laid.sheet}`,
            `${count} fasteners${long === null ? '' : ` of ${formatLength(long, job.display)}`} and plates`,
          );
        for (const lap of own)
          if (isLap(lap) && lap.roof === laid.roof && lap.after === laid.sheet) weld(lap);
      }
      const detail = what === 'detail' ? runs.get(run ?? '') : undefined;
      if (detail) weld(detail, from);
      if (what === 'closing for the night') writeEvening(step, job, day, from);
      if (what === 'machines cool and go away') {
        if (!day.night) writeEvening(step, job, day, from);
        step('Fire watch after the last weld, machines cold and put away', '', from, 'bold');
      }
    }
    if (!day.steps.some(({ what }) => what === 'machines cool and go away')) {
      if (!day.night) writeEvening(step, job, day, null);
      step('Fire watch after the last weld, guns cold and put away', '', null, 'bold');
    }
    writeLines(list, lines, () => heads.push(writeHeadAgain(list, day)));
    if (heads.length > 1)
      heads.forEach(({ page, at }, k) =>
        page.text(at, `page ${k + 1} of ${heads.length}`, { size: 13, align: 'right' }),
      );
  };
}

const FIRST = 'heating up and first strips';
const isAgain = ({ reason }: DueStrip) => reason === 'after a break';

const isLap = ({ kind }: WeldRun) => kind === 'side-lap' || kind === 'end-lap';

interface Line {
  readonly text: string;
  readonly beside: string;
  /** Minutes from midnight when it begins, where that is known. */
  readonly at: number | null;
  readonly look: 'plain' | 'bold' | 'rest';
}

type Step = (text: string, beside: string, at?: number | null, look?: Line['look']) => void;

/** Lines to tick; where the day just misses its page they stand a little closer. */
function writeLines(list: ListWriter, lines: readonly Line[], onNextPage: () => void): void {
  const even = (list.room - 1) / lines.length;
  const pitch = even < STEP && even >= CLOSE_STEP ? even : STEP;
  let number = 0;
  for (const { text, beside, at, look } of lines) {
    const before = list.page;
    list.need(pitch);
    if (list.page !== before) onNextPage();
    list.gap(pitch);
    const { page, pack, left, right, y } = list;
    if (look !== 'rest') {
      number++;
      page.box([left, y - 2.5], [left + 13, y + 10.5], { stroke: { width: 0.9 } });
      page.text([left + 34, y], String(number), { ...WORDS, align: 'right', ink: 0.4 });
    }
    if (at !== null) page.text([left + 42, y], timeOf(at), look === 'bold' ? STRONG : WORDS);
    const room = right - left - INDENT - pack.widthOf(beside, BESIDE) - 8;
    const style = look === 'bold' ? STRONG : look === 'rest' ? { ...WORDS, ink: 0.35 } : WORDS;
    page.text([left + INDENT, y], fitted(pack, text, style, room), style);
    page.text([right, y], beside, { ...BESIDE, align: 'right' });
    page.line([left, y - 4.6], [right, y - 4.6], RULES.thin);
  }
}

function writeEvening(step: Step, job: Job, day: WorkDay, at: number | null): void {
  step(
    'Probe every metre, cold; mend, and probe the mending again',
    formatMetres(day.weld / 1000, job.display),
    at,
    'bold',
  );
  if (day.night)
    step(
      `Close for the night along course ${day.night.name}`,
      `${formatMetres(day.night.length / 1000, job.display)}, a drain open`,
      at,
      'bold',
    );
}

/** Where a page of the list says which of how many it is, once that is known. */
interface PageHead {
  readonly page: PackPage;
  readonly at: Spot;
}

function writeHeadAgain(list: ListWriter, day: WorkDay): PageHead {
  list.gap(24);
  list.page.text([list.left, list.y], `Day ${day.number}, continued`, { size: 17, weight: 'bold' });
  const head = { page: list.page, at: [list.right, list.y] as const };
  list.gap(8);
  list.page.line([list.left, list.y], [list.right, list.y], RULES.firm);
  return head;
}

function writeHead(list: ListWriter, job: Job, day: WorkDay): PageHead {
  const { unroll, stop } = job.rates.welding.wind;
  list.gap(30);
  const title = `Day ${day.number}`;
  const TITLE = { size: 24, weight: 'bold' } as const;
  list.page.text([list.left, list.y], title, TITLE);
  list.page.text([list.left + list.pack.widthOf(title, TITLE) + 14, list.y], day.date ?? '', { size: 13 });
  const head = { page: list.page, at: [list.right, list.y] as const };
  list.gap(6);
  list.paragraph(
    `${hoursOf(day)}. ${EARLIEST} ${day.sheets.length} sheets, ${formatMetres(day.weld / 1000, job.display)} of weld, ${formatNumber(day.minutes / 60, 1)} of ${formatNumber(day.capacity / 60, 1)} crew hours. ${windWords(job, day)}From ${formatNumber(unroll, 1)} m/s nothing is unrolled, from ${formatNumber(stop, 1)} m/s all work stops; the site’s own limits come first. Nothing is unrolled that is not fixed or welded today.`,
    { size: 10 },
  );
  list.gap(4);
  list.page.line([list.left, list.y], [list.right, list.y], RULES.firm);
  return head;
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
