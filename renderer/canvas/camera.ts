// Page points to screen pixels and back; the only place where the y axis turns over.
import type { PagePoint } from '../../core/geometry/points';

export type ScreenPoint = readonly [x: number, y: number];

/** screen x = tx + scale · x, screen y = ty − scale · y. */
export interface Camera {
  /** Screen pixels per page point. */
  readonly scale: number;
  readonly tx: number;
  readonly ty: number;
}

export interface Size {
  readonly width: number;
  readonly height: number;
}

/** Zoom of 100 % shows the sheet at its own size: 96 px and 72 points to the inch. */
export const FULL_SIZE = 96 / 72;
const LEAST_SCALE = 0.01;
const MOST_SCALE = FULL_SIZE * 1000;

export function pageToScreen(camera: Camera, at: PagePoint): ScreenPoint {
  return [camera.tx + camera.scale * at[0], camera.ty - camera.scale * at[1]];
}

export function screenToPage(camera: Camera, at: ScreenPoint): PagePoint {
  return [(at[0] - camera.tx) / camera.scale, (camera.ty - at[1]) / camera.scale];
}

/** The same page point stays under `about`. */
export function zoomAbout(camera: Camera, about: ScreenPoint, factor: number): Camera {
  const scale = Math.min(MOST_SCALE, Math.max(LEAST_SCALE, camera.scale * factor));
  const real = scale / camera.scale;
  return {
    scale,
    tx: about[0] + (camera.tx - about[0]) * real,
    ty: about[1] + (camera.ty - about[1]) * real,
  };
}

export function panBy(camera: Camera, dx: number, dy: number): Camera {
  return { ...camera, tx: camera.tx + dx, ty: camera.ty + dy };
}

/** The box of page points [left, bottom, right, top], whole and in the middle. */
export function fitBox(box: readonly [number, number, number, number], screen: Size, margin: number): Camera {
  const [left, bottom, right, top] = box;
  const wide = Math.max(1e-6, right - left);
  const high = Math.max(1e-6, top - bottom);
  const scale = Math.max(
    LEAST_SCALE,
    Math.min(
      Math.max(40, screen.width - 2 * margin) / wide,
      Math.max(40, screen.height - 2 * margin) / high,
      MOST_SCALE,
    ),
  );
  return {
    scale,
    tx: screen.width / 2 - scale * (left + wide / 2),
    ty: screen.height / 2 + scale * (bottom + high / 2),
  };
}

/** The camera moved so that `at` stands in the middle. */
export function centreOn(camera: Camera, at: PagePoint, screen: Size): Camera {
  return {
    ...camera,
    tx: screen.width / 2 - camera.scale * at[0],
    ty: screen.height / 2 + camera.scale * at[1],
  };
}
