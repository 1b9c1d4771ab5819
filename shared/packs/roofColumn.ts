// The column beside a roof's map: what it is, its quantities, the legend, what was assumed, cautions.
import { formatQuantity } from '../../core/units/figures';
import { formatLength } from '../../core/units/lengths';
import { BRICK, MM } from './canvas';
import type { Pack, PackPage, Spot, TextStyle } from './canvas';
import { CREW_CAUTIONS } from './cautions';
import { zonesOf } from './fastenerList';
import { fitted, RULES, TYPE } from './paper';
import type { MapName, RoofMap } from './roofPdf';

export const COLUMN_WIDTH = 92 * MM;

export function writeColumn(
  pack: Pack,
  page: PackPage,
  [left, top]: Spot,
  roofMap: RoofMap,
  scale: string,
): void {
  const column = new Column(pack, page, left, top);
  writeTitle(column, roofMap, scale);
  if (roofMap.roof.faults.length > 0) writeFaults(column, roofMap);
  writeFigures(column, roofMap);
  writeLegend(column, roofMap);
  writeFindings(column, roofMap);
  column.heading('Before work');
  for (const caution of CREW_CAUTIONS) column.paragraph(caution, { size: 6.8, ink: 0.15 }, 2);
}

class Column {
  constructor(
    readonly pack: Pack,
    readonly page: PackPage,
    readonly left: number,
    public y: number,
  ) {}

  get right(): number {
    return this.left + COLUMN_WIDTH;
  }

  heading(text: string): void {
    this.y -= 19;
    this.page.text([this.left, this.y], text, TYPE.heading);
    this.y -= 4.5;
    this.page.line([this.left, this.y], [this.right, this.y], RULES.firm);
  }

  paragraph(text: string, style: TextStyle, gap = 0): void {
    for (const line of this.pack.broken(text, style, COLUMN_WIDTH)) {
      this.y -= style.size * 1.32;
      this.page.text([this.left, this.y], line, style);
    }
    this.y -= gap;
  }
}

function writeTitle(column: Column, { job, roof, map, underlay }: RoofMap, scale: string): void {
  const { about } = job;
  column.y -= 8;
  column.page.text(
    [column.left, column.y],
    fitted(column.pack, about.name, TYPE.strong, COLUMN_WIDTH),
    TYPE.strong,
  );
  column.y -= 22;
  const title = roof.letter ? `${roof.name} (${roof.letter})` : roof.name;
  column.page.text(
    [column.left, column.y],
    fitted(column.pack, title, TYPE.title, COLUMN_WIDTH - 70),
    TYPE.title,
  );
  column.page.text([column.right, column.y], map, { ...TYPE.title, align: 'right' });
  column.y -= 7;
  column.page.line([column.left, column.y], [column.right, column.y], RULES.firm);
  const plan = job.pages[roof.page]?.name ?? 'a blank sheet';
  const rows = [
    ['Scale of this sheet', `${scale}, printed at full size`],
    ['Date', about.date],
    ['Reference', about.reference],
    ['Over the plan', plan],
  ];
  for (const [name, value] of rows)
    if (value) {
      column.y -= 11.5;
      column.page.text([column.left, column.y], name ?? '', { ...TYPE.body, ink: 0.35 });
      column.page.text(
        [column.left + 90, column.y],
        fitted(column.pack, value, TYPE.body, COLUMN_WIDTH - 90),
        TYPE.body,
      );
    }
  if (underlay && 'why' in underlay)
    column.paragraph(`The plan could not be put under the layout: ${underlay.why}.`, {
      ...TYPE.small,
      ink: BRICK,
    });
}

function writeFaults(column: Column, { roof }: RoofMap): void {
  column.heading('This roof is not laid');
  for (const fault of roof.faults) column.paragraph(fault.message, { ...TYPE.body, ink: BRICK }, 2);
}

const FIGURES: Readonly<Record<MapName, readonly string[]>> = {
  Sheets: [
    'roof.area',
    'roof.edges',
    'rolls.field',
    'rolls.bound',
    'sheets.count',
    'area.bought',
    'area.cut',
    'area.lap',
    'area.offcut',
    'waste.percent',
  ],
  Welds: [
    'weld.side',
    'weld.end',
    'count.endLaps',
    'count.tJoints',
    'weld.upstand',
    'weld.detail',
    'weld.machine',
    'weld.hand',
    'hours.machine',
    'hours.hand',
  ],
  Fasteners: [
    'fasteners.lap',
    'fasteners.perimeter',
    'fasteners.corner',
    'fasteners.edge',
    'fasteners.count',
    'hours.fastening',
  ],
};

function writeFigures(column: Column, { job, estimate, roof, map }: RoofMap): void {
  const figures = estimate.byRoof[roof.id] ?? [];
  if (figures.length === 0) return;
  column.heading('Quantities');
  let assumed = false;
  for (const key of FIGURES[map]) {
    const figure = figures.find((each) => each.key === key);
    if (!figure) continue;
    assumed ||= figure.assumed !== null;
    column.y -= 11.8;
    column.page.text([column.left, column.y], figure.assumed ? `${figure.label} *` : figure.label, TYPE.body);
    column.page.text([column.right, column.y], formatQuantity(figure.value, figure.unit, job.display), {
      ...TYPE.strong,
      align: 'right',
    });
    column.page.line([column.left, column.y - 3], [column.right, column.y - 3], RULES.thin);
  }
  column.y -= 4;
  if (assumed)
    column.paragraph(
      '* rests on figures as shipped that no person confirmed; the bid names them.',
      TYPE.small,
    );
}

function writeLegend(column: Column, { job, roof, map }: RoofMap): void {
  column.heading('Legend');
  const { page } = column;
  const row = (text: string, draw: (x: number, y: number) => void) => {
    column.y -= 12.5;
    draw(column.left, column.y + 2.6);
    page.text([column.left + 34, column.y], text, TYPE.body);
  };
  if (map === 'Sheets') {
    row('one sheet, and a lap of two', (x, y) => {
      page.box([x, y - 4], [x + 26, y + 4], { fill: 0, alpha: 0.13 });
      page.box([x + 13, y - 4], [x + 26, y + 4], { fill: 0, alpha: 0.13 });
      page.line([x + 13, y - 4], [x + 13, y + 4], { width: 0.35 });
    });
    row('parapet or wall', (x, y) => page.line([x, y], [x + 26, y], { width: 1.8 }));
    row('gutter; without the dashes an eave', (x, y) => {
      page.line([x, y + 1], [x + 26, y + 1], { width: 1 });
      page.line([x, y - 2.2], [x + 26, y - 2.2], { width: 0.5, dash: [4, 2] });
    });
  } else if (map === 'Welds') {
    row('welded by machine; its number in the list', (x, y) =>
      page.line([x, y], [x + 26, y], { width: 1.2 }),
    );
    row('welded by hand', (x, y) => page.line([x, y], [x + 26, y], { width: 1.2, dash: [3.2, 2.4] }));
    row('corner or boot, by hand', (x, y) =>
      page.circle([x + 13, y], 2.6, { stroke: { width: 0.8, dash: [1.2, 0.9] } }),
    );
    row('T-joint, three layers', (x, y) => page.circle([x + 13, y], 1.7, { fill: 0 }));
  } else {
    row('fasteners and plates', (x, y) => {
      for (let k = 0; k < 6; k++) page.circle([x + 1 + k * 5, y], 0.7, { fill: 0.35 });
    });
    row('edge of the upper sheet', (x, y) => page.line([x, y], [x + 26, y], { width: 0.35 }));
    const long = roof.fastener?.length ?? null;
    for (const { name, apart, own } of zonesOf(job, roof))
      if (own.length > 0)
        row(`${name.toLowerCase()}: at most ${formatLength(apart, job.display)} apart`, (x, y) => {
          for (let at = 0; at <= 26; at += Math.max(2.6, apart / 60))
            page.circle([x + at, y], 0.7, { fill: 0.35 });
        });
    row(
      long === null ? 'length not given: see the list' : `${formatLength(long, job.display)} long`,
      (x, y) => {
        page.line([x + 13, y - 4], [x + 13, y + 4], { width: 0.8 });
        page.line([x + 9, y + 4], [x + 17, y + 4], { width: 1.4 });
      },
    );
  }
  row('drain, pipe, post, anchor', (x, y) => {
    page.circle([x + 3, y], 3, { stroke: { width: 0.6 } });
    page.line([x + 1, y - 2], [x + 5, y + 2], { width: 0.6 });
    page.line([x + 1, y + 2], [x + 5, y - 2], { width: 0.6 });
    page.circle([x + 11, y], 2.2, { stroke: { width: 0.6 } });
    page.circle([x + 11, y], 0.6, { fill: 0 });
    page.box([x + 16, y - 2], [x + 20, y + 2], { fill: 0.15 });
    page.path(
      [
        [x + 25, y + 3],
        [x + 22.6, y - 2],
        [x + 27.4, y - 2],
      ],
      { width: 0.6 },
      'closed',
    );
  });
}

const MOST_FINDINGS = 4;

function writeFindings(column: Column, { estimate, roof }: RoofMap): void {
  const findings = estimate.findings.filter((finding) => finding.roof === roof.id);
  column.heading('Findings');
  if (findings.length === 0) column.paragraph('Nothing stands against this layout.', TYPE.body);
  for (const finding of findings.slice(0, MOST_FINDINGS))
    column.paragraph(finding.message, { size: 7.4, ink: finding.severity === 'error' ? BRICK : 0 }, 2);
  if (findings.length > MOST_FINDINGS)
    column.paragraph(`and ${findings.length - MOST_FINDINGS} more, in the bid.`, TYPE.small);
}
