// A scan of inked paper: our own lines painted into grey pixels, a little turned on the glass, as an image-only
// PDF. No library paints here, so the bytes do not depend on the machine.
import { zlibSync } from 'fflate';
import { PDFName } from '@cantoo/pdf-lib';
import type { Ink, Paper, Place } from './ink';
import { POINTS_PER_MM, startPdf } from './pdfSheet';
import type { PdfOptions } from './pdfSheet';
import { lettering } from './strokeFont';

const DPI = 110;
const PIXELS_PER_MM = DPI / 25.4;
/** How far the sheet lies turned on the glass, degrees, and where its corner comes to lie, mm. */
const SCAN_TURN = 0.6;
const SCAN_SHIFT: Place = [1.6, -2.4];
/** Of 15 greys: the paper and the darkest ink. */
const PAPER_GREY = 13;
const INK_GREY = 3;

export async function writeScan(
  paper: Paper,
  options: Pick<PdfOptions, 'title' | 'date'>,
): Promise<Uint8Array> {
  const image = new Scan(Math.round(paper.width * PIXELS_PER_MM), Math.round(paper.height * PIXELS_PER_MM));
  for (const item of paper.items) paintInk(image, item, paper);
  const pdf = await startPdf(options);
  const page = pdf.addPage([paper.width * POINTS_PER_MM, paper.height * POINTS_PER_MM]);
  const picture = pdf.context.stream(zlibSync(image.pack(), { level: 9 }), {
    Type: 'XObject',
    Subtype: 'Image',
    Width: image.width,
    Height: image.height,
    ColorSpace: 'DeviceGray',
    BitsPerComponent: 4,
    Filter: 'FlateDecode',
  });
  page.node.setXObject(PDFName.of('Scan'), pdf.context.register(picture));
  const content = `q ${page.getWidth()} 0 0 ${page.getHeight()} 0 0 cm /Scan Do Q`;
  page.node.set(PDFName.of('Contents'), pdf.context.register(pdf.context.flateStream(content)));
  return pdf.save({ useObjectStreams: false, addDefaultPage: false, updateFieldAppearances: false });
}

function paintInk(image: Scan, item: Ink, paper: Paper): void {
  const place = (point: Place): Place => onGlass(point, paper);
  if (item.kind === 'text') {
    const { strokes, width } = lettering(item.text);
    const { size, align, angle = 0 } = item.style;
    const tall = size * 0.72;
    const back = align === 'middle' ? width / 2 : align === 'right' ? width : 0;
    const [cos, sin] = [Math.cos((angle * Math.PI) / 180), Math.sin((angle * Math.PI) / 180)];
    const pen = item.style.weight === 'bold' ? size * 0.11 : size * 0.075;
    for (const stroke of strokes) {
      const points = stroke.map(([x, y]): Place => {
        const [u, v] = [(x - back) * tall, y * tall];
        return [item.at[0] + u * cos - v * sin, item.at[1] + u * sin + v * cos];
      });
      strokeLine(image, points.map(place), pen, 1, []);
    }
    return;
  }
  const points = item.kind === 'circle' ? circlePoints(item.at, item.radius) : item.points;
  const closed = item.kind === 'circle' || item.closed;
  if (item.fill !== null) image.fill(points.map(place), item.fill);
  if (!item.pen) return;
  const loop = closed && points[0] ? [...points, points[0]] : points;
  strokeLine(image, loop.map(place), item.pen.width, 1 - (item.pen.grey ?? 0), item.pen.dash ?? []);
}

/** From mm on paper, y up, to pixels, y down. */
function onGlass([x, y]: Place, paper: Paper): Place {
  const turn = (SCAN_TURN * Math.PI) / 180;
  const [cx, cy] = [paper.width / 2, paper.height / 2];
  const [dx, dy] = [x - cx, y - cy];
  const u = cx + dx * Math.cos(turn) - dy * Math.sin(turn) + SCAN_SHIFT[0];
  const v = cy + dx * Math.sin(turn) + dy * Math.cos(turn) + SCAN_SHIFT[1];
  return [u * PIXELS_PER_MM, (paper.height - v) * PIXELS_PER_MM];
}

function circlePoints([x, y]: Place, radius: number): Place[] {
  return Array.from({ length: 40 }, (_, k): Place => {
    const angle = (k * Math.PI) / 20;
    return [x + radius * Math.cos(angle), y + radius * Math.sin(angle)];
  });
}

function strokeLine(
  image: Scan,
  points: readonly Place[],
  widthMm: number,
  darkness: number,
  dash: readonly number[],
): void {
  const width = Math.max(0.9, widthMm * PIXELS_PER_MM);
  const lengths = dash.map((part) => part * PIXELS_PER_MM);
  let part = 0;
  let left = lengths[0] ?? Infinity;
  for (let k = 0; k + 1 < points.length; k++) {
    let from = points[k] ?? [0, 0];
    const to = points[k + 1] ?? from;
    for (let rest = Math.hypot(to[0] - from[0], to[1] - from[1]); rest > 0;) {
      // Short pieces keep the box that is searched for covered pixels small.
      const step = Math.min(rest, left, 48);
      const next: Place = [
        from[0] + ((to[0] - from[0]) * step) / rest,
        from[1] + ((to[1] - from[1]) * step) / rest,
      ];
      if (part % 2 === 0) image.stroke(from, next, width, darkness);
      from = next;
      rest -= step;
      left -= step;
      if (left <= 0) left = lengths[++part % lengths.length] ?? Infinity;
    }
  }
}

class Scan {
  private readonly ink: Uint8Array;

  constructor(
    readonly width: number,
    readonly height: number,
  ) {
    this.ink = new Uint8Array(width * height);
  }

  /** Covers each pixel by how near its middle is to the line. */
  stroke(a: Place, b: Place, width: number, darkness: number): void {
    const reach = width / 2 + 1;
    const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
    const square = dx * dx + dy * dy;
    for (let y = this.row(Math.min(a[1], b[1]) - reach); y <= this.row(Math.max(a[1], b[1]) + reach); y++)
      for (
        let x = this.column(Math.min(a[0], b[0]) - reach);
        x <= this.column(Math.max(a[0], b[0]) + reach);
        x++
      ) {
        const [px, py] = [x + 0.5 - a[0], y + 0.5 - a[1]];
        const t = square === 0 ? 0 : Math.min(1, Math.max(0, (px * dx + py * dy) / square));
        const away = Math.hypot(px - t * dx, py - t * dy);
        const cover = Math.min(1, Math.max(0, width / 2 + 0.5 - away)) * darkness;
        const at = y * this.width + x;
        this.ink[at] = Math.max(this.ink[at] ?? 0, Math.round(cover * 255));
      }
  }

  /** Even-odd, by rows of pixels. */
  fill(points: readonly Place[], grey: number): void {
    const ys = points.map((point) => point[1]);
    for (let y = this.row(Math.min(...ys)); y <= this.row(Math.max(...ys)); y++) {
      const middle = y + 0.5;
      const crossings: number[] = [];
      points.forEach((a, k) => {
        const b = points[(k + 1) % points.length] ?? a;
        if (a[1] > middle !== b[1] > middle)
          crossings.push(a[0] + ((middle - a[1]) / (b[1] - a[1])) * (b[0] - a[0]));
      });
      crossings.sort((a, b) => a - b);
      for (let k = 0; k + 1 < crossings.length; k += 2)
        for (let x = this.column((crossings[k] ?? 0) + 0.5); x + 0.5 < (crossings[k + 1] ?? 0); x++)
          this.ink[y * this.width + x] = Math.round((1 - grey) * 255);
    }
  }

  /** Four bits a pixel: the paper's grey, darker under the lid's edge, the ink, and dust. */
  pack(): Uint8Array {
    const rowBytes = Math.ceil(this.width / 2);
    const packed = new Uint8Array(rowBytes * this.height);
    const dust = this.dust();
    for (let y = 0; y < this.height; y++)
      for (let x = 0; x < this.width; x++) {
        const at = y * this.width + x;
        const shade = x < 14 ? Math.ceil((14 - x) / 4) : 0;
        const paper = PAPER_GREY - shade - (dust.has(at) ? 4 : 0);
        const grey = Math.round(paper - ((this.ink[at] ?? 0) / 255) * (PAPER_GREY - INK_GREY));
        const nibble = Math.max(1, Math.min(15, grey));
        packed[y * rowBytes + (x >> 1)]! |= x % 2 === 0 ? nibble << 4 : nibble;
      }
    return packed;
  }

  /** Specks at places from a fixed sequence (a linear congruence, Numerical Recipes' constants). */
  private dust(): ReadonlySet<number> {
    const specks = new Set<number>();
    let state = 20_260_316;
    for (let k = 0; k < 900; k++) {
      state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
      specks.add(state % (this.width * this.height));
    }
    return specks;
  }

  private row(y: number): number {
    return Math.min(this.height - 1, Math.max(0, Math.floor(y)));
  }

  private column(x: number): number {
    return Math.min(this.width - 1, Math.max(0, Math.floor(x)));
  }
}
