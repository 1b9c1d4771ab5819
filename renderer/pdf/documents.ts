// The imported files as open documents, each opened once; and what can be read from a page of them.
import { getDocument, GlobalWorkerOptions, PDFWorker } from 'pdfjs-dist/legacy/build/pdf.mjs';
import type { PDFDocumentProxy, PDFPageProxy } from 'pdfjs-dist/legacy/build/pdf.mjs';
import type { PageContent } from '../../core/plan/types';
import { handleOf, openPdf, readPage } from '../../shared/readers/pdf';

export interface PageSize {
  readonly width: number;
  readonly height: number;
}

export interface PdfDocuments {
  /** Sizes of all pages as displayed, in points; or why the file cannot be imported. */
  inspect(
    name: string,
    sha256: string,
    bytes: Uint8Array,
  ): Promise<{ readonly pages: readonly PageSize[] } | { readonly fault: string }>;
  page(sha256: string, bytes: Uint8Array, number: number): Promise<PDFPageProxy>;
  content(sha256: string, bytes: Uint8Array, number: number): Promise<PageContent | null>;
}

export function createDocuments(): PdfDocuments {
  const worker = startWorker();
  const open = new Map<string, Promise<PDFDocumentProxy>>();

  const documentOf = (sha256: string, bytes: Uint8Array): Promise<PDFDocumentProxy> => {
    const known = open.get(sha256);
    if (known) return known;
    const opening = getDocument({ ...painting(), worker, data: bytes.slice() }).promise;
    open.set(sha256, opening);
    opening.catch(() => open.delete(sha256));
    return opening;
  };

  return {
    async inspect(name, sha256, bytes) {
      const document = await documentOf(sha256, bytes).catch(() => null);
      if (!document) return whyNot(name, bytes);
      const pages: PageSize[] = [];
      for (let number = 1; number <= document.numPages; number++) {
        const { width, height } = (await document.getPage(number)).getViewport({ scale: 1 });
        pages.push({ width, height });
      }
      return { pages };
    },
    page: async (sha256, bytes, number) => (await documentOf(sha256, bytes)).getPage(number),
    async content(sha256, bytes, number) {
      const read = await readPage(handleOf(await documentOf(sha256, bytes)), number);
      return read.ok ? read.value : null;
    },
  };
}

/** One thread for all documents, started with the window: starting it takes longer than reading a plan. */
function startWorker(): PDFWorker {
  GlobalWorkerOptions.workerSrc = new URL('pdf.worker.mjs', document.baseURI).href;
  return new PDFWorker({ verbosity: 0 });
}

/** The reader knows the words for every way a file can be wrong. */
async function whyNot(name: string, bytes: Uint8Array): Promise<{ readonly fault: string }> {
  const opened = await openPdf(bytes, { name });
  if (opened.ok) {
    await opened.value.close();
    return {
      fault: `${name}: it opens, but cannot be painted. Save it anew from a PDF viewer and import that.`,
    };
  }
  const { where, what, todo } = opened.failure;
  return { fault: `${where}: ${what}. ${todo}.` };
}

/** Glyphs are drawn as paths, so that no font is loaded into the page and lettering is sharp at any zoom. */
function painting() {
  const beside = (folder: string): string => new URL(`pdf/${folder}/`, document.baseURI).href;
  return {
    verbosity: 0,
    disableFontFace: true,
    isEvalSupported: false,
    enableXfa: false,
    cMapUrl: beside('cmaps'),
    cMapPacked: true,
    standardFontDataUrl: beside('standard_fonts'),
    wasmUrl: beside('wasm'),
    iccUrl: beside('iccs'),
  };
}
