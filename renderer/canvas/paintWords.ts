// Sheet names, edge lengths and falls, where they have room.
import type { RoofDrawing, Shape } from '../../core/drawing/types';
import { pageToScreen } from './camera';
import type { ScreenPoint } from './camera';
import { LABEL_FONT, strokeLine, writeAt } from './pens';
import type { CanvasCtx } from './pens';
import { isLit } from './scene';
import type { LowerScene } from './scene';

export function paintWords(ctx: CanvasCtx, scene: LowerScene, drawing: RoofDrawing): void {
  const to: ToScreen = (at) =>
    pageToScreen(scene.camera, [at[0] / drawing.mmPerPoint, at[1] / drawing.mmPerPoint]);
  const names = scene.stage !== 'plan' && scene.stage !== 'roof';
  ctx.font = LABEL_FONT;
  ctx.textAlign = 'center';
  ctx.textBaseline = 'middle';
  for (const layer of drawing.layers)
    for (const shape of layer.shapes) {
      if (shape.kind === 'line' && shape.style === 'fall') paintArrow(ctx, scene, shape, to);
      if (shape.kind !== 'text') continue;
      const hidden =
        shape.style === 'label'
          ? !names
          : shape.style === 'line-name'
            ? scene.stage === 'plan'
            : scene.lengths === 'hidden';
      if (hidden) continue;
      const [x, y] = shape.style === 'dimension' ? clearOfEdge(shape, drawing, to) : to(shape.at);
      if (x < 0 || y < 0 || x > scene.size.width || y > scene.size.height) continue;
      if (!hasRoom(ctx, shape, drawing, scene.camera.scale / drawing.mmPerPoint)) continue;
      const colour = isLit(scene, drawing, shape.id) ? scene.ink.picked : scene.ink.text;
      writeAt(ctx, shape.text, [x, y], (-shape.angle * Math.PI) / 180, colour, scene.ink.halo);
    }
}

type ToScreen = (at: readonly [number, number]) => ScreenPoint;

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
  ctx: CanvasCtx,
  shape: Extract<Shape, { kind: 'text' }>,
  drawing: RoofDrawing,
  pxPerMm: number,
): boolean {
  if (shape.style === 'fall') return pxPerMm * 4000 > 40;
  const room = roomOf(drawing).get(shape.id);
  if (!room) return true;
  // Height before width: measuring is the dear part.
  return room[1] * pxPerMm > 13 && room[0] * pxPerMm > ctx.measureText(shape.text).width + 10;
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
      if (shape.kind === 'line' && (shape.style === 'roof-edge' || shape.style === 'roof-line'))
        rooms.set(shape.id, [Math.hypot(shape.to[0] - shape.from[0], shape.to[1] - shape.from[1]), Infinity]);
    }
  roomCache.set(drawing, rooms);
  return rooms;
}

function paintArrow(
  ctx: CanvasCtx,
  scene: LowerScene,
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
