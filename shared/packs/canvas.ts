// A document of pages on which lines, areas and text are put in points, y up. The only file here, beside the one
// that embeds a plan's page, that knows the PDF library. Same calls, same bytes.
import { PDFDocument, PDFName, StandardFonts } from '@cantoo/pdf-lib';
import type { PDFFont, PDFPage, PDFRef } from '@cantoo/pdf-lib';
import { printable } from './printable';

export const MM = 72 / 25.4;

export type Spot = readonly [x: number, y: number];

export interface Stroke {
  /** Points. */
  readonly width: number;
  readonly ink?: Ink;
  readonly dash?: readonly number[];
}

/** Grey from 0 (black) to 1 (white), or red, green and blue. */
export type Ink = number | readonly [number, number, number];

/** Wrong is said in brick red; nothing else in a pack is coloured. */
export const BRICK: Ink = [0.65, 0.2, 0.13];

export interface TextStyle {
  /** Points. */
  readonly size: number;
  readonly weight?: 'regular' | 'bold';
  readonly align?: 'left' | 'middle' | 'right';
  readonly angle?: number;
  readonly ink?: Ink;
}

export class Pack {
  readonly pages: PackPage[] = [];
  private readonly lost = new Set<string>();
  private readonly widths = { regular: new Map<string, number>(), bold: new Map<string, number>() };

  private constructor(
    readonly pdf: PDFDocument,
    private readonly fonts: { readonly regular: PDFFont; readonly bold: PDFFont },
  ) {}

  /** `date` is the job's own, YYYY-MM-DD: the file knows no other. */
  static async start(about: { title: string; subject: string; date: string }): Promise<Pack> {
    const pdf = await PDFDocument.create({ updateMetadata: false });
    pdf.setTitle(printable(about.title).text);
    pdf.setSubject(printable(about.subject).text);
    pdf.setCreator('Lapstrake');
    pdf.setProducer('Lapstrake');
    pdf.setCreationDate(new Date(`${about.date}T00:00:00Z`));
    pdf.setModificationDate(new Date(`${about.date}T00:00:00Z`));
    const regular = await pdf.embedFont(StandardFonts.Helvetica);
    const bold = await pdf.embedFont(StandardFonts.HelveticaBold);
    return new Pack(pdf, { regular, bold });
  }

  addPage(width: number, height: number): PackPage {
    const page = new PackPage(this, this.pdf.addPage([width, height]), width, height);
    this.pages.push(page);
    return page;
  }

  widthOf(text: string, style: Pick<TextStyle, 'size' | 'weight'>): number {
    return this.advance(printable(text).text, style);
  }

  /** Lines that fit a width, broken at spaces, and within a word where one alone is too long. */
  broken(text: string, style: Pick<TextStyle, 'size' | 'weight'>, width: number): string[] {
    const lines: string[] = [];
    let line = '';
    for (const word of text.split(' ')) {
      const longer = line === '' ? word : `${line} ${word}`;
      if (this.widthOf(longer, style) <= width) {
        line = longer;
        continue;
      }
      if (line !== '') lines.push(line);
      line = word;
      while (this.widthOf(line, style) > width && line.length > 1) {
        let fits = line.length - 1;
        while (fits > 1 && this.widthOf(line.slice(0, fits), style) > width) fits--;
        lines.push(line.slice(0, fits));
        line = line.slice(fits);
      }
    }
    return line === '' && lines.length > 0 ? lines : [...lines, line];
  }

  encoded(text: string, style: Pick<TextStyle, 'size' | 'weight'>): { hex: string; width: number } {
    const { text: plain, lost } = printable(text);
    for (const sign of lost) this.lost.add(sign);
    return { hex: this.font(style).encodeText(plain).toString(), width: this.advance(plain, style) };
  }

  /** A sentence where characters were lost, or nothing. */
  lostWords(): string | null {
    const count = this.lost.size;
    if (count === 0) return null;
    return `${count === 1 ? 'One character' : `${count} characters`} outside the Latin alphabet could not be printed and stand as ¤.`;
  }

  fontRefs(): { readonly regular: PDFRef; readonly bold: PDFRef } {
    return { regular: this.fonts.regular.ref, bold: this.fonts.bold.ref };
  }

  async finish(): Promise<Uint8Array> {
    for (const page of this.pages) page.close();
    return this.pdf.save({ useObjectStreams: false, addDefaultPage: false, updateFieldAppearances: false });
  }

  /** The library's own measure takes in kerning, which a plain show-text operator does not apply. */
  private advance(text: string, style: Pick<TextStyle, 'size' | 'weight'>): number {
    const font = this.font(style);
    const widths = style.weight === 'bold' ? this.widths.bold : this.widths.regular;
    let width = 0;
    for (const sign of text) {
      const known = widths.get(sign) ?? font.widthOfTextAtSize(sign, 1000);
      widths.set(sign, known);
      width += known;
    }
    return (width * style.size) / 1000;
  }

  private font(style: Pick<TextStyle, 'weight'>): PDFFont {
    return style.weight === 'bold' ? this.fonts.bold : this.fonts.regular;
  }
}

/** Ratio of a quarter circle's handles to its radius. */
const HANDLE = 0.5522847498;

export class PackPage {
  private readonly lines: string[] = [];
  private readonly alphas = new Set<number>();

  constructor(
    private readonly pack: Pack,
    readonly page: PDFPage,
    readonly width: number,
    readonly height: number,
  ) {
    const { regular, bold } = pack.fontRefs();
    page.node.setFontDictionary(PDFName.of('Regular'), regular);
    page.node.setFontDictionary(PDFName.of('Bold'), bold);
  }

  line(from: Spot, to: Spot, stroke: Stroke): void {
    this.lines.push(`${strokeWords(stroke)} ${spot(from)} m ${spot(to)} l S`);
  }

  path(points: readonly Spot[], stroke: Stroke, end: 'open' | 'closed' = 'open'): void {
    this.lines.push(`${strokeWords(stroke)} ${pathWords([points], end)} S`);
  }

  /** Even-odd over all rings. */
  area(rings: readonly (readonly Spot[])[], fill: Ink, alpha = 1): void {
    this.lines.push(`q ${this.alpha(alpha)} ${inkWords(fill, 'fill')} ${pathWords(rings, 'closed')} f* Q`);
  }

  box(low: Spot, high: Spot, look: { stroke?: Stroke; fill?: Ink; alpha?: number }): void {
    const ring: Spot[] = [low, [high[0], low[1]], high, [low[0], high[1]]];
    if (look.fill !== undefined) this.area([ring], look.fill, look.alpha ?? 1);
    if (look.stroke) this.path(ring, look.stroke, 'closed');
  }

  circle([x, y]: Spot, r: number, look: { stroke?: Stroke; fill?: Ink }): void {
    const h = r * HANDLE;
    const words = [
      `${spot([x + r, y])} m`,
      `${spot([x + r, y + h])} ${spot([x + h, y + r])} ${spot([x, y + r])} c`,
      `${spot([x - h, y + r])} ${spot([x - r, y + h])} ${spot([x - r, y])} c`,
      `${spot([x - r, y - h])} ${spot([x - h, y - r])} ${spot([x, y - r])} c`,
      `${spot([x + h, y - r])} ${spot([x + r, y - h])} ${spot([x + r, y])} c h`,
    ].join(' ');
    const fill = look.fill === undefined ? '' : inkWords(look.fill, 'fill');
    const paint = look.fill === undefined ? 'S' : look.stroke ? 'B' : 'f';
    this.lines.push(`${fill} ${look.stroke ? strokeWords(look.stroke) : ''} ${words} ${paint}`.trim());
  }

  text(at: Spot, text: string, style: TextStyle): void {
    if (text === '') return;
    const { hex, width } = this.pack.encoded(text, style);
    const back = style.align === 'middle' ? width / 2 : style.align === 'right' ? width : 0;
    const turn = ((style.angle ?? 0) * Math.PI) / 180;
    const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
    const place = `${number(cos)} ${number(sin)} ${number(-sin)} ${number(cos)} ${spot([at[0] - back * cos, at[1] - back * sin])}`;
    this.lines.push(
      `BT ${inkWords(style.ink ?? 0, 'fill')} /${style.weight === 'bold' ? 'Bold' : 'Regular'} ${number(style.size)} Tf ${place} Tm ${hex} Tj ET`,
    );
  }

  widthOf(text: string, style: Pick<TextStyle, 'size' | 'weight'>): number {
    return this.pack.widthOf(text, style);
  }

  /** What `draw` puts down is cut to the rings, even-odd. */
  clipped(rings: readonly (readonly Spot[])[], draw: () => void): void {
    this.lines.push(`q ${pathWords(rings, 'closed')} W* n`);
    draw();
    this.lines.push('Q');
  }

  /** An object registered elsewhere, put down through a matrix. */
  object(ref: PDFRef, name: string, matrix: readonly number[]): void {
    this.page.node.setXObject(PDFName.of(name), ref);
    this.lines.push(`q ${matrix.map(fine).join(' ')} cm /${name} Do Q`);
  }

  close(): void {
    const { context } = this.pack.pdf;
    for (const alpha of this.alphas)
      this.page.node.setExtGState(
        PDFName.of(alphaName(alpha)),
        context.obj({ Type: 'ExtGState', ca: alpha, CA: alpha }),
      );
    const stream = context.flateStream(`1 j 1 J\n${this.lines.join('\n')}\n`);
    this.page.node.set(PDFName.of('Contents'), context.register(stream));
  }

  private alpha(value: number): string {
    if (value >= 1) return '';
    this.alphas.add(value);
    return `/${alphaName(value)} gs`;
  }
}

function alphaName(alpha: number): string {
  return `Alpha${Math.round(alpha * 1000)}`;
}

function strokeWords({ width, ink = 0, dash = [] }: Stroke): string {
  return `${number(width)} w [${dash.map(number).join(' ')}] 0 d ${inkWords(ink, 'stroke')}`;
}

function inkWords(ink: Ink, use: 'fill' | 'stroke'): string {
  if (typeof ink === 'number') return `${number(ink)} ${use === 'fill' ? 'g' : 'G'}`;
  return `${ink.map(number).join(' ')} ${use === 'fill' ? 'rg' : 'RG'}`;
}

function pathWords(rings: readonly (readonly Spot[])[], end: 'open' | 'closed'): string {
  return rings
    .map((ring) => {
      const words = ring.map((point, k) => `${spot(point)} ${k === 0 ? 'm' : 'l'}`);
      return `${words.join(' ')}${end === 'closed' ? ' h' : ''}`;
    })
    .join(' ');
}

function spot([x, y]: Spot): string {
  return `${number(x)} ${number(y)}`;
}

function number(value: number): string {
  return String(Math.round(value * 1000) / 1000);
}

function fine(value: number): string {
  return String(Math.round(value * 1e7) / 1e7);
}
