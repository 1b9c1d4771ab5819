// Outlines, openings, corners and fittings as the job has them now, ahead of any estimate.
import { pageToScreen } from './camera';
import { strokeLine } from './pens';
import type { Scene, SceneEdge } from './scene';

export function paintOutlines(ctx: CanvasRenderingContext2D, scene: Scene): void {
  for (const ring of scene.rings) paintRing(ctx, scene, ring);
  for (const edge of scene.edges) paintEdge(ctx, scene, edge);
  for (const line of scene.lines) paintLine(ctx, scene, line);
  if (scene.corners === 'shown') for (const edge of scene.edges) paintCorner(ctx, scene, edge);
  for (const fitting of scene.fittings) paintFitting(ctx, scene, fitting);
}

function paintRing(ctx: CanvasRenderingContext2D, scene: Scene, ring: Scene['rings'][number]): void {
  const picked = scene.picked.has(ring.id);
  const hole = ring.owner === 'opening' && scene.stage !== 'plan' && scene.stage !== 'roof';
  if (!picked && !hole) return;
  ctx.beginPath();
  ring.corners.forEach((corner, k) => {
    const [x, y] = pageToScreen(scene.camera, corner);
    if (k === 0) ctx.moveTo(x, y);
    else ctx.lineTo(x, y);
  });
  ctx.closePath();
  if (!picked) return;
  ctx.fillStyle = scene.ink.pickedFill;
  ctx.globalAlpha = 0.55;
  ctx.fill();
  ctx.globalAlpha = 1;
}

/** What stands up is drawn heavy, what only ends the membrane lighter, what parts or joins it dashed. */
const EDGE_STROKES = {
  parapet: { width: 2.2, dash: [] },
  wall: { width: 2.2, dash: [] },
  curb: { width: 1.6, dash: [] },
  eave: { width: 1.4, dash: [] },
  gutter: { width: 1.4, dash: [] },
  expansion: { width: 1.8, dash: [10, 3, 2, 3] },
  'tie-in': { width: 1.6, dash: [7, 4] },
  phase: { width: 1.6, dash: [2, 3] },
} as const;

function paintEdge(ctx: CanvasRenderingContext2D, scene: Scene, edge: SceneEdge): void {
  const from = pageToScreen(scene.camera, edge.from);
  const to = pageToScreen(scene.camera, edge.to);
  const stroke = EDGE_STROKES[edge.kind];
  const lit = scene.picked.has(edge.id);
  ctx.strokeStyle = lit ? scene.ink.picked : scene.ink.line;
  ctx.lineWidth = lit ? 4 : stroke.width;
  ctx.lineCap = 'round';
  strokeLine(ctx, from, to, stroke.dash);
  if (edge.kind === 'gutter') {
    const run = Math.hypot(to[0] - from[0], to[1] - from[1]) || 1;
    const off = [((to[1] - from[1]) / run) * 4, (-(to[0] - from[0]) / run) * 4] as const;
    ctx.lineWidth = 1;
    strokeLine(ctx, [from[0] + off[0], from[1] + off[1]], [to[0] + off[0], to[1] + off[1]], []);
  }
  ctx.lineCap = 'butt';
}

const VALLEY_STROKE = { width: 1.4, dash: [9, 4] } as const;

function paintLine(ctx: CanvasRenderingContext2D, scene: Scene, line: Scene['lines'][number]): void {
  const stroke = line.kind === 'valley' ? VALLEY_STROKE : EDGE_STROKES[line.kind];
  const lit = scene.picked.has(line.id);
  ctx.strokeStyle = lit ? scene.ink.picked : scene.ink.line;
  ctx.lineWidth = lit ? 3.5 : stroke.width;
  strokeLine(ctx, pageToScreen(scene.camera, line.from), pageToScreen(scene.camera, line.to), stroke.dash);
}

function paintCorner(ctx: CanvasRenderingContext2D, scene: Scene, edge: SceneEdge): void {
  const [x, y] = pageToScreen(scene.camera, edge.from);
  const lit = scene.pickedCorners.has(edge.id);
  const reach = lit ? 5 : 3;
  ctx.setLineDash([]);
  ctx.fillStyle = lit ? scene.ink.picked : scene.ink.paper;
  ctx.strokeStyle = lit ? scene.ink.picked : scene.ink.line;
  ctx.lineWidth = 1.2;
  ctx.beginPath();
  ctx.rect(x - reach, y - reach, 2 * reach, 2 * reach);
  ctx.fill();
  ctx.stroke();
}

/** Drawn to size, but never smaller than a hand can hit. */
function paintFitting(ctx: CanvasRenderingContext2D, scene: Scene, fitting: Scene['fittings'][number]): void {
  const [x, y] = pageToScreen(scene.camera, fitting.at);
  const lit = scene.picked.has(fitting.id);
  const r = Math.max(4.5, (fitting.size / 2) * scene.camera.scale);
  ctx.setLineDash([]);
  ctx.strokeStyle = lit ? scene.ink.picked : scene.ink.line;
  ctx.fillStyle = lit ? scene.ink.pickedFill : scene.ink.paper;
  ctx.lineWidth = lit ? 2.4 : 1.2;
  ctx.beginPath();
  if (fitting.kind === 'scupper' || fitting.kind === 'post') ctx.rect(x - r, y - r, 2 * r, 2 * r);
  else ctx.arc(x, y, r, 0, 2 * Math.PI);
  ctx.fill();
  ctx.stroke();
  ctx.beginPath();
  const k = r * Math.SQRT1_2;
  if (fitting.kind === 'drain') {
    ctx.moveTo(x - k, y - k);
    ctx.lineTo(x + k, y + k);
    ctx.moveTo(x + k, y - k);
    ctx.lineTo(x - k, y + k);
  } else if (fitting.kind === 'scupper') {
    ctx.moveTo(x - r, y);
    ctx.lineTo(x + r, y);
  } else if (fitting.kind === 'anchor') {
    ctx.moveTo(x, y - r);
    ctx.lineTo(x, y + r);
  } else {
    ctx.arc(x, y, 1, 0, 2 * Math.PI);
  }
  ctx.stroke();
}
