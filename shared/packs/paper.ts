// What all documents share: paper sizes, the head and foot of a page, tables that run over pages, cautions.
import type { Display } from '../../core/units/lengths';
import { formatNumber } from '../../core/units/numbers';
import type { Job } from '../../core/job/schema';
import { MM } from './canvas';
import type { Pack, PackPage, TextStyle } from './canvas';

/** ISO 216 on metric jobs; Letter and Tabloid on imperial ones. Points. */
export function paperSize(display: Display, use: 'list' | 'drawing'): { width: number; height: number } {
  if (display === 'metric')
    return use === 'list' ? { width: 210 * MM, height: 297 * MM } : { width: 420 * MM, height: 297 * MM };
  return use === 'list' ? { width: 612, height: 792 } : { width: 1224, height: 792 };
}

export const TYPE = {
  title: { size: 17, weight: 'bold' },
  heading: { size: 10.5, weight: 'bold' },
  body: { size: 8.5 },
  strong: { size: 8.5, weight: 'bold' },
  small: { size: 6.8, ink: 0.35 },
} as const satisfies Record<string, TextStyle>;

export const RULES = {
  thin: { width: 0.4, ink: 0.6 },
  firm: { width: 0.9, ink: 0 },
} as const;

const MARGIN = 16 * MM;
const FOOT = 20 * MM;

/** Writes down a page and starts the next when it is full. */
export class ListWriter {
  page: PackPage;
  y = 0;

  constructor(
    readonly pack: Pack,
    private readonly job: Job,
    private readonly title: string,
  ) {
    this.page = this.startPage();
  }

  get left(): number {
    return MARGIN;
  }

  get right(): number {
    return this.page.width - MARGIN;
  }

  get width(): number {
    return this.right - this.left;
  }

  /** Points that are left on the page. */
  get room(): number {
    return this.y - FOOT;
  }

  /** Makes sure that `height` points are left, or starts a page. */
  need(height: number): void {
    if (this.y - height < FOOT) this.page = this.startPage();
  }

  heading(text: string): void {
    this.need(84);
    this.y -= 22;
    this.page.text([this.left, this.y], text, TYPE.heading);
    this.y -= 5;
    this.page.line([this.left, this.y], [this.right, this.y], RULES.firm);
  }

  paragraph(text: string, style: TextStyle = TYPE.body, indent = 0): void {
    for (const line of this.pack.broken(text, style, this.width - indent)) {
      this.need(style.size * 1.4);
      this.y -= style.size * 1.4;
      this.page.text([this.left + indent, this.y], line, style);
    }
  }

  gap(height: number): void {
    this.y -= height;
  }

  private startPage(): PackPage {
    const size = paperSize(this.job.display, 'list');
    const page = this.pack.addPage(size.width, size.height);
    const { about } = this.job;
    const top = size.height - MARGIN;
    const first = this.pack.pages.length === 1;
    const right = size.width - MARGIN;
    page.text([MARGIN, top - 4], this.title.toUpperCase(), { size: 8, weight: 'bold', ink: 0.35 });
    page.text([right, top - 4], [about.reference, about.date].filter(Boolean).join('  ·  '), {
      size: 8,
      align: 'right',
      ink: 0.35,
    });
    let y = top - 12;
    if (first) {
      y -= 18;
      page.text([MARGIN, y], fitted(this.pack, about.name, TYPE.title, right - MARGIN), TYPE.title);
      const line = [
        about.client && `for ${about.client}`,
        about.preparedBy && `prepared by ${about.preparedBy}`,
      ];
      y -= 13;
      page.text([MARGIN, y], line.filter(Boolean).join(', '), { size: 8.5, ink: 0.25 });
      y -= 8;
    }
    page.line([MARGIN, y], [right, y], RULES.firm);
    this.y = y;
    return page;
  }
}

/** Page numbers, and what could not be printed; once the number of pages is known. */
export function writeFeet(pack: Pack, job: Job): void {
  const total = pack.pages.length;
  const lost = pack.lostWords();
  pack.pages.forEach((page, k) => {
    const y = 10 * MM;
    page.line([MARGIN, y + 10], [page.width - MARGIN, y + 10], RULES.thin);
    const words = [job.about.name, lost].filter(Boolean).join('.  ');
    page.text([MARGIN, y], fitted(pack, words, TYPE.small, page.width - 2 * MARGIN - 60), TYPE.small);
    page.text([page.width - MARGIN, y], `page ${k + 1} of ${total}`, { ...TYPE.small, align: 'right' });
  });
}

/** Plurals of the pack names in use: box, roll, piece, tube, can, pail, bag. */
export function counted(count: number, name: string): string {
  const many = /(x|s|ch|sh)$/.test(name) ? `${name}es` : `${name}s`;
  return `${formatNumber(count)} ${count === 1 ? name : many}`;
}

export function fitted(pack: Pack, text: string, style: TextStyle, width: number): string {
  if (pack.widthOf(text, style) <= width) return text;
  let end = text.length - 1;
  while (end > 1 && pack.widthOf(`${text.slice(0, end)}…`, style) > width) end--;
  return `${text.slice(0, end)}…`;
}
