// Joins the PDF library's two halves within one thread. What crosses is cloned as between threads, but drawing
// operators are passed on as they are, and shown to whoever listens while they come: for a page of 300 000 strokes
// cloning takes longer than parsing.
import { PDFWorker } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { WorkerMessageHandler } from 'pdfjs-dist/legacy/build/pdf.worker.mjs';

export interface OperatorChunk {
  readonly fnArray: readonly number[];
  /** Whoever listens may put null for what nobody needs afterwards. */
  readonly argsArray: unknown[];
}

/** Says whether the library gets the operators too, to paint them, or only learns that they are done. */
export type OperatorListener = (chunk: OperatorChunk) => 'pass' | 'keep back';

export interface PdfThread {
  readonly worker: PDFWorker;
  /** One page's operators at a time: null stops listening. */
  listen(listener: OperatorListener | null): void;
}

export function startPdfThread(): PdfThread {
  let listener: OperatorListener | null = null;
  const near = new JoinedPort((message, transfer) => structuredClone(message, { transfer }));
  const far = new JoinedPort((message, transfer) => {
    const chunk = operatorsIn(message);
    if (!chunk) return structuredClone(message, { transfer });
    // The sender empties its arrays once this returns.
    const passed = { ...chunk, fnArray: [...chunk.fnArray], argsArray: [...chunk.argsArray] };
    const back = listener?.(passed) === 'keep back';
    return { ...(message as object), chunk: back ? { ...passed, ...NOTHING } : passed };
  });
  near.other = far;
  far.other = near;
  WorkerMessageHandler.initializeFromPort(far);
  // The library names the class it expects, and asks only for what a port can do.
  const worker = new PDFWorker({ port: near as unknown as Worker, verbosity: 0 } as never);
  return {
    worker,
    listen: (next) => {
      listener = next;
    },
  };
}

const NOTHING = { fnArray: [], argsArray: [], length: 0 };

type Pass = (message: unknown, transfer: Transferable[]) => unknown;
type Heard = (event: { readonly data: unknown }) => void;

/** How long messages may be handed over without a turn for what else this thread has to do. */
const TURN_MS = 50;

class JoinedPort {
  other: JoinedPort | null = null;
  private readonly heard = new Set<Heard>();
  private readonly waiting: unknown[] = [];
  private lastTurn = 0;

  constructor(private readonly pass: Pass) {}

  postMessage(message: unknown, transfer: Transferable[] = []): void {
    this.other?.take(this.pass(message, transfer));
  }

  addEventListener(_name: 'message', heard: Heard, options?: { readonly signal?: AbortSignal }): void {
    this.heard.add(heard);
    options?.signal?.addEventListener('abort', () => this.heard.delete(heard));
  }

  removeEventListener(_name: 'message', heard: Heard): void {
    this.heard.delete(heard);
  }

  /** What the library calls when it is done with a worker. */
  terminate(): void {
    this.heard.clear();
  }

  private take(message: unknown): void {
    this.waiting.push(message);
    if (this.waiting.length > 1) return;
    if (performance.now() - this.lastTurn < TURN_MS) {
      queueMicrotask(() => this.deliver());
      return;
    }
    setTimeout(() => {
      this.lastTurn = performance.now();
      this.deliver();
    }, 0);
  }

  private deliver(): void {
    for (const data of this.waiting.splice(0)) for (const heard of [...this.heard]) heard({ data });
  }
}

function operatorsIn(message: unknown): OperatorChunk | null {
  if (typeof message !== 'object' || message === null || !('chunk' in message)) return null;
  const { chunk } = message;
  const isList =
    typeof chunk === 'object' &&
    chunk !== null &&
    'fnArray' in chunk &&
    Array.isArray(chunk.fnArray) &&
    'argsArray' in chunk &&
    Array.isArray(chunk.argsArray);
  return isList ? (chunk as OperatorChunk) : null;
}
