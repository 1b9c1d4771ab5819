// What the painter puts on the screen: pictures of parts of the page, and where they stand.
import type { PagePart } from '../../shared/worker/reading';

export interface PaintCamera {
  readonly scale: number;
  readonly tx: number;
  readonly ty: number;
}

export interface Sheet {
  readonly width: number;
  readonly height: number;
}

/** What is seen of a page: the camera, the window's size in CSS pixels, and device pixels to one of them. */
export interface Sight {
  readonly camera: PaintCamera;
  readonly width: number;
  readonly height: number;
  readonly ratio: number;
}

export interface Picture {
  readonly part: PagePart;
  readonly bitmap: ImageBitmap;
}

/** In device pixels, whole ones where the picture was made for this zoom: it is then put down unchanged. */
export function placeOf(
  part: PagePart,
  bitmap: ImageBitmap,
  sight: Sight,
  sheet: Sheet,
): readonly [number, number, number, number] {
  const { camera, ratio } = sight;
  const zoom = camera.scale * ratio;
  const left = camera.tx * ratio;
  const top = camera.ty * ratio - zoom * sheet.height;
  const x = left + part.left * zoom;
  const y = top + part.top * zoom;
  if (isSharp(part, zoom)) return [Math.round(x), Math.round(y), bitmap.width, bitmap.height];
  return [x, y, part.width * zoom, part.height * zoom];
}

export function isSharp(part: PagePart, zoom: number): boolean {
  return Math.abs(part.scale / zoom - 1) < 1e-4;
}

/** The part of the page on screen, in page points from its upper left: left, top, right, bottom; grown by a margin in
 * CSS pixels. Null where none of it is. */
export function seen(
  { camera, width, height }: Sight,
  sheet: Sheet,
  margin: number,
): readonly [number, number, number, number] | null {
  const pageTop = camera.ty - camera.scale * sheet.height;
  const left = Math.max(0, (-margin - camera.tx) / camera.scale);
  const right = Math.min(sheet.width, (width + margin - camera.tx) / camera.scale);
  const top = Math.max(0, (-margin - pageTop) / camera.scale);
  const bottom = Math.min(sheet.height, (height + margin - pageTop) / camera.scale);
  return right > left && bottom > top ? [left, top, right, bottom] : null;
}

/** Puts a picture down in place of what lies beneath it. */
export function put(
  ctx: OffscreenCanvasRenderingContext2D,
  { part, bitmap }: Picture,
  sight: Sight,
  sheet: Sheet,
): void {
  const [x, y, w, h] = placeOf(part, bitmap, sight, sheet);
  ctx.clearRect(x, y, w, h);
  ctx.drawImage(bitmap, x, y, w, h);
}
