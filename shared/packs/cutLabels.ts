// A label for each sheet, to be cut out and stuck on the rolled piece: its name for reading from afar, where it comes
// from, where it lies, and a QR code of its name.
import { encode } from 'uqr';
import { namedCorners, planHeading, setDownPoint, setOutFrom } from '../../core/drawing/setOut';
import type { Estimate, RoofEstimate } from '../../core/job/result';
import type { Job } from '../../core/job/schema';
import { formatLength } from '../../core/units/lengths';
import type { Sheet } from '../../core/sheets/types';
import { MM } from './canvas';
import type { Pack, PackPage, Spot } from './canvas';
import { fitted, paperSize } from './paper';
import { farWords, frameOf } from './setOutWords';

const ACROSS = 2;
const DOWN = 5;
const MARGIN = 10 * MM;

export function writeCutLabels(pack: Pack, job: Job, estimate: Estimate): void {
  const size = paperSize(job.display, 'list');
  const issue = Math.max(0, ...Object.values(job.issues).map(({ number }) => number));
  const dayOf = new Map(
    estimate.workPlan.days.flatMap((day) =>
      day.sheets.map(
        (s) => [`${s.roof}/${s.sheet}`, { day: day.number, towards: s.towards, name: s.name }] as const,
      ),
    ),
  );
  const labels = estimate.roofs.flatMap((roof) =>
    (roof.layout?.sheets ?? []).map((sheet) => ({ roof, sheet })),
  );
  const [wide, tall] = [(size.width - 2 * MARGIN) / ACROSS, (size.height - 2 * MARGIN - 10 * MM) / DOWN];
  let page: PackPage | null = null;
  labels.forEach(({ roof, sheet }, k) => {
    const at = k % (ACROSS * DOWN);
    if (at === 0) page = pack.addPage(size.width, size.height);
    const low: Spot = [
      MARGIN + (at % ACROSS) * wide,
      size.height - MARGIN - (Math.floor(at / ACROSS) + 1) * tall,
    ];
    if (page)
      drawLabel(pack, page, [low, [low[0] + wide, low[1] + tall]], {
        job,
        roof,
        sheet,
        issue,
        laid: dayOf.get(`${roof.id}/${sheet.id}`) ?? null,
      });
  });
}

interface Label {
  readonly job: Job;
  readonly roof: RoofEstimate;
  readonly sheet: Sheet;
  /** 0 where nothing is issued yet. */
  readonly issue: number;
  readonly laid: { readonly day: number; readonly towards: number; readonly name: string } | null;
}

function drawLabel(pack: Pack, page: PackPage, [low, high]: readonly [Spot, Spot], label: Label): void {
  const { job, roof, sheet, issue, laid } = label;
  page.box(low, high, { stroke: { width: 0.4, ink: 0.6, dash: [3, 3] } });
  const left = low[0] + 6 * MM;
  const beside = high[0] - low[0] - CODE - 17 * MM;
  const title = { size: 27, weight: 'bold' } as const;
  page.text([left, high[1] - 13 * MM], fitted(pack, sheet.id, title, beside), title);
  page.text([left, high[1] - 18 * MM], fitted(pack, roof.name, { size: 9 }, beside), { size: 9 });
  page.text([left, high[1] - 22.5 * MM], fitted(pack, job.about.name, { size: 9 }, beside), { size: 9 });
  const stands = issue === 0 ? 'not issued: for trial only' : `issue ${issue}`;
  page.text([left, high[1] - 27 * MM], stands, { size: 9, weight: 'bold', ink: issue === 0 ? 0.4 : 0 });
  const length = (mm: number) => formatLength(mm, job.display);
  const rows = [
    [`Roll ${sheet.cut.roll}`, `cut ${length(sheet.length)} × ${length(sheet.width)}`],
    ...changedWords(label),
    ['Course', laid === null ? '' : `${laid.name}, laid on day ${laid.day}`],
    ...(laid ? setDownWords(label, laid.towards) : []),
  ];
  const pitch = Math.min(12, (high[1] - low[1] - ROWS_FROM - 2.5 * MM) / (rows.length - 1));
  rows.forEach(([name = '', value = ''], k) => {
    const at = high[1] - ROWS_FROM - k * pitch;
    page.text([left, at], name, { size: 9.5, weight: 'bold' });
    page.text([left + 62, at], fitted(pack, value, { size: 9.5 }, high[0] - left - 62 - 3 * MM), {
      size: 9.5,
    });
  });
  const text = `${issue === 0 ? '' : `${issue}/`}${sheet.id}`;
  drawCode(page, text, [high[0] - CODE - 5 * MM, high[1] - CODE - 5 * MM], CODE);
}

/** Side of the code. It stands free by four of its squares all round, as ISO/IEC 18004 asks. */
const CODE = 22 * MM;
/** From the top of a label to the foot of the first row below the code. */
const ROWS_FROM = 34 * MM;

/** So that an old label on the roll is not taken for this one. */
function changedWords({ job, roof, sheet }: Label): (readonly [string, string])[] {
  const changed = roof.refit?.changed.find((one) => one.sheet === sheet.id);
  if (changed === undefined) return [];
  return [
    ['', changed.was === null ? 'a new piece' : `was ${formatLength(changed.was, job.display)} before`],
  ];
}

/** The corner of the sheet to begin with, from the nearest corner of the roof. */
function setDownWords({ job, roof, sheet }: Label, towards: number): (readonly [string, string])[] {
  if (!roof.roof || !roof.layout) return [];
  const frame = frameOf(roof.layout, sheet);
  const corners = namedCorners(roof.roof, roof.letter);
  const place = setOutFrom(corners, frame, setDownPoint(sheet, towards));
  return [
    ['Set down', `from corner ${place.corner.name}:`],
    ['', farWords(place, frame, job.display) || 'at the corner itself'],
    ['Unroll', `${planHeading(towards)} on the plan`],
  ];
}

function drawCode(page: PackPage, text: string, [x, y]: Spot, side: number): void {
  const { data, size } = encode(text, { ecc: 'M', border: 0 });
  const step = side / size;
  const squares: Spot[][] = [];
  data.forEach((row, r) =>
    row.forEach((dark, c) => {
      if (!dark) return;
      const [l, b] = [x + c * step, y + side - (r + 1) * step];
      squares.push([
        [l, b],
        [l + step, b],
        [l + step, b + step],
        [l, b + step],
      ]);
    }),
  );
  page.area(squares, 0);
}
