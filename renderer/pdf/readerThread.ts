// One drawing's reader thread as the window holds it: what was asked comes back as promises and events. A thread
// that neither answers nor moves on is ended: a drawing from a stranger can loop for ever.
import type { Failure, Outcome } from '../../shared/errors/failure';
import type { Correction } from '../../core/plan/correction';
import { NOTHING_HIDDEN } from '../../core/plan/hiding';
import type { Hiding } from '../../core/plan/hiding';
import type {
  PageDrawn,
  PageFacts,
  PagePart,
  PictureOf,
  ReaderReply,
  ReaderRequest,
} from '../../shared/worker/reading';

export interface PageEvents {
  onProgress(operators: number): void;
  onGlimpse(glimpse: Extract<ReaderReply, { kind: 'glimpse' }>): void;
  onDrawn(drawn: PageDrawn): void;
  onLines(lines: Extract<ReaderReply, { kind: 'lines' }>): void;
  onRead(read: Extract<ReaderReply, { kind: 'read' }>): void;
  onSorted(sorted: Extract<ReaderReply, { kind: 'sorted' }>): void;
  onTrouble(failure: Failure): void;
}

export interface PictureTask {
  readonly picture: Promise<ImageBitmap | null>;
  cancel(): void;
}

export interface ReaderThread {
  readonly opened: Promise<Outcome<number>>;
  describe(pages: readonly number[]): Promise<readonly PageFacts[]>;
  read(page: number, correction: Correction | null, events: PageEvents): void;
  sort(page: number, hiding: Hiding): void;
  paint(page: number, of: PictureOf, part: PagePart, hiding?: Hiding): PictureTask;
  /** Null where the page cannot be painted, or takes longer than a small picture is worth: then the thread has ended. */
  thumb(page: number, correction: Correction | null): Promise<ImageBitmap | null>;
  /** The page being read, or null. */
  readonly busy: number | null;
  readonly ended: boolean;
  end(): void;
}

/** Hostile drawings are refused within ten seconds. */
const PATIENCE_MS = 9_000;
const THUMB_PATIENCE_MS = 5_000;

export function startReader(name: string, bytes: Uint8Array, password: string | null): ReaderThread {
  const worker = new Worker(new URL('reader.js', document.baseURI), { type: 'module' });
  const pictures = new Map<number, (picture: ImageBitmap | null) => void>();
  const descriptions = new Map<number, (facts: readonly PageFacts[]) => void>();
  let asked = 0;
  let busy: number | null = null;
  let events: PageEvents | null = null;
  let ended = false;
  let settleOpen: (outcome: Outcome<number>) => void = () => {};
  const opened = new Promise<Outcome<number>>((settle) => {
    settleOpen = settle;
  });

  const post = (request: ReaderRequest, transfer: Transferable[] = []): void => {
    if (!ended) worker.postMessage(request, transfer);
  };
  const end = (): void => {
    if (ended) return;
    ended = true;
    window.clearTimeout(timer);
    worker.terminate();
    for (const settle of pictures.values()) settle(null);
    for (const settle of descriptions.values()) settle([]);
    pictures.clear();
    descriptions.clear();
    busy = null;
  };
  const fail = (failure: Failure): void => {
    const listener = busy === null ? null : events;
    end();
    settleOpen({ ok: false, failure });
    listener?.onTrouble(failure);
  };
  const lookAgain = (): void => {
    window.clearTimeout(timer);
    timer = window.setTimeout(() => fail(tooSlow(name)), PATIENCE_MS);
  };
  let timer = 0;
  lookAgain();

  worker.onerror = (event) => {
    const why = event.message || 'its script could not be loaded';
    fail({
      code: 'unexpected',
      where: name,
      what: `the reader stopped (${why})`,
      todo: 'Import the drawing again',
    });
  };
  worker.onmessage = ({ data }: MessageEvent<ReaderReply>) => {
    if (busy !== null) lookAgain();
    switch (data.kind) {
      case 'opened':
      case 'refused':
        window.clearTimeout(timer);
        return settleOpen(
          data.kind === 'opened' ? { ok: true, value: data.pageCount } : { ok: false, failure: data.failure },
        );
      case 'described':
        descriptions.get(data.request)?.(data.pages);
        return void descriptions.delete(data.request);
      case 'painted': {
        const settle = pictures.get(data.request);
        pictures.delete(data.request);
        if (settle) settle(data.picture);
        else data.picture?.close();
        return;
      }
      default:
        return hearPage(data);
    }
  };

  const hearPage = (data: Extract<ReaderReply, { page: number }>): void => {
    switch (data.kind) {
      case 'progress':
        return events?.onProgress(data.operators);
      case 'glimpse':
        return events?.onGlimpse(data);
      case 'drawn':
        return events?.onDrawn(data.drawn);
      case 'lines':
        return events?.onLines(data);
      case 'read':
        return events?.onRead(data);
      case 'sorted':
        rest();
        return events?.onSorted(data);
      case 'unreadable':
        rest();
        // The library is still at it.
        if (data.failure.code === 'too-large') end();
        return events?.onTrouble(data.failure);
    }
  };
  const rest = (): void => {
    busy = null;
    window.clearTimeout(timer);
  };

  // The thread keeps what it is given; the window's own bytes stay.
  const copy = bytes.slice().buffer;
  post({ kind: 'open', name, bytes: copy, password }, [copy]);

  return {
    opened,
    describe: (pages) =>
      new Promise((settle) => {
        const request = ++asked;
        if (ended) return settle([]);
        descriptions.set(request, settle);
        post({ kind: 'describe', request, pages });
      }),
    read(page, correction, listener) {
      busy = page;
      events = listener;
      lookAgain();
      post({ kind: 'read', page, correction });
    },
    sort: (page, hiding) => post({ kind: 'sort', page, hiding }),
    paint(page, of, part, hiding = NOTHING_HIDDEN) {
      const request = ++asked;
      const picture = new Promise<ImageBitmap | null>((settle) => {
        if (ended) return settle(null);
        pictures.set(request, settle);
        post({ kind: 'paint', request, page, of, part, hiding });
      });
      return {
        picture,
        cancel: () => {
          pictures.get(request)?.(null);
          pictures.delete(request);
          post({ kind: 'cancel', request });
        },
      };
    },
    thumb(page, correction) {
      const request = ++asked;
      return new Promise<ImageBitmap | null>((settle) => {
        if (ended) return settle(null);
        const patience = window.setTimeout(end, THUMB_PATIENCE_MS);
        pictures.set(request, (picture) => {
          window.clearTimeout(patience);
          settle(picture);
        });
        post({ kind: 'thumb', request, page, correction });
      });
    },
    get busy() {
      return busy;
    },
    get ended() {
      return ended;
    },
    end,
  };
}

function tooSlow(name: string): Failure {
  return {
    code: 'hostile',
    where: name,
    what: `reading it stood still for ${PATIENCE_MS / 1000} s and was stopped`,
    todo: 'Save the page you need as a PDF of its own and import that',
  };
}
