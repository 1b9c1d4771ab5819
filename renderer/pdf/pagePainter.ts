// Paints the page on screen from what its reader thread makes: a light page in pictures by the PDF library, a heavy
// one in tiles of its lines with lettering and pictures over them. The last ones stand in, scaled, until sharper ones
// come; what is no longer wanted is cancelled.
import type { Hiding } from '../../core/plan/hiding';
import type { PageDrawn, PagePart, PictureOf } from '../../shared/worker/reading';
import type { PaintCamera, Sight } from './pictures';
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
  paint(camera: PaintCamera, width: number, height: number): void;
  /** Told when nothing sharper is to come for what is shown. */
  onSettled(listener: (settled: boolean) => void): void;
  close(): void;
}

const REST_MS = 80;

export function createPagePainter(canvas: HTMLCanvasElement): PagePainter {
  let shown: PaintedPage | null = null;
  let layers: readonly Layer[] = [];
  /** The same page before something on it was hidden or shown: stands until that has been painted. */
  let before: readonly Layer[] = [];
  let last: Sight | null = null;
  let timer = 0;
  let frame = 0;
  let tell: (settled: boolean) => void = () => {};

  const compose = (): void => {
    frame = 0;
    if (!last) return;
    const [w, h] = [Math.round(last.width * last.ratio), Math.round(last.height * last.ratio)];
    if (canvas.width !== w) canvas.width = w;
    if (canvas.height !== h) canvas.height = h;
    const ctx = canvas.getContext('2d');
    if (!ctx) return;
    ctx.clearRect(0, 0, w, h);
    ctx.imageSmoothingQuality = 'medium';
    for (const layer of before.length > 0 ? before : layers) layer.draw(ctx, last);
  };
  const want = (): void => {
    const sight = last;
    if (!sight) return;
    const missing = layers.filter((layer) => !layer.want(sight));
    tell(missing.length === 0);
    if (missing.length > 0 || layers.length === 0) return;
    mark('page settled');
    if (before.length > 0) {
      close(before);
      before = [];
      compose();
    }
  };
  const onPicture = (): void => {
    mark('first picture');
    if (frame === 0) frame = window.requestAnimationFrame(compose);
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
      tell(page === null);
      compose();
      rest(0);
    },
    paint(camera, width, height) {
      const ratio = window.devicePixelRatio || 1;
      const moved =
        !last ||
        last.camera.scale !== camera.scale ||
        last.camera.tx !== camera.tx ||
        last.camera.ty !== camera.ty ||
        last.width !== width ||
        last.height !== height ||
        last.ratio !== ratio;
      const zoomed = last?.camera.scale !== camera.scale;
      last = { camera, width, height, ratio };
      if (!moved) return;
      if (shown) tell(false);
      compose();
      // Moving along asks at once for what comes into sight; a zoom waits until the hand rests.
      if (zoomed) rest(REST_MS);
      else if (shown) want();
    },
    onSettled(listener) {
      tell = listener;
    },
    close() {
      window.clearTimeout(timer);
      window.cancelAnimationFrame(frame);
      close([...layers, ...before]);
      layers = [];
      before = [];
    },
  };
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
