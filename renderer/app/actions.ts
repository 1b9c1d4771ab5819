// What panels can set off.
import { mmPerPoint } from '../../core/units/scales';
import type { Editor } from '../document/editor';
import { nextId } from '../document/ids';
import type { Results } from '../document/results';
import type { Store } from '../document/store';
import type { ViewState } from '../document/view';
import type { Actions } from '../stages/session';
import type { ToolHost } from '../tools/host';
import type { CameraActions } from './cameraActions';
import type { FileActions } from './files';
import { locate } from './locate';
import type { PageFollower } from './pageReading';

interface ActionPorts {
  readonly editor: Editor;
  readonly view: Store<ViewState>;
  readonly host: ToolHost;
  readonly files: FileActions;
  readonly camera: CameraActions;
  readonly pages: PageFollower;
  readonly results: Store<Results>;
  readonly showPage: (page: string) => void;
  readonly say: (text: string, wrong: boolean) => void;
}

/** ISO 216 A1, landscape, in points. */
const A1 = { width: (841 / 25.4) * 72, height: (594 / 25.4) * 72 };

export function createActions(ports: ActionPorts): Actions {
  const { editor, view, host, files, camera, pages, results, showPage, say } = ports;
  const focusPlan = (): void =>
    document.querySelector<HTMLElement>('canvas[role="application"]')?.focus({ preventScroll: true });
  const turned = (label: string | null, way: string): void => {
    if (label !== null) say(`${way}: ${label.toLowerCase()}.`, false);
  };
  return {
    run(commands, label) {
      const refusal = editor.run(commands, label);
      if (refusal !== null) say(refusal, true);
      return refusal;
    },
    preview(commands, label) {
      if (editor.state.get().gesture !== label) editor.begin(label);
      return editor.preview(commands);
    },
    keep: () => editor.commit(),
    letGo: () => editor.revert(),
    chooseTool(tool) {
      host.choose(tool);
      view.update((v) => ({ ...v, notice: null }));
      focusPlan();
    },
    setOptions: (options) => view.update((v) => ({ ...v, options: { ...v.options, ...options } })),
    setStage: (stage) => view.update((v) => ({ ...v, stage, lit: [], why: null, notice: null })),
    showPage,
    importPlan: () => void files.importPlan(),
    hide: (hiding) => pages.hide(hiding),
    addBlankPage() {
      const id = nextId(editor.state.get().settled, 'p');
      const page = {
        id,
        drawing: null,
        number: 1,
        name: 'Blank sheet',
        ...A1,
        scale: { mmPerPoint: mmPerPoint(100), from: { by: 'ratio', ratio: 100, text: '1:100' } },
        checks: [],
      } as const;
      if (editor.run({ kind: 'addPage', page }) === null) showPage(id);
    },
    exportPack: (name) => void files.exportPack(name),
    pick: (selection) => {
      editor.pick(selection);
      view.update((v) => ({ ...v, lit: [], why: null }));
      const one = selection.at(-1);
      const spot = one && locate(one, editor.state.get().job, results.get());
      if (!spot) return;
      if (view.get().page !== spot.page) showPage(spot.page);
      camera.bringIn(spot.at);
    },
    explain({ key, from }) {
      const open = view.get().why === key;
      view.update((v) => ({ ...v, why: open ? null : key, lit: open ? [] : from }));
    },
    jumpTo(page, at) {
      if (view.get().page !== page) showPage(page);
      camera.jumpTo(at);
    },
    undo: () => turned(editor.undo(), 'Undone'),
    redo: () => turned(editor.redo(), 'Done again'),
    say,
  };
}
