// Paints the lower sheet of a scene: what is laid, with its names.
import { paintLaid } from './paintLaid';
import { paintTrade } from './paintTrade';
import type { CanvasCtx } from './pens';
import { paintWords } from './paintWords';
import type { LowerScene } from './scene';

export function paintLower(ctx: CanvasCtx, scene: LowerScene): void {
  ctx.clearRect(0, 0, scene.size.width, scene.size.height);
  ctx.lineCap = 'butt';
  ctx.lineJoin = 'miter';
  if (scene.stage !== 'plan' && scene.stage !== 'roof') paintLaid(ctx, scene);
  if (scene.stage !== 'plan') for (const drawing of scene.drawings) paintTrade(ctx, scene, drawing);
  for (const drawing of scene.drawings) paintWords(ctx, scene, drawing);
}
