// Paints part of a page from its packed paths: only what the part shows, found in a box index, in the order of the
// page. Strokes of one pen are painted together.
import { buildBoxIndex } from '../../core/geometry/boxIndex';
import type { BoxIndex } from '../../core/geometry/boxIndex';
import { widthClassOf } from '../../core/plan/hiding';
import type { Hiding } from '../../core/plan/hiding';
import { pageSpace } from '../../core/plan/pageSpace';
import type { PageSpace } from '../../core/plan/pageSpace';
import { NO_INK, PAINT, PATH_VERBS } from '../../core/plan/types';
import type { PackedPaths, PageContent } from '../../core/plan/types';
import type { PagePart } from '../../shared/worker/reading';
import { takeTurn } from './turn';

export interface PathIndex {
  readonly paths: PackedPaths;
  readonly space: PageSpace;
  readonly userUnit: number;
  /** Of the paths' boxes on the displayed page, their widths included; made when a part of the page is first asked for. */
  readonly boxes: () => BoxIndex;
}

export function indexPaths(content: PageContent): PathIndex {
  const space = pageSpace(content);
  let boxes: BoxIndex | null = null;
  return {
    paths: content.paths,
    space,
    userUnit: content.userUnit,
    boxes: () => (boxes ??= boxesOf(content, space)),
  };
}

function boxesOf({ paths, userUnit }: PageContent, space: PageSpace): BoxIndex {
  return buildBoxIndex(paths.count, (k) => {
    let [x0, y0, x1, y1] = [Infinity, Infinity, -Infinity, -Infinity];
    const end = paths.firstCoord[k + 1] ?? 0;
    for (let c = paths.firstCoord[k] ?? 0; c < end; c += 2) {
      const u = paths.coords[c] ?? 0;
      const v = paths.coords[c + 1] ?? 0;
      const x = space.x(u, v);
      const y = space.y(u, v);
      x0 = Math.min(x0, x);
      y0 = Math.min(y0, y);
      x1 = Math.max(x1, x);
      y1 = Math.max(y1, y);
    }
    const half = ((paths.width[k] ?? 0) * userUnit) / 2;
    return [x0 - half, y0 - half, x1 + half, y1 + half];
  });
}

/** Drawing takes a turn after so many paths, and stops where it is no longer wanted. */
const PATHS_A_TURN = 20_000;

/** False where it was stopped. */
export async function paintPaths(
  ctx: OffscreenCanvasRenderingContext2D,
  index: PathIndex,
  { part, hiding }: { readonly part: PagePart; readonly hiding: Hiding },
  isWanted: () => boolean,
): Promise<boolean> {
  const found = pathsIn(index, part);
  const brush = new Brush(ctx, index, part);
  const isShown = showing(index, hiding);
  const count = found?.length ?? index.paths.count;
  for (let from = 0; from < count; from += PATHS_A_TURN) {
    if (from > 0) await takeTurn();
    if (!isWanted()) return false;
    const to = Math.min(count, from + PATHS_A_TURN);
    for (let n = from; n < to; n++) {
      const k = found ? (found[n] ?? 0) : n;
      if (isShown(k)) brush.path(k);
    }
  }
  brush.finish();
  return true;
}

/** In the order of the page; null stands for all of them. */
function pathsIn({ space, boxes }: PathIndex, part: PagePart): readonly number[] | null {
  const { left, top, width, height } = part;
  const whole = left <= 0 && top <= 0 && left + width >= space.width && top + height >= space.height;
  if (whole) return null;
  const bottom = space.height - top - height;
  return boxes().search([left, bottom, left + width, bottom + height]);
}

/** All of a page that is still being read, small. */
export function paintGlimpse(content: PageContent, longestPx: number): ImageBitmap | null {
  const space = pageSpace(content);
  const scale = longestPx / Math.max(space.width, space.height);
  const canvas = new OffscreenCanvas(Math.ceil(space.width * scale), Math.ceil(space.height * scale));
  const ctx = canvas.getContext('2d');
  if (!ctx) return null;
  const part = { left: 0, top: 0, width: space.width, height: space.height, scale };
  const brush = new Brush(ctx, { paths: content.paths, space, userUnit: content.userUnit }, part);
  for (let k = 0; k < content.paths.count; k++) brush.path(k);
  brush.finish();
  return canvas.transferToImageBitmap();
}

function showing({ paths, userUnit }: PathIndex, { layers, widths }: Hiding): (k: number) => boolean {
  if (layers.length === 0 && widths.length === 0) return () => true;
  const noLayers = new Set(layers);
  const noWidths = new Set(widths);
  return (k) =>
    !noLayers.has(paths.layer[k] ?? 0) &&
    !noWidths.has(
      widthClassOf((paths.width[k] ?? 0) * userUnit, paths.paint[k] === PAINT.fill ? 'fill' : 'line'),
    );
}

const CAPS = ['butt', 'round', 'square'] as const;
const JOINS = ['miter', 'round', 'bevel'] as const;
/** A path of too many strokes takes the rasteriser longer than two of half as many. */
const STROKES_AT_ONCE = 1000;

class Brush {
  private readonly thinnest: number;
  /** What the strokes in hand have in common. */
  private width = -1;
  private ink = -1;
  private alpha = -1;
  private pen = -1;
  private dash = -1;
  private clip = 0;
  private held = 0;

  constructor(
    private readonly ctx: OffscreenCanvasRenderingContext2D,
    private readonly index: Omit<PathIndex, 'boxes'>,
    part: PagePart,
  ) {
    const { space, userUnit } = index;
    const [e, f] = [space.x(0, 0), space.y(0, 0)];
    const s = part.scale;
    ctx.setTransform(
      (space.x(1, 0) - e) * s,
      (f - space.y(1, 0)) * s,
      (space.x(0, 1) - e) * s,
      (f - space.y(0, 1)) * s,
      (e - part.left) * s,
      (space.height - f - part.top) * s,
    );
    // No line is thinner than a pixel, as in any viewer.
    this.thinnest = 1 / (s * userUnit);
    ctx.save();
  }

  path(k: number): void {
    const { paths } = this.index;
    const { look } = paths;
    const clip = paths.clips?.of[k] ?? 0;
    if (clip !== this.clip) this.clipTo(clip);
    const paint = paths.paint[k] ?? PAINT.stroke;
    const ink = paths.ink[k] ?? 0;
    if (paint !== PAINT.stroke) {
      this.finishStrokes();
      this.fill(k, paint === PAINT.fill ? ink : (look?.fillInk[k] ?? ink));
      if (paint === PAINT.fill) return;
    }
    if (ink === NO_INK) return;
    const width = Math.max(this.thinnest, paths.width[k] ?? 0);
    const alpha = look?.strokeAlpha[k] ?? 255;
    const pen = (look?.pen[k] ?? 0) & 15;
    const dash = look?.dash[k] ?? 0;
    const same =
      width === this.width &&
      ink === this.ink &&
      alpha === this.alpha &&
      pen === this.pen &&
      dash === this.dash;
    if (!same) {
      this.finishStrokes();
      this.width = width;
      this.ink = ink;
      this.alpha = alpha;
      this.pen = pen;
      this.dash = dash;
    }
    if (this.held === 0) this.ctx.beginPath();
    this.trace(k);
    // What is seen through must not be painted in one go: it would not darken where it crosses itself.
    if (++this.held >= (alpha < 255 || paint === PAINT.both ? 1 : STROKES_AT_ONCE)) this.finishStrokes();
  }

  finish(): void {
    this.finishStrokes();
    this.ctx.restore();
  }

  private finishStrokes(): void {
    if (this.held === 0) return;
    this.held = 0;
    const { ctx } = this;
    ctx.lineWidth = this.width;
    ctx.strokeStyle = cssOf(this.ink);
    ctx.globalAlpha = this.alpha / 255;
    ctx.lineCap = CAPS[this.pen & 3] ?? 'butt';
    ctx.lineJoin = JOINS[(this.pen >> 2) & 3] ?? 'miter';
    ctx.setLineDash([...(this.index.paths.look?.dashes[this.dash] ?? [])]);
    ctx.stroke();
  }

  private fill(k: number, ink: number): void {
    if (ink === NO_INK) return;
    const { ctx } = this;
    const { look } = this.index.paths;
    ctx.beginPath();
    this.trace(k);
    ctx.fillStyle = cssOf(ink);
    ctx.globalAlpha = (look?.fillAlpha[k] ?? 255) / 255;
    ctx.fill(((look?.pen[k] ?? 0) & 16) === 0 ? 'nonzero' : 'evenodd');
  }

  private clipTo(clip: number): void {
    this.finishStrokes();
    const { ctx } = this;
    ctx.restore();
    ctx.save();
    // The pen is the canvas's again.
    this.width = -1;
    this.clip = clip;
    if (clip === 0) return;
    const [x0 = 0, y0 = 0, x1 = 0, y1 = 0] =
      this.index.paths.clips?.boxes.subarray(4 * clip - 4, 4 * clip) ?? [];
    ctx.beginPath();
    ctx.rect(x0, y0, x1 - x0, y1 - y0);
    ctx.clip();
  }

  private trace(k: number): void {
    const { ctx } = this;
    const { verbs, coords, firstVerb, firstCoord } = this.index.paths;
    let c = firstCoord[k] ?? 0;
    const end = firstVerb[k + 1] ?? 0;
    for (let v = firstVerb[k] ?? 0; v < end; v++)
      switch (verbs[v]) {
        case PATH_VERBS.move:
          ctx.moveTo(coords[c] ?? 0, coords[c + 1] ?? 0);
          c += 2;
          break;
        case PATH_VERBS.line:
          ctx.lineTo(coords[c] ?? 0, coords[c + 1] ?? 0);
          c += 2;
          break;
        case PATH_VERBS.curve:
          ctx.bezierCurveTo(
            coords[c] ?? 0,
            coords[c + 1] ?? 0,
            coords[c + 2] ?? 0,
            coords[c + 3] ?? 0,
            coords[c + 4] ?? 0,
            coords[c + 5] ?? 0,
          );
          c += 6;
          break;
        default:
          ctx.closePath();
      }
  }
}

function cssOf(ink: number): string {
  return `#${ink.toString(16).padStart(6, '0')}`;
}
