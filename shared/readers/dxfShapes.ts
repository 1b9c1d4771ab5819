// Walks the entities of a DXF drawing and packs them as paths in the drawing's own units: inserts and dimension blocks
// are unfolded, bulges and arcs become cubics, layers that are off are left out.
import type {
  IArcEntity,
  ICircleEntity,
  IDimensionEntity,
  IDxf,
  IEllipseEntity,
  IEntity,
  IInsertEntity,
  ILineEntity,
  ILwpolylineEntity,
  IMtextEntity,
  IPoint,
  IPolylineEntity,
  ISolidEntity,
  ISplineEntity,
  ITextEntity,
} from 'dxf-parser';
import { PAINT, PATH_VERBS } from '../../core/plan/types';
import type { PackedPaths, PageText } from '../../core/plan/types';
import { readMtext, readPlainText } from './dxfText';

export interface DxfShapes {
  readonly paths: PackedPaths;
  readonly texts: readonly PageText[];
  readonly layers: readonly string[];
  readonly hiddenLayers: readonly string[];
  /** Kinds of entity that could not be drawn, and how many of each. */
  readonly leftOut: ReadonlyMap<string, number>;
}

type Place = readonly [number, number];
/** x' = a x + c y + e, y' = b x + d y + f. */
type Matrix = readonly [a: number, b: number, c: number, d: number, e: number, f: number];

export const MOST_PATHS = 2_000_000;
const DEEPEST_INSERT = 16;

/** Null where the drawing unfolds into more than is read. */
export function readDxfShapes(dxf: IDxf): DxfShapes | null {
  const walk = new Walk(dxf);
  for (const entity of dxf.entities)
    if (!entity.inPaperSpace && !walk.draw(entity, [1, 0, 0, 1, 0, 0], 0, null)) return null;
  return walk.finish();
}

class Walk {
  private readonly verbs: number[] = [];
  private readonly coords: number[] = [];
  private readonly firstVerb: number[] = [0];
  private readonly firstCoord: number[] = [0];
  private readonly styles: { readonly paint: number; readonly dashed: number; readonly layer: number }[] = [];
  private readonly texts: PageText[] = [];
  private readonly names: string[] = [''];
  private readonly hidden = new Set<string>();
  private readonly leftOut = new Map<string, number>();

  constructor(private readonly dxf: IDxf) {}

  /** False where there is too much. `by` is the layer of the insert around it. */
  draw(entity: IEntity, matrix: Matrix, depth: number, by: string | null): boolean {
    if (entity.visible === false) return true;
    // What lies on layer 0 of a block takes the layer of its insert.
    const layer = by !== null && (entity.layer === '0' || !entity.layer) ? by : (entity.layer ?? '0');
    const state = this.tables().layer?.layers?.[layer];
    if (state && (state.visible === false || state.frozen)) {
      this.hidden.add(layer);
      return true;
    }
    if (this.styles.length > MOST_PATHS) return false;
    const pen = { layer, dashed: this.isDashed(entity), matrix };
    switch (entity.type) {
      case 'LINE':
        this.polyline((entity as ILineEntity).vertices, false, pen);
        return true;
      case 'LWPOLYLINE': {
        const line = entity as ILwpolylineEntity;
        const turned = flipped(pen, line.extrusionDirectionZ);
        this.polyline(line.vertices, line.shape, turned);
        return true;
      }
      case 'POLYLINE': {
        const line = entity as IPolylineEntity;
        if (line.isPolyfaceMesh || line.is3dPolygonMesh) return this.leave('POLYLINE mesh');
        this.polyline(line.vertices, line.shape, flipped(pen, line.extrusionDirection?.z));
        return true;
      }
      case 'CIRCLE': {
        const { center, radius } = entity as ICircleEntity;
        this.arc([center.x, center.y], radius, 0, 2 * Math.PI, pen);
        return true;
      }
      case 'ARC': {
        const arc = entity as IArcEntity;
        const sweep = (arc.endAngle - arc.startAngle + 4 * Math.PI) % (2 * Math.PI) || 2 * Math.PI;
        const turned = flipped(pen, arc.extrusionDirectionZ);
        this.arc([arc.center.x, arc.center.y], arc.radius, arc.startAngle, sweep, turned);
        return true;
      }
      case 'ELLIPSE':
        this.ellipse(entity as IEllipseEntity, pen);
        return true;
      case 'SPLINE':
        return this.spline(entity as ISplineEntity, pen);
      case 'SOLID': {
        const [a, b, c, d] = (entity as ISolidEntity).points;
        // The third and fourth corner of a SOLID are crossed over.
        if (a && b && c) this.polyline([a, b, ...(d ? [d] : []), c], true, pen, PAINT.fill);
        return true;
      }
      case 'TEXT':
        this.text(readPlainText(entity as ITextEntity), matrix);
        return true;
      case 'MTEXT':
        for (const line of readMtext(entity as IMtextEntity)) this.text(line, matrix);
        return true;
      case 'INSERT':
        return this.insert(entity as IInsertEntity, matrix, depth, layer);
      case 'DIMENSION':
        return this.block((entity as IDimensionEntity).block, matrix, depth, layer);
      default:
        return this.leave(entity.type);
    }
  }

  finish(): DxfShapes {
    const { styles } = this;
    const count = styles.length;
    return {
      paths: {
        count,
        verbs: Uint8Array.from(this.verbs),
        coords: Float64Array.from(this.coords),
        firstVerb: Uint32Array.from(this.firstVerb),
        firstCoord: Uint32Array.from(this.firstCoord),
        paint: Uint8Array.from(styles, (style) => style.paint),
        width: new Float32Array(count),
        ink: new Uint32Array(count),
        dashed: Uint8Array.from(styles, (style) => style.dashed),
        layer: Uint16Array.from(styles, (style) => style.layer),
        step: new Float32Array(count),
      },
      texts: this.texts,
      layers: this.names,
      hiddenLayers: [...this.hidden],
      leftOut: this.leftOut,
    };
  }

  private tables(): Partial<IDxf['tables']> {
    return this.dxf.tables ?? {};
  }

  private leave(type: string): true {
    this.leftOut.set(type, (this.leftOut.get(type) ?? 0) + 1);
    return true;
  }

  private isDashed(entity: IEntity): boolean {
    const name = entity.lineType;
    if (!name || /^(bylayer|byblock|continuous)$/i.test(name)) return false;
    return (this.tables().lineType?.lineTypes?.[name]?.pattern?.length ?? 0) > 0;
  }

  private insert(insert: IInsertEntity, matrix: Matrix, depth: number, layer: string): boolean {
    const base = this.dxf.blocks?.[insert.name]?.position ?? { x: 0, y: 0 };
    const [sx, sy] = [insert.xScale || 1, insert.yScale || 1];
    const turn = ((insert.rotation ?? 0) * Math.PI) / 180;
    const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
    const mirror: Matrix = (insert.extrusionDirection?.z ?? 1) < 0 ? [-1, 0, 0, 1, 0, 0] : [1, 0, 0, 1, 0, 0];
    const columns = Math.max(1, insert.columnCount ?? 1);
    const rows = Math.max(1, insert.rowCount ?? 1);
    if (columns * rows > MOST_PATHS) return false;
    for (let column = 0; column < columns; column++)
      for (let row = 0; row < rows; row++) {
        const ox = column * (insert.columnSpacing ?? 0);
        const oy = row * (insert.rowSpacing ?? 0);
        const place: Matrix = [
          sx * cos,
          sx * sin,
          -sy * sin,
          sy * cos,
          insert.position.x + ox * cos - oy * sin,
          insert.position.y + ox * sin + oy * cos,
        ];
        const whole = after(after(after(matrix, mirror), place), [1, 0, 0, 1, -base.x, -base.y]);
        if (!this.block(insert.name, whole, depth, layer)) return false;
      }
    return true;
  }

  private block(name: string | undefined, matrix: Matrix, depth: number, layer: string): boolean {
    const block = name === undefined ? undefined : this.dxf.blocks?.[name];
    if (!block || depth >= DEEPEST_INSERT) return this.leave('INSERT');
    return (block.entities ?? []).every((entity) => this.draw(entity, matrix, depth + 1, layer));
  }

  private polyline(
    vertices: readonly (IPoint & { readonly bulge?: number })[] | undefined,
    closed: boolean,
    pen: Pen,
    paint: number = PAINT.stroke,
  ): void {
    const [first] = vertices ?? [];
    if (!vertices || !first || vertices.length < 2) return;
    this.move([first.x, first.y], pen);
    const ends = closed ? [...vertices.slice(1), first] : vertices.slice(1);
    ends.forEach((to, k) => {
      const from = vertices[k] ?? first;
      const bulge = from.bulge ?? 0;
      if (bulge === 0) this.line([to.x, to.y], pen);
      else this.bulge([from.x, from.y], [to.x, to.y], bulge, pen);
    });
    this.end(pen, paint);
  }

  /** The bulge is the tangent of a quarter of the angle, positive to the right of the chord. */
  private bulge(from: Place, to: Place, bulge: number, pen: Pen): void {
    const sweep = 4 * Math.atan(bulge);
    const chord = Math.hypot(to[0] - from[0], to[1] - from[1]);
    if (chord === 0) return;
    const radius = chord / 2 / Math.sin(Math.abs(sweep) / 2);
    const rise = (chord / 2) * ((1 - bulge * bulge) / (2 * bulge));
    const [ux, uy] = [(to[0] - from[0]) / chord, (to[1] - from[1]) / chord];
    const center: Place = [(from[0] + to[0]) / 2 - uy * rise, (from[1] + to[1]) / 2 + ux * rise];
    const start = Math.atan2(from[1] - center[1], from[0] - center[0]);
    this.curves((angle) => onCircle(center, radius, start + angle), sweep, radius, pen);
  }

  private arc(center: Place, radius: number, start: number, sweep: number, pen: Pen): void {
    if (!(radius > 0)) return;
    const at = (angle: number): Turning => onCircle(center, radius, start + angle);
    this.move(at(0).at, pen);
    this.curves(at, sweep, radius, pen);
    this.end(pen, PAINT.stroke);
  }

  private ellipse(
    { center, majorAxisEndPoint: major, axisRatio, startAngle, endAngle }: IEllipseEntity,
    pen: Pen,
  ): void {
    const sweep = (endAngle - startAngle + 4 * Math.PI) % (2 * Math.PI) || 2 * Math.PI;
    const at = (angle: number): Turning => {
      const [cos, sin] = [Math.cos(startAngle + angle), Math.sin(startAngle + angle)];
      const [mx, my] = [major.x, major.y];
      const [nx, ny] = [-major.y * axisRatio, major.x * axisRatio];
      return {
        at: [center.x + mx * cos + nx * sin, center.y + my * cos + ny * sin],
        along: [-mx * sin + nx * cos, -my * sin + ny * cos],
      };
    };
    this.move(at(0).at, pen);
    this.curves(at, sweep, 1, pen);
    this.end(pen, PAINT.stroke);
  }

  /** Through its fit points where it has them; of a cubic without weights each span as chords of its own points. */
  private spline(spline: ISplineEntity, pen: Pen): boolean {
    const points = spline.fitPoints?.length ? spline.fitPoints : sampled(spline);
    if (!points) return this.leave('SPLINE');
    this.polyline(points, spline.closed, pen);
    return true;
  }

  private text(text: PageText | null, matrix: Matrix): void {
    if (!text || this.texts.length > MOST_PATHS) return;
    const [a, b] = matrix;
    const turn = (text.angle * Math.PI) / 180;
    const along: Place = [
      Math.cos(turn) * a + Math.sin(turn) * matrix[2],
      Math.cos(turn) * b + Math.sin(turn) * matrix[3],
    ];
    const grown = Math.hypot(...along);
    this.texts.push({
      text: text.text,
      at: applied(matrix, text.at),
      height: text.height * grown,
      width: text.width * grown,
      angle: (Math.atan2(along[1], along[0]) * 180) / Math.PI,
    });
  }

  private move(to: Place, { matrix }: Pen): void {
    this.verbs.push(PATH_VERBS.move);
    this.coords.push(...applied(matrix, to));
  }

  private line(to: Place, { matrix }: Pen): void {
    this.verbs.push(PATH_VERBS.line);
    this.coords.push(...applied(matrix, to));
  }

  /** A cubic for each eighth of a turn: off a true arc by less than a millionth of the radius. */
  private curves(at: (angle: number) => Turning, sweep: number, speed: number, { matrix }: Pen): void {
    const pieces = Math.max(1, Math.ceil(Math.abs(sweep) / (Math.PI / 4)));
    const step = sweep / pieces;
    const handle = (4 / 3) * Math.tan(step / 4) * speed;
    for (let k = 0; k < pieces; k++) {
      const p = at(k * step);
      const q = at((k + 1) * step);
      this.verbs.push(PATH_VERBS.curve);
      this.coords.push(
        ...applied(matrix, [p.at[0] + handle * p.along[0], p.at[1] + handle * p.along[1]]),
        ...applied(matrix, [q.at[0] - handle * q.along[0], q.at[1] - handle * q.along[1]]),
        ...applied(matrix, q.at),
      );
    }
  }

  private end({ layer, dashed }: Pen, paint: number): void {
    const known = this.names.indexOf(layer);
    this.firstVerb.push(this.verbs.length);
    this.firstCoord.push(this.coords.length);
    const number = known >= 0 ? known : this.names.push(layer) - 1;
    this.styles.push({ paint, dashed: dashed ? 1 : 0, layer: number });
  }
}

interface Pen {
  readonly layer: string;
  readonly dashed: boolean;
  readonly matrix: Matrix;
}

/** A point of a curve, and its derivative by the angle, over the speed. */
interface Turning {
  readonly at: Place;
  readonly along: Place;
}

function onCircle(center: Place, radius: number, angle: number): Turning {
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  return { at: [center[0] + radius * cos, center[1] + radius * sin], along: [-sin, cos] };
}

/** Drawn seen from behind: the first axis runs the other way. */
function flipped(pen: Pen, z: number | undefined): Pen {
  return (z ?? 1) < 0 ? { ...pen, matrix: after(pen.matrix, [-1, 0, 0, 1, 0, 0]) } : pen;
}

const SPANS = 8;

/** Points on a B-spline by de Boor's rule; null where its knots do not fit its points. */
function sampled({ controlPoints, knotValues, degreeOfSplineCurve: degree }: ISplineEntity): IPoint[] | null {
  const points = controlPoints ?? [];
  const knots = knotValues ?? [];
  if (points.length < 2 || !(degree >= 1 && degree <= 5) || knots.length !== points.length + degree + 1)
    return null;
  const found: IPoint[] = [];
  for (let k = degree; k < points.length; k++) {
    const [low, high] = [knots[k] ?? 0, knots[k + 1] ?? 0];
    if (!(high > low)) continue;
    for (let n = found.length === 0 ? 0 : 1; n <= SPANS; n++)
      found.push(deBoor(points, knots, degree, k, low + ((high - low) * n) / SPANS));
  }
  return found.length >= 2 ? found : null;
}

function deBoor(
  points: readonly IPoint[],
  knots: readonly number[],
  degree: number,
  span: number,
  t: number,
): IPoint {
  const d = Array.from({ length: degree + 1 }, (_, j) => points[span - degree + j] ?? { x: 0, y: 0, z: 0 });
  for (let r = 1; r <= degree; r++)
    for (let j = degree; j >= r; j--) {
      const low = knots[span - degree + j] ?? 0;
      const high = knots[j + 1 + span - r] ?? 0;
      const share = high === low ? 0 : (t - low) / (high - low);
      const [p, q] = [d[j - 1] as IPoint, d[j] as IPoint];
      d[j] = { x: p.x + share * (q.x - p.x), y: p.y + share * (q.y - p.y), z: 0 };
    }
  return d[degree] as IPoint;
}

function applied(m: Matrix, [x, y]: Place): Place {
  return [m[0] * x + m[2] * y + m[4], m[1] * x + m[3] * y + m[5]];
}

function after(m: Matrix, [a, b, c, d, e, f]: Matrix): Matrix {
  return [
    m[0] * a + m[2] * b,
    m[1] * a + m[3] * b,
    m[0] * c + m[2] * d,
    m[1] * c + m[3] * d,
    m[0] * e + m[2] * f + m[4],
    m[1] * e + m[3] * f + m[5],
  ];
}
