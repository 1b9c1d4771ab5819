// The window: sandboxed, isolated, without Node, at the place where it was left.
import { BrowserWindow, dialog, screen, type Rectangle } from 'electron';
import { readSmallFile, writeSmallFileNow } from '../files/smallFiles';
import { ORIGIN } from './address';
import type { CloseGuard } from './closeGuard';

interface WindowSpec {
  readonly preload: string;
  readonly boundsFile: string;
  readonly guard: CloseGuard;
  readonly forgetJournal: () => Promise<unknown>;
}

export async function openWindow({ preload, boundsFile, guard, forgetJournal }: WindowSpec): Promise<void> {
  const window = new BrowserWindow({
    ...placeOnScreen(await readSmallFile(boundsFile)),
    minWidth: 900,
    minHeight: 600,
    show: false,
    title: 'Lapstrake',
    backgroundColor: '#fffefb',
    webPreferences: {
      preload,
      sandbox: true,
      contextIsolation: true,
      nodeIntegration: false,
      webviewTag: false,
      spellcheck: false,
    },
  });
  window.once('ready-to-show', () => window.show());
  window.on('page-title-updated', (event) => event.preventDefault());
  window.on('close', () => writeSmallFileNow(boundsFile, window.getNormalBounds()));
  // The guard has asked already; a page must not be able to hold the window open.
  window.webContents.on('will-prevent-unload', (event) => event.preventDefault());
  window.webContents.on('render-process-gone', (_event, { reason }) => {
    if (reason !== 'clean-exit') void offerReload(window);
  });
  guard.watch(window, forgetJournal);
  await window.loadURL(`${ORIGIN}/`);
}

async function offerReload(window: BrowserWindow): Promise<void> {
  const { response } = await dialog.showMessageBox(window, {
    type: 'error',
    message: 'The window stopped working.',
    detail: 'What you did is in the autosave journal. Load the window again to go on from there.',
    buttons: ['Load again', 'Quit'],
  });
  if (response === 0) window.webContents.reload();
  else window.destroy();
}

const FIRST_SIZE = { width: 1440, height: 900 };

/** The remembered place where at least its title bar is still on a screen; else the middle of the first one. */
function placeOnScreen(remembered: unknown): Partial<Rectangle> & { width: number; height: number } {
  const place = rectangleIn(remembered);
  if (!place) return FIRST_SIZE;
  const seen = screen
    .getAllDisplays()
    .some(
      ({ workArea: area }) =>
        place.x + place.width > area.x + 80 &&
        place.x < area.x + area.width - 80 &&
        place.y >= area.y - 10 &&
        place.y < area.y + area.height - 40,
    );
  return seen ? place : { width: place.width, height: place.height };
}

function rectangleIn(value: unknown): Rectangle | null {
  if (typeof value !== 'object' || value === null) return null;
  const { x, y, width, height } = value as Partial<Record<keyof Rectangle, unknown>>;
  const numbers = [x, y, width, height];
  if (!numbers.every((n): n is number => Number.isInteger(n))) return null;
  const rectangle = { x: Number(x), y: Number(y), width: Number(width), height: Number(height) };
  return rectangle.width >= 400 && rectangle.height >= 300 ? rectangle : null;
}
