// Paints one scene: film, laps, welds, edges, fittings, names, then what the tool and the findings show.
import type { RoofDrawing, Shape } from '../../core/drawing/types';
import { pageToScreen } from './camera';
import type { ScreenPoint } from './camera';
import { paintMarks } from './paintMarks';
import { paintOutlines } from './paintOutlines';
import { LABEL_FONT, strokeLine, writeAt } from './pens';
import type { Scene } from './scene';

export function paintScene(ctx: CanvasRenderingContext2D, scene: Scene): void {
  const { size } = scene;
  ctx.clearRect(0, 0, size.width, size.height);
  ctx.lineCap = 'butt';
  ctx.lineJoin = 'miter';
  if (scene.stage !== 'plan' && scene.stage !== 'roof')
    for (const drawing of scene.drawings) paintLaid(ctx, scene, drawing);
  paintOutlines(ctx, scene);
  for (const drawing of scene.drawings) paintWords(ctx, scene, drawing);
  paintMarks(ctx, scene);
}

const isLit = (scene: Scene, drawing: RoofDrawing, id: string): boolean =>
  scene.picked.has(`${drawing.roof}/${id}`);

type ToScreen = (at: readonly [number, number]) => ScreenPoint;

function onScreen({ camera }: Scene, drawing: RoofDrawing): ToScreen {
  return (at) => pageToScreen(camera, [at[0] / drawing.mmPerPoint, at[1] / drawing.mmPerPoint]);
}

function paintLaid(ctx: CanvasRenderingContext2D, scene: Scene, drawing: RoofDrawing): void {
  const to = onScreen(scene, drawing);
  ctx.save();
  ctx.globalAlpha = scene.lagging ? 0.55 : 1;
  ctx.beginPath();
  for (const ring of drawing.clip) tracePath(ctx, ring, to);
  ctx.clip('evenodd');
  for (const layer of drawing.layers) {
    if (layer.name === 'film') for (const shape of layer.shapes) paintFilm(ctx, scene, drawing, shape, to);
    if (layer.name === 'laps') for (const shape of layer.shapes) paintLapEdge(ctx, scene, shape, to);
    if (layer.name === 'welds')
      for (const shape of layer.shapes) paintWeld(ctx, scene, shape, to, isLit(scene, drawing, shape.id));
    if (layer.name === 'fasteners') paintFasteners(ctx, scene, drawing, layer.shapes);
  }
  ctx.restore();
}

function tracePath(
  ctx: CanvasRenderingContext2D,
  ring: readonly (readonly [number, number])[],
  to: ToScreen,
): void {
  ring.forEach((corner, k) => {
    const [x, y] = to(corner);
    if (k === 0) ctx.moveTo(x, y);
    else ctx.lineTo(x, y);
  });
  ctx.closePath();
}

function paintFilm(
  ctx: CanvasRenderingContext2D,
  scene: Scene,
  drawing: RoofDrawing,
  shape: Shape,
  to: ToScreen,
): void {
  if (shape.kind !== 'area') return;
  ctx.beginPath();
  for (const ring of shape.rings) tracePath(ctx, ring, to);
  ctx.fillStyle = scene.ink.film;
  ctx.fill('evenodd');
  if (!isLit(scene, drawing, shape.id)) return;
  ctx.fillStyle = scene.ink.pickedFill;
  ctx.fill('evenodd');
  ctx.strokeStyle = scene.ink.picked;
  ctx.lineWidth = 3;
  ctx.setLineDash([]);
  ctx.stroke();
}

function paintLapEdge(ctx: CanvasRenderingContext2D, scene: Scene, shape: Shape, to: ToScreen): void {
  if (shape.kind !== 'line') return;
  ctx.strokeStyle = scene.ink.filmEdge;
  ctx.lineWidth = 0.6;
  strokeLine(ctx, to(shape.from), to(shape.to), []);
}

/** Machine welds are solid and hand welds dashed: apart in black and white and for the colour-blind. */
function paintWeld(
  ctx: CanvasRenderingContext2D,
  scene: Scene,
  shape: Shape,
  to: ToScreen,
  lit: boolean,
): void {
  const emphasis = scene.stage === 'welds';
  ctx.strokeStyle = lit ? scene.ink.picked : scene.ink.line;
  if (shape.kind === 'line') {
    ctx.lineWidth = lit ? 3.5 : emphasis ? 1.8 : 1;
    strokeLine(ctx, to(shape.from), to(shape.to), shape.style === 'weld-hand' ? [4, 3] : []);
  }
  if (shape.kind !== 'mark') return;
  if (!lit && shape.style === 't-joint' && scene.camera.scale < 0.5) return;
  const [x, y] = to(shape.at);
  ctx.lineWidth = lit ? 2.5 : 1;
  ctx.setLineDash([]);
  ctx.beginPath();
  const reach = lit ? 6 : shape.style === 't-joint' ? 3 : 2.5;
  ctx.rect(x - reach, y - reach, 2 * reach, 2 * reach);
  ctx.stroke();
}

/** A plate is drawn to size and left out while it would be less than a pixel. */
function paintFasteners(
  ctx: CanvasRenderingContext2D,
  scene: Scene,
  drawing: RoofDrawing,
  shapes: readonly Shape[],
): void {
  const to = onScreen(scene, drawing);
  const pxPerMm = scene.camera.scale / drawing.mmPerPoint;
  for (const shape of shapes) {
    if (shape.kind !== 'row') continue;
    const lit = isLit(scene, drawing, shape.id);
    const radius = Math.max(lit ? 2 : 0, (shape.size / 2) * pxPerMm);
    if (radius < 0.8 && !lit) continue;
    const run = Math.hypot(shape.to[0] - shape.from[0], shape.to[1] - shape.from[1]);
    if (run === 0) continue;
    const along = [(shape.to[0] - shape.from[0]) / run, (shape.to[1] - shape.from[1]) / run] as const;
    ctx.strokeStyle = lit ? scene.ink.picked : scene.ink.filmEdge;
    ctx.lineWidth = lit ? 1.6 : 0.8;
    ctx.setLineDash([]);
    ctx.beginPath();
    for (let k = 0; k < shape.count; k++) {
      const t = shape.first + k * shape.step;
      const [x, y] = to([shape.from[0] + along[0] * t, shape.from[1] + along[1] * t]);
      if (x < -20 || y < -20 || x > scene.size.width + 20 || y > scene.size.height + 20) continue;
      ctx.moveTo(x + radius, y);
      ctx.arc(x, y, radius, 0, 2 * Math.PI);
    }
    ctx.stroke();
  }
}

/** Sheet names, edge lengths and falls, where they fit. */
function paintWords(ctx: CanvasRenderingContext2D, scene: Scene, drawing: RoofDrawing): void {
  const to = onScreen(scene, drawing);
  const names = scene.stage !== 'plan' && scene.stage !== 'roof';
  // While a tool writes lengths of its own, the estimate's would stand beside them a moment late.
  const lengths = scene.stage === 'roof' && !scene.marks.some((mark) => mark.kind === 'text');
  ctx.font = LABEL_FONT;
  ctx.textAlign = 'center';
  ctx.textBaseline = 'middle';
  for (const layer of drawing.layers)
    for (const shape of layer.shapes) {
      if (shape.kind === 'line' && shape.style === 'fall') paintArrow(ctx, scene, shape, to);
      if (shape.kind !== 'text') continue;
      if (shape.style === 'label' ? !names : !lengths) continue;
      if (!hasRoom(ctx, shape, drawing, scene.camera.scale / drawing.mmPerPoint)) continue;
      const [x, y] = shape.style === 'dimension' ? clearOfEdge(shape, drawing, to) : to(shape.at);
      const colour = isLit(scene, drawing, shape.id) ? scene.ink.picked : scene.ink.text;
      writeAt(ctx, shape.text, [x, y], (-shape.angle * Math.PI) / 180, colour, scene.ink.halo);
    }
}

/** An edge's length stands beside its edge, never on it. */
const CLEAR_PX = 11;

function clearOfEdge(
  shape: Extract<Shape, { kind: 'text' }>,
  drawing: RoofDrawing,
  to: ToScreen,
): ScreenPoint {
  const at = to(shape.at);
  const edge = edgesOf(drawing).get(shape.id);
  if (!edge) return at;
  const middle = to([(edge.from[0] + edge.to[0]) / 2, (edge.from[1] + edge.to[1]) / 2]);
  const off = Math.hypot(at[0] - middle[0], at[1] - middle[1]);
  if (off === 0 || off >= CLEAR_PX) return at;
  return [
    middle[0] + ((at[0] - middle[0]) / off) * CLEAR_PX,
    middle[1] + ((at[1] - middle[1]) / off) * CLEAR_PX,
  ];
}

type Line = Extract<Shape, { kind: 'line' }>;
const edgeCache = new WeakMap<RoofDrawing, ReadonlyMap<string, Line>>();

function edgesOf(drawing: RoofDrawing): ReadonlyMap<string, Line> {
  const known = edgeCache.get(drawing);
  if (known) return known;
  const edges = new Map<string, Line>();
  for (const layer of drawing.layers)
    for (const shape of layer.shapes)
      if (shape.kind === 'line' && shape.style === 'roof-edge') edges.set(shape.id, shape);
  edgeCache.set(drawing, edges);
  return edges;
}

const roomCache = new WeakMap<RoofDrawing, ReadonlyMap<string, readonly [number, number]>>();

function hasRoom(
  ctx: CanvasRenderingContext2D,
  shape: Extract<Shape, { kind: 'text' }>,
  drawing: RoofDrawing,
  pxPerMm: number,
): boolean {
  if (shape.style === 'fall') return pxPerMm * 4000 > 40;
  const room = roomOf(drawing).get(shape.id);
  if (!room) return true;
  const wide = ctx.measureText(shape.text).width + 10;
  return room[0] * pxPerMm > wide && room[1] * pxPerMm > 13;
}

/** Length and width that a name has, mm, by id: a sheet's own, an edge's length. */
function roomOf(drawing: RoofDrawing): ReadonlyMap<string, readonly [number, number]> {
  const known = roomCache.get(drawing);
  if (known) return known;
  const rooms = new Map<string, readonly [number, number]>();
  for (const layer of drawing.layers)
    for (const shape of layer.shapes) {
      if (shape.kind === 'area' && shape.style === 'film') {
        const [a, b, c] = shape.rings[0] ?? [];
        if (a && b && c)
          rooms.set(shape.id, [Math.hypot(b[0] - a[0], b[1] - a[1]), Math.hypot(c[0] - b[0], c[1] - b[1])]);
      }
      if (shape.kind === 'line' && shape.style === 'roof-edge')
        rooms.set(shape.id, [Math.hypot(shape.to[0] - shape.from[0], shape.to[1] - shape.from[1]), Infinity]);
    }
  roomCache.set(drawing, rooms);
  return rooms;
}

function paintArrow(
  ctx: CanvasRenderingContext2D,
  scene: Scene,
  shape: Extract<Shape, { kind: 'line' }>,
  to: ToScreen,
): void {
  const [x1, y1] = to(shape.from);
  const [x2, y2] = to(shape.to);
  const turned = Math.atan2(y2 - y1, x2 - x1);
  ctx.strokeStyle = scene.ink.filmEdge;
  ctx.lineWidth = 1;
  strokeLine(ctx, [x1, y1], [x2, y2], []);
  ctx.beginPath();
  ctx.moveTo(x2 - 8 * Math.cos(turned - 0.4), y2 - 8 * Math.sin(turned - 0.4));
  ctx.lineTo(x2, y2);
  ctx.lineTo(x2 - 8 * Math.cos(turned + 0.4), y2 - 8 * Math.sin(turned + 0.4));
  ctx.stroke();
}
