// Rough plans as PDFs, drawn the way many programs write them: each stroke by itself, walls as two lines, corners that
// miss each other, dimension lines through the outline; on pages that are turned, cropped or in other units.

export type Spot = readonly [number, number];

export interface RoughPage {
  /** Of the displayed page, in points. */
  readonly width: number;
  readonly height: number;
  readonly rotation?: 0 | 90 | 180 | 270;
  /** The crop box lies so far from the media box's edges and from the origin, in points. */
  readonly crop?: Spot;
  readonly userUnit?: number;
  /** Everything is drawn in a form within a form, each with a matrix of its own, the inner one turned by a quarter. */
  readonly forms?: 'nested';
  /** A grey picture over the whole page, as a scanner writes it. */
  readonly picture?: 'behind';
}

/** Draws in points of the displayed page, y up. */
export class RoughPen {
  readonly marks: string[] = ['1 J'];

  constructor(
    private readonly toUser: (spot: Spot) => Spot,
    private readonly turn: number,
    private readonly unit: number,
  ) {}

  width(points: number): void {
    this.marks.push(`${num(points / this.unit)} w`);
  }

  /** Grey of strokes and fills, 0 black to 1 white. */
  grey(share: number): void {
    this.marks.push(`${num(share)} G ${num(share)} g`);
  }

  /** Draws within a rectangle alone. */
  clipped(a: Spot, b: Spot, draw: () => void): void {
    this.marks.push(`q ${this.path([a, [b[0], a[1]], b, [a[0], b[1]]])} h W n`);
    draw();
    this.marks.push('Q');
  }

  dash(...lengths: readonly number[]): void {
    this.marks.push(`[${lengths.map((length) => num(length / this.unit)).join(' ')}] 0 d`);
  }

  line(a: Spot, b: Spot): void {
    this.marks.push(`${this.at(a)} m ${this.at(b)} l S`);
  }

  /** Each side a path of its own, as plotters' programs write them. */
  loose(points: readonly Spot[], closed: 'closed' | 'open' = 'closed'): void {
    const last = closed === 'closed' ? points.length : points.length - 1;
    for (let k = 0; k < last; k++) this.line(points[k] as Spot, points[(k + 1) % points.length] as Spot);
  }

  ring(points: readonly Spot[], paint: 'S' | 'f' | 'B' = 'S'): void {
    this.marks.push(`${this.path(points)} h ${paint}`);
  }

  polyline(points: readonly Spot[]): void {
    this.marks.push(`${this.path(points)} S`);
  }

  box(a: Spot, b: Spot, paint: 'S' | 'f' | 'B' = 'S'): void {
    this.ring([a, [b[0], a[1]], b, [a[0], b[1]]], paint);
  }

  /** Counter-clockwise from one angle to another, in degrees, in quarters or less. */
  arc(middle: Spot, radius: number, from: number, to: number): void {
    const steps = Math.ceil(Math.abs(to - from) / 90);
    const turn = ((to - from) / steps / 180) * Math.PI;
    const handle = (4 / 3) * Math.tan(turn / 4) * radius;
    let angle = (from / 180) * Math.PI;
    const on = (a: number): Spot => [middle[0] + radius * Math.cos(a), middle[1] + radius * Math.sin(a)];
    const parts = [`${this.at(on(angle))} m`];
    for (let k = 0; k < steps; k++) {
      const [p, q] = [on(angle), on(angle + turn)];
      const c: Spot = [p[0] - handle * Math.sin(angle), p[1] + handle * Math.cos(angle)];
      const d: Spot = [q[0] + handle * Math.sin(angle + turn), q[1] - handle * Math.cos(angle + turn)];
      parts.push(`${this.at(c)} ${this.at(d)} ${this.at(q)} c`);
      angle += turn;
    }
    this.marks.push(`${parts.join(' ')} S`);
  }

  circle(middle: Spot, radius: number): void {
    this.arc(middle, radius, 0, 360);
  }

  /** A filled dot. */
  disc(middle: Spot, radius: number): void {
    this.circle(middle, radius);
    this.marks.push((this.marks.pop() ?? '').replace(/S$/, 'f'));
  }

  /** In text heights. */
  widthOf(text: string): number {
    return widthOf(text);
  }

  text(at: Spot, text: string, height: number, angle = 0): void {
    const turned = ((angle + this.turn) / 180) * Math.PI;
    const [c, s] = [Math.cos(turned), Math.sin(turned)];
    const escaped = text.replace(/[\\()]/g, '\\$&');
    this.marks.push(
      `BT /F1 ${num(height / this.unit)} Tf ${num(c)} ${num(s)} ${num(-s)} ${num(c)} ${this.at(at)} Tm (${escaped}) Tj ET`,
    );
  }

  /** Text whose middle stands at a spot, by the widths of Helvetica's figures. */
  textOver(middle: Spot, text: string, height: number, angle = 0): void {
    const wide = widthOf(text) * height;
    const turned = (angle / 180) * Math.PI;
    this.text(
      [middle[0] - (wide / 2) * Math.cos(turned), middle[1] - (wide / 2) * Math.sin(turned)],
      text,
      height,
      angle,
    );
  }

  /** A string of dimensions from stop to stop: extension lines, oblique strokes, figures above the line. */
  dimensions(
    stops: readonly number[],
    at: number,
    way: 'across' | 'up',
    options: {
      readonly say: (points: number) => string;
      readonly height?: number;
      readonly from?: number;
      readonly ends?: 'strokes' | 'arrows' | 'dots';
      readonly breaks?: boolean;
    },
  ): void {
    const { say, height = 6, from = 20, ends = 'strokes', breaks = false } = options;
    const spot = (along: number, off: number): Spot =>
      way === 'across' ? [along, at + off] : [at - off, along];
    for (const stop of stops) {
      this.line(spot(stop, -from), spot(stop, 3));
      if (ends === 'strokes') this.line(spot(stop - 2.5, -2.5), spot(stop + 2.5, 2.5));
      if (ends === 'dots') this.circle(spot(stop, 0), 1);
    }
    stops.slice(1).forEach((stop, k) => {
      const start = stops[k] ?? 0;
      const middle = (start + stop) / 2;
      const text = say(stop - start);
      const half = [...text].length * 0.3 * height;
      if (breaks) {
        this.line(spot(start, 0), spot(middle - half - 1, 0));
        this.line(spot(middle + half + 1, 0), spot(stop, 0));
      } else this.line(spot(start, 0), spot(stop, 0));
      if (ends === 'arrows')
        for (const [tip, back] of [
          [start, 5],
          [stop, -5],
        ] as const)
          this.ring([spot(tip, 0), spot(tip + back, 1), spot(tip + back, -1)], 'f');
      this.textOver(spot(middle, breaks ? -0.35 * height : 2), text, height, way === 'across' ? 0 : 90);
    });
  }

  /** Each sign shown by itself, where it belongs. */
  letters(at: Spot, text: string, height: number, angle = 0): void {
    const turned = (angle / 180) * Math.PI;
    let along = 0;
    for (const sign of text) {
      if (sign !== ' ')
        this.text([at[0] + along * Math.cos(turned), at[1] + along * Math.sin(turned)], sign, height, angle);
      along += widthOf(sign) * height;
    }
  }

  private path(points: readonly Spot[]): string {
    return points.map((point, k) => `${this.at(point)} ${k === 0 ? 'm' : 'l'}`).join(' ');
  }

  private at(spot: Spot): string {
    const [x, y] = this.toUser(spot);
    return `${num(x)} ${num(y)}`;
  }
}

export function roughPdf(page: RoughPage, draw: (pen: RoughPen) => void): Uint8Array {
  const { width, height, rotation = 0, crop = [0, 0], userUnit = 1, forms, picture } = page;
  const lying = rotation % 180 !== 0;
  const [wide, tall] = (lying ? [height, width] : [width, height]).map((side) => side / userUnit) as [
    number,
    number,
  ];
  const [left, bottom] = crop;
  // The way back from the displayed page: /Rotate turns clockwise (ISO 32000-1, table 30).
  const toUser = ([x, y]: Spot): Spot => {
    const [u, v] = [x / userUnit, y / userUnit];
    const [a, b] =
      rotation === 90
        ? [wide - v, u]
        : rotation === 180
          ? [wide - u, tall - v]
          : rotation === 270
            ? [v, tall - u]
            : [u, v];
    return [left + a, bottom + b];
  };
  // A point of the form within the form is turned by a quarter, moved and made three times as small on its way out.
  const toForm = ([x, y]: Spot): Spot => [3 * (y - 55), 3 * (35 - x)];
  const nested = forms === 'nested';
  const pen = nested
    ? new RoughPen((spot) => toForm(toUser(spot)), rotation - 90, userUnit / 3)
    : new RoughPen(toUser, rotation, userUnit);
  draw(pen);
  const drawing = pen.marks.join('\n');
  const paper = picture ? `q ${num(wide)} 0 0 ${num(tall)} ${num(left)} ${num(bottom)} cm /I1 Do Q\n` : '';
  const content = nested ? 'q 0.5 0 0 0.5 5 10 cm /X1 Do Q' : paper + drawing;
  const media = [left - 20, bottom - 30, left + wide + 25, bottom + tall + 15];
  const boxes =
    crop[0] === 0 && crop[1] === 0
      ? `/MediaBox[0 0 ${num(wide)} ${num(tall)}]`
      : `/MediaBox[${media.map(num).join(' ')}]/CropBox[${[left, bottom, left + wide, bottom + tall].map(num).join(' ')}]`;
  const form = (matrix: string, inner: string, body: string): string =>
    `<</Type/XObject/Subtype/Form/BBox[-99999 -99999 99999 99999]/Matrix[${matrix}]/Resources<<${inner}>>/Length ${body.length}>>\nstream\n${body}\nendstream`;
  const bodies = [
    '<</Type/Catalog/Pages 2 0 R>>',
    '<</Type/Pages/Kids[3 0 R]/Count 1>>',
    `<</Type/Page/Parent 2 0 R${boxes}${rotation === 0 ? '' : `/Rotate ${rotation}`}${userUnit === 1 ? '' : `/UserUnit ${userUnit}`}/Contents 4 0 R/Resources<</Font<</F1 5 0 R>>/XObject<</X1 6 0 R/I1 8 0 R>>>>>>`,
    `<</Length ${content.length}>>\nstream\n${content}\nendstream`,
    '<</Type/Font/Subtype/Type1/BaseFont/Helvetica/Encoding/WinAnsiEncoding>>',
    form('2 0 0 2 -10 -20', '/XObject<</X2 7 0 R>>', nested ? 'q 0.5 0 0 0.5 20 30 cm /X2 Do Q' : ''),
    form('0 0.66666666667 -0.66666666667 0 30 50', '/Font<</F1 5 0 R>>', nested ? drawing : ''),
    '<</Type/XObject/Subtype/Image/Width 1/Height 1/ColorSpace/DeviceGray/BitsPerComponent 8/Length 1>>\nstream\n~\nendstream',
  ];
  let text = '%PDF-1.7\n';
  const places = bodies.map((body, k) => {
    const place = text.length;
    text += `${k + 1} 0 obj\n${body}\nendobj\n`;
    return place;
  });
  const rows = places.map((place) => `${String(place).padStart(10, '0')} 00000 n \n`).join('');
  text += `xref\n0 ${bodies.length + 1}\n0000000000 65535 f \n${rows}trailer\n<</Size ${bodies.length + 1}/Root 1 0 R>>\nstartxref\n${text.length}\n%%EOF\n`;
  // One byte a sign, as the font is encoded.
  return Uint8Array.from(text, (sign) => sign.charCodeAt(0));
}

function num(value: number): string {
  return String(Math.round(value * 1e4) / 1e4);
}

function widthOf(text: string): number {
  return [...text].reduce((sum, sign) => sum + (WIDTHS[sign] ?? 0.556), 0);
}

/** Of Helvetica, in text heights, where they are not a figure's. */
const WIDTHS: Readonly<Record<string, number>> = {
  "'": 0.191,
  '"': 0.355,
  '-': 0.333,
  ' ': 0.278,
  '/': 0.278,
  '.': 0.278,
  ',': 0.278,
  m: 0.833,
};
