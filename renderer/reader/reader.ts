// The thread that reads one drawing: opens it, reads its pages into lines, and paints parts of them. Stopped by being
// ended, whatever it is doing.
import './pretendWindow';
import type { Correction } from '../../core/plan/correction';
import { readLinework, readNotes } from '../../core/plan/linework';
import { hideLines, NOTHING_HIDDEN } from '../../core/plan/hiding';
import type { Hiding } from '../../core/plan/hiding';
import { buildPageIndex } from '../../core/plan/pageIndex';
import type { PageIndex } from '../../core/plan/pageIndex';
import { findScale } from '../../core/plan/scale';
import { pageSpace } from '../../core/plan/pageSpace';
import { sortStrokes } from '../../core/plan/strokeKinds';
import type { PageContent } from '../../core/plan/types';
import type { ReaderReply, ReaderRequest } from '../../shared/worker/reading';
import { openDrawing } from './openDrawing';
import type { OpenDrawing } from './openDrawing';
import { HEAVY_PATHS } from './paintByLibrary';
import type { LibraryPainter } from './paintByLibrary';
import { indexPaths, paintGlimpse, paintPaths } from './paintPaths';
import type { PathIndex } from './paintPaths';
import { paintThumb } from './paintThumb';
import { takeTurn } from './turn';

interface OpenPage {
  readonly number: number;
  readonly paths: PathIndex;
  readonly layers: readonly string[];
  readonly painter: Promise<LibraryPainter | null>;
  readonly correction: Correction | null;
  lines: PageIndex | null;
}

/** As the file gives it, before it is set right. */
interface KnownPage {
  readonly number: number;
  readonly content: PageContent;
  readonly more: 'lines alone' | 'more';
}

type Paint = Extract<ReaderRequest, { kind: 'paint' }>;

let drawing: OpenDrawing | null = null;
let page: OpenPage | null = null;
let known: KnownPage | null = null;
let reading = 0;
const wanted = new Map<number, Paint>();
let painting = false;
/** Sends on whoever waits for the first picture to be asked for, for one to be painted, and for all that were to be. */
let onAsked: (() => void) | null = null;
let onPicture: (() => void) | null = null;
let onPainted: (() => void) | null = null;

self.onmessage = ({ data }: MessageEvent<ReaderRequest>) => void take(data);

async function take(request: ReaderRequest): Promise<void> {
  switch (request.kind) {
    case 'open':
      return open(request);
    case 'describe':
      if (drawing)
        reply({ kind: 'described', request: request.request, pages: await drawing.describe(request.pages) });
      return;
    case 'read':
      return read(request.page, request.correction);
    case 'paint':
      wanted.set(request.request, request);
      onAsked?.();
      return paintWanted();
    case 'thumb':
      return thumb(request);
    case 'cancel':
      wanted.delete(request.request);
      return;
    case 'sort':
      if (page?.number === request.page && page.lines) sort(page, request.hiding);
  }
}

async function open({ bytes, name, password }: Extract<ReaderRequest, { kind: 'open' }>): Promise<void> {
  const opened = await openDrawing(new Uint8Array(bytes), name, password);
  if (!opened.ok) return reply({ kind: 'refused', failure: opened.failure });
  drawing = opened.value;
  reply({ kind: 'opened', pageCount: drawing.pageCount });
}

async function thumb({
  request,
  page: number,
  correction,
}: Extract<ReaderRequest, { kind: 'thumb' }>): Promise<void> {
  const picture = drawing && (await paintThumb(drawing, number, correction).catch(() => null));
  reply({ kind: 'painted', request, picture });
}

const PROGRESS_MS = 100;
/** A page that takes longer is shown as far as it is read. */
const GLIMPSE_MS = 500;
const GLIMPSE_PX = 1200;
/** The picture comes before the lettering is read, but the lines do not wait for a picture nobody asks for. */
const FIRST_PICTURE_MS = 400;

async function read(number: number, correction: Correction | null): Promise<void> {
  const source = drawing;
  if (!source) return;
  reading = number;
  const corrected = (content: PageContent): PageContent =>
    correction ? { ...content, correction } : content;
  let told = 0;
  /** Shown, and its lines handed over to be snapped to, before its lettering is read. */
  const drawn = async (content: PageContent, more: KnownPage['more']): Promise<void> => {
    show(number, corrected(content), more, source);
    const shown = page;
    await firstPicture();
    if (!shown || shown !== page) return;
    const linework = readLinework({ ...corrected(content), texts: [] });
    shown.lines = buildPageIndex(linework);
    hand(number, shown.lines);
  };
  // The same page set right in another way is not read again.
  if (known?.number === number) await drawn(known.content, known.more);
  else {
    known = null;
    let more: KnownPage['more'] = 'lines alone';
    const content = await source.read(number, {
      onProgress: (operators) => {
        if (performance.now() - told < PROGRESS_MS) return;
        told = performance.now();
        reply({ kind: 'progress', page: number, operators });
      },
      glimpse: { afterMs: GLIMPSE_MS, show: (paths) => showGlimpse(number, corrected(paths)) },
      onPaths: (paths, what) => {
        more = what;
        return drawn(paths, what);
      },
    });
    if (!content.ok) return reply({ kind: 'unreadable', page: number, failure: content.failure });
    known = { number, content: content.value, more };
  }
  const shown = page;
  if (!shown?.lines || shown.number !== number) return;
  const notes = readNotes(corrected(known.content));
  const lines: PageIndex = { ...shown.lines, linework: { ...shown.lines.linework, notes } };
  shown.lines = lines;
  reply({ kind: 'read', page: number, notes, scale: findScale(lines.linework, lines) });
  await takeTurn();
  await allPainted();
  sort(shown, NOTHING_HIDDEN);
}

/** Copies are handed over whole: cloning them across takes ten times as long, on both sides. */
function hand(number: number, { linework, boxes }: PageIndex): void {
  const { segments, widths, path, layer, marks } = linework;
  const copies = {
    segments: segments.slice(),
    widths: widths.slice(),
    path: path.slice(),
    layer: layer.slice(),
    marks: marks.slice(),
  };
  const data = boxes.data?.slice(0) ?? null;
  const arrays = Object.values(copies).map(({ buffer }) => buffer);
  reply(
    { kind: 'lines', page: number, linework: { ...linework, ...copies }, boxes: data },
    data ? [...arrays, data] : arrays,
  );
}

function showGlimpse(number: number, content: PageContent): void {
  const picture = paintGlimpse(content, GLIMPSE_PX);
  const { width, height } = pageSpace(content);
  if (picture) reply({ kind: 'glimpse', page: number, width, height, picture });
}

function show(number: number, content: PageContent, more: 'lines alone' | 'more', source: OpenDrawing): void {
  const paths = indexPaths(content);
  page = {
    number,
    paths,
    layers: content.layers,
    painter: source.painter(number),
    correction: content.correction ?? null,
    lines: null,
  };
  const { width, height } = paths.space;
  const by = source.kind === 'pdf' && content.paths.count <= HEAVY_PATHS ? 'library' : 'index';
  reply({ kind: 'drawn', page: number, drawn: { width, height, by, rest: more === 'more' } });
}

/** Over once a picture was asked for and painted, or nobody asks. What else is to be painted waits for the lines. */
async function firstPicture(): Promise<void> {
  await new Promise<void>((go) => {
    onAsked = go;
    setTimeout(go, FIRST_PICTURE_MS);
    if (wanted.size > 0) go();
  });
  if (painting) await new Promise<void>((go) => void (onPicture = go));
}

function allPainted(): Promise<void> {
  return painting ? new Promise((go) => void (onPainted = go)) : Promise.resolve();
}

function sort(of: OpenPage, hiding: Hiding): void {
  if (!of.lines) return;
  const sorted = sortStrokes(hideLines(of.lines, hiding));
  const strokes = { ...sorted, pieces: sorted.pieces.data };
  reply({ kind: 'sorted', page: of.number, hiding, strokes });
}

async function paintWanted(): Promise<void> {
  if (painting) return;
  painting = true;
  for (;;) {
    const [next] = wanted.values();
    if (!next) break;
    const picture = await paint(next).catch(() => null);
    const still = wanted.delete(next.request);
    reply({ kind: 'painted', request: next.request, picture: still ? picture : null });
    onPicture?.();
    await takeTurn();
  }
  painting = false;
  onPainted?.();
}

async function paint(asked: Paint): Promise<ImageBitmap | null> {
  const { part, of, hiding } = asked;
  const isWanted = (): boolean => wanted.has(asked.request);
  const shown = page;
  if (!shown || shown.number !== asked.page || reading !== asked.page) return null;
  const canvas = new OffscreenCanvas(
    Math.max(1, Math.round(part.width * part.scale)),
    Math.max(1, Math.round(part.height * part.scale)),
  );
  const ctx = canvas.getContext('2d');
  if (!ctx) return null;
  const hiddenLayers = hiding.layers.map((layer) => shown.layers[layer] ?? '');
  const whole =
    of === 'lines'
      ? await paintPaths(ctx, shown.paths, { part, hiding }, isWanted)
      : await (
          await shown.painter
        )?.paint(ctx, { part, of, hiddenLayers, correction: shown.correction }, isWanted);
  return whole ? canvas.transferToImageBitmap() : null;
}

function reply(message: ReaderReply, handed: readonly Transferable[] = []): void {
  self.postMessage(message, {
    transfer: 'picture' in message && message.picture ? [message.picture] : [...handed],
  });
}
