// Paints the page on screen from what its reader thread makes: a light page in pictures by the PDF library, a heavy
// one in tiles of its lines with lettering and pictures over them. The last ones stand in, scaled, until sharper ones
// come; what is no longer wanted is cancelled.
import type { Hiding } from '../../core/plan/hiding';
import type { PageDrawn, PagePart, PictureOf } from '../../shared/worker/reading';
import { beyondScreen, coversScreen, moveTo, showBitmap } from './movedCanvas';
import type { Painted } from './movedCanvas';
import type { Sheet, Sight } from './pictures';
import type { PictureTask } from './readerThread';
import { createTiles } from './tiles';
import { createWholeAndPart } from './wholeAndPart';
import type { Layer } from './wholeAndPart';

/** A page that can be painted. */
export interface PaintedPage {
  readonly drawn: PageDrawn;
  paint(of: PictureOf, part: PagePart, hiding: Hiding): PictureTask;
}

export interface PagePainter {
  setPage(page: PaintedPage | null, hiding: Hiding): void;
  /** A page that is still being read, as far as it is. */
  showGlimpse(picture: ImageBitmap, sheet: Sheet): void;
  paint(sight: Omit<Sight, 'ratio'>, paper: Paper): void;
  /** Told when nothing sharper is to come for what is shown. */
  onSettled(listener: (settled: boolean) => void): void;
  close(): void;
}

/** What the plan lies on. On dark paper the drawing is turned over: its black is light and its hues stay. */
export interface Paper {
  readonly colour: string;
  readonly theme: 'light' | 'dark';
  /** The plan stands back behind what is laid on it. */
  readonly pale: boolean;
}

/** Share of the paper over a plan that stands back. */
const PALE = 0.66;
const REST_MS = 80;
const COMPOSE_EVERY_MS = 250;
/** Share of the screen on each side that is painted beyond its edge. */
const MARGIN = 0.15;

/** Side of the picture of the whole page that stands behind everything. */
const BEHIND_PX = 1600;

export function createPagePainter(frame: HTMLElement): PagePainter {
  const behind = document.createElement('canvas');
  const canvas = document.createElement('canvas');
  frame.append(behind, canvas);
  let shown: PaintedPage | null = null;
  let layers: readonly Layer[] = [];
  /** The same page before something on it was hidden or shown: stands until that has been painted. */
  let before: readonly Layer[] = [];
  let last: Sight | null = null;
  let paper: Paper = { colour: '#ffffff', theme: 'light', pale: false };
  let painted: Painted | null = null;
  let timer = 0;
  let pending = 0;
  let behindIs: Painted | null = null;
  let glimpsing = false;
  let composed = -Infinity;
  let tell: (settled: boolean) => void = () => {};

  const compose = (): void => {
    window.clearTimeout(pending);
    pending = 0;
    composed = performance.now();
    if (!last || last.width < 1 || last.height < 1) return;
    const { ratio } = last;
    const { camera, width, height } = beyondScreen(last.camera, last, MARGIN);
    const made = new OffscreenCanvas(Math.round(width * ratio), Math.round(height * ratio));
    const ctx = made.getContext('2d');
    if (!ctx) return;
    ctx.imageSmoothingQuality = 'medium';
    const sight = { camera, width, height, ratio };
    for (const layer of before.length > 0 ? before : layers) layer.draw(ctx, sight);
    layOnPaper(ctx, paper);
    painted = sight;
    canvas.style.visibility = layers.some((layer) => layer.bytes > 0) || !glimpsing ? 'visible' : 'hidden';
    showBitmap(canvas, made.transferToImageBitmap(), sight, true);
    moveTo(canvas, sight, last.camera);
  };
  /** What is seen where the camera moves faster than the page is painted, and before all of it is read. */
  const showBehind = (
    { width, height }: Sheet,
    draw: (ctx: OffscreenCanvasRenderingContext2D, sight: Sight) => void,
  ): void => {
    const scale = BEHIND_PX / Math.max(width, height);
    const sight: Sight = {
      camera: { scale, tx: 0, ty: scale * height },
      width: scale * width,
      height: scale * height,
      ratio: 1,
    };
    const made = new OffscreenCanvas(Math.ceil(sight.width), Math.ceil(sight.height));
    const ctx = made.getContext('2d');
    if (!ctx) return;
    draw(ctx, sight);
    layOnPaper(ctx, paper);
    behindIs = sight;
    showBitmap(behind, made.transferToImageBitmap(), sight, true);
    if (last) moveTo(behind, sight, last.camera);
  };
  const composeBehind = (): void => {
    if (!shown) return;
    showBehind(shown.drawn, (ctx, sight) => {
      for (const layer of layers) layer.draw(ctx, sight);
    });
  };
  /** While the camera moves, a new picture waits for the next of a few moments: composing takes longer than moving. */
  const composeSoon = (): void => {
    if (pending !== 0) return;
    const since = performance.now() - composed;
    pending = window.setTimeout(
      () => window.requestAnimationFrame(compose),
      Math.max(0, COMPOSE_EVERY_MS - since),
    );
  };
  const want = (): void => {
    const sight = last;
    if (!sight) return;
    if (painted && painted.camera.scale !== sight.camera.scale) composeSoon();
    const missing = layers.filter((layer) => !layer.want(sight));
    tell(missing.length === 0);
    if (missing.length > 0 || layers.length === 0) return;
    mark('page settled');
    if (!behindIs || glimpsing) composeBehind();
    glimpsing = false;
    if (before.length === 0) return;
    close(before);
    before = [];
    composeBehind();
    composeSoon();
  };
  const onPicture = (): void => {
    mark('first picture');
    composeSoon();
    want();
  };
  const rest = (ms: number): void => {
    window.clearTimeout(timer);
    timer = window.setTimeout(want, ms);
  };

  return {
    setPage(page, hiding) {
      if (page === shown && before.length === 0) before = layers;
      else close(layers);
      if (page !== shown) {
        close(before);
        before = [];
      }
      shown = page;
      layers = page ? layersOf(page, hiding, onPicture) : [];
      if (before.length === 0 && !(glimpsing && page)) {
        glimpsing = false;
        behindIs = null;
        behind.style.width = behind.style.height = '0';
      }
      tell(page === null);
      compose();
      rest(0);
    },
    showGlimpse(picture, sheet) {
      glimpsing = true;
      canvas.style.visibility = 'hidden';
      showBehind(sheet, (ctx, { width, height }) => ctx.drawImage(picture, 0, 0, width, height));
      picture.close();
      mark('first picture');
    },
    paint({ camera, width, height }, on) {
      const ratio = window.devicePixelRatio || 1;
      const zoomed = last?.camera.scale !== camera.scale;
      const moved = zoomed || last?.camera.tx !== camera.tx || last.camera.ty !== camera.ty;
      const sized = last?.width !== width || last.height !== height || last.ratio !== ratio;
      const repapered = paper.colour !== on.colour || paper.pale !== on.pale;
      if (!moved && !sized && !repapered) return;
      last = { camera, width, height, ratio };
      paper = on;
      if (repapered && behindIs) composeBehind();
      if (behindIs) moveTo(behind, behindIs, camera);
      if (shown) tell(false);
      if (sized || repapered || !painted) compose();
      else {
        moveTo(canvas, painted, camera);
        // Zooming out shows the page behind; it is painted sharp once the hand rests.
        if (!zoomed && !coversScreen(painted, camera, last)) composeSoon();
      }
      // Moving along asks at once for what comes into sight; a zoom waits until the hand rests.
      if (zoomed) rest(REST_MS);
      else if (shown) want();
    },
    onSettled(listener) {
      tell = listener;
    },
    close() {
      window.clearTimeout(timer);
      window.clearTimeout(pending);
      close([...layers, ...before]);
      behind.remove();
      canvas.remove();
      layers = [];
      before = [];
    },
  };
}

/** Where the drawing is white it takes the paper's colour, as ink on paper would. */
function layOnPaper(ctx: OffscreenCanvasRenderingContext2D, { colour, theme, pale }: Paper): void {
  const { width, height } = ctx.canvas;
  const fill = (ink: string, how: GlobalCompositeOperation): void => {
    ctx.globalCompositeOperation = how;
    ctx.fillStyle = ink;
    ctx.fillRect(0, 0, width, height);
  };
  fill('#ffffff', 'destination-over');
  if (theme === 'light') fill(colour, 'multiply');
  else turnOver(ctx, fill, colour);
  if (!pale) return;
  // Painted into the picture: seen through instead, the compositor would blend the whole plan anew in each frame.
  ctx.globalAlpha = PALE;
  fill(colour, 'source-over');
}

function turnOver(
  ctx: OffscreenCanvasRenderingContext2D,
  fill: (ink: string, how: GlobalCompositeOperation) => void,
  colour: string,
): void {
  // Turned over in brightness alone: inverted, with every hue put back.
  ctx.globalCompositeOperation = 'copy';
  ctx.filter = 'invert(1) hue-rotate(180deg)';
  ctx.drawImage(ctx.canvas, 0, 0);
  ctx.filter = 'none';
  fill(colour, 'screen');
}

function close(layers: readonly Layer[]): void {
  for (const layer of layers) layer.close();
}

function layersOf(page: PaintedPage, hiding: Hiding, onPicture: () => void): readonly Layer[] {
  const sheet = { width: page.drawn.width, height: page.drawn.height };
  const ask = (of: PictureOf) => (part: PagePart) => page.paint(of, part, hiding);
  // Hidden lines are left out by our own painter: the library knows no widths.
  const hides = hiding.layers.length > 0 || hiding.widths.length > 0;
  if (page.drawn.by === 'library' && !hides) return [createWholeAndPart(sheet, ask('page'), onPicture)];
  const lines = createTiles(sheet, ask('lines'), onPicture);
  return page.drawn.rest ? [lines, createWholeAndPart(sheet, ask('rest'), onPicture)] : [lines];
}

/** For whoever times the window: the first of each name counts. */
function mark(name: string): void {
  if (performance.getEntriesByName(name).length === 0) performance.mark(name);
}
