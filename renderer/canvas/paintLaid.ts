// Paints what is laid: film, laps, welds and fasteners. Film is filled sheet by sheet, so that it darkens where it lies in two layers or three;
// lines of one pen are stroked together.
import type { RoofDrawing, Shape } from '../../core/drawing/types';
import type { CanvasCtx } from './pens';
import type { LowerScene } from './scene';
import { isLit } from './scene';

/** A path of too many lines takes the rasteriser longer than two of half as many. */
const LINES_AT_ONCE = 600;

export function paintLaid(ctx: CanvasCtx, scene: LowerScene): void {
  for (const drawing of scene.drawings) {
    ctx.save();
    ctx.globalAlpha = scene.lagging ? 0.55 : 1;
    const to = projection(scene, drawing);
    ctx.beginPath();
    for (const ring of drawing.clip) traceRing(ctx, ring, to);
    ctx.clip('evenodd');
    for (const layer of drawing.layers) {
      if (layer.name === 'film') paintFilm(ctx, scene, drawing, layer.shapes, to);
      if (layer.name === 'laps')
        paintLines(ctx, scene, layer.shapes, to, { colour: scene.ink.filmEdge, width: 0.6, dash: [] });
      if (layer.name === 'welds') paintWelds(ctx, scene, drawing, layer.shapes, to);
      if (layer.name === 'fasteners') paintFasteners(ctx, scene, drawing, layer.shapes, to);
    }
    ctx.restore();
  }
}

/** Roof millimetres to pixels: x = tx + k · x, y = ty − k · y. */
interface Projection {
  readonly k: number;
  readonly tx: number;
  readonly ty: number;
}

function projection({ camera }: LowerScene, { mmPerPoint }: RoofDrawing): Projection {
  return { k: camera.scale / mmPerPoint, tx: camera.tx, ty: camera.ty };
}

type Spot = readonly [number, number];

function traceRing(ctx: CanvasCtx, ring: readonly Spot[], { k, tx, ty }: Projection): void {
  ring.forEach(([x, y], n) => {
    if (n === 0) ctx.moveTo(tx + k * x, ty - k * y);
    else ctx.lineTo(tx + k * x, ty - k * y);
  });
  ctx.closePath();
}

/** Whether the box of two corners shows on the canvas. */
function isSeen({ size }: LowerScene, { k, tx, ty }: Projection, [ax, ay]: Spot, [bx, by]: Spot): boolean {
  const x0 = tx + k * Math.min(ax, bx);
  const x1 = tx + k * Math.max(ax, bx);
  const y0 = ty - k * Math.max(ay, by);
  const y1 = ty - k * Math.min(ay, by);
  return x1 > -2 && y1 > -2 && x0 < size.width + 2 && y0 < size.height + 2;
}

function isRingSeen(scene: LowerScene, to: Projection, ring: readonly Spot[]): boolean {
  let [x0, y0, x1, y1] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const [x, y] of ring) {
    x0 = Math.min(x0, x);
    y0 = Math.min(y0, y);
    x1 = Math.max(x1, x);
    y1 = Math.max(y1, y);
  }
  return isSeen(scene, to, [x0, y0], [x1, y1]);
}

function paintFilm(
  ctx: CanvasCtx,
  scene: LowerScene,
  drawing: RoofDrawing,
  shapes: readonly Shape[],
  to: Projection,
): void {
  const lit: Extract<Shape, { kind: 'area' }>[] = [];
  ctx.fillStyle = scene.ink.film;
  for (const shape of shapes) {
    if (shape.kind !== 'area' || !isRingSeen(scene, to, shape.rings[0] ?? [])) continue;
    if (isLit(scene, drawing, shape.id)) lit.push(shape);
    ctx.beginPath();
    for (const ring of shape.rings) traceRing(ctx, ring, to);
    ctx.fill('evenodd');
    if (shape.detail !== 'edge-row') continue;
    // Half of one sheet more, so that it is not taken for a lap.
    ctx.save();
    ctx.globalAlpha *= 0.5;
    ctx.fill('evenodd');
    ctx.restore();
  }
  ctx.fillStyle = scene.ink.pickedFill;
  ctx.strokeStyle = scene.ink.picked;
  ctx.lineWidth = 3;
  ctx.setLineDash([]);
  for (const { rings } of lit) {
    ctx.beginPath();
    for (const ring of rings) traceRing(ctx, ring, to);
    ctx.fill('evenodd');
    ctx.stroke();
  }
}

interface Pen {
  readonly colour: string;
  readonly width: number;
  readonly dash: readonly number[];
}

function paintLines(
  ctx: CanvasCtx,
  scene: LowerScene,
  shapes: readonly Shape[],
  to: Projection,
  pen: Pen,
): void {
  const { k, tx, ty } = to;
  let held = 0;
  const stroke = (): void => {
    ctx.strokeStyle = pen.colour;
    ctx.lineWidth = pen.width;
    ctx.setLineDash([...pen.dash]);
    ctx.stroke();
    held = 0;
  };
  ctx.beginPath();
  for (const shape of shapes) {
    if (shape.kind !== 'line' || !isSeen(scene, to, shape.from, shape.to)) continue;
    ctx.moveTo(tx + k * shape.from[0], ty - k * shape.from[1]);
    ctx.lineTo(tx + k * shape.to[0], ty - k * shape.to[1]);
    if (++held < LINES_AT_ONCE) continue;
    stroke();
    ctx.beginPath();
  }
  if (held > 0) stroke();
}

const HAND_DASH = [4, 3];
/** Below this zoom T-joints would cover the laps they stand on. */
const JOINT_SCALE = 0.5;

/** Machine welds are solid and hand welds dashed: apart in black and white and for the colour-blind. */
function paintWelds(
  ctx: CanvasCtx,
  scene: LowerScene,
  drawing: RoofDrawing,
  shapes: readonly Shape[],
  to: Projection,
): void {
  const { ink } = scene;
  const lit = shapes.filter((shape) => isLit(scene, drawing, shape.id));
  const plain = lit.length === 0 ? shapes : shapes.filter((shape) => !isLit(scene, drawing, shape.id));
  const width = scene.stage === 'welds' ? 1.8 : 1;
  const byHand = (list: readonly Shape[]) => list.filter((shape) => shape.style === 'weld-hand');
  const byMachine = (list: readonly Shape[]) => list.filter((shape) => shape.style !== 'weld-hand');
  paintLines(ctx, scene, byMachine(plain), to, { colour: ink.line, width, dash: [] });
  paintLines(ctx, scene, byHand(plain), to, { colour: ink.line, width, dash: HAND_DASH });
  paintSpots(ctx, scene, plain, to, { colour: ink.line, width: 1, dash: [] }, 'plain');
  paintLines(ctx, scene, byMachine(lit), to, { colour: ink.picked, width: 3.5, dash: [] });
  paintLines(ctx, scene, byHand(lit), to, { colour: ink.picked, width: 3.5, dash: HAND_DASH });
  paintSpots(ctx, scene, lit, to, { colour: ink.picked, width: 2.5, dash: [] }, 'lit');
}

function paintSpots(
  ctx: CanvasCtx,
  scene: LowerScene,
  shapes: readonly Shape[],
  to: Projection,
  pen: Pen,
  as: 'plain' | 'lit',
): void {
  ctx.strokeStyle = pen.colour;
  ctx.lineWidth = pen.width;
  ctx.setLineDash([]);
  ctx.beginPath();
  for (const shape of shapes) {
    if (shape.kind !== 'mark' || !isSeen(scene, to, shape.at, shape.at)) continue;
    const joint = shape.style === 't-joint';
    if (as === 'plain' && joint && scene.camera.scale < JOINT_SCALE) continue;
    const reach = as === 'lit' ? 6 : joint ? 3 : 2.5;
    ctx.rect(to.tx + to.k * shape.at[0] - reach, to.ty - to.k * shape.at[1] - reach, 2 * reach, 2 * reach);
  }
  ctx.stroke();
}

/** A plate is drawn to size and left out while it would be less than a pixel. */
function paintFasteners(
  ctx: CanvasCtx,
  scene: LowerScene,
  drawing: RoofDrawing,
  shapes: readonly Shape[],
  { k, tx, ty }: Projection,
): void {
  ctx.setLineDash([]);
  for (const shape of shapes) {
    if (shape.kind !== 'row') continue;
    const lit = isLit(scene, drawing, shape.id);
    const radius = Math.max(lit ? 2 : 0, (shape.size / 2) * k);
    if (radius < 0.8 && !lit) continue;
    const run = Math.hypot(shape.to[0] - shape.from[0], shape.to[1] - shape.from[1]);
    if (run === 0 || !isSeen(scene, { k, tx, ty }, shape.from, shape.to)) continue;
    const along = [(shape.to[0] - shape.from[0]) / run, (shape.to[1] - shape.from[1]) / run] as const;
    ctx.strokeStyle = lit ? scene.ink.picked : scene.ink.filmEdge;
    ctx.lineWidth = lit ? 1.6 : 0.8;
    ctx.beginPath();
    for (let n = 0; n < shape.count; n++) {
      const t = shape.first + n * shape.step;
      const x = tx + k * (shape.from[0] + along[0] * t);
      const y = ty - k * (shape.from[1] + along[1] * t);
      if (x < -20 || y < -20 || x > scene.size.width + 20 || y > scene.size.height + 20) continue;
      ctx.moveTo(x + radius, y);
      ctx.arc(x, y, radius, 0, 2 * Math.PI);
    }
    ctx.stroke();
  }
}
