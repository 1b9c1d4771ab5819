// Opens a PDF and reads a page into plain data. Runs in Node and in the page; whoever runs it in a page sets the
// library's worker first. The only file that knows the PDF library's document.
import { getDocument, AnnotationMode, PasswordResponses } from 'pdfjs-dist/legacy/build/pdf.mjs';
import type { PDFDocumentProxy, PDFPageProxy } from 'pdfjs-dist/legacy/build/pdf.mjs';
import type { TextContent } from 'pdfjs-dist/types/src/display/api';
import type { PageContent, PageText } from '../../core/plan/types';
import { done, failed } from '../errors/failure';
import type { Outcome } from '../errors/failure';
import { OperatorWalk } from './pdfOperators';
import { startPdfThread } from './pdfThread';
import type { OperatorChunk, PdfThread } from './pdfThread';

export interface PdfHandle {
  readonly pageCount: number;
  readonly document: PDFDocumentProxy;
  readonly thread: PdfThread;
  close(): Promise<void>;
}

export interface PdfOptions {
  readonly password?: string;
  readonly name?: string;
  /** Where the library finds its character maps and the like, and how it paints; for whoever has a screen. */
  readonly library?: Readonly<Record<string, unknown>>;
}

export const LARGEST_PDF_BYTES = 512 * 1024 * 1024;
/** A page with more drawing operators than this is refused: it would take longer than ten seconds, and gigabytes. */
export const MOST_OPERATORS = 2_000_000;
/** Paths take the longest of them: a page of 300 000 strokes, the heaviest that is met, has a third of this. */
const MOST_PATHS = 1_000_000;
/** Forms within forms multiply: ten deep, a few kilobytes unfold for days. */
const MOST_FORMS = 40_000;
/** The library looks through all states that are saved for each operator. A PDF may save 28 (ISO 32000-1, annex C). */
const MOST_SAVED = 5000;
/** A larger picture is left out: unpacked it would fill the memory. */
const MOST_PIXELS = 2 ** 28;
/** ISO 32000-1, annex C: no page is larger than 14 400 units. */
const LARGEST_SIDE = 14_400;

export async function openPdf(bytes: Uint8Array, options: PdfOptions = {}): Promise<Outcome<PdfHandle>> {
  const where = options.name ?? 'the file';
  if (bytes.length === 0)
    return failed('damaged', where, 'it is empty', 'Copy it again from where it came from');
  if (bytes.length > LARGEST_PDF_BYTES)
    return failed(
      'too-large',
      where,
      'it is larger than 512 MB',
      'Save the sheet you need as a PDF of its own',
    );
  if (!hasPdfHeader(bytes))
    return failed('not-readable', where, 'it is not a PDF', 'Choose the plan as a PDF file');
  const thread = startPdfThread();
  const task = getDocument({
    ...options.library,
    worker: thread.worker,
    // The library takes the bytes it is given away to its worker; the caller keeps its own.
    data: bytes.slice(),
    verbosity: 0,
    disableFontFace: true,
    useSystemFonts: false,
    isEvalSupported: false,
    enableXfa: false,
    maxImageSize: MOST_PIXELS,
    ...(options.password === undefined ? {} : { password: options.password }),
  });
  try {
    const document = await task.promise;
    const close = async (): Promise<void> => {
      await document.destroy();
      thread.worker.destroy();
    };
    return done({ pageCount: document.numPages, document, thread, close });
  } catch (error) {
    await task.destroy();
    thread.worker.destroy();
    return whyNotOpened(error, where);
  }
}

export interface ReadOptions {
  readonly where?: string;
  /** Told how many drawing operators were read so far. */
  readonly onProgress?: (operators: number) => void;
  /** Given what was drawn so far, once, where reading takes longer than so many milliseconds. */
  readonly glimpse?: { readonly afterMs: number; show(content: PageContent): void };
  /** Has the library go through the page's operators in another way than listing them, and hand them on as it goes. */
  readonly through?: (onOperators: (chunk: OperatorChunk) => void) => Promise<void>;
  /** Given the paths as soon as they are there; the lettering is read once it is done with them. */
  readonly onPaths?: (content: PageContent, more: 'lines alone' | 'more') => void | Promise<void>;
}

/** Everything on one page that can be measured. Pages count from 1. */
export async function readPage(
  handle: PdfHandle,
  number: number,
  { where = 'the file', onProgress, onPaths, glimpse, through }: ReadOptions = {},
): Promise<Outcome<PageContent>> {
  if (!Number.isInteger(number) || number < 1 || number > handle.pageCount) {
    if (handle.pageCount === 0)
      return failed('damaged', where, 'it has no pages', 'Export the drawing again');
    const pages = handle.pageCount === 1 ? 'it has one page' : `it has pages 1 to ${handle.pageCount}`;
    return failed('out-of-range', where, `there is no page ${number}: ${pages}`, 'Choose one of them');
  }
  try {
    const page = await handle.document.getPage(number);
    const [left = 0, bottom = 0, right = 0, top = 0] = page.view;
    if (!(right > left && top > bottom))
      return failed(
        'damaged',
        `${where}, page ${number}`,
        'the page has no size',
        'Export the drawing again',
      );
    const unit = page.userUnit;
    if (right - left > LARGEST_SIDE || top - bottom > LARGEST_SIDE)
      return failed(
        'out-of-range',
        `${where}, page ${number}`,
        'the page is larger than any PDF page may be',
        'Export the drawing again',
      );
    const visibility = await handle.document.getOptionalContentConfig();
    const walk = new OperatorWalk({
      isVisible: (group) => visibility.isVisible(group) !== false,
      nameOf: (id) => layerName(visibility.getGroup(id), id),
    });
    let giveUp: (what: string) => void = () => {};
    const tooMany = new Promise<{ readonly tooMany: string }>((settle) => {
      giveUp = (what) => settle({ tooMany: what });
    });
    const frame = {
      box: [left, bottom, right, top] as const,
      rotation: quarterTurn(page.rotate),
      userUnit: unit,
    };
    const start = performance.now();
    let glimpsed = glimpse === undefined;
    const take = (chunk: OperatorChunk): void => {
      if (walk.forms > MOST_FORMS)
        return giveUp(`it unfolds into more than ${MOST_FORMS} forms within forms`);
      if (walk.count > MOST_OPERATORS) return giveUp(`it has more than ${MOST_OPERATORS} drawing operators`);
      if (walk.pathCount > MOST_PATHS) return giveUp(`it has more than ${MOST_PATHS} lines and fills`);
      if (walk.depth > MOST_SAVED)
        return giveUp(`it saves its drawing state more than ${MOST_SAVED} times and never goes back`);
      walk.read(chunk);
      onProgress?.(walk.count);
      if (glimpsed || performance.now() - start < (glimpse?.afterMs ?? 0)) return;
      glimpsed = true;
      glimpse?.show({ ...frame, ...walk.finish(), texts: [] });
    };
    // The library cannot be stopped on the way: whoever is told that there are too many ends its thread.
    const way = through ? through(take) : listOperators(handle, page, take);
    const ended = await Promise.race([way, tooMany]);
    if (ended)
      return failed(
        'too-large',
        `${where}, page ${number}`,
        ended.tooMany,
        'Export the sheet with fewer hatches or at a lower detail',
      );
    const content = { ...frame, ...walk.finish() };
    await onPaths?.({ ...content, texts: [] }, walk.hasMore ? 'more' : 'lines alone');
    const texts = walk.hasWords ? await textsOf(page) : [];
    return done({ ...content, texts });
  } catch (error) {
    return failed(
      'damaged',
      `${where}, page ${number}`,
      `the page cannot be read (${wordsOf(error)})`,
      'Open it in a PDF viewer, save it anew and import that',
    );
  }
}

/** The lettering alone, which is read sooner than the lines. */
export async function readTexts(
  handle: PdfHandle,
  number: number,
): Promise<Pick<PageContent, 'box' | 'rotation' | 'userUnit' | 'texts'>> {
  const page = await handle.document.getPage(number);
  const [left = 0, bottom = 0, right = 0, top = 0] = page.view;
  return {
    box: [left, bottom, right, top],
    rotation: quarterTurn(page.rotate),
    userUnit: page.userUnit,
    texts: await textsOf(page),
  };
}

async function listOperators(
  { thread }: PdfHandle,
  page: PDFPageProxy,
  take: (chunk: OperatorChunk) => void,
): Promise<void> {
  thread.listen((chunk) => {
    take(chunk);
    return 'keep back';
  });
  try {
    await page.getOperatorList({ annotationMode: AnnotationMode.DISABLE });
  } finally {
    thread.listen(null);
    page.cleanup();
  }
}

/** Read by hand: the library's own collecting loop wants streams that can be iterated, which Chromium 114 lacks. */
async function textsOf(page: PDFPageProxy): Promise<PageText[]> {
  const reader = (page.streamTextContent() as ReadableStream<TextContent>).getReader();
  const texts: PageText[] = [];
  for (;;) {
    const { done: ended, value } = await reader.read();
    if (ended) return texts;
    texts.push(...value.items.flatMap((item) => ('str' in item ? textOf(item) : [])));
  }
}

/** The header may stand anywhere in the first kilobyte (ISO 32000-1, annex H, note 13). */
function hasPdfHeader(bytes: Uint8Array): boolean {
  const start = String.fromCharCode(...bytes.subarray(0, 1024));
  return start.includes('%PDF-');
}

function whyNotOpened(error: unknown, where: string): Outcome<PdfHandle> {
  const name = error instanceof Error ? error.name : '';
  if (name === 'PasswordException') {
    const wrong = codeOf(error) === PasswordResponses.INCORRECT_PASSWORD;
    return failed(
      'not-allowed',
      where,
      wrong ? 'the password does not open it' : 'it is locked with a password',
      wrong
        ? 'Check the password and try again'
        : 'Ask for a copy without one, or give the password (--password TEXT)',
    );
  }
  return failed(
    'damaged',
    where,
    `it begins like a PDF but cannot be read (${wordsOf(error)})`,
    'Copy it again from where it came from, or save it anew from a PDF viewer',
  );
}

function codeOf(error: unknown): number | null {
  return typeof error === 'object' && error !== null && 'code' in error && typeof error.code === 'number'
    ? error.code
    : null;
}

function wordsOf(error: unknown): string {
  const words = error instanceof Error ? error.message : String(error);
  return words.replace(/\s+/g, ' ').replace(/\.$/, '').slice(0, 120);
}

function quarterTurn(degrees: number): PageContent['rotation'] {
  return degrees === 90 || degrees === 180 || degrees === 270 ? degrees : 0;
}

function layerName(group: unknown, id: string): string {
  return typeof group === 'object' && group !== null && 'name' in group && typeof group.name === 'string'
    ? group.name
    : id;
}

interface TextItem {
  readonly str: string;
  readonly transform: readonly number[];
  readonly width: number;
}

function textOf(item: TextItem): PageText[] {
  const text = item.str.trim();
  const [a = 0, b = 0, c = 0, d = 0, x = 0, y = 0] = item.transform;
  const height = Math.hypot(c, d);
  if (text === '' || ![a, b, x, y, height].every(Number.isFinite)) return [];
  return [{ text, at: [x, y], height, width: item.width, angle: (Math.atan2(b, a) * 180) / Math.PI }];
}
