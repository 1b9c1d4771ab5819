// Writes inked paper as a one-page vector PDF with layers. Same paper, same bytes.
import { PDFDocument, PDFName, PDFString, StandardFonts } from '@cantoo/pdf-lib';
import type { PDFFont } from '@cantoo/pdf-lib';
import type { Ink, InkLayer, Paper, Pen, Place } from './ink';

export interface PdfOptions {
  readonly title: string;
  /** ISO date; everything in the file that asks for a time gets this one. */
  readonly date: string;
  /** Stored turned, so that /Rotate shows it upright, with a wider media box round the crop box. */
  readonly stored?: 'upright' | 'turned by 90';
}

export const POINTS_PER_MM = 72 / 25.4;
/** Bleed round the crop box of a turned sheet, points. */
const BLEED = 36;

export async function writePdfSheet(paper: Paper, options: PdfOptions): Promise<Uint8Array> {
  const pdf = await startPdf(options);
  const turned = options.stored === 'turned by 90';
  const size = [paper.width * POINTS_PER_MM, paper.height * POINTS_PER_MM] as const;
  const page = pdf.addPage(turned ? [size[1] + 2 * BLEED, size[0] + 2 * BLEED] : [size[0], size[1]]);
  if (turned) {
    page.setMediaBox(-BLEED, -BLEED, size[1] + 2 * BLEED, size[0] + 2 * BLEED);
    page.setCropBox(0, 0, size[1], size[0]);
    page.node.set(PDFName.of('Rotate'), pdf.context.obj(90));
  }
  const regular = await pdf.embedFont(StandardFonts.Helvetica);
  const bold = await pdf.embedFont(StandardFonts.HelveticaBold);
  page.node.setFontDictionary(PDFName.of('Regular'), regular.ref);
  page.node.setFontDictionary(PDFName.of('Bold'), bold.ref);
  const writer = new ContentWriter(regular, bold);
  // A page shown turned clockwise by 90° puts stored (x, y) at (y, width − x); this is the way back.
  writer.raw(turned ? `0 1 -1 0 ${number(size[1])} 0 cm` : '1 0 0 1 0 0 cm');
  for (const item of paper.items) writer.draw(item);
  const stream = pdf.context.flateStream(writer.finish());
  page.node.set(PDFName.of('Contents'), pdf.context.register(stream));
  addLayers(pdf, page.node, writer.layers());
  return pdf.save({ useObjectStreams: false, addDefaultPage: false, updateFieldAppearances: false });
}

/** A document whose dates and names are given, so that nothing in it depends on when it was made. */
export async function startPdf({ title, date }: Pick<PdfOptions, 'title' | 'date'>): Promise<PDFDocument> {
  const pdf = await PDFDocument.create({ updateMetadata: false });
  pdf.setTitle(title);
  pdf.setCreator('Lapstrake demo data');
  pdf.setProducer('Lapstrake demo data');
  pdf.setCreationDate(new Date(`${date}T09:00:00Z`));
  pdf.setModificationDate(new Date(`${date}T09:00:00Z`));
  return pdf;
}

function addLayers(
  pdf: PDFDocument,
  node: ReturnType<PDFDocument['getPage']>['node'],
  layers: readonly InkLayer[],
) {
  const groups = layers.map((layer) =>
    pdf.context.register(
      pdf.context.obj({ Type: 'OCG', Name: PDFString.of(layer.charAt(0) + layer.slice(1).toLowerCase()) }),
    ),
  );
  const resources = node.normalizedEntries().Resources;
  const names = Object.fromEntries(layers.map((layer, k) => [layer, groups[k] ?? null]));
  resources.set(PDFName.of('Properties'), pdf.context.obj(names));
  pdf.catalog.set(
    PDFName.of('OCProperties'),
    pdf.context.obj({ OCGs: groups, D: { Order: groups, ON: groups, BaseState: 'ON' } }),
  );
}

/** Ratio of a quarter circle's handles to its radius. */
const HANDLE = 0.5522847498;

class ContentWriter {
  private readonly lines: string[] = ['1 j', '1 J'];
  private readonly used: InkLayer[] = [];
  private layer: InkLayer | null = null;
  private pen = '';
  private fill = '';

  constructor(
    private readonly regular: PDFFont,
    private readonly bold: PDFFont,
  ) {}

  raw(line: string): void {
    this.lines.push(line);
  }

  draw(item: Ink): void {
    if (item.layer !== this.layer) this.enter(item.layer);
    if (item.kind === 'text') {
      this.text(item);
      return;
    }
    if (item.pen) this.usePen(item.pen);
    if (item.fill !== null) this.useFill(item.fill);
    if (item.kind === 'circle') this.circle(item.at, item.radius);
    else this.path(item.points, item.closed);
    this.lines.push(item.pen ? (item.fill === null ? 'S' : 'B') : 'f');
  }

  layers(): readonly InkLayer[] {
    return this.used;
  }

  finish(): string {
    if (this.layer) this.lines.push('EMC');
    return `${this.lines.join('\n')}\n`;
  }

  private enter(layer: InkLayer): void {
    if (this.layer) this.lines.push('EMC');
    this.lines.push(`/OC /${layer} BDC`);
    this.layer = layer;
    if (!this.used.includes(layer)) this.used.push(layer);
  }

  private usePen({ width, grey = 0, dash = [] }: Pen): void {
    const pen = `${number(width * POINTS_PER_MM)} w [${dash.map((d) => number(d * POINTS_PER_MM)).join(' ')}] 0 d ${number(grey)} G`;
    if (pen !== this.pen) this.lines.push(pen);
    this.pen = pen;
  }

  private useFill(grey: number): void {
    const fill = `${number(grey)} g`;
    if (fill !== this.fill) this.lines.push(fill);
    this.fill = fill;
  }

  private path(points: readonly Place[], closed: boolean): void {
    points.forEach((point, k) => this.lines.push(`${pair(point)} ${k === 0 ? 'm' : 'l'}`));
    if (closed) this.lines.push('h');
  }

  private circle([x, y]: Place, r: number): void {
    const h = r * HANDLE;
    const curve = (a: Place, b: Place, c: Place) => this.lines.push(`${pair(a)} ${pair(b)} ${pair(c)} c`);
    this.lines.push(`${pair([x + r, y])} m`);
    curve([x + r, y + h], [x + h, y + r], [x, y + r]);
    curve([x - h, y + r], [x - r, y + h], [x - r, y]);
    curve([x - r, y - h], [x - h, y - r], [x, y - r]);
    curve([x + h, y - r], [x + r, y - h], [x + r, y]);
    this.lines.push('h');
  }

  private text({ at, text, style }: Extract<Ink, { kind: 'text' }>): void {
    const font = style.weight === 'bold' ? this.bold : this.regular;
    const size = style.size * POINTS_PER_MM;
    const width = font.widthOfTextAtSize(text, size);
    const back = style.align === 'middle' ? width / 2 : style.align === 'right' ? width : 0;
    const turn = ((style.angle ?? 0) * Math.PI) / 180;
    const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
    const x = at[0] * POINTS_PER_MM - back * cos;
    const y = at[1] * POINTS_PER_MM - back * sin;
    this.useFill(style.grey ?? 0);
    this.lines.push(
      `BT /${style.weight === 'bold' ? 'Bold' : 'Regular'} ${number(size)} Tf ` +
        `${number(cos)} ${number(sin)} ${number(-sin)} ${number(cos)} ${number(x)} ${number(y)} Tm ` +
        `${font.encodeText(text).toString()} Tj ET`,
    );
  }
}

function pair([x, y]: Place): string {
  return `${number(x * POINTS_PER_MM)} ${number(y * POINTS_PER_MM)}`;
}

function number(value: number): string {
  return String(Math.round(value * 1000) / 1000);
}
