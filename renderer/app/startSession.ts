// Puts the window together: settings, the job (recovered, named at the start, or new), tools, estimator, files.
import { unpackJob } from '../../core/job/container';
import type { Bridge, OpenedFile } from '../../shared/channels/bridge';
import { readSettings } from '../../shared/settings/settings';
import { createEditor } from '../document/editor';
import type { Editor, OpenJob } from '../document/editor';
import { replayJournal } from '../document/journal';
import { followJob } from '../document/results';
import { followPins } from '../document/pinEffects';
import { createSearches } from '../document/searches';
import { createStore } from '../document/store';
import type { Store } from '../document/store';
import { FIRST_VIEW, firstOptions } from '../document/view';
import type { ViewState } from '../document/view';
import { startLaidThread } from '../canvas/laidThread';
import { createDrawings } from '../pdf/drawings';
import { createActions } from './actions';
import type { AppSession, Question } from './appSession';
import { createAutosave } from './autosave';
import type { Autosave } from './autosave';
import { createCameraActions } from './cameraActions';
import { createFiles, emptyJob } from './files';
import { kindOfFile } from './importing';
import { followPage } from './pageReading';
import type { PageFollower } from './pageReading';
import { followTheme } from './theme';
import { followThumbnails } from './thumbnails';
import { createHostFor } from './toolPorts';
import { startSearch } from './searchPort';
import { startEstimator } from './workerPort';

export interface StartedSession extends AppSession {
  readonly pages: PageFollower;
}

export async function startSession(bridge: Bridge): Promise<StartedSession> {
  const settings = createStore(readSettings(await bridge.readSettings().catch(() => null)));
  settings.subscribe((now) => void bridge.writeSettings(now).catch(() => undefined));
  const view = createStore(FIRST_VIEW);
  const say = createSay(view);

  const autosave = createAutosave(bridge, (why) => say(why, true));
  const { editor, base, changes, waiting } = await openFirst(bridge, autosave, say);
  const question = createStore<Question | null>(null);
  const ask = async <T>(asked: (answer: (value: T) => void) => Question): Promise<T> => {
    const answered = await new Promise<T>((answer) => question.set(asked(answer)));
    question.set(null);
    return answered;
  };
  const drawings = createDrawings((name, again) =>
    ask((answer) => ({ kind: 'password', name, again, answer })),
  );
  const pages = followPage(editor, view, drawings, (why) => say(why, true));
  const camera = createCameraActions(editor, view);
  const estimator = startEstimator();
  const results = followJob(editor.state, estimator);
  const host = createHostFor({ editor, view, results, camera, pages, say });
  const savedAt = createStore<number | null>(null);
  const recent = createStore(await bridge.recentFiles().catch(() => []));
  const refreshRecent = (): void => void bridge.recentFiles().then(recent.set, () => undefined);

  const showPage = (page: string | null): void => {
    view.update((v) => ({ ...v, page, lit: [], why: null }));
    camera.fit();
  };
  const files = createFiles({
    bridge,
    editor,
    autosave,
    question,
    say,
    plan: {
      editor,
      drawings,
      choosePages: (choice) => ask((answer) => ({ kind: 'pages', choice, answer })),
    },
    makePack: (name) => {
      const { settled, drawings: files } = editor.state.get();
      return estimator.makePack(name, settled, files);
    },
    onOpened: () => {
      recovered.set(null);
      savedAt.set(null);
      host.choose('select');
      view.set({ ...FIRST_VIEW, options: firstOptions(editor.state.get().job.display) });
      showPage(firstPage(editor));
      refreshRecent();
    },
    onSaved: () => {
      savedAt.set(Date.now());
      recovered.set(null);
      say('Saved.', false);
      refreshRecent();
    },
    onImported: (page) => {
      view.update((v) => ({ ...v, stage: 'plan' }));
      showPage(page);
    },
  });

  const recovered = createStore<{ readonly changes: number; readonly goBack: () => void } | null>(
    changes === 0
      ? null
      : {
          changes,
          goBack: () => {
            editor.open(base);
            autosave.startFrom(base);
            recovered.set(null);
            showPage(firstPage(editor));
          },
        },
  );
  view.update((v) => ({ ...v, options: firstOptions(base.job.display) }));
  showPage(firstPage(editor));
  keepPageStanding(editor, view, showPage);
  tellOtherSide(bridge, editor);
  if (waiting) void files.take(waiting);

  return {
    bridge,
    editor,
    host,
    files,
    laidThread: startLaidThread(estimator.sendDrawingsTo),
    pages,
    settings,
    question,
    recent,
    recovered,
    savedAt,
    camera: camera.state,
    theme: followTheme(settings),
    fit: camera.fit,
    zoom: camera.zoom,
    panels: {
      document: editor.state,
      results,
      view,
      tool: host.state,
      reading: pages.reading,
      thumbnails: followThumbnails(editor, pages, drawings),
      searches: createSearches(startSearch),
      pinEffect: followPins(editor.state, results),
      actions: createActions({ editor, view, host, files, camera, pages, results, showPage, say }),
    },
  };
}

const NOTICE_MS = 12_000;

/** A sentence stands until the next one, or until it has been there long enough to be read twice. */
function createSay(view: Store<ViewState>): (text: string, wrong: boolean) => void {
  let timer = 0;
  return (text, wrong) => {
    window.clearTimeout(timer);
    view.update((v) => ({ ...v, notice: { text, wrong } }));
    timer = window.setTimeout(() => view.update((v) => ({ ...v, notice: null })), NOTICE_MS);
  };
}

interface First {
  readonly editor: Editor;
  readonly base: OpenJob;
  /** Changes brought back after a crash. */
  readonly changes: number;
  /** A plan named at the start, to be imported once the window stands. */
  readonly waiting: OpenedFile | null;
}

async function openFirst(
  bridge: Bridge,
  autosave: Autosave,
  say: (text: string, wrong: boolean) => void,
): Promise<First> {
  const record = autosave.record;
  const journal = await bridge.readJournal().catch(() => null);
  const recovered = journal === null || journal === '' ? null : replayJournal(journal, record);
  if (recovered && recovered.changes > 0) {
    autosave.continueFrom(recovered.base);
    recovered.editor.markUnsaved();
    return { ...recovered, waiting: null };
  }
  const file = await bridge.startFile().catch((error: unknown) => {
    say(error instanceof Error ? error.message : String(error), true);
    return null;
  });
  const kind = file ? kindOfFile(file.bytes) : 'other';
  let base = emptyJob();
  if (file && kind === 'job') {
    const unpacked = unpackJob(file.bytes);
    if ('refusal' in unpacked) say(`${file.name}: ${unpacked.refusal}`, true);
    else base = { ...unpacked, name: file.name, target: file.target };
  }
  autosave.startFrom(base);
  return {
    editor: createEditor(base, record),
    base,
    changes: 0,
    waiting: file && kind !== 'job' ? file : null,
  };
}

/** The page with a roof on it first, else the first there is. */
function firstPage(editor: Editor): string | null {
  const { job } = editor.state.get();
  const [roof] = Object.values(job.roofs);
  return roof?.page ?? Object.keys(job.pages)[0] ?? null;
}

/** When the page on screen leaves the job (undo of an import), another takes its place. */
function keepPageStanding(
  editor: Editor,
  view: AppSession['panels']['view'],
  showPage: (page: string | null) => void,
): void {
  editor.state.subscribe(({ job }) => {
    const { page } = view.get();
    if (page === null ? Object.keys(job.pages).length > 0 : !(page in job.pages)) showPage(firstPage(editor));
  });
}

function tellOtherSide(bridge: Bridge, editor: Editor): void {
  const tell = (): void => {
    const { name, unsaved } = editor.state.get();
    void bridge.setDocumentState({ name, unsaved }).catch(() => undefined);
  };
  editor.state.subscribe((now, before) => {
    if (now.name !== before.name || now.unsaved !== before.unsaved) tell();
  });
  tell();
}
