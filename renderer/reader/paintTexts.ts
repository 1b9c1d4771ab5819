// Writes a drawing's texts where no library paints them: a DXF holds words and places, and no letters.
import { pageSpace } from '../../core/plan/pageSpace';
import type { PageContent } from '../../core/plan/types';
import type { PagePart } from '../../shared/worker/reading';

/** A capital letter's share of the type size, of common faces. */
const CAPITAL = 0.72;
const LEAST_PX = 2;

export function paintTexts(
  ctx: OffscreenCanvasRenderingContext2D,
  content: PageContent,
  part: PagePart,
): void {
  const space = pageSpace(content);
  ctx.fillStyle = '#000000';
  ctx.textBaseline = 'alphabetic';
  for (const { text, at, height, width, angle } of content.texts) {
    const px = (height * content.userUnit * part.scale) / CAPITAL;
    const x = (space.x(...at) - part.left) * part.scale;
    const y = (space.height - space.y(...at) - part.top) * part.scale;
    const reach = width * content.userUnit * part.scale + px;
    if (px < LEAST_PX || x < -reach || y < -reach) continue;
    if (x > part.width * part.scale + reach || y > part.height * part.scale + reach) continue;
    ctx.setTransform(1, 0, 0, 1, x, y);
    ctx.rotate((-(angle - content.rotation + (content.correction?.degrees ?? 0)) * Math.PI) / 180);
    ctx.font = `${px}px sans-serif`;
    ctx.fillText(text, 0, 0);
  }
}
