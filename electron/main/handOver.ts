// A file from outside goes to the window that is open already.
import { dialog, type BrowserWindow } from 'electron';
import { filePush } from '../../shared/channels/pushed';
import { sentenceOf } from '../../shared/errors/failure';
import type { Places } from '../files/places';
import { readOpened } from '../handlers/readOpened';

export async function handOver(window: BrowserWindow, file: string | null, places: Places): Promise<void> {
  if (window.isMinimized()) window.restore();
  window.focus();
  if (file === null) return;
  const opened = await readOpened(file, places);
  if (opened.ok) window.webContents.send(filePush.name, opened.value);
  else await dialog.showMessageBox(window, { type: 'warning', message: sentenceOf(opened.failure) });
}
