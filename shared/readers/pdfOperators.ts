// Walks a page's drawing operators and packs its paths in user space: transforms, form XObjects and groups are
// applied, layers switched off in the file are left out. Clips are not: a line cut by a clip is read whole.
import { OPS } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { PAINT } from '../../core/plan/types';
import type { PackedPaths, PageContent } from '../../core/plan/types';

export interface OperatorList {
  readonly fnArray: readonly number[];
  readonly argsArray: readonly unknown[];
}

export interface Layers {
  isVisible(group: unknown): boolean;
  nameOf(id: string): string;
}

type Matrix = readonly [number, number, number, number, number, number];

interface State {
  matrix: Matrix;
  width: number;
  dashed: boolean;
  strokeInk: number;
  fillInk: number;
}

export function readOperators(
  list: OperatorList,
  layers: Layers,
): Pick<PageContent, 'paths' | 'layers' | 'images' | 'hiddenLayers'> {
  const walk = new Walk(layers);
  list.fnArray.forEach((operator, k) => walk.step(operator, asList(list.argsArray[k])));
  return walk.finish();
}

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

class Walk {
  private state: State = { matrix: [1, 0, 0, 1, 0, 0], width: 1, dashed: false, strokeInk: 0, fillInk: 0 };
  private readonly saved: State[] = [];
  private readonly marked: { layer: number; hidden: boolean }[] = [];
  private readonly names: string[] = [''];
  private readonly hidden = new Set<string>();
  private readonly images: (readonly [number, number])[][] = [];
  private readonly paths = new PathWriter();

  constructor(private readonly layers: Layers) {}

  step(operator: number, args: readonly unknown[]): void {
    switch (operator) {
      case OPS.save:
        this.saved.push(this.state);
        return;
      case OPS.restore:
      case OPS.paintFormXObjectEnd:
      case OPS.endGroup:
        this.state = this.saved.pop() ?? this.state;
        return;
      case OPS.transform:
        this.transform(args);
        return;
      case OPS.paintFormXObjectBegin:
        this.saved.push(this.state);
        this.transform(asList(args[0]));
        return;
      case OPS.beginGroup:
        // The group's matrix comes again with the form inside it.
        this.saved.push(this.state);
        return;
      case OPS.setLineWidth:
        this.state = { ...this.state, width: asNumber(args[0]) };
        return;
      case OPS.setDash:
        this.state = { ...this.state, dashed: asList(args[0]).length > 0 };
        return;
      case OPS.setGState:
        for (const [key, value] of asList(args[0]).map(asList)) this.setState(key, value);
        return;
      case OPS.setStrokeRGBColor:
        this.state = { ...this.state, strokeInk: inkOf(args[0]) };
        return;
      case OPS.setFillRGBColor:
        this.state = { ...this.state, fillInk: inkOf(args[0]) };
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
      case OPS.constructPath:
        this.path(asNumber(args[0]), asList(args[1])[0]);
        return;
      default:
        if (IMAGE_OPERATORS.has(operator) && !this.place().hidden)
          this.images.push(UNIT_SQUARE.map((corner) => applied(this.state.matrix, corner)));
    }
  }

  finish(): Pick<PageContent, 'paths' | 'layers' | 'images' | 'hiddenLayers'> {
    return {
      paths: this.paths.finish(),
      layers: this.names,
      images: this.images,
      hiddenLayers: [...this.hidden],
    };
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
    if (key === 'LW') this.state = { ...this.state, width: asNumber(value) };
    if (key === 'D') this.state = { ...this.state, dashed: asList(asList(value)[0]).length > 0 };
  }

  private place(): { layer: number; hidden: boolean } {
    return this.marked.at(-1) ?? { layer: 0, hidden: false };
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

  private path(operator: number, data: unknown): void {
    const { layer, hidden } = this.place();
    const strokes = STROKING.has(operator);
    const fills = FILLING.has(operator);
    if (hidden || !(data instanceof Float32Array) || !(strokes || fills)) return;
    const { matrix } = this.state;
    const scale = Math.sqrt(Math.abs(matrix[0] * matrix[3] - matrix[1] * matrix[2]));
    this.paths.add(data, matrix, scale, {
      paint: strokes && fills ? PAINT.both : strokes ? PAINT.stroke : PAINT.fill,
      width: this.state.width * scale,
      ink: strokes ? this.state.strokeInk : this.state.fillInk,
      dashed: this.state.dashed,
      layer,
    });
  }
}

interface PathStyle {
  readonly paint: number;
  readonly width: number;
  readonly ink: number;
  readonly dashed: boolean;
  readonly layer: number;
}

/** Points that follow each of the library's own path verbs: move, line, cubic, quadratic, close. */
const POINTS_OF_VERB = [1, 1, 3, 2, 0];
const QUADRATIC = 3;

class PathWriter {
  private readonly verbs: number[] = [];
  private readonly coords: number[] = [];
  private readonly firstVerb: number[] = [0];
  private readonly firstCoord: number[] = [0];
  private readonly styles: (PathStyle & { readonly step: number })[] = [];

  add(data: Float32Array, matrix: Matrix, scale: number, style: PathStyle): void {
    let largest = 0;
    let pen: readonly [number, number] = [0, 0];
    for (let k = 0; k < data.length;) {
      const verb = data[k++] ?? 0;
      const points: (readonly [number, number])[] = [];
      for (let n = POINTS_OF_VERB[verb] ?? 0; n > 0; n--) {
        const x = data[k++] ?? 0;
        const y = data[k++] ?? 0;
        largest = Math.max(largest, Math.abs(x), Math.abs(y));
        points.push(applied(matrix, [x, y]));
      }
      if (points.some(([x, y]) => !Number.isFinite(x) || !Number.isFinite(y))) continue;
      this.write(verb, points, pen);
      pen = points.at(-1) ?? pen;
    }
    this.firstVerb.push(this.verbs.length);
    this.firstCoord.push(this.coords.length);
    this.styles.push({ ...style, step: floatStep(largest) * scale });
  }

  finish(): PackedPaths {
    const { styles } = this;
    return {
      count: styles.length,
      verbs: Uint8Array.from(this.verbs),
      coords: Float64Array.from(this.coords),
      firstVerb: Uint32Array.from(this.firstVerb),
      firstCoord: Uint32Array.from(this.firstCoord),
      paint: Uint8Array.from(styles, (style) => style.paint),
      width: Float32Array.from(styles, (style) => style.width),
      ink: Uint32Array.from(styles, (style) => style.ink),
      dashed: Uint8Array.from(styles, (style) => (style.dashed ? 1 : 0)),
      layer: Uint16Array.from(styles, (style) => style.layer),
      step: Float32Array.from(styles, (style) => style.step),
    };
  }

  /** A quadratic curve is raised to the cubic that is the same curve. */
  private write(
    verb: number,
    points: readonly (readonly [number, number])[],
    pen: readonly [number, number],
  ): void {
    const [control, end] = points;
    if (verb === QUADRATIC && control && end) {
      this.verbs.push(2);
      this.coords.push(
        pen[0] + ((control[0] - pen[0]) * 2) / 3,
        pen[1] + ((control[1] - pen[1]) * 2) / 3,
        end[0] + ((control[0] - end[0]) * 2) / 3,
        end[1] + ((control[1] - end[1]) * 2) / 3,
        end[0],
        end[1],
      );
      return;
    }
    this.verbs.push(verb > QUADRATIC ? QUADRATIC : verb);
    for (const [x, y] of points) this.coords.push(x, y);
  }
}

/** Distance from a number to the next that 32 bits can hold: the library passes coordinates as such. */
function floatStep(value: number): number {
  return value === 0 ? 0 : 2 ** (Math.floor(Math.log2(value)) - 23);
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
