// A canvas painted to beyond the screen's edge and then moved and scaled with the camera by the compositor, so that a
// frame in which only the camera moves paints nothing.
import type { PaintCamera } from './pictures';

/** How a canvas was painted. */
export interface Painted {
  readonly camera: PaintCamera;
  /** In CSS pixels, what lies beyond the screen included. */
  readonly width: number;
  readonly height: number;
  readonly ratio: number;
}

/** The camera and size of a canvas that reaches beyond the screen by a share of it on each side. */
export function beyondScreen(
  camera: PaintCamera,
  size: { readonly width: number; readonly height: number },
  share: number,
): { readonly camera: PaintCamera; readonly width: number; readonly height: number } {
  const [x, y] = [Math.round(size.width * share), Math.round(size.height * share)];
  return {
    camera: { scale: camera.scale, tx: camera.tx + x, ty: camera.ty + y },
    width: size.width + 2 * x,
    height: size.height + 2 * y,
  };
}

/** `opaque` where nothing beneath shows through: the compositor then leaves that out. */
export function showBitmap(
  canvas: HTMLCanvasElement,
  picture: ImageBitmap,
  painted: Painted,
  opaque: boolean,
): void {
  canvas.getContext('bitmaprenderer', { alpha: !opaque })?.transferFromImageBitmap(picture);
  canvas.style.width = `${painted.width}px`;
  canvas.style.height = `${painted.height}px`;
}

/** Whole pixels while the zoom is the one it was painted at, so that it stays sharp. */
export function moveTo(canvas: HTMLCanvasElement, painted: Painted, now: PaintCamera): void {
  const { x, y, by } = placeUnder(painted, now);
  const whole = (value: number): number => Math.round(value * painted.ratio) / painted.ratio;
  canvas.style.transform =
    by === 1 ? `translate(${whole(x)}px, ${whole(y)}px)` : `translate(${x}px, ${y}px) scale(${by})`;
}

export function coversScreen(
  painted: Painted,
  now: PaintCamera,
  size: { readonly width: number; readonly height: number },
): boolean {
  const { x, y, by } = placeUnder(painted, now);
  return (
    x <= 0.5 &&
    y <= 0.5 &&
    x + painted.width * by >= size.width - 0.5 &&
    y + painted.height * by >= size.height - 0.5
  );
}

function placeUnder(
  { camera }: Painted,
  now: PaintCamera,
): { readonly x: number; readonly y: number; readonly by: number } {
  const by = now.scale / camera.scale;
  return { x: now.tx - camera.tx * by, y: now.ty - camera.ty * by, by };
}
