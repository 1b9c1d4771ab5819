// Follows the page on screen: has it read and painted in a thread of its own, and keeps what was read of the last
// few pages for snapping, tracing and their scale.
import { openSegmentIndex } from '../../core/geometry/segmentIndex';
import { hideLines, listGroups, NOTHING_HIDDEN } from '../../core/plan/hiding';
import type { Hiding } from '../../core/plan/hiding';
import type { PageIndex } from '../../core/plan/pageIndex';
import { openPieces } from '../../core/plan/pieces';
import { regionIndexOf } from '../../core/plan/traceRegion';
import type { RegionIndex } from '../../core/plan/traceRegion';
import { sentenceOf } from '../../shared/errors/failure';
import { THUMB_PX } from '../../shared/worker/reading';
import type { PageDrawn, SortedStrokes } from '../../shared/worker/reading';
import type { Editor } from '../document/editor';
import { pageSource } from '../document/pageKey';
import type { PageSource } from '../document/pageKey';
import { createStore } from '../document/store';
import type { Store } from '../document/store';
import type { ViewState } from '../document/view';
import type { Drawings } from '../pdf/drawings';
import type { PagePainter, PaintedPage } from '../pdf/pagePainter';
import type { ReaderThread } from '../pdf/readerThread';
import { NOTHING_READ } from '../stages/session';
import type { PageReading } from '../stages/session';

export interface PageFollower {
  readonly reading: Store<PageReading>;
  /** Lines to snap to, without what is hidden. */
  index(page: string): PageIndex | null;
  /** Lines to trace; null while they are being read or sorted. */
  region(page: string): RegionIndex | null;
  hide(hiding: Hiding): void;
  attach(painter: PagePainter): void;
  /** Told when the lines that can be traced are others than before. */
  onSorted(listener: () => void): void;
  /** Given a small picture of the page on screen once it is read. */
  onThumb(listener: (key: string, picture: ImageBitmap) => void): void;
}

interface Kept {
  readonly key: string;
  readonly reading: PageReading;
  readonly index: PageIndex | null;
  readonly region: RegionIndex | null;
  readonly hiding: Hiding;
}

/** Pages whose lines are kept: a heavy one takes some 40 MB. */
const MOST_KEPT = 4;

export function followPage(
  editor: Editor,
  view: Store<ViewState>,
  drawings: Drawings,
  onTrouble: (why: string) => void,
): PageFollower {
  const reading = createStore<PageReading>(NOTHING_READ);
  const kept = new Map<string, Kept>();
  let painter: PagePainter | null = null;
  let shown: string | null = null;
  let painted: PaintedPage | null = null;
  let thread: ReaderThread | null = null;
  let tellSorted: () => void = () => {};
  let tellThumb: (key: string, picture: ImageBitmap) => void = () => {};

  const keyOf = (id: string | null): PageSource | null => pageSource(editor.state.get(), id);
  const keep = (key: string, change: Partial<Kept>): Kept => {
    const before = kept.get(key) ?? {
      key,
      reading: NOTHING_READ,
      index: null,
      region: null,
      hiding: NOTHING_HIDDEN,
    };
    const next = { ...before, ...change };
    kept.delete(key);
    kept.set(key, next);
    for (const old of kept.keys()) {
      if (kept.size <= MOST_KEPT) break;
      kept.delete(old);
    }
    return next;
  };
  const hidingOf = (key: string): Hiding => kept.get(key)?.hiding ?? NOTHING_HIDDEN;

  const paintWith = (from: ReaderThread, number: number, drawn: PageDrawn): void => {
    painted = { drawn, paint: (of, part, hiding) => from.paint(number, of, part, hiding) };
    painter?.setPage(painted, hidingOf(shown ?? ''));
  };

  /** By the thread that has the page open: nothing is read for it again. */
  const paintThumb = (key: string): void => {
    if (!painted) return;
    const { width, height, by } = painted.drawn;
    const part = { left: 0, top: 0, width, height, scale: THUMB_PX / Math.max(width, height) };
    void painted.paint(by === 'library' ? 'page' : 'lines', part, NOTHING_HIDDEN).picture.then((picture) => {
      if (picture) tellThumb(key, picture);
    });
  };

  const show = async (): Promise<void> => {
    const id = view.get().page;
    const next = keyOf(id);
    const key = next?.key ?? id ?? 'none';
    if (key === shown) return;
    shown = key;
    thread = null;
    painted = null;
    painter?.setPage(null, NOTHING_HIDDEN);
    if (!next) return reading.set({ ...NOTHING_READ, page: id });
    const known = kept.get(key);
    reading.set(
      known?.index ? { ...known.reading, page: id } : { ...NOTHING_READ, page: id, state: 'reading' },
    );
    const isShown = (): boolean => shown === key;
    const set = (change: Partial<PageReading>): void => {
      if (!isShown()) return;
      reading.update((now) => ({ ...now, ...change }));
      keep(key, { reading: reading.get() });
    };
    performance.clearMarks();
    performance.mark('page asked');
    const started = await drawings.show(next.file, next.number, next.correction, {
      onProgress: (operators) => {
        if (reading.get().state === 'reading') set({ operators });
      },
      onGlimpse: ({ picture, width, height }) => {
        if (isShown() && !painted) painter?.showGlimpse(picture, { width, height });
      },
      onDrawn: (drawn) => {
        if (isShown() && thread) paintWith(thread, next.number, drawn);
      },
      onLines: ({ linework, boxes }) => {
        if (isShown()) performance.mark('lines read');
        const index = {
          linework,
          boxes: openSegmentIndex(linework.segments, boxes),
          hidden: null,
        };
        keep(key, { index: hideLines(index, hidingOf(key)) });
      },
      onRead: ({ notes, scale }) => {
        const lines = kept.get(key)?.index;
        if (!lines) return;
        const linework = { ...lines.linework, notes };
        keep(key, { index: { ...lines, linework } });
        set({
          state: 'read',
          scale,
          segments: linework.widths.length,
          raster: linework.raster,
          groups: listGroups(linework),
        });
      },
      onSorted: ({ strokes, hiding }) => {
        if (isShown()) performance.mark('strokes sorted');
        const page = kept.get(key)?.index;
        if (!page || !sameHiding(hiding, hidingOf(key))) return;
        keep(key, { region: regionIndexOf(page, openStrokes(strokes)) });
        if (isShown()) paintThumb(key);
        set({ sorted: true });
        if (isShown()) tellSorted();
      },
      onTrouble: (failure) => {
        if (!isShown()) return;
        onTrouble(sentenceOf(failure));
        set({ state: 'unreadable' });
      },
    });
    if (!isShown()) return;
    thread = started;
    if (!started && reading.get().state === 'reading') set({ state: 'locked' });
  };

  editor.state.subscribe(() => void show());
  view.subscribe(() => void show());
  void show();

  return {
    reading,
    index: (id) => kept.get(keyOf(id)?.key ?? '')?.index ?? null,
    region: (id) => kept.get(keyOf(id)?.key ?? '')?.region ?? null,
    hide(hiding) {
      const key = shown;
      const known = key === null ? undefined : kept.get(key);
      const on = keyOf(view.get().page);
      if (key === null || !known?.index || on?.key !== key) return;
      keep(key, { hiding, index: hideLines(known.index, hiding), region: null });
      reading.update((now) => ({ ...now, hiding, sorted: false }));
      keep(key, { reading: reading.get() });
      thread?.sort(on.number, hiding);
      if (painted) painter?.setPage(painted, hiding);
    },
    attach(next) {
      painter = next;
      painter.setPage(painted, hidingOf(shown ?? ''));
    },
    onSorted(listener) {
      tellSorted = listener;
    },
    onThumb(listener) {
      tellThumb = listener;
    },
  };
}

function openStrokes({ pieces, ...strokes }: SortedStrokes): RegionIndex['strokes'] {
  return { ...strokes, pieces: openPieces(pieces) };
}

function sameHiding(a: Hiding, b: Hiding): boolean {
  return a.layers.join() === b.layers.join() && a.widths.join() === b.widths.join();
}
