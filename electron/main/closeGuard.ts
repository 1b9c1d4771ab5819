// Stands between a person and the loss of unsaved work: Save, Don't save, Cancel.
import { dialog, type BrowserWindow } from 'electron';
import { menuPush } from '../../shared/channels/pushed';

export interface CloseGuard {
  isUnsaved(): boolean;
  setState(state: { readonly name: string; readonly unsaved: boolean }): void;
  saveStarted(): void;
  saveEnded(how: 'saved' | 'not saved'): void;
  watch(window: BrowserWindow, forgetJournal: () => Promise<unknown>): void;
}

/** A page that does not begin to save within this time will not. */
const SAVE_BEGINS_WITHIN_MS = 10_000;

const SAVE = 0;
const DISCARD = 1;

export function makeCloseGuard(): CloseGuard {
  let state = { name: '', unsaved: false };
  let watched: BrowserWindow | null = null;
  let asking = false;
  /** Whether the window closes as soon as the page reports that all is saved. */
  let closeWhenSaved = false;
  let giveUp: ReturnType<typeof setTimeout> | undefined;

  const stay = (): void => {
    closeWhenSaved = false;
    clearTimeout(giveUp);
  };

  const ask = async (window: BrowserWindow, forgetJournal: () => Promise<unknown>): Promise<void> => {
    asking = true;
    const { response } = await dialog.showMessageBox(window, {
      type: 'warning',
      message: `Save the changes to ${state.name || 'this job'}?`,
      detail: 'Without saving, what was changed since the last save is lost.',
      buttons: ['Save', "Don't save", 'Cancel'],
      defaultId: SAVE,
      cancelId: 2,
      noLink: true,
    });
    asking = false;
    if (response === SAVE) {
      closeWhenSaved = true;
      giveUp = setTimeout(stay, SAVE_BEGINS_WITHIN_MS);
      window.webContents.send(menuPush.name, 'save');
    } else if (response === DISCARD) {
      await forgetJournal();
      window.destroy();
    }
  };

  return {
    isUnsaved: () => state.unsaved,
    setState: (next) => {
      state = next;
      watched?.setTitle(`${next.unsaved ? '• ' : ''}${next.name || 'Untitled'} – Lapstrake`);
      watched?.setDocumentEdited(next.unsaved);
      if (closeWhenSaved && !next.unsaved) watched?.close();
    },
    saveStarted: () => clearTimeout(giveUp),
    saveEnded: (how) => {
      if (how === 'not saved') stay();
    },
    watch: (window, forgetJournal) => {
      watched = window;
      window.on('closed', () => {
        watched = null;
        stay();
      });
      window.on('close', (event) => {
        if (!state.unsaved) return;
        event.preventDefault();
        if (!asking) void ask(window, forgetJournal);
      });
    },
  };
}
