// Keys of the whole window, and what the desktop's menu asks for. The plan's own keys are in canvas/planKeys.
import type { MenuCommand } from '../../shared/channels/bridge';
import { STAGES } from '../document/view';
import { showTool } from '../tools/toolState';
import { TOOL_OPTIONS } from '../tools/types';
import type { ToolName } from '../tools/types';
import type { StartedSession } from './startSession';

export const SHORTCUTS: readonly { readonly keys: string; readonly does: string }[] = [
  { keys: 'Ctrl Z, Ctrl Y', does: 'Undo, redo' },
  { keys: 'Ctrl S, Ctrl Shift S', does: 'Save, save as' },
  { keys: 'Ctrl O, Ctrl N, Ctrl I', does: 'Open, new job, import a plan' },
  { keys: 'Alt 1 … Alt 6', does: 'The six stages' },
  { keys: 'C, T, O, F', does: 'Take a shape of the drawing, trace a roof, add an opening, place a fitting' },
  { keys: 'L, D, U', does: 'Draw a line, which way it falls, along a flute' },
  { keys: 'R, A', does: 'While tracing: a rectangle by three points, an arc by three points' },
  {
    keys: 'P, A, L, I',
    does: 'While taking a shape: a closed path, a neighbour added, a layer left out, the parapet’s inner face',
  },
  { keys: 'S, K, M', does: 'Set the scale, check a length, measure' },
  { keys: 'V, H', does: 'Pick, move the sheet' },
  { keys: 'Wheel, pinch, + and −', does: 'Zoom about the pointer' },
  { keys: 'Space and drag', does: 'Move the sheet; a tap of Space clicks at a drawing tool’s pointer' },
  { keys: 'Home', does: 'Fit the roof or the sheet' },
  { keys: 'Arrows', does: 'Nudge what is picked by 10 mm (Shift 100 mm), or move the pointer or the sheet' },
  { keys: 'Digits', does: 'Type a length: 30000, 30 m, 98\'-5", or with an angle 30000 < 90' },
  { keys: 'Shift, Alt', does: 'Square to the sheet and the last side; no snapping' },
  { keys: 'Enter, Backspace, Escape', does: 'Close or finish, one corner back, one step back' },
  { keys: 'Delete', does: 'Remove what is picked' },
  { keys: '?', does: 'This list' },
];

const TOOL_KEYS: Readonly<Record<string, ToolName>> = {
  v: 'select',
  h: 'pan',
  s: 'setScale',
  k: 'checkLength',
  m: 'measure',
  c: 'traceRegion',
  t: 'traceRoof',
  o: 'addOpening',
  f: 'placeFitting',
  l: 'drawLine',
  d: 'drawFall',
  u: 'alongFlute',
};

/** Returns how to stop listening. */
export function listenForShortcuts(session: StartedSession): () => void {
  const onKey = (event: KeyboardEvent): void => {
    if (event.defaultPrevented || session.question.get() !== null) return;
    if (actOnKey(event, session)) event.preventDefault();
  };
  window.addEventListener('keydown', onKey);
  const stopMenu = session.bridge.onMenu((command) => actOnMenu(command, session));
  const stopFile = session.bridge.onFile((file) => void session.files.take(file));
  return () => {
    window.removeEventListener('keydown', onKey);
    stopMenu();
    stopFile();
  };
}

function actOnKey(event: KeyboardEvent, session: StartedSession): boolean {
  const { panels, files } = session;
  const key = event.key.toLowerCase();
  if (event.altKey && !event.ctrlKey) {
    const stage = STAGES[Number(event.code.replace('Digit', '')) - 1];
    if (!stage || !event.code.startsWith('Digit')) return false;
    panels.actions.setStage(stage);
    return true;
  }
  const typing = isTyping(event.target);
  if (event.ctrlKey || event.metaKey) {
    if ((key === 'z' || key === 'y') && typing) return false;
    return actOnCtrl(key, event.shiftKey, files, panels.actions);
  }
  if (typing) return false;
  if (event.key === '?') {
    session.question.set({ kind: 'keys' });
    return true;
  }
  if (event.key === 'Escape') {
    session.host.send({ type: 'cancel' });
    return true;
  }
  const offered = showTool(session.host.state.get(), session.host.shownView()).options?.find(
    ({ option }) => TOOL_OPTIONS[option].key === key,
  );
  if (offered && !event.shiftKey) {
    session.host.send({ type: 'option', option: offered.option });
    return true;
  }
  const tool = TOOL_KEYS[key];
  if (!tool || event.shiftKey) return false;
  panels.actions.chooseTool(tool);
  return true;
}

function actOnCtrl(
  key: string,
  shift: boolean,
  files: StartedSession['files'],
  actions: StartedSession['panels']['actions'],
): boolean {
  if (key === 'z') (shift ? actions.redo : actions.undo)();
  else if (key === 'y') actions.redo();
  else if (key === 's') void (shift ? files.saveAs() : files.save());
  else if (key === 'o') void files.open();
  else if (key === 'n') void files.newJob();
  else if (key === 'i') void files.importPlan();
  else return false;
  return true;
}

function actOnMenu(command: MenuCommand, session: StartedSession): void {
  const { files, panels } = session;
  const acts: Readonly<Record<MenuCommand, () => unknown>> = {
    new: files.newJob,
    open: files.open,
    importPdf: files.importPlan,
    save: files.save,
    saveAs: files.saveAs,
    export: () => files.exportPack('bid.pdf'),
    undo: panels.actions.undo,
    redo: panels.actions.redo,
    zoomIn: () => session.zoom(1.25),
    zoomOut: () => session.zoom(0.8),
    zoomFit: session.fit,
  };
  void acts[command]();
}

/** A field that undoes its own typing. */
function isTyping(target: EventTarget | null): boolean {
  return (
    target instanceof HTMLInputElement ||
    target instanceof HTMLSelectElement ||
    target instanceof HTMLTextAreaElement
  );
}
