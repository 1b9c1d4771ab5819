// Follows the page on screen: hands its picture to the painter, and reads its lines for snapping and its scale.
import type { PageIndex } from '../../core/plan/pageIndex';
import type { Editor } from '../document/editor';
import { createStore } from '../document/store';
import type { Store } from '../document/store';
import type { ViewState } from '../document/view';
import type { PdfDocuments } from '../pdf/documents';
import type { PagePainter } from '../pdf/pagePainter';
import type { PageReading } from '../stages/session';
import { readPageLines } from '../tools/pageLines';

export interface PageFollower {
  readonly reading: Store<PageReading>;
  index(page: string): PageIndex | null;
  attach(painter: PagePainter): void;
}

const NOTHING: PageReading = {
  page: null,
  state: 'none',
  scale: { candidates: [], dimensions: 0, against: [], warnings: [] },
  segments: 0,
  raster: false,
};

export function followPage(
  editor: Editor,
  view: Store<ViewState>,
  documents: PdfDocuments,
  onTrouble: (why: string) => void,
): PageFollower {
  const reading = createStore<PageReading>(NOTHING);
  const indexes = new Map<string, { index: PageIndex; reading: PageReading }>();
  let painter: PagePainter | null = null;
  let shown: string | null = null;

  const show = async (): Promise<void> => {
    const { job, drawings } = editor.state.get();
    const id = view.get().page;
    const page = id === null ? undefined : job.pages[id];
    const drawing = page && page.drawing !== null ? job.drawings[page.drawing] : undefined;
    const key = page && drawing ? `${drawing.sha256}/${page.number}` : (page?.id ?? 'none');
    if (key === shown) return;
    shown = key;
    const bytes = drawing && drawings.get(drawing.sha256);
    if (!page || !drawing || !bytes) {
      painter?.setPage(null);
      return reading.set({ ...NOTHING, page: page?.id ?? null });
    }
    try {
      const picture = await documents.page(drawing.sha256, bytes, page.number);
      if (shown !== key) return;
      painter?.setPage(picture);
      const known = indexes.get(key);
      if (known) return reading.set({ ...known.reading, page: page.id });
      reading.set({ ...NOTHING, page: page.id, state: 'reading' });
      const content = await documents.content(drawing.sha256, bytes, page.number);
      if (!content) {
        if (shown === key) reading.set({ ...NOTHING, page: page.id, state: 'unreadable' });
        return;
      }
      const { index, scale, segments, raster } = readPageLines(content);
      const read: PageReading = { page: page.id, state: 'read', scale, segments, raster };
      indexes.set(key, { index, reading: read });
      if (shown === key) reading.set(read);
    } catch (error) {
      onTrouble(
        `${drawing.name}, page ${page.number} cannot be shown: ${error instanceof Error ? error.message : String(error)}`,
      );
      reading.set({ ...NOTHING, page: page.id, state: 'unreadable' });
    }
  };

  editor.state.subscribe(() => void show());
  view.subscribe(() => void show());

  return {
    reading,
    index(id) {
      const { job } = editor.state.get();
      const page = job.pages[id];
      const drawing = page && page.drawing !== null ? job.drawings[page.drawing] : undefined;
      return (page && drawing && indexes.get(`${drawing.sha256}/${page.number}`)?.index) || null;
    },
    attach(next) {
      painter = next;
      shown = null;
      void show();
    },
  };
}
