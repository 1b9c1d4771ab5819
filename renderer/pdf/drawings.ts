// The job's drawings, each with a reader thread of its own while it is looked at.
import type { Correction } from '../../core/plan/correction';
import type { Failure } from '../../shared/errors/failure';
import { sentenceOf } from '../../shared/errors/failure';
import type { PageFacts } from '../../shared/worker/reading';
import { startReader } from './readerThread';
import type { PageEvents, ReaderThread } from './readerThread';

export interface DrawingFile {
  readonly name: string;
  readonly sha256: string;
  readonly bytes: Uint8Array;
}

export interface Drawings {
  /** How many pages there are, or why the file cannot be imported; null where no password was given. */
  inspect(file: DrawingFile): Promise<{ readonly pages: number } | { readonly fault: string } | null>;
  describe(file: DrawingFile, pages: readonly number[]): Promise<readonly PageFacts[]>;
  /** A small picture of a page, made in a thread of its own that ends when nothing more is asked of it; null where
   * there is none to be had. */
  thumb(file: DrawingFile, page: number, correction: Correction | null): Promise<ImageBitmap | null>;
  /** Reads a page; whatever this drawing's thread was reading before is given up. */
  show(
    file: DrawingFile,
    page: number,
    correction: Correction | null,
    events: PageEvents,
  ): Promise<ReaderThread | null>;
}

/** Null: the person gave none. */
export type AskPassword = (name: string, again: 'first' | 'wrong') => Promise<string | null>;

/** Threads that are kept when another drawing is looked at, so that going back and forth opens nothing anew. */
const MOST_THREADS = 2;
const THUMBS_IDLE_MS = 1_000;

export function createDrawings(askPassword: AskPassword): Drawings {
  const threads = new Map<string, ReaderThread>();
  // Kept while the window is open, and never in the job.
  const passwords = new Map<string, string>();

  let thumbs: { readonly sha256: string; readonly thread: ReaderThread } | null = null;
  let thumbsIdle = 0;

  const start = (file: DrawingFile): ReaderThread => {
    const known = threads.get(file.sha256);
    threads.delete(file.sha256);
    const thread =
      known && !known.ended ? known : startReader(file.name, file.bytes, passwords.get(file.sha256) ?? null);
    threads.set(file.sha256, thread);
    for (const [key, other] of threads) {
      if (threads.size <= MOST_THREADS) break;
      threads.delete(key);
      other.end();
    }
    return thread;
  };
  const drop = (file: DrawingFile): void => {
    threads.get(file.sha256)?.end();
    threads.delete(file.sha256);
  };

  /** A thread with the drawing open in it; a locked one asks for its password until it is right or none is given. */
  const open = async (
    file: DrawingFile,
  ): Promise<{ readonly thread: ReaderThread; readonly pages: number } | Failure | null> => {
    for (;;) {
      const thread = start(file);
      const opened = await thread.opened;
      if (opened.ok) return { thread, pages: opened.value };
      drop(file);
      if (opened.failure.code !== 'not-allowed') return opened.failure;
      const password = await askPassword(file.name, passwords.has(file.sha256) ? 'wrong' : 'first');
      if (password === null) {
        passwords.delete(file.sha256);
        return null;
      }
      passwords.set(file.sha256, password);
    }
  };

  return {
    async inspect(file) {
      const found = await open(file);
      if (found === null || 'pages' in found) return found && { pages: found.pages };
      return { fault: sentenceOf(found) };
    },
    async describe(file, pages) {
      const found = await open(file);
      return found !== null && 'thread' in found ? found.thread.describe(pages) : [];
    },
    async thumb(file, page, correction) {
      window.clearTimeout(thumbsIdle);
      if (thumbs?.sha256 !== file.sha256 || thumbs.thread.ended) {
        thumbs?.thread.end();
        const password = passwords.get(file.sha256) ?? null;
        thumbs = { sha256: file.sha256, thread: startReader(file.name, file.bytes, password) };
      }
      const { thread } = thumbs;
      const opened = await thread.opened;
      const picture = opened.ok ? await thread.thumb(page, correction) : null;
      thumbsIdle = window.setTimeout(() => {
        thumbs?.thread.end();
        thumbs = null;
      }, THUMBS_IDLE_MS);
      return picture;
    },
    async show(file, page, correction, events) {
      const busy = threads.get(file.sha256)?.busy ?? null;
      // Reading cannot be broken off from within: another page means another thread.
      if (busy !== null) drop(file);
      const found = await open(file);
      if (found === null) return null;
      if (!('thread' in found)) {
        events.onTrouble(found);
        return null;
      }
      found.thread.read(page, correction, events);
      return found.thread;
    },
  };
}
