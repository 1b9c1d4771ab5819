// Strokes and lettering that every painter uses.
import type { ScreenPoint } from './camera';

export type CanvasCtx = CanvasRenderingContext2D | OffscreenCanvasRenderingContext2D;

export const LABEL_FONT = '11px "IBM Plex Sans", sans-serif';

export function strokeLine(
  ctx: CanvasCtx,
  from: ScreenPoint,
  to: ScreenPoint,
  dash: readonly number[],
): void {
  ctx.setLineDash([...dash]);
  ctx.beginPath();
  ctx.moveTo(from[0], from[1]);
  ctx.lineTo(to[0], to[1]);
  ctx.stroke();
}

/** Text on a halo of paper, so that it can be read over lines. */
export function writeAt(
  ctx: CanvasCtx,
  text: string,
  at: ScreenPoint,
  turned: number,
  colour: string,
  halo: string,
): void {
  ctx.save();
  ctx.translate(at[0], at[1]);
  ctx.rotate(turned);
  ctx.setLineDash([]);
  ctx.lineJoin = 'round';
  ctx.strokeStyle = halo;
  ctx.lineWidth = 3.5;
  ctx.strokeText(text, 0, 0);
  ctx.fillStyle = colour;
  ctx.fillText(text, 0, 0);
  ctx.restore();
}
