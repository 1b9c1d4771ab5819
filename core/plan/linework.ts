// In: a page's content. Out: segments and notes in displayed-page points, y up. Promise: a page that is turned,
// cropped or scaled by its own unit gives the linework that a person sees.
import type { PagePoint } from '../geometry/points';
import { pageSpace } from './pageSpace';
import type { PageFrame, PageSpace } from './pageSpace';
import { SegmentWriter } from './segments';
import type { Clip } from './segments';
import { PAINT, PATH_VERBS, SEGMENT_MARK } from './types';
import type { Linework, Note, PageContent } from './types';

/** A curve's chord may leave the curve by this much, in points: 1/20 mm on paper. */
export const FLATNESS_POINTS = 0.14;
/** A page whose pictures cover this share of it, with fewer segments than this, is a scan. */
const RASTER_SHARE = 0.5;
const RASTER_SEGMENTS = 200;

type Place = readonly [number, number];

export function readLinework(content: PageContent): Linework {
  const space = pageSpace(content);
  const toPage = ([x, y]: Place): PagePoint => [space.x(x, y), space.y(x, y)];
  // A path's verbs are a move more than its lines; curves become several.
  const drawn = new SegmentWriter(content.paths.verbs.length - content.paths.count);
  const curves = writePaths(content, space, drawn);
  const size = { width: space.width, height: space.height };
  const covered = content.images.reduce((sum, corners) => sum + coveredArea(corners.map(toPage), size), 0);
  const { paths } = content;
  const stepOfPage = paths.step.reduce((coarsest, step) => Math.max(coarsest, step), 0) * content.userUnit;
  return {
    ...size,
    rotation: content.rotation,
    ...drawn.finish(),
    layers: content.layers,
    curves,
    notes: readNotes(content),
    raster: covered >= RASTER_SHARE * size.width * size.height && drawn.count < RASTER_SEGMENTS,
    precision: stepOfPage,
    ...(content.fullSize ? { fullSize: content.fullSize } : {}),
  };
}

/** A page's lettering as it is displayed. */
export function readNotes(content: PageFrame & Pick<PageContent, 'texts'>): readonly Note[] {
  const space = pageSpace(content);
  return content.texts.map((text) => noteOf(text, content, ([x, y]) => [space.x(x, y), space.y(x, y)]));
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

/** A line along the edge of its clip still shows half its width, and the clip's own numbers were rounded. */
const CLIP_SLACK = 0.05;

function writePaths(content: PageContent, space: PageSpace, drawn: SegmentWriter): number {
  const { paths } = content;
  const { coords, verbs } = paths;
  const clips = clipsOf(content, space);
  let curves = 0;
  for (let k = 0; k < paths.count; k++) {
    const fills = paths.paint[k] === PAINT.fill;
    const mark =
      (fills ? SEGMENT_MARK.fill : 0) | (paths.dashed[k] === 1 && !fills ? SEGMENT_MARK.dashed : 0);
    const width = fills ? 0 : (paths.width[k] ?? 0) * content.userUnit;
    drawn.startPath(k, width, paths.layer[k] ?? 0, clips[paths.clips?.of[k] ?? 0] ?? null);
    let c = paths.firstCoord[k] ?? 0;
    let [startX, startY, penX, penY] = [0, 0, 0, 0];
    const end = paths.firstVerb[k + 1] ?? 0;
    for (let v = paths.firstVerb[k] ?? 0; v < end; v++) {
      const verb = verbs[v];
      if (verb === PATH_VERBS.curve) {
        const bend: number[] = [penX, penY];
        for (let n = 0; n < 3; n++, c += 2) {
          const x = coords[c] ?? 0;
          const y = coords[c + 1] ?? 0;
          bend.push(space.x(x, y), space.y(x, y));
        }
        flatten(bend as unknown as Cubic, drawn, mark | SEGMENT_MARK.curve);
        curves++;
        penX = bend[6] ?? 0;
        penY = bend[7] ?? 0;
        continue;
      }
      let toX = startX;
      let toY = startY;
      if (verb === PATH_VERBS.move || verb === PATH_VERBS.line) {
        const x = coords[c++] ?? 0;
        const y = coords[c++] ?? 0;
        toX = space.x(x, y);
        toY = space.y(x, y);
      }
      if (verb === PATH_VERBS.move) {
        startX = toX;
        startY = toY;
      } else drawn.line(penX, penY, toX, toY, mark);
      penX = toX;
      penY = toY;
    }
  }
  return curves;
}

/** By number, from 1, on the displayed page. */
function clipsOf({ paths }: PageContent, space: PageSpace): (Clip | null)[] {
  const { boxes } = paths.clips ?? { boxes: new Float64Array() };
  const clips: (Clip | null)[] = [null];
  for (let k = 0; k + 3 < boxes.length; k += 4) {
    const [left, bottom, right, top] = boxes.subarray(k, k + 4) as unknown as Clip;
    const xs = [space.x(left, bottom), space.x(right, top)] as const;
    const ys = [space.y(left, bottom), space.y(right, top)] as const;
    clips.push([
      Math.min(...xs) - CLIP_SLACK,
      Math.min(...ys) - CLIP_SLACK,
      Math.max(...xs) + CLIP_SLACK,
      Math.max(...ys) + CLIP_SLACK,
    ]);
  }
  return clips;
}

type Cubic = readonly [number, number, number, number, number, number, number, number];

/** Equal steps in the parameter. Their count is Wang's bound for a cubic, n = √(3·2/8 · bend / tolerance), with
 * `bend` the largest second difference of the control points: no chord leaves the curve by more. */
function flatten([ax, ay, bx, by, cx, cy, dx, dy]: Cubic, drawn: SegmentWriter, mark: number): void {
  const bend = Math.max(
    Math.hypot(ax - 2 * bx + cx, ay - 2 * by + cy),
    Math.hypot(bx - 2 * cx + dx, by - 2 * cy + dy),
  );
  const steps = Math.min(256, Math.max(1, Math.ceil(Math.sqrt((0.75 * bend) / FLATNESS_POINTS))));
  let [penX, penY] = [ax, ay];
  for (let k = 1; k <= steps; k++) {
    const t = k / steps;
    const s = 1 - t;
    const [wa, wb, wc, wd] = [s * s * s, 3 * s * s * t, 3 * s * t * t, t * t * t] as const;
    const toX = k === steps ? dx : wa * ax + wb * bx + wc * cx + wd * dx;
    const toY = k === steps ? dy : wa * ay + wb * by + wc * cy + wd * dy;
    drawn.line(penX, penY, toX, toY, mark);
    penX = toX;
    penY = toY;
  }
}

function noteOf(
  text: PageContent['texts'][number],
  content: PageFrame,
  toPage: (place: Place) => PagePoint,
): Note {
  return {
    text: text.text,
    at: toPage(text.at),
    height: text.height * content.userUnit,
    width: text.width * content.userUnit,
    angle: (((text.angle - content.rotation + (content.correction?.degrees ?? 0)) % 360) + 360) % 360,
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
