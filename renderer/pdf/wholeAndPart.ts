// A page in two pictures: an even one of the whole page, which stands in while the visible part is made sharp.
import type { PagePart } from '../../shared/worker/reading';
import { isSharp, placeOf, seen } from './pictures';
import type { Picture, Sheet, Sight } from './pictures';
import type { PictureTask } from './readerThread';

export interface Layer {
  /** Asks for what is missing of what is seen; true where nothing sharper is to come. */
  want(sight: Sight): boolean;
  draw(ctx: OffscreenCanvasRenderingContext2D, sight: Sight): void;
  /** Bytes of the pictures held. */
  readonly bytes: number;
  close(): void;
}

export type Ask = (part: PagePart) => PictureTask;

const WHOLE_PX = 1600;
const MOST_WHOLE_PX = 2600;
/** Beyond the screen's edge, so that a small move needs no new picture. */
const MARGIN_PX = 160;
const MOST_SIDE_PX = 8192;

export function createWholeAndPart(sheet: Sheet, ask: Ask, onPicture: () => void): Layer {
  let whole: Picture | null = null;
  let part: Picture | null = null;
  let asking: { readonly part: PagePart; readonly task: PictureTask } | null = null;
  let closed = false;

  const get = (wanted: PagePart, keep: (picture: Picture) => void): void => {
    asking?.task.cancel();
    const mine = { part: wanted, task: ask(wanted) };
    asking = mine;
    void mine.task.picture.then((bitmap) => {
      if (asking === mine) asking = null;
      if (!bitmap) return;
      if (closed) return bitmap.close();
      keep({ part: wanted, bitmap });
      onPicture();
    });
  };

  return {
    want(sight) {
      const zoom = sight.camera.scale * sight.ratio;
      if (!whole) {
        if (!asking) get(wholePart(sheet, zoom), (made) => (whole = made));
        return false;
      }
      if (isSharp(whole.part, zoom)) return true;
      const now = seen(sight, sheet, 0);
      if (!now) return true;
      if (part && isSharp(part.part, zoom) && holds(part.part, now)) return true;
      if (asking && isSharp(asking.part, zoom) && holds(asking.part, now)) return false;
      const grown = seen(sight, sheet, MARGIN_PX) ?? now;
      get(alignedPart(grown, zoom), (made) => {
        part?.bitmap.close();
        part = made;
      });
      return false;
    },
    draw(ctx, sight) {
      const zoom = sight.camera.scale * sight.ratio;
      if (whole && isSharp(whole.part, zoom)) return over(ctx, whole, sight, sheet);
      const now = seen(sight, sheet, 0);
      if (part && now && holds(part.part, now)) return over(ctx, part, sight, sheet);
      if (!whole) return;
      if (!part) return over(ctx, whole, sight, sheet);
      // Both are seen through, so each is kept to its own ground.
      const [x, y, w, h] = placeOf(part.part, part.bitmap, sight, sheet);
      ctx.save();
      ctx.beginPath();
      ctx.rect(0, 0, ctx.canvas.width, ctx.canvas.height);
      ctx.rect(x, y, w, h);
      ctx.clip('evenodd');
      over(ctx, whole, sight, sheet);
      ctx.restore();
      over(ctx, part, sight, sheet);
    },
    get bytes() {
      return [whole, part].reduce(
        (sum, one) => sum + (one ? 4 * one.bitmap.width * one.bitmap.height : 0),
        0,
      );
    },
    close() {
      closed = true;
      asking?.task.cancel();
      whole?.bitmap.close();
      part?.bitmap.close();
    },
  };
}

/** Made for the zoom it is first seen at where that shows it whole: it is sharp then, and nothing else is needed. */
export function wholePart(sheet: Sheet, zoom: number): PagePart {
  const longest = Math.max(sheet.width, sheet.height);
  const px = longest * zoom;
  const scale = px >= WHOLE_PX / 2 && px <= MOST_WHOLE_PX ? zoom : WHOLE_PX / longest;
  return { left: 0, top: 0, ...sheet, scale };
}

/** Begins on a whole pixel, so that it can be put down unchanged. */
function alignedPart(
  [left, top, right, bottom]: readonly [number, number, number, number],
  zoom: number,
): PagePart {
  const scale = Math.min(zoom, MOST_SIDE_PX / Math.max(right - left, bottom - top));
  const x = Math.floor(left * scale);
  const y = Math.floor(top * scale);
  return {
    left: x / scale,
    top: y / scale,
    width: (Math.ceil(right * scale) - x) / scale,
    height: (Math.ceil(bottom * scale) - y) / scale,
    scale,
  };
}

function holds(
  part: PagePart,
  [left, top, right, bottom]: readonly [number, number, number, number],
): boolean {
  const slack = 1e-6;
  return (
    part.left <= left + slack &&
    part.top <= top + slack &&
    part.left + part.width >= right - slack &&
    part.top + part.height >= bottom - slack
  );
}

function over(
  ctx: OffscreenCanvasRenderingContext2D,
  { part, bitmap }: Picture,
  sight: Sight,
  sheet: Sheet,
): void {
  ctx.drawImage(bitmap, ...placeOf(part, bitmap, sight, sheet));
}
