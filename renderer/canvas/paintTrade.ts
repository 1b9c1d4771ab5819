// What the rules of the trade act on: parts with their own fall, clear distances, flutes, target sheets and slits. The
// lines themselves are painted from the job, ahead of any estimate, and their names with the other words.
import type { RoofDrawing, Shape } from '../../core/drawing/types';
import { pageToScreen } from './camera';
import type { ScreenPoint } from './camera';
import { strokeLine } from './pens';
import type { CanvasCtx } from './pens';
import { isLit } from './scene';
import type { LowerScene } from './scene';

export function paintTrade(ctx: CanvasCtx, scene: LowerScene, drawing: RoofDrawing): void {
  const to = ([x, y]: readonly [number, number]): ScreenPoint =>
    pageToScreen(scene.camera, [x / drawing.mmPerPoint, y / drawing.mmPerPoint]);
  const laid = scene.stage !== 'roof';
  for (const layer of drawing.layers) {
    if (layer.name !== 'trade') continue;
    for (const shape of layer.shapes) {
      const lit = isLit(scene, drawing, shape.id);
      ctx.strokeStyle = lit ? scene.ink.picked : scene.ink.filmEdge;
      paintShape(ctx, scene, shape, to, laid);
    }
  }
}

function paintShape(
  ctx: CanvasCtx,
  scene: LowerScene,
  shape: Shape,
  to: (at: readonly [number, number]) => ScreenPoint,
  laid: boolean,
): void {
  if (shape.kind === 'area' && shape.style === 'facet') {
    ctx.lineWidth = 0.9;
    ctx.setLineDash([2, 4]);
    outline(ctx, shape.rings[0] ?? [], to);
    ctx.stroke();
  }
  if (shape.kind === 'area' && shape.style === 'target' && laid) {
    ctx.setLineDash([]);
    ctx.lineWidth = 1.4;
    ctx.fillStyle = scene.ink.film;
    outline(ctx, shape.rings[0] ?? [], to);
    ctx.fill();
    ctx.stroke();
  }
  if (shape.kind === 'line' && shape.style === 'flutes') {
    ctx.lineWidth = 1;
    strokeLine(ctx, to(shape.from), to(shape.to), []);
  }
  if (shape.kind === 'line' && shape.style === 'slit' && laid) {
    ctx.lineWidth = 2;
    strokeLine(ctx, to(shape.from), to(shape.to), [2, 2]);
  }
  if (shape.kind === 'mark' && shape.style === 'clear') {
    const [x, y] = to(shape.at);
    const [rim] = to([shape.at[0] + shape.size / 2, shape.at[1]]);
    ctx.lineWidth = 0.9;
    ctx.setLineDash([3, 3]);
    ctx.beginPath();
    ctx.arc(x, y, Math.abs(rim - x), 0, 2 * Math.PI);
    ctx.stroke();
  }
}

function outline(
  ctx: CanvasCtx,
  ring: readonly (readonly [number, number])[],
  to: (at: readonly [number, number]) => ScreenPoint,
): void {
  ctx.beginPath();
  ring.forEach((corner, k) => {
    const [x, y] = to(corner);
    if (k === 0) ctx.moveTo(x, y);
    else ctx.lineTo(x, y);
  });
  ctx.closePath();
}
