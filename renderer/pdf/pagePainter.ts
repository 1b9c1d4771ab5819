// Paints a page at the zoom it is seen at: an even picture of the whole page first, then the visible part sharp.
// While a sharp picture is made the last one stands in, scaled; what is no longer wanted is cancelled.
import type { PDFPageProxy, RenderTask } from 'pdfjs-dist/legacy/build/pdf.mjs';

export interface PaintCamera {
  readonly scale: number;
  readonly tx: number;
  readonly ty: number;
}

interface Picture {
  readonly canvas: HTMLCanvasElement;
  /** What it shows, in page points from the page's upper left, y down. */
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
  readonly scale: number;
}

export interface PagePainter {
  setPage(page: PDFPageProxy | null): void;
  paint(camera: PaintCamera, width: number, height: number): void;
  /** Told when nothing sharper is to come for what is shown. */
  onSettled(listener: (settled: boolean) => void): void;
  close(): void;
}

const WHOLE_PAGE_PX = 1600;
const REST_MS = 80;
/** Beyond the screen's edge, so that a small move needs no new picture. */
const MARGIN = 0.15;
const MOST_SIDE_PX = 8192;

export function createPagePainter(canvas: HTMLCanvasElement): PagePainter {
  let page: PDFPageProxy | null = null;
  let whole: Picture | null = null;
  let sharp: Picture | null = null;
  let task: RenderTask | null = null;
  let timer = 0;
  let generation = 0;
  let last: { camera: PaintCamera; width: number; height: number } | null = null;
  let tell: (settled: boolean) => void = () => {};

  const render = async (part: Omit<Picture, 'canvas'>): Promise<Picture | null> => {
    if (!page) return null;
    const mine = ++generation;
    task?.cancel();
    const picture = document.createElement('canvas');
    picture.width = Math.max(1, Math.round(part.width * part.scale));
    picture.height = Math.max(1, Math.round(part.height * part.scale));
    const viewport = page.getViewport({
      scale: part.scale,
      offsetX: -part.left * part.scale,
      offsetY: -part.top * part.scale,
    });
    // A context of our own: the library's own one is opaque, and the paper beneath must show through.
    const canvasContext = picture.getContext('2d');
    if (!canvasContext) return null;
    const running = page.render({
      canvas: null,
      canvasContext,
      viewport,
      background: 'rgba(0,0,0,0)',
    });
    task = running;
    try {
      await running.promise;
    } catch (error) {
      if (error instanceof Error && error.name === 'RenderingCancelledException') return null;
      throw error;
    }
    return mine === generation ? { ...part, canvas: picture } : null;
  };

  const compose = (): void => {
    if (!last) return;
    const { camera, width, height } = last;
    const ratio = window.devicePixelRatio || 1;
    const [w, h] = [Math.round(width * ratio), Math.round(height * ratio)];
    if (canvas.width !== w) canvas.width = w;
    if (canvas.height !== h) canvas.height = h;
    const ctx = canvas.getContext('2d');
    if (!ctx) return;
    ctx.setTransform(ratio, 0, 0, ratio, 0, 0);
    ctx.clearRect(0, 0, width, height);
    if (!page) return;
    const size = page.getViewport({ scale: 1 });
    const top = camera.ty - camera.scale * size.height;
    const put = (picture: Picture): void =>
      ctx.drawImage(
        picture.canvas,
        camera.tx + picture.left * camera.scale,
        top + picture.top * camera.scale,
        picture.width * camera.scale,
        picture.height * camera.scale,
      );
    ctx.imageSmoothingQuality = 'high';
    if (sharp && covers(sharp, camera, size, width, height)) return put(sharp);
    if (whole) put(whole);
    if (!sharp) return;
    ctx.clearRect(
      camera.tx + sharp.left * camera.scale,
      top + sharp.top * camera.scale,
      sharp.width * camera.scale,
      sharp.height * camera.scale,
    );
    put(sharp);
  };

  const sharpen = async (): Promise<void> => {
    if (!page || !last) return;
    const { camera, width, height } = last;
    const size = page.getViewport({ scale: 1 });
    const wanted = camera.scale * (window.devicePixelRatio || 1);
    if (!whole) {
      const scale = WHOLE_PAGE_PX / Math.max(size.width, size.height);
      const made = await render({ left: 0, top: 0, width: size.width, height: size.height, scale });
      if (!made) return;
      whole = made;
      compose();
    }
    const isSharp =
      sharp && Math.abs(sharp.scale / wanted - 1) < 1e-3 && covers(sharp, camera, size, width, height);
    if (isSharp) return tell(true);
    const part = visiblePart(camera, size, width, height, wanted);
    if (!part) return tell(true);
    const made = await render(part);
    if (!made) return;
    sharp = made;
    compose();
    tell(true);
  };

  const rest = (): void => {
    window.clearTimeout(timer);
    timer = window.setTimeout(() => void sharpen(), whole ? REST_MS : 0);
  };

  return {
    setPage(next) {
      if (next === page) return;
      task?.cancel();
      generation++;
      page = next;
      whole = null;
      sharp = null;
      tell(next === null);
      compose();
      rest();
    },
    paint(camera, width, height) {
      const moved =
        !last ||
        last.camera.scale !== camera.scale ||
        last.camera.tx !== camera.tx ||
        last.camera.ty !== camera.ty ||
        last.width !== width ||
        last.height !== height;
      last = { camera, width, height };
      if (!moved) return;
      if (page) tell(false);
      compose();
      rest();
    },
    onSettled(listener) {
      tell = listener;
    },
    close() {
      window.clearTimeout(timer);
      task?.cancel();
      generation++;
    },
  };
}

/** The visible part of the page with a margin, held to what a canvas can hold. */
function visiblePart(
  camera: PaintCamera,
  size: { width: number; height: number },
  width: number,
  height: number,
  scale: number,
): Omit<Picture, 'canvas'> | null {
  const pageTop = camera.ty - camera.scale * size.height;
  const [mx, my] = [width * MARGIN, height * MARGIN];
  const left = Math.max(0, (-mx - camera.tx) / camera.scale);
  const right = Math.min(size.width, (width + mx - camera.tx) / camera.scale);
  const top = Math.max(0, (-my - pageTop) / camera.scale);
  const bottom = Math.min(size.height, (height + my - pageTop) / camera.scale);
  if (right <= left || bottom <= top) return null;
  const held = Math.min(scale, MOST_SIDE_PX / Math.max(right - left, bottom - top));
  return { left, top, width: right - left, height: bottom - top, scale: held };
}

/** Whether a picture shows all of the page that is on screen. */
function covers(
  picture: Picture,
  camera: PaintCamera,
  page: { width: number; height: number },
  width: number,
  height: number,
): boolean {
  const top = camera.ty - camera.scale * page.height;
  const slack = 1e-6;
  const right = Math.min(page.width, (width - camera.tx) / camera.scale);
  const bottom = Math.min(page.height, (height - top) / camera.scale);
  return (
    picture.left <= Math.max(0, -camera.tx / camera.scale) + slack &&
    picture.top <= Math.max(0, -top / camera.scale) + slack &&
    picture.left + picture.width >= right - slack &&
    picture.top + picture.height >= bottom - slack
  );
}
