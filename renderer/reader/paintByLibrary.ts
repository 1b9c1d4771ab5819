// Has the PDF library paint part of a page in this thread, all of it or only what is not a plain path.
import { AnnotationMode, OPS } from 'pdfjs-dist/legacy/build/pdf.mjs';
import type { PDFPageProxy, RenderTask } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { correctedPage, mapped } from '../../core/plan/correction';
import type { Correction } from '../../core/plan/correction';
import type { PdfHandle } from '../../shared/readers/pdf';
import type { OperatorChunk } from '../../shared/readers/pdfThread';
import type { PagePart } from '../../shared/worker/reading';

export interface LibraryPainter {
  /** False where it was stopped. */
  paint(
    ctx: OffscreenCanvasRenderingContext2D,
    job: {
      readonly part: PagePart;
      readonly of: 'page' | 'rest';
      readonly hiddenLayers: readonly string[];
      readonly correction: Correction | null;
    },
    isWanted: () => boolean,
  ): Promise<boolean>;
}

export interface PagePainter extends LibraryPainter {
  /** The page's operators, once through; the library keeps them, and later pictures need no parsing. */
  goThrough(onOperators: (chunk: OperatorChunk) => void): Promise<void>;
}

/** Side of the picture that going through a page leaves behind, which nobody sees. */
const THUMB_PX = 16;

export function createLibraryPainter(handle: PdfHandle, page: PDFPageProxy): PagePainter {
  const plain = new PlainPaths();
  const render = (
    ctx: OffscreenCanvasRenderingContext2D,
    { part, of, hiddenLayers, correction }: Parameters<LibraryPainter['paint']>[1],
    onOperators: (chunk: OperatorChunk) => void,
  ): RenderTask => {
    // The library keeps a page's operators between pictures, or asks for all of them anew.
    let fresh = true;
    handle.thread.listen((chunk) => {
      if (fresh) plain.clear();
      fresh = false;
      onOperators(chunk);
      plain.read(chunk);
      return 'pass';
    });
    return page.render({
      canvas: null,
      canvasContext: ctx as unknown as CanvasRenderingContext2D,
      ...placed(page, part, correction),
      annotationMode: AnnotationMode.DISABLE,
      background: 'rgba(0,0,0,0)',
      ...(of === 'rest' ? { operationsFilter: (k: number) => !plain.has(k) } : {}),
      ...(hiddenLayers.length > 0 ? { optionalContentConfigPromise: without(handle, hiddenLayers) } : {}),
    });
  };
  return {
    async goThrough(onOperators) {
      // What the library kept of an earlier time would not be handed on again.
      page.cleanup();
      const { width, height } = page.getViewport({ scale: 1 });
      const ctx = new OffscreenCanvas(THUMB_PX, THUMB_PX).getContext('2d');
      if (!ctx) return;
      const part = { left: 0, top: 0, width, height, scale: THUMB_PX / Math.max(width, height) };
      try {
        await render(ctx, { part, of: 'rest', hiddenLayers: [], correction: null }, onOperators).promise;
      } finally {
        handle.thread.listen(null);
      }
    },
    async paint(ctx, job, isWanted) {
      const task = render(ctx, job, () => {});
      task.onContinue = (go: () => void): void => {
        if (isWanted()) go();
        else task.cancel();
      };
      try {
        await task.promise;
        return true;
      } catch (error) {
        if (error instanceof Error && error.name === 'RenderingCancelledException') return false;
        throw error;
      } finally {
        handle.thread.listen(null);
      }
    },
  };
}

/** Where the page stands on the canvas; a correction is laid over it, which is a map of points, y up. */
function placed(
  page: PDFPageProxy,
  { scale, left, top }: PagePart,
  correction: Correction | null,
): Pick<Parameters<PDFPageProxy['render']>[0], 'viewport' | 'transform'> {
  if (!correction)
    return { viewport: page.getViewport({ scale, offsetX: -left * scale, offsetY: -top * scale }) };
  const viewport = page.getViewport({ scale });
  const sheet = { width: viewport.width / scale, height: viewport.height / scale };
  const { height, map } = correctedPage(sheet, correction);
  const onCanvas = (x: number, y: number): readonly [number, number] => {
    const [u, v] = mapped(map, [x / scale, sheet.height - y / scale]);
    return [(u - left) * scale, (height - v - top) * scale];
  };
  const [e, f] = onCanvas(0, 0);
  const [ax, ay] = onCanvas(1, 0);
  const [bx, by] = onCanvas(0, 1);
  return { viewport, transform: [ax - e, ay - f, bx - e, by - f, e, f] };
}

async function without(handle: PdfHandle, names: readonly string[]) {
  const config = await handle.document.getOptionalContentConfig();
  for (const [id, group] of config as Iterable<readonly [string, { readonly name?: string }]>)
    if (group.name !== undefined && names.includes(group.name)) config.setVisibility(id, false);
  return config;
}

/** A page with more plain paths than this is painted from our own index. */
export const HEAVY_PATHS = 15_000;

const RESTORING = new Set<number>([OPS.restore, OPS.paintFormXObjectEnd, OPS.endGroup]);
const SAVING = new Set<number>([OPS.save, OPS.paintFormXObjectBegin, OPS.beginGroup]);

/** Numbers of the operators that draw plain paths, which are painted from our own index. */
class PlainPaths {
  private readonly numbers = new Set<number>();
  private count = 0;
  private patterned = false;
  private clips = false;
  private readonly saved: boolean[] = [];

  clear(): void {
    this.numbers.clear();
    this.count = 0;
    this.patterned = false;
    this.clips = false;
    this.saved.length = 0;
  }

  has(number: number): boolean {
    return this.numbers.has(number);
  }

  read({ fnArray, argsArray }: OperatorChunk): void {
    for (let k = 0; k < fnArray.length; k++) {
      this.step(fnArray[k] ?? 0, this.count);
      // On a heavy page nobody asks for them again, and they would fill the memory.
      if (this.numbers.size > HEAVY_PATHS && this.numbers.has(this.count)) argsArray[k] = null;
      this.count++;
    }
  }

  private step(operator: number, number: number): void {
    if (SAVING.has(operator)) this.saved.push(this.patterned);
    else if (RESTORING.has(operator)) this.patterned = this.saved.pop() ?? this.patterned;
    else if (operator === OPS.setFillColorN || operator === OPS.setStrokeColorN) this.patterned = true;
    else if (operator === OPS.setFillRGBColor) this.patterned = false;
    else if (operator === OPS.clip || operator === OPS.eoClip) this.clips = true;
    else if (operator === OPS.constructPath) {
      if (!this.clips && !this.patterned) this.numbers.add(number);
      this.clips = false;
    }
  }
}

/** What the library needs of a page with a screen, made of what a thread has. */
export const THREAD_LIBRARY = {
  CanvasFactory: class {
    create(width: number, height: number) {
      const canvas = new OffscreenCanvas(width, height);
      return { canvas, context: canvas.getContext('2d', { willReadFrequently: true }) };
    }
    reset(kept: { canvas: OffscreenCanvas }, width: number, height: number): void {
      kept.canvas.width = width;
      kept.canvas.height = height;
    }
    destroy(kept: { canvas: OffscreenCanvas | null; context: unknown }): void {
      if (kept.canvas) kept.canvas.width = kept.canvas.height = 0;
      kept.canvas = null;
      kept.context = null;
    }
  },
  // Filters are SVG elements, which a thread has none of: a mask by brightness counts as one by its alpha.
  FilterFactory: class {
    addFilter = none;
    addHCMFilter = none;
    addAlphaFilter = none;
    addLuminosityFilter = none;
    addHighlightHCMFilter = none;
    destroy(): void {}
  },
} as const;

function none(): string {
  return 'none';
}
