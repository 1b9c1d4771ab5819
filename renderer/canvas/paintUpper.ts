// Paints the upper sheet of a scene: outlines, fittings, and what the tool and the findings show. It alone is painted
// anew while the plan is moved about.
import { paintMarks } from './paintMarks';
import { paintOutlines } from './paintOutlines';
import type { Scene } from './scene';

export function paintUpper(ctx: CanvasRenderingContext2D, scene: Scene): void {
  ctx.clearRect(0, 0, scene.size.width, scene.size.height);
  ctx.lineCap = 'butt';
  ctx.lineJoin = 'miter';
  paintOutlines(ctx, scene);
  paintMarks(ctx, scene);
}
