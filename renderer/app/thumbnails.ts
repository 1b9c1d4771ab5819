// Small pictures of the job's pages for the list: of the page on screen by the thread that has read it, of the others one
// after another once that one has nothing left to do.
import { pageSource } from '../document/pageKey';
import type { Editor } from '../document/editor';
import { createStore } from '../document/store';
import type { Store } from '../document/store';
import type { Drawings } from '../pdf/drawings';
import type { PageFollower } from './pageReading';

/** By page key; null where no picture is to be had. */
export type Thumbnails = ReadonlyMap<string, ImageBitmap | null>;

/** Some 0.3 MB each. */
const MOST_KEPT = 100;

export function followThumbnails(editor: Editor, pages: PageFollower, drawings: Drawings): Store<Thumbnails> {
  const pictures = createStore<Thumbnails>(new Map());
  let painting = false;

  const keep = (key: string, picture: ImageBitmap | null): void =>
    pictures.update((now) => {
      const next = new Map(now);
      next.get(key)?.close();
      next.delete(key);
      next.set(key, picture);
      for (const [old, drawn] of next) {
        if (next.size <= MOST_KEPT) break;
        drawn?.close();
        next.delete(old);
      }
      return next;
    });
  const paintNext = async (): Promise<void> => {
    const { state, sorted, page: onScreen } = pages.reading.get();
    if (painting || state === 'reading' || (state === 'read' && !sorted)) return;
    for (const id of Object.keys(editor.state.get().job.pages).slice(0, MOST_KEPT)) {
      const source = pageSource(editor.state.get(), id);
      if (!source || pictures.get().has(source.key)) continue;
      // What is on screen comes from the thread that has it open.
      if (id === onScreen && state === 'read') continue;
      painting = true;
      keep(source.key, await drawings.thumb(source.file, source.number, source.correction));
      painting = false;
      return paintNext();
    }
  };
  pages.onThumb((key, picture) => keep(key, picture));
  editor.state.subscribe(() => void paintNext());
  pages.reading.subscribe(() => void paintNext());
  void paintNext();
  return pictures;
}
