// Walks a page's drawing operators as they come and packs its paths in user space: transforms, form XObjects and
// groups are applied, layers switched off in the file are left out, clips are kept as rectangles.
import { OPS } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { NO_INK, PAINT } from '../../core/plan/types';
import type { PageContent } from '../../core/plan/types';
import { PathWriter } from './packPaths';
import type { Matrix } from './packPaths';

export interface OperatorList {
  readonly fnArray: readonly number[];
  readonly argsArray: readonly unknown[];
}

export interface Layers {
  isVisible(group: unknown): boolean;
  nameOf(id: string): string;
}

export type Drawn = Pick<PageContent, 'paths' | 'layers' | 'images' | 'hiddenLayers'>;

export function readOperators(list: OperatorList, layers: Layers): Drawn {
  const walk = new OperatorWalk(layers);
  walk.read(list);
  return walk.finish();
}

type Box = readonly [left: number, bottom: number, right: number, top: number];

interface State {
  readonly matrix: Matrix;
  readonly width: number;
  readonly cap: number;
  readonly join: number;
  readonly dash: number;
  readonly strokeInk: number;
  readonly fillInk: number;
  readonly strokeAlpha: number;
  readonly fillAlpha: number;
  /** Number of the clip, from 1; 0 for none. */
  readonly clip: number;
}

const FIRST_STATE: State = {
  matrix: [1, 0, 0, 1, 0, 0],
  width: 1,
  cap: 0,
  join: 0,
  dash: 0,
  strokeInk: 0,
  fillInk: 0,
  strokeAlpha: 1,
  fillAlpha: 1,
  clip: 0,
};

const UNIT_SQUARE = [
  [0, 0],
  [1, 0],
  [1, 1],
  [0, 1],
] as const;

const IMAGE_OPERATORS = new Set<number>([
  OPS.paintImageXObject,
  OPS.paintInlineImageXObject,
  OPS.paintImageMaskXObject,
  OPS.paintSolidColorImageMask,
]);
/** How the library packs many like pictures into one operator: where each lies is not worth knowing. */
const MANY_IMAGES = new Set<number>([
  OPS.paintImageXObjectRepeat,
  OPS.paintInlineImageXObjectGroup,
  OPS.paintImageMaskXObjectGroup,
  OPS.paintImageMaskXObjectRepeat,
]);

const STROKING = new Set<number>([
  OPS.stroke,
  OPS.closeStroke,
  OPS.fillStroke,
  OPS.eoFillStroke,
  OPS.closeFillStroke,
  OPS.closeEOFillStroke,
]);
const FILLING = new Set<number>([
  OPS.fill,
  OPS.eoFill,
  OPS.fillStroke,
  OPS.eoFillStroke,
  OPS.closeFillStroke,
  OPS.closeEOFillStroke,
]);
const EVEN_ODD = new Set<number>([OPS.eoFill, OPS.eoFillStroke, OPS.closeEOFillStroke]);

export class OperatorWalk {
  /** Operators read so far, and how many of them put a form down. */
  count = 0;
  forms = 0;
  private state: State = FIRST_STATE;
  private readonly saved: State[] = [];
  private readonly marked: { layer: number; hidden: boolean }[] = [];
  private readonly names: string[] = [''];
  private readonly hidden = new Set<string>();
  private readonly images: (readonly (readonly [number, number])[])[] = [];
  private readonly paths = new PathWriter();
  private readonly dashes: (readonly number[])[] = [[]];
  private readonly dashNumbers = new Map<string, number>([['', 0]]);
  private readonly clips: number[] = [];
  private clipPending = false;
  private wordsSeen = false;
  private othersSeen = false;

  constructor(private readonly layers: Layers) {}

  read({ fnArray, argsArray }: OperatorList): void {
    for (let k = 0; k < fnArray.length; k++) this.step(fnArray[k] ?? 0, argsArray[k]);
    this.count += fnArray.length;
  }

  get pathCount(): number {
    return this.paths.count;
  }

  /** Drawing states that are saved now. */
  get depth(): number {
    return this.saved.length;
  }

  get hasWords(): boolean {
    return this.wordsSeen;
  }

  /** Whether anything but plain paths was drawn: lettering, pictures, patterns or shadings. */
  get hasMore(): boolean {
    return this.wordsSeen || this.othersSeen || this.images.length > 0;
  }

  finish(): Drawn {
    return {
      paths: this.paths.finish(this.dashes, this.clips),
      layers: this.names,
      images: this.images,
      hiddenLayers: [...this.hidden],
    };
  }

  private step(operator: number, given: unknown): void {
    const { state } = this;
    if (operator === OPS.constructPath) return this.path(asList(given));
    const args = asList(given);
    switch (operator) {
      case OPS.save:
      case OPS.beginGroup:
        // A group's matrix comes again with the form inside it.
        this.saved.push(state);
        return;
      case OPS.restore:
      case OPS.paintFormXObjectEnd:
      case OPS.endGroup:
        this.state = this.saved.pop() ?? state;
        return;
      case OPS.transform:
        this.transform(args);
        return;
      case OPS.paintFormXObjectBegin:
        this.forms++;
        this.saved.push(state);
        this.transform(asList(args[0]));
        this.clipToBox(asList(args[1]).map(asNumber));
        return;
      case OPS.setLineWidth:
      case OPS.setLineCap:
      case OPS.setLineJoin:
        this.state = { ...state, [PEN_OF[operator] as 'width' | 'cap' | 'join']: asNumber(args[0]) };
        return;
      case OPS.setDash:
        this.setDash(args[0]);
        return;
      case OPS.setGState:
        for (const [key, value] of asList(args[0]).map(asList)) this.setState(key, value);
        return;
      case OPS.setStrokeRGBColor:
        this.state = { ...state, strokeInk: inkOf(args[0]) };
        return;
      case OPS.setFillRGBColor:
        this.state = { ...state, fillInk: inkOf(args[0]) };
        return;
      case OPS.setStrokeColorN:
      case OPS.setStrokeTransparent:
        this.othersSeen = true;
        this.state = { ...state, strokeInk: NO_INK };
        return;
      case OPS.setFillColorN:
      case OPS.setFillTransparent:
        this.othersSeen = true;
        this.state = { ...state, fillInk: NO_INK };
        return;
      case OPS.clip:
      case OPS.eoClip:
        this.clipPending = true;
        return;
      case OPS.beginMarkedContent:
        this.marked.push(this.place());
        return;
      case OPS.beginMarkedContentProps:
        this.marked.push(args[0] === 'OC' ? this.enterLayer(args[1]) : this.place());
        return;
      case OPS.endMarkedContent:
        this.marked.pop();
        return;
      case OPS.showText:
        this.wordsSeen = true;
        return;
      case OPS.shadingFill:
        this.othersSeen = true;
        return;
      default:
        this.othersSeen ||= MANY_IMAGES.has(operator);
        if (IMAGE_OPERATORS.has(operator) && !this.place().hidden)
          this.images.push(UNIT_SQUARE.map((corner) => applied(state.matrix, corner)));
    }
  }

  private transform(args: readonly unknown[]): void {
    if (args.length !== 6) return;
    const [a, b, c, d, e, f] = args.map(asNumber) as unknown as Matrix;
    const m = this.state.matrix;
    this.state = {
      ...this.state,
      matrix: [
        m[0] * a + m[2] * b,
        m[1] * a + m[3] * b,
        m[0] * c + m[2] * d,
        m[1] * c + m[3] * d,
        m[0] * e + m[2] * f + m[4],
        m[1] * e + m[3] * f + m[5],
      ],
    };
  }

  private setState(key: unknown, value: unknown): void {
    const { state } = this;
    if (key === 'LW') this.state = { ...state, width: asNumber(value) };
    if (key === 'LC') this.state = { ...state, cap: asNumber(value) };
    if (key === 'LJ') this.state = { ...state, join: asNumber(value) };
    if (key === 'D') this.setDash(asList(value)[0]);
    if (key === 'CA') this.state = { ...state, strokeAlpha: asNumber(value) };
    if (key === 'ca') this.state = { ...state, fillAlpha: asNumber(value) };
  }

  private setDash(lengths: unknown): void {
    const scaled = asList(lengths).map((length) => asNumber(length) * scaleOf(this.state.matrix));
    const dash = scaled.some((length) => length > 0) ? scaled : [];
    const key = dash.join(' ');
    const known = this.dashNumbers.get(key);
    const number = known ?? Math.min(0xffff, this.dashes.push(dash) - 1);
    if (known === undefined) this.dashNumbers.set(key, number);
    this.state = { ...this.state, dash: number };
  }

  private place(): { layer: number; hidden: boolean } {
    return this.marked.at(-1) ?? ON_NO_LAYER;
  }

  private enterLayer(group: unknown): { layer: number; hidden: boolean } {
    const outer = this.place();
    if (typeof group !== 'object' || group === null) return outer;
    const id = 'id' in group && typeof group.id === 'string' ? group.id : null;
    const name = id === null ? '' : this.layers.nameOf(id);
    const hidden = outer.hidden || !this.layers.isVisible(group);
    if (hidden && !outer.hidden && name !== '') this.hidden.add(name);
    if (hidden || name === '') return { layer: outer.layer, hidden };
    const known = this.names.indexOf(name);
    return { layer: known >= 0 ? known : this.names.push(name) - 1, hidden };
  }

  private path(args: readonly unknown[]): void {
    const operator = asNumber(args[0]);
    const [data] = asList(args[1]);
    const { layer, hidden } = this.place();
    const strokes = STROKING.has(operator);
    const fills = FILLING.has(operator);
    const { state } = this;
    const { matrix } = state;
    if (!hidden && data instanceof Float32Array && (strokes || fills)) {
      const scale = scaleOf(matrix);
      this.paths.add(data, matrix, scale, {
        paint: strokes && fills ? PAINT.both : strokes ? PAINT.stroke : PAINT.fill,
        width: state.width * scale,
        strokeInk: strokes ? state.strokeInk : state.fillInk,
        fillInk: state.fillInk,
        strokeAlpha: state.strokeAlpha,
        fillAlpha: state.fillAlpha,
        pen: (state.cap & 3) + 4 * (state.join & 3) + (EVEN_ODD.has(operator) ? 16 : 0),
        dash: state.dash,
        layer,
        clip: state.clip,
      });
    }
    if (!this.clipPending) return;
    this.clipPending = false;
    const extent = asList(args[2]);
    if (extent.every((side) => Number.isFinite(side))) this.clipToBox(extent.map(asNumber));
  }

  /** left, bottom, right, top in the space of the current matrix. */
  private clipToBox([left, bottom, right, top]: readonly number[]): void {
    if (left === undefined || bottom === undefined || right === undefined || top === undefined) return;
    const corners = UNIT_SQUARE.map(([u, v]) =>
      applied(this.state.matrix, [left + u * (right - left), bottom + v * (top - bottom)]),
    );
    const xs = corners.map(([x]) => x);
    const ys = corners.map(([, y]) => y);
    const outer = this.clipBox(this.state.clip);
    const box: Box = [
      Math.max(outer[0], Math.min(...xs)),
      Math.max(outer[1], Math.min(...ys)),
      Math.min(outer[2], Math.max(...xs)),
      Math.min(outer[3], Math.max(...ys)),
    ];
    if (!box.every(Number.isFinite) || box.every((side, k) => side === outer[k])) return;
    this.state = { ...this.state, clip: this.clips.push(...box) / 4 };
  }

  private clipBox(number: number): Box {
    if (number === 0) return [-Infinity, -Infinity, Infinity, Infinity];
    return this.clips.slice(4 * number - 4, 4 * number) as unknown as Box;
  }
}

const ON_NO_LAYER = { layer: 0, hidden: false };

const PEN_OF: Readonly<Record<number, 'width' | 'cap' | 'join'>> = {
  [OPS.setLineWidth]: 'width',
  [OPS.setLineCap]: 'cap',
  [OPS.setLineJoin]: 'join',
};

function scaleOf([a, b, c, d]: Matrix): number {
  return Math.sqrt(Math.abs(a * d - b * c));
}

function applied(m: Matrix, [x, y]: readonly [number, number]): readonly [number, number] {
  return [m[0] * x + m[2] * y + m[4], m[1] * x + m[3] * y + m[5]];
}

function inkOf(value: unknown): number {
  return typeof value === 'string' && /^#[0-9a-f]{6}$/i.test(value) ? parseInt(value.slice(1), 16) : 0;
}

function asNumber(value: unknown): number {
  return typeof value === 'number' && Number.isFinite(value) ? value : 0;
}

function asList(value: unknown): readonly unknown[] {
  if (Array.isArray(value)) return value;
  return value instanceof Float32Array ? Array.from(value) : [];
}
