// In: a page's content. Out: segments and notes in displayed-page points, y up. Promise: a page that is turned,
// cropped or scaled by its own unit gives the linework that a person sees.
import type { PagePoint } from '../geometry/points';
import { PAINT, PATH_VERBS, SEGMENT_MARK } from './types';
import type { Linework, Note, PageContent } from './types';

/** A curve's chord may leave the curve by this much, in points: 1/20 mm on paper. */
export const FLATNESS_POINTS = 0.14;
/** A page whose pictures cover this share of it, with fewer segments than this, is a scan. */
const RASTER_SHARE = 0.5;
const RASTER_SEGMENTS = 200;

export function readLinework(content: PageContent): Linework {
  const toPage = pageTransform(content);
  const drawn = new SegmentWriter();
  const curves = writePaths(content, toPage, drawn);
  const size = displayedSize(content);
  const covered = content.images.reduce((sum, corners) => sum + coveredArea(corners.map(toPage), size), 0);
  const { paths } = content;
  const stepOfPage = paths.step.reduce((coarsest, step) => Math.max(coarsest, step), 0) * content.userUnit;
  return {
    ...size,
    rotation: content.rotation,
    ...drawn.finish(),
    layers: content.layers,
    curves,
    notes: content.texts.map((text) => noteOf(text, content, toPage)),
    raster: covered >= RASTER_SHARE * size.width * size.height && drawn.count < RASTER_SEGMENTS,
    precision: stepOfPage,
    ...(content.fullSize ? { fullSize: content.fullSize } : {}),
  };
}

/** The `linework` verb's document. */
export function describeLinework(
  linework: Linework,
  options: { readonly segments: 'counted' | 'listed' },
): LineworkDescription {
  const { width, height, rotation, segments, curves, raster, precision } = linework;
  return {
    page: { width, height, rotation },
    segments: options.segments === 'listed' ? listSegments(segments) : segments.length / 4,
    segmentCount: segments.length / 4,
    curves,
    texts: linework.notes.map(({ text, at, height: tall, angle }) => ({ text, at, height: tall, angle })),
    raster,
    precision,
  };
}

export interface LineworkDescription {
  readonly page: { readonly width: number; readonly height: number; readonly rotation: number };
  /** How many, or where they were asked for the segments themselves: x1, y1, x2, y2 of each. */
  readonly segments: number | readonly (readonly [number, number, number, number])[];
  readonly segmentCount: number;
  readonly curves: number;
  readonly texts: readonly {
    readonly text: string;
    readonly at: PagePoint;
    readonly height: number;
    readonly angle: number;
  }[];
  readonly raster: boolean;
  readonly precision: number;
}

/** Width and height of the page as displayed, in points. */
function displayedSize(content: Pick<PageContent, 'box' | 'rotation' | 'userUnit'>): {
  readonly width: number;
  readonly height: number;
} {
  const [left, bottom, right, top] = content.box;
  const wide = (right - left) * content.userUnit;
  const tall = (top - bottom) * content.userUnit;
  return content.rotation % 180 === 0 ? { width: wide, height: tall } : { width: tall, height: wide };
}

type Place = readonly [number, number];

/** User space to displayed page. /Rotate turns clockwise (ISO 32000-1, table 30):
 *
 *     0: x right, y up     90: x' = y, y' = w − x     180: w − x, h − y     270: x' = h − y, y' = x
 */
function pageTransform(
  content: Pick<PageContent, 'box' | 'rotation' | 'userUnit'>,
): (place: Place) => PagePoint {
  const [left, bottom, right, top] = content.box;
  const unit = content.userUnit;
  switch (content.rotation) {
    case 0:
      return ([x, y]) => [(x - left) * unit, (y - bottom) * unit];
    case 90:
      return ([x, y]) => [(y - bottom) * unit, (right - x) * unit];
    case 180:
      return ([x, y]) => [(right - x) * unit, (top - y) * unit];
    case 270:
      return ([x, y]) => [(top - y) * unit, (x - left) * unit];
  }
}

function writePaths(content: PageContent, toPage: (place: Place) => PagePoint, drawn: SegmentWriter): number {
  const { paths } = content;
  let curves = 0;
  for (let k = 0; k < paths.count; k++) {
    const fills = paths.paint[k] === PAINT.fill;
    const mark =
      (fills ? SEGMENT_MARK.fill : 0) | (paths.dashed[k] === 1 && !fills ? SEGMENT_MARK.dashed : 0);
    const width = fills ? 0 : (paths.width[k] ?? 0) * content.userUnit;
    drawn.startPath(k, width, paths.layer[k] ?? 0);
    let c = paths.firstCoord[k] ?? 0;
    const next = (): PagePoint => toPage([paths.coords[c++] ?? 0, paths.coords[c++] ?? 0]);
    let start: PagePoint = [0, 0];
    let pen: PagePoint = [0, 0];
    for (let v = paths.firstVerb[k] ?? 0; v < (paths.firstVerb[k + 1] ?? 0); v++) {
      switch (paths.verbs[v]) {
        case PATH_VERBS.move:
          start = pen = next();
          break;
        case PATH_VERBS.line: {
          const to = next();
          drawn.line(pen, to, mark);
          pen = to;
          break;
        }
        case PATH_VERBS.curve: {
          const to = flatten([pen, next(), next(), next()], drawn, mark | SEGMENT_MARK.curve);
          curves++;
          pen = to;
          break;
        }
        default:
          drawn.line(pen, start, mark);
          pen = start;
      }
    }
  }
  return curves;
}

/** Equal steps in the parameter. Their count is Wang's bound for a cubic, n = √(3·2/8 · bend / tolerance), with
 * `bend` the largest second difference of the control points: no chord leaves the curve by more. */
function flatten(
  [a, b, c, d]: readonly [PagePoint, PagePoint, PagePoint, PagePoint],
  drawn: SegmentWriter,
  mark: number,
): PagePoint {
  const bend = Math.max(
    Math.hypot(a[0] - 2 * b[0] + c[0], a[1] - 2 * b[1] + c[1]),
    Math.hypot(b[0] - 2 * c[0] + d[0], b[1] - 2 * c[1] + d[1]),
  );
  const steps = Math.min(256, Math.max(1, Math.ceil(Math.sqrt((0.75 * bend) / FLATNESS_POINTS))));
  let pen = a;
  for (let k = 1; k <= steps; k++) {
    const t = k / steps;
    const s = 1 - t;
    const weights = [s * s * s, 3 * s * s * t, 3 * s * t * t, t * t * t] as const;
    const at = (axis: 0 | 1) =>
      weights[0] * a[axis] + weights[1] * b[axis] + weights[2] * c[axis] + weights[3] * d[axis];
    const to: PagePoint = k === steps ? d : [at(0), at(1)];
    drawn.line(pen, to, mark);
    pen = to;
  }
  return d;
}

function noteOf(
  text: PageContent['texts'][number],
  content: PageContent,
  toPage: (place: Place) => PagePoint,
): Note {
  return {
    text: text.text,
    at: toPage(text.at),
    height: text.height * content.userUnit,
    width: text.width * content.userUnit,
    angle: (((text.angle - content.rotation) % 360) + 360) % 360,
  };
}

/** Area of a picture's bounding box within the page; pictures that lie over each other count twice. */
function coveredArea(corners: readonly PagePoint[], page: { width: number; height: number }): number {
  const xs = corners.map((corner) => Math.min(page.width, Math.max(0, corner[0])));
  const ys = corners.map((corner) => Math.min(page.height, Math.max(0, corner[1])));
  if (xs.length === 0) return 0;
  return (Math.max(...xs) - Math.min(...xs)) * (Math.max(...ys) - Math.min(...ys));
}

function listSegments(segments: Float64Array): [number, number, number, number][] {
  const list: [number, number, number, number][] = [];
  for (let k = 0; k + 3 < segments.length; k += 4)
    list.push([segments[k] ?? 0, segments[k + 1] ?? 0, segments[k + 2] ?? 0, segments[k + 3] ?? 0]);
  return list;
}

/** Grows packed arrays; a segment without length is left out. */
class SegmentWriter {
  count = 0;
  private segments = new Float64Array(4096);
  private widths = new Float32Array(1024);
  private path = new Uint32Array(1024);
  private layer = new Uint16Array(1024);
  private marks = new Uint8Array(1024);
  private current = { path: 0, width: 0, layer: 0 };

  startPath(path: number, width: number, layer: number): void {
    this.current = { path, width, layer };
  }

  line(from: PagePoint, to: PagePoint, mark: number): void {
    if (from[0] === to[0] && from[1] === to[1]) return;
    if (this.count === this.widths.length) this.grow();
    this.segments.set([from[0], from[1], to[0], to[1]], this.count * 4);
    this.widths[this.count] = this.current.width;
    this.path[this.count] = this.current.path;
    this.layer[this.count] = this.current.layer;
    this.marks[this.count] = mark;
    this.count++;
  }

  finish(): Pick<Linework, 'segments' | 'widths' | 'path' | 'layer' | 'marks'> {
    return {
      segments: this.segments.slice(0, this.count * 4),
      widths: this.widths.slice(0, this.count),
      path: this.path.slice(0, this.count),
      layer: this.layer.slice(0, this.count),
      marks: this.marks.slice(0, this.count),
    };
  }

  private grow(): void {
    const room = this.count * 2;
    const segments = new Float64Array(room * 4);
    const widths = new Float32Array(room);
    const path = new Uint32Array(room);
    const layer = new Uint16Array(room);
    const marks = new Uint8Array(room);
    segments.set(this.segments);
    widths.set(this.widths);
    path.set(this.path);
    layer.set(this.layer);
    marks.set(this.marks);
    this.segments = segments;
    this.widths = widths;
    this.path = path;
    this.layer = layer;
    this.marks = marks;
  }
}
