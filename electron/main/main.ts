// The desktop program: one instance, one window, and the handlers behind it.
import { app, BrowserWindow } from 'electron';
import { join, resolve } from 'node:path';
import { dataFolder } from '../files/dataFolder';
import { fileAmong } from '../files/startFiles';
import { openServices } from '../handlers/openServices';
import type { Services } from '../handlers/services';
import { makeCloseGuard } from './closeGuard';
import { systemDialogs } from './dialogs';
import { answerCalls } from './calls';
import { handOver } from './handOver';
import { setMenu } from './menu';
import { allowAppScheme, serveWindow } from './protocol';
import { refuseEverythingElse } from './refusals';
import { openWindow } from './window';

declare const __VERSION__: string;

const projectRoot = app.getAppPath();
app.setPath('userData', dataFolder(process.env));
allowAppScheme();

const named = fileAmong(process.argv.slice(1));
const handover = { file: named === null ? null : resolve(named) };
if (app.requestSingleInstanceLock(handover)) run();
else app.quit();

function run(): void {
  let services: Services | null = null;
  let waiting: string | null = null;
  const open = (file: string | null): void => {
    const [window] = BrowserWindow.getAllWindows();
    if (window && services) void handOver(window, file, services.places);
    else if (file !== null) waiting = file;
  };
  app.on('second-instance', (_event, _argv, _folder, given) => open(fileIn(given)));
  // How macOS hands over a file.
  app.on('open-file', (event, file) => {
    event.preventDefault();
    open(file);
  });
  app.on('window-all-closed', () => app.quit());
  const guard = makeCloseGuard();
  app.on('will-quit', () => services?.journal.release(guard.isUnsaved() ? 'keep' : 'forget'));
  void app.whenReady().then(async () => {
    services = await openServices({
      version: __VERSION__,
      platform: `${process.platform} ${process.arch}`,
      dataFolder: app.getPath('userData'),
      projectRoot,
      named: handover.file ?? waiting,
      dialogs: systemDialogs(),
      documentState: guard.setState,
      mistake: (where, error) => void process.stderr.write(`lapstrake: ${where}: ${String(error)}\n`),
    });
    serveWindow(join(projectRoot, 'dist', 'renderer'));
    refuseEverythingElse();
    answerCalls(services, guard);
    setMenu();
    await openWindow({
      preload: join(projectRoot, 'dist', 'electron', 'preload.cjs'),
      boundsFile: join(app.getPath('userData'), 'window.json'),
      guard,
      forgetJournal: services.journal.clear,
    });
  });
}

function fileIn(given: unknown): string | null {
  if (typeof given !== 'object' || given === null || !('file' in given)) return null;
  return typeof given.file === 'string' ? fileAmong([given.file]) : null;
}
