// The sheet round a plan: border, notes, legend, schedule of openings, revisions and title block.
import { formatLength } from '../../core/units/lengths';
import { formatNumber, THIN_SPACE } from '../../core/units/numbers';
import { PENS, plus } from './ink';
import type { Paper, Place } from './ink';
import type { PlanSheet } from './plan';
import { drawEdgeSections } from './sections';
import { drawArrow, drawFitting, hatchBox } from './symbols';

const MARGIN = { left: 20, other: 10 };
const COLUMN = 130;

export function drawFrame(paper: Paper, sheet: PlanSheet): void {
  const right = paper.width - MARGIN.other;
  const left = right - COLUMN;
  const top = paper.height - MARGIN.other;
  paper.box('SHEET', [MARGIN.left, MARGIN.other], [right, top], PENS.frame);
  paper.line('SHEET', [left, MARGIN.other], [left, top], PENS.opening);
  drawFoldMarks(paper);
  let y = top - 9;
  y = drawNotes(paper, sheet, [left + 6, y]);
  y = drawLegend(paper, [left + 6, y - 7]);
  y = drawOpenings(paper, sheet, [left + 6, y - 7]);
  y = drawFittings(paper, sheet, [left + 6, y - 5]);
  drawEdgeSections(paper, sheet, [left + 6, y - 5]);
  drawRevisions(paper, sheet, [left, 118]);
  drawTitleBlock(paper, sheet, left);
}

/** Short strokes in the middle of each side, for centring (ISO 5457). */
function drawFoldMarks(paper: Paper): void {
  const { width, height } = paper;
  paper.line('SHEET', [width / 2, height], [width / 2, height - MARGIN.other - 5], PENS.opening);
  paper.line('SHEET', [width / 2, 0], [width / 2, MARGIN.other + 5], PENS.opening);
  paper.line('SHEET', [0, height / 2], [MARGIN.left + 5, height / 2], PENS.opening);
  paper.line('SHEET', [width, height / 2], [width - MARGIN.other - 5, height / 2], PENS.opening);
}

function heading(paper: Paper, at: Place, text: string): void {
  paper.text('SHEET', at, text, { size: 3.6, weight: 'bold' });
  paper.line('SHEET', plus(at, [0, -1.8]), plus(at, [COLUMN - 12, -1.8]), PENS.rule);
}

function drawNotes(paper: Paper, sheet: PlanSheet, at: Place): number {
  heading(paper, at, 'NOTES');
  let y = at[1] - 7.2;
  sheet.notes.forEach((note, k) => {
    paper.text('SHEET', [at[0], y], `${k + 1}`, { size: 2.6 });
    for (const line of broken(note, 78)) {
      paper.text('SHEET', [at[0] + 7, y], line, { size: 2.6 });
      y -= 4;
    }
    y -= 1.4;
  });
  return y;
}

function drawLegend(paper: Paper, at: Place): number {
  heading(paper, at, 'LEGEND');
  const rows: readonly [string, (place: Place) => void][] = [
    ['Edge of roof: the line to be measured', (p) => paper.line('SHEET', p, plus(p, [14, 0]), PENS.edge)],
    [
      'Parapet, top in plan',
      (p) => {
        paper.box('SHEET', plus(p, [0, -1.4]), plus(p, [14, 1.4]), PENS.thin);
        hatchBox(paper, plus(p, [0, -1.4]), plus(p, [14, 1.4]), 1.4);
      },
    ],
    ['Direction of fall', (p) => drawArrow(paper, 'SHEET', p, plus(p, [14, 0]), { width: 0.3 }, 3.4)],
    ['D    Roof drain', (p) => drawFitting(paper, 'drain', plus(p, [7, 0]), 2, [1, 0])],
    [
      'SC   Overflow scupper through parapet',
      (p) => drawFitting(paper, 'scupper', plus(p, [5, 0]), 3, [1, 0]),
    ],
    ['V    Pipe or vent', (p) => drawFitting(paper, 'pipe', plus(p, [7, 0]), 2, [1, 0])],
    ['PP   Post', (p) => drawFitting(paper, 'post', plus(p, [7, 0]), 2, [1, 0])],
    ['AN   Anchor point', (p) => drawFitting(paper, 'anchor', plus(p, [7, 0]), 2, [1, 0])],
    ['RWP  Rainwater pipe at gutter', (p) => paper.circle('SHEET', plus(p, [7, 0]), 1, PENS.fitting)],
  ];
  rows.forEach(([text, draw], k) => {
    const y = at[1] - 8 - k * 6;
    draw([at[0], y + 0.9]);
    paper.text('SHEET', [at[0] + 20, y], text, { size: 2.6 });
  });
  return at[1] - 8 - rows.length * 6;
}

const OPENING_COLUMNS = [0, 15, 46, 70, 96];
const FITTING_COLUMNS = [0, 15, 60, 84];

function drawOpenings(paper: Paper, sheet: PlanSheet, at: Place): number {
  const rows = sheet.roofs
    .flatMap((roof) => roof.openings)
    .map(({ mark, name, ring: [low, , high], upstand }) => [
      mark,
      name,
      low && high ? `${plain(high[0] - low[0], sheet)} x ${plain(high[1] - low[1], sheet)}` : '',
      low ? `${plain(low[0], sheet)} / ${plain(low[1], sheet)}` : '',
      plain(upstand, sheet),
    ]);
  const head = ['MARK', 'OPENING', 'SIZE', 'FROM 1 / A', 'UPSTAND'];
  return drawTable(paper, at, 'SCHEDULE OF OPENINGS', OPENING_COLUMNS, [head, ...rows]);
}

const FITTING_NAMES = {
  drain: 'Roof drain',
  scupper: 'Overflow scupper',
  pipe: 'Pipe or vent',
  post: 'Post',
  anchor: 'Anchor point',
} as const;

function drawFittings(paper: Paper, sheet: PlanSheet, at: Place): number {
  const rows = sheet.roofs
    .flatMap((roof) => roof.fittings)
    .map(({ mark, kind, at: [x, y], size }) => [
      mark,
      FITTING_NAMES[kind],
      plain(size, sheet),
      `${plain(x, sheet)} / ${plain(y, sheet)}`,
    ]);
  const head = ['MARK', 'ITEM', 'SIZE', 'CENTRE FROM 1 / A'];
  return drawTable(paper, at, 'SCHEDULE OF FITTINGS', FITTING_COLUMNS, [head, ...rows]);
}

function drawTable(
  paper: Paper,
  at: Place,
  title: string,
  columns: readonly number[],
  rows: readonly (readonly string[])[],
): number {
  heading(paper, at, title);
  let y = at[1] - 7;
  rows.forEach((cells, row) => {
    cells.forEach((cell, k) =>
      paper.text('SHEET', [at[0] + (columns[k] ?? 0), y], cell, {
        size: 2.4,
        weight: row === 0 ? 'bold' : 'regular',
      }),
    );
    paper.line('SHEET', [at[0], y - 1.5], [at[0] + COLUMN - 12, y - 1.5], { width: 0.09, grey: 0.5 });
    y -= 4.8;
  });
  return y;
}

function plain(mm: number, sheet: PlanSheet): string {
  return sheet.display === 'metric'
    ? formatNumber(mm).replaceAll(THIN_SPACE, '')
    : formatLength(mm, 'imperial').replaceAll(THIN_SPACE, ',');
}

function drawRevisions(paper: Paper, sheet: PlanSheet, [left, y]: Place): void {
  const right = paper.width - MARGIN.other;
  paper.line('SHEET', [left, y], [right, y], PENS.opening);
  paper.text('SHEET', [left + 6, y - 4.6], 'REV', { size: 2.4, weight: 'bold' });
  paper.text('SHEET', [left + 18, y - 4.6], 'DATE', { size: 2.4, weight: 'bold' });
  paper.text('SHEET', [left + 42, y - 4.6], 'CHANGE', { size: 2.4, weight: 'bold' });
  sheet.revisions.forEach(([letter, date, what], k) => {
    const row = y - 10 - k * 5;
    paper.text('SHEET', [left + 6, row], letter, { size: 2.6 });
    paper.text('SHEET', [left + 18, row], date, { size: 2.6 });
    paper.text('SHEET', [left + 42, row], what, { size: 2.6 });
  });
}

function drawTitleBlock(paper: Paper, sheet: PlanSheet, left: number): void {
  const right = paper.width - MARGIN.other;
  const bottom = MARGIN.other;
  const rule = (y: number) => paper.line('SHEET', [left, y], [right, y], PENS.rule);
  const label = (at: Place, text: string) => paper.text('SHEET', at, text, { size: 2, grey: 0.35 });
  rule(bottom + 84);
  sheet.practice.forEach((line, k) =>
    paper.text('SHEET', [left + 6, bottom + 76 - k * 4.6], line, {
      size: k === 0 ? 4.6 : 2.6,
      weight: k === 0 ? 'bold' : 'regular',
    }),
  );
  rule(bottom + 62);
  label([left + 6, bottom + 58], 'PROJECT');
  sheet.project.forEach((line, k) =>
    paper.text('SHEET', [left + 6, bottom + 52 - k * 4.6], line, {
      size: k === 0 ? 4.2 : 2.8,
      weight: k === 0 ? 'bold' : 'regular',
    }),
  );
  rule(bottom + 40);
  label([left + 6, bottom + 36], 'DRAWING');
  paper.text('SHEET', [left + 6, bottom + 29.5], sheet.title, { size: 4.2, weight: 'bold' });
  rule(bottom + 24);
  const cells: readonly [string, string, number][] = [
    ['SCALE', sheet.scaleNote, 0],
    ['DATE', sheet.date, 52],
    ['STATUS', 'TENDER', 90],
  ];
  for (const [name, value, x] of cells) {
    label([left + 6 + x, bottom + 20], name);
    paper.text('SHEET', [left + 6 + x, bottom + 14.6], value, { size: 3 });
    if (x > 0) paper.line('SHEET', [left + 2 + x, bottom + 12], [left + 2 + x, bottom + 24], PENS.rule);
  }
  rule(bottom + 12);
  label([left + 6, bottom + 8.6], 'SHEET');
  paper.text('SHEET', [left + 6, bottom + 2.6], sheet.number, { size: 5, weight: 'bold' });
  label([left + 96, bottom + 8.6], 'REVISION');
  paper.text('SHEET', [left + 96, bottom + 2.6], sheet.revision, { size: 5, weight: 'bold' });
}

function broken(text: string, most: number): string[] {
  const lines: string[] = [''];
  for (const word of text.split(' ')) {
    const line = lines[lines.length - 1] ?? '';
    if (line !== '' && line.length + word.length + 1 > most) lines.push(word);
    else lines[lines.length - 1] = line === '' ? word : `${line} ${word}`;
  }
  return lines;
}
