// The laid roof on a canvas of its own. A small one is painted each frame. A large one is painted in a thread of its
// own to beyond the screen's edge, and moved with the camera until a sharper one is ready.
import { beyondScreen, coversScreen, moveTo, showBitmap } from '../pdf/movedCanvas';
import type { Painted } from '../pdf/movedCanvas';
import type { LaidThread } from './laidThread';
import { paintLower } from './paintLower';
import type { LowerScene, Scene } from './scene';

export interface LowerSheet {
  /** `revision` is that of the estimate whose drawings the scene shows. */
  paint(scene: Scene, ratio: number, revision: number): void;
  close(): void;
}

/** A drawing of more shapes than this is painted in the other thread. */
const FEW_SHAPES = 600;
const REST_MS = 90;
/** While the camera moves on beyond what was painted. */
const AGAIN_MS = 200;
/** Share of the screen on each side that is painted beyond its edge. */
const MARGIN = 0.3;

interface Sheet {
  readonly scene: LowerScene;
  readonly painted: Painted;
}

export function createLowerSheet(
  canvas: HTMLCanvasElement,
  thread: LaidThread,
  repaint: () => void,
): LowerSheet {
  let shown: Sheet | null = null;
  let latest: { readonly scene: Scene; readonly ratio: number; readonly revision: number } | null = null;
  let asking = false;
  let asked = -Infinity;
  let timer = 0;

  const show = (made: Sheet, picture: ImageBitmap): void => {
    showBitmap(canvas, picture, made.painted, false);
    canvas.style.visibility = 'visible';
    shown = made;
  };
  const ask = (): void => {
    timer = 0;
    if (asking || !latest) return;
    asking = true;
    asked = performance.now();
    const made = sheetOf(latest.scene, latest.ratio, MARGIN);
    void thread.paint(made.scene, latest.ratio, latest.revision).then((picture) => {
      asking = false;
      if (!latest) return picture.close();
      show(made, picture);
      repaint();
    });
  };

  return {
    paint(scene, ratio, revision) {
      const count = shapesIn(scene);
      canvas.dataset.shapes = String(count);
      if (count <= FEW_SHAPES) {
        latest = null;
        const made = sheetOf(scene, ratio, 0);
        show(made, paintHere(made));
        moveTo(canvas, made.painted, scene.camera);
        canvas.dataset.fresh = 'true';
        return;
      }
      latest = { scene, ratio, revision };
      const same = shown !== null && sameContent(shown.scene, scene) && shown.painted.ratio === ratio;
      const still = same && shown?.painted.camera.scale === scene.camera.scale;
      const covered = shown !== null && coversScreen(shown.painted, scene.camera, scene.size);
      canvas.dataset.fresh = String(still && covered);
      // Another page's or stage's sheets are not shown for these.
      const alike = shown !== null && shown.scene.stage === scene.stage && samePage(shown.scene, scene);
      canvas.style.visibility = alike ? 'visible' : 'hidden';
      if (shown) moveTo(canvas, shown.painted, scene.camera);
      if ((still && covered) || asking) return;
      const hurry = !same || !covered;
      if (hurry && timer !== 0 && same) return;
      window.clearTimeout(timer);
      const wait = !same ? 0 : covered ? REST_MS : Math.max(0, asked + AGAIN_MS - performance.now());
      timer = window.setTimeout(ask, wait);
    },
    close() {
      window.clearTimeout(timer);
    },
  };
}

function sheetOf(
  { ink, stage, drawings, lagging, lengths, picked, ...scene }: Scene,
  ratio: number,
  margin: number,
): Sheet {
  const { camera, width, height } = beyondScreen(scene.camera, scene.size, margin);
  return {
    scene: { ink, stage, drawings, lagging, lengths, picked, camera, size: { width, height } },
    painted: { camera, width, height, ratio },
  };
}

function paintHere({ scene, painted: { width, height, ratio } }: Sheet): ImageBitmap {
  const canvas = new OffscreenCanvas(
    Math.max(1, Math.round(width * ratio)),
    Math.max(1, Math.round(height * ratio)),
  );
  const ctx = canvas.getContext('2d');
  if (!ctx) throw new Error('the browser gives no canvas to paint on');
  ctx.setTransform(ratio, 0, 0, ratio, 0, 0);
  paintLower(ctx, scene);
  return canvas.transferToImageBitmap();
}

/** Everything but the camera and what the upper sheet shows. */
function sameContent(a: LowerScene, b: LowerScene): boolean {
  return (
    samePage(a, b) &&
    a.stage === b.stage &&
    a.ink === b.ink &&
    a.lagging === b.lagging &&
    a.lengths === b.lengths &&
    a.drawings.length === b.drawings.length &&
    a.drawings.every((drawing, k) => drawing === b.drawings[k]) &&
    a.picked.size === b.picked.size &&
    [...a.picked].every((id) => b.picked.has(id))
  );
}

function samePage(a: LowerScene, b: LowerScene): boolean {
  return a.drawings[0]?.page === b.drawings[0]?.page;
}

const counts = new WeakMap<Scene['drawings'][number], number>();

function shapesIn({ drawings, stage }: Scene): number {
  let sum = 0;
  for (const drawing of drawings) {
    let known = counts.get(drawing);
    if (known === undefined) {
      known = drawing.layers.reduce((total, layer) => total + layer.shapes.length, 0);
      counts.set(drawing, known);
    }
    sum += known;
  }
  return stage === 'plan' ? 0 : sum;
}
