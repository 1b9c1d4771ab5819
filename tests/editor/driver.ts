// A hand without a screen: pointer, keys and typing on a real editor, tools and snapping.
import { estimate } from '../../core/job/estimate';
import { newJob } from '../../core/job/newJob';
import type { Job } from '../../core/job/schema';
import type { PagePoint } from '../../core/geometry/points';
import type { PageIndex } from '../../core/plan/pageIndex';
import { createEditor } from '../../renderer/document/editor';
import type { Editor, OpenJob } from '../../renderer/document/editor';
import { writeJournalLine } from '../../renderer/document/journal';
import { FIRST_VIEW } from '../../renderer/document/view';
import type { ToolOptions } from '../../renderer/document/view';
import { findEndLap } from '../../renderer/tools/endLaps';
import { hitTest } from '../../renderer/tools/hit';
import { createToolHost } from '../../renderer/tools/host';
import { createSnapper } from '../../renderer/tools/snapping';
import { hideLines, NOTHING_HIDDEN } from '../../core/plan/hiding';
import { buildRegionIndex } from '../../core/plan/traceRegion';
import { closedPathOn, lineKindOn, traceOn } from '../../renderer/tools/tracing';
import { showTool } from '../../renderer/tools/toolState';
import type { Mark, ToolName, ToolOptionName } from '../../renderer/tools/types';

export interface Driver {
  readonly editor: Editor;
  job(): Job;
  /** The tool's state path, such as `traceRoof.placingCorner`. */
  path(): string;
  hint(): string;
  marks(): readonly Mark[];
  /** The last sentence said, and whether it told of something wrong. */
  said(): { readonly text: string; readonly wrong: boolean } | null;
  choose(tool: ToolName): void;
  setOptions(options: Partial<ToolOptions>): void;
  move(at: PagePoint, keys?: 'shift' | 'alt'): void;
  click(at: PagePoint, keys?: 'shift' | 'alt'): void;
  down(at: PagePoint, keys?: 'shift' | 'alt'): void;
  up(at: PagePoint): void;
  double(at: PagePoint): void;
  option(option: ToolOptionName): void;
  type(text: string): void;
  press(key: 'Escape' | 'Enter' | 'Backspace' | 'Delete' | 'ArrowRight' | 'ArrowUp'): void;
  /** Everything the autosave journal would hold. */
  journal(): string;
}

/** One point of the page is 100 mm on the roof, so that 300 points are 30 m. */
export const MM_PER_POINT = 100;

export function jobOnBlankPage(scale: 'scaled' | 'unscaled' = 'scaled'): OpenJob {
  const job = newJob({ name: 'Test', date: '2026-01-02' });
  const page = {
    id: 'p1',
    drawing: null,
    number: 1,
    name: 'Blank sheet',
    width: 1000,
    height: 800,
    scale:
      scale === 'scaled'
        ? ({ mmPerPoint: MM_PER_POINT, from: { by: 'length', a: [0, 0], b: [10, 0], length: 1000 } } as const)
        : null,
    checks: [],
  };
  return { job: { ...job, pages: { p1: page } }, drawings: new Map(), name: 'Test.lapjob', target: null };
}

/** `drawn`: the lines of the page, where the test is about them. */
export function startDriver(open: OpenJob = jobOnBlankPage(), drawn: PageIndex | null = null): Driver {
  const journal: string[] = [writeJournalLine({ kind: 'base', open })];
  const editor = createEditor(open, (line) => journal.push(writeJournalLine(line)));
  const snapper = createSnapper();
  let lines = drawn;
  let region = drawn && buildRegionIndex(drawn);
  let options = FIRST_VIEW.options;
  let said: { text: string; wrong: boolean } | null = null;
  const pxPerPoint = 1;
  const host = createToolHost(editor, {
    view() {
      const job = editor.state.get().settled;
      const page = job.pages.p1 ?? null;
      return {
        page,
        options,
        pxPerPoint,
        hit: (at) => page && hitTest(job, [], { at, page: page.id, pxPerPoint, stage: 'roof' }),
        snap: (request) => page && snapper(request, { job, page: page.id, index: lines, pxPerPoint }),
        trace: (at, traced) => traceOn(region, at, traced),
        closedPath: (at) => closedPathOn(lines, at),
        lineKind: (at) => lineKindOn(lines, at, 8 / pxPerPoint),
        endLap: (picked) =>
          picked.kind === 'lap' || picked.kind === 'pin' ? findEndLap(job, estimate(job), picked) : null,
      };
    },
    panBy: () => {},
    leaveOut: ({ of, key }) => {
      lines = lines && hideLines(lines, { ...NOTHING_HIDDEN, [of]: [key] });
      region = lines && buildRegionIndex(lines);
      host.send({ type: 'relined' });
    },
    say: (text, wrong) => {
      said = { text, wrong };
    },
  });
  const keysOf = (held?: 'shift' | 'alt') => ({ shift: held === 'shift', alt: held === 'alt', ctrl: false });
  const down = (at: PagePoint, held?: 'shift' | 'alt'): void =>
    host.send({ type: 'down', at, keys: keysOf(held) });
  const up = (at: PagePoint): void => host.send({ type: 'up', at, keys: keysOf() });
  const move = (at: PagePoint, held?: 'shift' | 'alt'): void =>
    host.send({ type: 'move', at, keys: keysOf(held) });
  return {
    editor,
    job: () => editor.state.get().job,
    path: () => host.state.get().at,
    hint: () => showTool(host.state.get(), host.shownView()).hint,
    marks: () => showTool(host.state.get(), host.shownView()).marks,
    said: () => said,
    choose: host.choose,
    setOptions: (change) => {
      options = { ...options, ...change };
    },
    move,
    down,
    up,
    click(at, held) {
      move(at, held);
      down(at, held);
      up(at);
    },
    double: (at) => host.send({ type: 'double', at, keys: keysOf() }),
    option: (option) => host.send({ type: 'option', option }),
    type: (text) => host.send({ type: 'typed', text }),
    press(key) {
      if (key === 'Escape') host.send({ type: 'cancel' });
      else if (key === 'Enter') host.send({ type: 'complete' });
      else if (key === 'Backspace') host.send({ type: 'back' });
      else if (key === 'Delete') host.send({ type: 'delete' });
      else host.send({ type: 'nudge', direction: key === 'ArrowRight' ? [1, 0] : [0, 1], mm: 10 });
    },
    journal: () => journal.join(''),
  };
}

/** Clicks a ring and closes it on its first corner. */
export function traceRing(driver: Driver, corners: readonly PagePoint[]): void {
  driver.choose('traceRoof');
  for (const corner of corners) driver.click(corner, 'alt');
  const [first] = corners;
  if (first) driver.click(first);
}

export const L_SHAPE: readonly PagePoint[] = [
  [100, 100],
  [400, 100],
  [400, 220],
  [250, 220],
  [250, 400],
  [100, 400],
];
