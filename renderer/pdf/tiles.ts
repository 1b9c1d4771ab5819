// A heavy page in tiles, drawn at the zoom they are seen at and kept, the latest used longest, within a limit of
// bytes. What has left the screen before it was drawn is cancelled.
import type { PagePart } from '../../shared/worker/reading';
import { isSharp, put, seen } from './pictures';
import type { Picture, Sheet, Sight } from './pictures';
import type { PictureTask } from './readerThread';
import { wholePart } from './wholeAndPart';
import type { Ask, Layer } from './wholeAndPart';

const TILE_PX = 512;
const MOST_BYTES = 128 * 1024 * 1024;
/** Few at a time, so that what is cancelled has hardly begun. */
const MOST_ASKED = 2;

interface Tile extends Picture {
  readonly key: string;
}

export function createTiles(sheet: Sheet, ask: Ask, onPicture: () => void): Layer {
  let whole: Picture | null = null;
  let wholeTask: PictureTask | null = null;
  let bytes = 0;
  const tiles = new Map<string, Tile>();
  const asked = new Map<string, PictureTask>();
  let closed = false;

  const getWhole = (zoom: number): void => {
    const part = wholePart(sheet, zoom);
    wholeTask = ask(part);
    void wholeTask.picture.then((bitmap) => {
      wholeTask = null;
      if (!bitmap) return;
      if (closed) return bitmap.close();
      whole = { part, bitmap };
      onPicture();
    });
  };
  const getTile = (key: string, part: PagePart): void => {
    const task = ask(part);
    asked.set(key, task);
    void task.picture.then((bitmap) => {
      if (asked.get(key) === task) asked.delete(key);
      if (!bitmap) return;
      if (closed) return bitmap.close();
      keep({ key, part, bitmap });
      onPicture();
    });
  };
  const keep = (tile: Tile): void => {
    tiles.set(tile.key, tile);
    bytes += bytesOf(tile);
    for (const [key, old] of tiles) {
      if (bytes <= MOST_BYTES || key === tile.key) break;
      tiles.delete(key);
      bytes -= bytesOf(old);
      old.bitmap.close();
    }
  };

  return {
    want(sight) {
      const zoom = sight.camera.scale * sight.ratio;
      if (!whole) {
        if (!wholeTask) getWhole(zoom);
        return false;
      }
      if (isSharp(whole.part, zoom)) return true;
      const wanted = tilesSeen(sight, sheet);
      for (const [key, task] of asked) if (!wanted.has(key)) task.cancel();
      for (const key of [...asked.keys()]) if (!wanted.has(key)) asked.delete(key);
      let missing = 0;
      for (const [key, part] of wanted) {
        const known = tiles.get(key);
        if (known) {
          // Used again: to the end of the order in which they are let go.
          tiles.delete(key);
          tiles.set(key, known);
          continue;
        }
        missing++;
        if (!asked.has(key) && asked.size < MOST_ASKED) getTile(key, part);
      }
      return missing === 0;
    },
    draw(ctx, sight) {
      const zoom = sight.camera.scale * sight.ratio;
      if (whole) ctx.drawImage(whole.bitmap, ...wholePlace(whole, sight, sheet));
      if (whole && isSharp(whole.part, zoom)) return;
      const now = [...tiles.values()];
      const older = now.filter(({ part }) => !isSharp(part, zoom) && part.scale > (whole?.part.scale ?? 0));
      for (const tile of older.slice(-MOST_OLDER)) put(ctx, tile, sight, sheet);
      for (const tile of now) if (isSharp(tile.part, zoom)) put(ctx, tile, sight, sheet);
    },
    get bytes() {
      return bytes + (whole ? bytesOf(whole) : 0);
    },
    close() {
      closed = true;
      wholeTask?.cancel();
      for (const task of asked.values()) task.cancel();
      whole?.bitmap.close();
      for (const tile of tiles.values()) tile.bitmap.close();
      tiles.clear();
    },
  };
}

/** Tiles of another zoom that stand in until those of this one are drawn. */
const MOST_OLDER = 24;

function wholePlace(
  whole: Picture,
  { camera, ratio }: Sight,
  sheet: Sheet,
): readonly [number, number, number, number] {
  const zoom = camera.scale * ratio;
  const x = camera.tx * ratio;
  const y = camera.ty * ratio - zoom * sheet.height;
  if (isSharp(whole.part, zoom))
    return [Math.round(x), Math.round(y), whole.bitmap.width, whole.bitmap.height];
  return [x, y, zoom * sheet.width, zoom * sheet.height];
}

/** From the middle of the screen outward. */
function tilesSeen(sight: Sight, sheet: Sheet): Map<string, PagePart> {
  const zoom = sight.camera.scale * sight.ratio;
  const size = TILE_PX / zoom;
  const found = new Map<string, PagePart>();
  const now = seen(sight, sheet, 0);
  if (!now) return found;
  const [left, top, right, bottom] = now;
  const list: { readonly col: number; readonly row: number; readonly away: number }[] = [];
  for (let col = Math.floor(left / size); col * size < right; col++)
    for (let row = Math.floor(top / size); row * size < bottom; row++)
      list.push({
        col,
        row,
        away: Math.hypot((col + 0.5) * size - (left + right) / 2, (row + 0.5) * size - (top + bottom) / 2),
      });
  list.sort((a, b) => a.away - b.away);
  for (const { col, row } of list)
    found.set(`${zoom.toPrecision(8)} ${col} ${row}`, {
      left: col * size,
      top: row * size,
      width: size,
      height: size,
      scale: zoom,
    });
  return found;
}

function bytesOf({ bitmap }: Picture): number {
  return 4 * bitmap.width * bitmap.height;
}
