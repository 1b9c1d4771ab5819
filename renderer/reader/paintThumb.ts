// A small picture of a whole page, for the list of pages.
import type { Correction } from '../../core/plan/correction';
import { NOTHING_HIDDEN } from '../../core/plan/hiding';
import { THUMB_PX } from '../../shared/worker/reading';
import type { OpenDrawing } from './openDrawing';
import { HEAVY_PATHS } from './paintByLibrary';
import { indexPaths, paintPaths } from './paintPaths';

/** Null where the page cannot be read. */
export async function paintThumb(
  source: OpenDrawing,
  number: number,
  correction: Correction | null,
): Promise<ImageBitmap | null> {
  const content = await source.read(number, {});
  if (!content.ok) return null;
  const paths = indexPaths(correction ? { ...content.value, correction } : content.value);
  const { width, height } = paths.space;
  const scale = THUMB_PX / Math.max(width, height);
  const part = { left: 0, top: 0, width, height, scale };
  const canvas = new OffscreenCanvas(Math.ceil(width * scale), Math.ceil(height * scale));
  const ctx = canvas.getContext('2d');
  if (!ctx) return null;
  const light = source.kind === 'pdf' && content.value.paths.count <= HEAVY_PATHS;
  if (!light) await paintPaths(ctx, paths, { part, hiding: NOTHING_HIDDEN }, wanted);
  ctx.resetTransform();
  const of = light ? 'page' : 'rest';
  await (await source.painter(number))?.paint(ctx, { part, of, hiddenLayers: [], correction }, wanted);
  return canvas.transferToImageBitmap();
}

function wanted(): boolean {
  return true;
}
