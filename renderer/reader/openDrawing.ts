// A drawing as the reader thread sees it, whether PDF or DXF: its pages, what can be measured on them, and how what
// is not a plain path is painted.
import { readNotes } from '../../core/plan/linework';
import { pageSpace } from '../../core/plan/pageSpace';
import { sheetName } from '../../core/plan/sheetName';
import type { PageContent } from '../../core/plan/types';
import { done, failed } from '../../shared/errors/failure';
import type { Outcome } from '../../shared/errors/failure';
import { readDxf } from '../../shared/readers/dxf';
import { looksLikeDxf } from '../../shared/readers/looksLikeDxf';
import { openPdf, readPage, readTexts } from '../../shared/readers/pdf';
import type { PdfHandle, ReadOptions } from '../../shared/readers/pdf';
import type { PageFacts } from '../../shared/worker/reading';
import { createLibraryPainter, THREAD_LIBRARY } from './paintByLibrary';
import type { LibraryPainter, PagePainter } from './paintByLibrary';
import { paintTexts } from './paintTexts';

export interface OpenDrawing {
  readonly kind: 'pdf' | 'dxf';
  readonly pageCount: number;
  describe(numbers: readonly number[]): Promise<PageFacts[]>;
  read(number: number, options: ReadOptions): Promise<Outcome<PageContent>>;
  painter(number: number): Promise<LibraryPainter | null>;
}

export async function openDrawing(
  bytes: Uint8Array,
  name: string,
  password: string | null,
): Promise<Outcome<OpenDrawing>> {
  if (looksLikeDxf(bytes)) {
    const read = readDxf(bytes, name);
    return read.ok ? done(asDrawing(read.value)) : read;
  }
  const opened = await openPdf(bytes, {
    name,
    library: { ...THREAD_LIBRARY, ...besideProgram() },
    ...(password === null ? {} : { password }),
  });
  return opened.ok ? done(asPages(opened.value, name)) : opened;
}

/** Character maps, fonts and decoders lie beside this script; glyphs are drawn as paths, so that no font is loaded. */
function besideProgram(): Readonly<Record<string, unknown>> {
  const beside = (folder: string): string => new URL(`pdf/${folder}/`, self.location.href).href;
  return {
    useWorkerFetch: true,
    cMapUrl: beside('cmaps'),
    cMapPacked: true,
    standardFontDataUrl: beside('standard_fonts'),
    wasmUrl: beside('wasm'),
    iccUrl: beside('iccs'),
  };
}

/** Names are a courtesy: a file of many pages is not kept waiting for them. */
const NAMING_MS = 1200;

function asPages(handle: PdfHandle, where: string): OpenDrawing {
  const painters = new Map<number, PagePainter>();
  const painterOf = async (number: number): Promise<PagePainter | null> => {
    const known = painters.get(number);
    if (known) return known;
    const page = await handle.document.getPage(number).catch(() => null);
    const made = page && createLibraryPainter(handle, page);
    if (made) painters.set(number, made);
    return made;
  };
  return {
    kind: 'pdf',
    pageCount: handle.pageCount,
    async describe(numbers) {
      const labels = await handle.document.getPageLabels().catch(() => null);
      const facts: PageFacts[] = [];
      const start = performance.now();
      for (const number of numbers) {
        const { width, height } = (await handle.document.getPage(number)).getViewport({ scale: 1 });
        const label = labels?.[number - 1]?.trim() ?? '';
        const patient = performance.now() - start < NAMING_MS;
        const notes = patient ? readNotes(await readTexts(handle, number)) : [];
        const name = sheetName({ width, height, notes }) ?? (label === String(number) ? '' : label);
        facts.push({ number, width, height, name: name === '' ? null : name });
      }
      return facts;
    },
    async read(number, options) {
      const painter = await painterOf(number);
      return readPage(handle, number, {
        ...options,
        where,
        ...(painter ? { through: painter.goThrough } : {}),
      });
    },
    painter: painterOf,
  };
}

function asDrawing(content: PageContent): OpenDrawing {
  const space = pageSpace(content);
  return {
    kind: 'dxf',
    pageCount: 1,
    describe: () => Promise.resolve([{ number: 1, width: space.width, height: space.height, name: null }]),
    async read(number, { onPaths }) {
      if (number !== 1)
        return failed('out-of-range', 'the drawing', `there is no page ${number}`, 'It has one');
      await onPaths?.(content, content.texts.length > 0 ? 'more' : 'lines alone');
      return done(content);
    },
    painter: () =>
      Promise.resolve({
        paint: (ctx, { part, correction }) => {
          paintTexts(ctx, correction ? { ...content, correction } : content, part);
          return Promise.resolve(true);
        },
      }),
  };
}
