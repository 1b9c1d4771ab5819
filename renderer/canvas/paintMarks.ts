// What stands over the plan for the moment: the tool's lines, snaps and lengths, scale lines, and wrong spots.
import { pageToScreen } from './camera';
import { LABEL_FONT, strokeLine, writeAt } from './pens';
import type { Scene } from './scene';
import type { Mark } from '../tools/types';

export function paintMarks(ctx: CanvasRenderingContext2D, scene: Scene): void {
  for (const region of scene.regions) paintRegion(ctx, scene, region);
  for (const line of scene.scaleLines) paintScaleLine(ctx, scene, line);
  for (const pin of scene.pins) paintPin(ctx, scene, pin);
  for (const spot of scene.spots) paintSpot(ctx, scene, spot);
  ctx.font = LABEL_FONT;
  ctx.textAlign = 'center';
  ctx.textBaseline = 'middle';
  for (const mark of scene.marks) paintMark(ctx, scene, mark);
}

function paintScaleLine(
  ctx: CanvasRenderingContext2D,
  scene: Scene,
  line: Scene['scaleLines'][number],
): void {
  const from = pageToScreen(scene.camera, line.a);
  const to = pageToScreen(scene.camera, line.b);
  const run = Math.hypot(to[0] - from[0], to[1] - from[1]) || 1;
  const tick = [((to[1] - from[1]) / run) * 5, (-(to[0] - from[0]) / run) * 5] as const;
  ctx.strokeStyle = scene.ink.picked;
  ctx.lineWidth = 1.6;
  strokeLine(ctx, from, to, []);
  for (const end of [from, to])
    strokeLine(ctx, [end[0] - tick[0], end[1] - tick[1]], [end[0] + tick[0], end[1] + tick[1]], []);
}

/** Its border dashed, its scale inside its upper left corner. */
function paintRegion(
  ctx: CanvasRenderingContext2D,
  scene: Scene,
  { low, high, says }: Scene['regions'][number],
): void {
  const [left, bottom] = pageToScreen(scene.camera, low);
  const [right, top] = pageToScreen(scene.camera, high);
  ctx.strokeStyle = scene.ink.line;
  ctx.lineWidth = 1;
  ctx.setLineDash([7, 4]);
  ctx.strokeRect(left, top, right - left, bottom - top);
  ctx.setLineDash([]);
  ctx.font = LABEL_FONT;
  ctx.textAlign = 'left';
  ctx.textBaseline = 'middle';
  writeAt(ctx, says, [left + 6, top + 11], 0, scene.ink.line, scene.ink.halo);
}

/** A diamond: squares are corners and T-joints. */
function paintPin(ctx: CanvasRenderingContext2D, scene: Scene, pin: Scene['pins'][number]): void {
  const [x, y] = pageToScreen(scene.camera, pin.at);
  ctx.fillStyle = pin.picked ? scene.ink.picked : scene.ink.line;
  ctx.beginPath();
  ctx.moveTo(x, y - 6);
  ctx.lineTo(x + 6, y);
  ctx.lineTo(x, y + 6);
  ctx.lineTo(x - 6, y);
  ctx.closePath();
  ctx.fill();
}

function paintSpot(ctx: CanvasRenderingContext2D, scene: Scene, spot: Scene['spots'][number]): void {
  const [x, y] = pageToScreen(scene.camera, spot.at);
  ctx.strokeStyle = scene.ink.wrong;
  ctx.lineWidth = spot.severity === 'error' ? 2 : 1.2;
  ctx.setLineDash(spot.severity === 'error' ? [] : [3, 3]);
  ctx.beginPath();
  ctx.arc(x, y, 9, 0, 2 * Math.PI);
  ctx.stroke();
}

function paintMark(ctx: CanvasRenderingContext2D, scene: Scene, mark: Mark): void {
  const { ink, camera } = scene;
  ctx.strokeStyle = ink.picked;
  switch (mark.kind) {
    case 'line': {
      ctx.lineWidth = 1.8;
      ctx.setLineDash([]);
      ctx.beginPath();
      mark.points.forEach((point, k) => {
        const [x, y] = pageToScreen(camera, point);
        if (k === 0) ctx.moveTo(x, y);
        else ctx.lineTo(x, y);
      });
      ctx.stroke();
      const [first] = mark.points;
      const last = mark.points.at(-1);
      if (!mark.closed || !first || !last) return;
      ctx.lineWidth = 1;
      strokeLine(ctx, pageToScreen(camera, last), pageToScreen(camera, first), [4, 4]);
      return;
    }
    case 'guide': {
      const [a, b] = mark.points;
      if (!a || !b) return;
      ctx.lineWidth = 0.8;
      strokeLine(ctx, pageToScreen(camera, a), pageToScreen(camera, b), [2, 3]);
      return;
    }
    case 'point': {
      const [x, y] = pageToScreen(camera, mark.at);
      ctx.fillStyle = ink.picked;
      ctx.fillRect(x - 3, y - 3, 6, 6);
      return;
    }
    case 'snap': {
      const [x, y] = pageToScreen(camera, mark.at);
      ctx.lineWidth = 1.4;
      ctx.setLineDash([]);
      ctx.beginPath();
      ctx.arc(x, y, 6, 0, 2 * Math.PI);
      ctx.stroke();
      ctx.textAlign = 'left';
      writeAt(ctx, mark.text, [x + 12, y + 12], 0, ink.picked, ink.halo);
      ctx.textAlign = 'center';
      return;
    }
    case 'text': {
      const at = pageToScreen(camera, mark.at);
      const turned = mark.along === null ? 0 : upright(-mark.along);
      const lifted = [at[0] + Math.sin(turned) * 11, at[1] - Math.cos(turned) * 11] as const;
      writeAt(ctx, mark.text, lifted, turned, ink.picked, ink.halo);
    }
  }
}

/** Turned so that it is read from below or from the right. */
function upright(angle: number): number {
  let turned = angle;
  while (turned > Math.PI / 2) turned -= Math.PI;
  while (turned <= -Math.PI / 2) turned += Math.PI;
  return turned;
}
