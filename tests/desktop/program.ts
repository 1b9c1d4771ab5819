// Starts the built program, on the desktop or in a browser, each with a data folder of its own, and answers the
// file dialogs that differ between the two.
import { spawn, type ChildProcess } from 'node:child_process';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { _electron, chromium, type ElectronApplication, type Page } from 'playwright';
import { surroundings } from './surroundings';

export interface Program {
  readonly kind: 'desktop' | 'browser';
  readonly page: Page;
  readonly dataFolder: string;
  /** What the page complained of. */
  readonly complaints: readonly string[];
  /** Does what asks for a file, and picks this one. */
  pick(path: string, ask: () => Promise<void>): Promise<void>;
  /** Does what writes a file, and lets it be written here. */
  keep(path: string, write: () => Promise<void>): Promise<void>;
  close(): Promise<void>;
}

export interface Start {
  readonly file?: string;
  readonly dataFolder?: string;
  readonly size?: { readonly width: number; readonly height: number };
  /** In a browser only: a tablet's finger in place of a mouse. */
  readonly pointer?: 'touch';
}

export interface DesktopProgram extends Program {
  readonly app: ElectronApplication;
}

export function freshFolder(): Promise<string> {
  return mkdtemp(join(tmpdir(), 'lapstrake-desktop-'));
}

export async function startDesktop(start: Start = {}): Promise<DesktopProgram> {
  const dataFolder = start.dataFolder ?? (await freshFolder());
  const { command, words, env } = desktopCommand(dataFolder, start.file);
  const app = await _electron.launch({ executablePath: command, args: [...words], env });
  const page = await app.firstWindow();
  if (start.size) {
    const { width, height } = start.size;
    await app.evaluate(
      ({ BrowserWindow }, size) => BrowserWindow.getAllWindows()[0]?.setContentSize(size.width, size.height),
      {
        width,
        height,
      },
    );
  }
  return {
    kind: 'desktop',
    app,
    page,
    dataFolder,
    complaints: complaintsOf(page),
    pick: async (path, ask) => {
      await app.evaluate(({ dialog }, chosen) => {
        dialog.showOpenDialog = () => Promise.resolve({ canceled: false, filePaths: [chosen] });
      }, path);
      await ask();
    },
    keep: async (path, write) => {
      await app.evaluate(({ dialog }, chosen) => {
        dialog.showSaveDialog = () => Promise.resolve({ canceled: false, filePath: chosen });
      }, path);
      await write();
    },
    close: async () => {
      await answerGuard(app, "Don't save");
      await app.close();
      if (start.dataFolder === undefined) await rm(dataFolder, { recursive: true, force: true });
    },
  };
}

/** How the desktop program is started by hand. */
export function desktopCommand(dataFolder: string, file?: string) {
  return {
    command: surroundings.runtime ?? '',
    words: ['--no-sandbox', '.', ...(file === undefined ? [] : [file])],
    env: environment(dataFolder),
  };
}

/** Presses this button of the dialog that guards unsaved work. */
export async function answerGuard(
  app: ElectronApplication,
  button: 'Save' | "Don't save" | 'Cancel',
): Promise<void> {
  await app.evaluate(({ dialog }, pressed) => {
    const answer = ((_window: unknown, options: { buttons?: string[] }) =>
      Promise.resolve({
        response: options.buttons?.indexOf(pressed) ?? 0,
        checkboxChecked: false,
      })) as unknown;
    dialog.showMessageBox = answer as typeof dialog.showMessageBox;
  }, button);
}

export async function startBrowser(start: Start = {}): Promise<Program> {
  const dataFolder = start.dataFolder ?? (await freshFolder());
  const host = await startHost(dataFolder, start.file);
  const browser = await chromium.launch({
    executablePath: surroundings.browser ?? '',
    args: ['--no-sandbox'],
  });
  const page = await browser.newPage({
    viewport: start.size ?? { width: 1440, height: 900 },
    hasTouch: start.pointer === 'touch',
    isMobile: start.pointer === 'touch',
    acceptDownloads: true,
  });
  const complaints = complaintsOf(page);
  await page.goto(host.address);
  return {
    kind: 'browser',
    page,
    dataFolder,
    complaints,
    pick: async (path, ask) => {
      const [chooser] = await Promise.all([page.waitForEvent('filechooser'), ask()]);
      await chooser.setFiles(path);
    },
    keep: async (path, write) => {
      const [download] = await Promise.all([page.waitForEvent('download'), write()]);
      await download.saveAs(path);
    },
    close: async () => {
      await browser.close();
      await host.stop();
      if (start.dataFolder === undefined) await rm(dataFolder, { recursive: true, force: true });
    },
  };
}

export interface HostProcess {
  readonly address: string;
  readonly said: string;
  stop(): Promise<void>;
}

/** `npm start -- --browser` without opening one. */
export async function startHost(dataFolder: string, file?: string): Promise<HostProcess> {
  const words = ['dist/electron/start.mjs', '--browser', ...(file === undefined ? [] : [file])];
  const child = spawn(process.execPath, words, { env: { ...environment(dataFolder), LAPSTRAKE_OPEN: 'no' } });
  const said = await saidUntil(child, /http:\S+/);
  return {
    address: /http:\S+/.exec(said)?.[0] ?? '',
    said,
    stop: () =>
      new Promise((resolve) => {
        child.once('exit', () => resolve());
        child.kill('SIGTERM');
      }),
  };
}

/** What a process says until it has said this, or ends. */
export function saidUntil(child: ChildProcess, wanted: RegExp): Promise<string> {
  return new Promise((resolve, reject) => {
    let said = '';
    const hear = (text: Buffer): void => {
      said += text.toString();
      if (wanted.test(said)) resolve(said);
    };
    child.stdout?.on('data', hear);
    child.stderr?.on('data', hear);
    child.once('exit', () => reject(new Error(`it ended and said only: ${said}`)));
  });
}

function environment(dataFolder: string): Record<string, string> {
  const inherited = Object.entries(process.env).filter(
    (entry): entry is [string, string] => entry[1] !== undefined,
  );
  const display = surroundings.display ? { DISPLAY: surroundings.display } : {};
  return { ...Object.fromEntries(inherited), ...display, LAPSTRAKE_DATA: dataFolder };
}

function complaintsOf(page: Page): string[] {
  page.setDefaultTimeout(15_000);
  const complaints: string[] = [];
  page.on('pageerror', (error) => complaints.push(String(error)));
  page.on('console', (message) => {
    if (message.type() === 'error') complaints.push(message.text());
  });
  return complaints;
}
