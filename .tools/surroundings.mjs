// What the desktop tests need from the machine: a Chromium, an Electron runtime, a display.
import { spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { delimiter, join } from 'node:path';

/** CHROMIUM_PATH, the usual names on the path, or the browser that Playwright fetched for itself. */
export async function findBrowser(env) {
  const names = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable', 'chrome'];
  const onPath = (env.PATH ?? '')
    .split(delimiter)
    .flatMap((folder) =>
      names.map((name) => join(folder, name + (process.platform === 'win32' ? '.exe' : ''))),
    );
  const usual = [
    '/usr/bin/chromium',
    '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
    join(env.PROGRAMFILES ?? 'C:\\Program Files', 'Google\\Chrome\\Application\\chrome.exe'),
  ];
  const found = [env.CHROMIUM_PATH ?? '', ...onPath, ...usual].find(
    (path) => path !== '' && existsSync(path),
  );
  if (found) return found;
  const { chromium } = await import('playwright');
  return existsSync(chromium.executablePath()) ? chromium.executablePath() : null;
}

/** The runtime's binary where it is on this machine already; tests download nothing. */
export function findRuntime(env) {
  const name =
    process.platform === 'darwin'
      ? 'Electron.app/Contents/MacOS/Electron'
      : process.platform === 'win32'
        ? 'electron.exe'
        : 'electron';
  const module = join('node_modules', 'electron');
  const folder = env.ELECTRON_OVERRIDE_DIST_PATH ?? join(module, 'dist');
  const whole = env.ELECTRON_OVERRIDE_DIST_PATH || existsSync(join(module, 'path.txt'));
  return whole && existsSync(join(folder, name)) ? join(folder, name) : null;
}

/** The display there is, one made by Xvfb where that is installed, or null. */
export async function startDisplay(env) {
  const there = { name: env.DISPLAY ?? env.WAYLAND_DISPLAY ?? '', stop: () => undefined };
  if (process.platform !== 'linux' || there.name !== '') return there;
  return new Promise((settle) => {
    // -displayfd: Xvfb chooses a free number and writes it once it is ready.
    const server = spawn('Xvfb', ['-displayfd', '3', '-screen', '0', '1600x1000x24', '-nolisten', 'tcp'], {
      stdio: ['ignore', 'ignore', 'ignore', 'pipe'],
    });
    server.once('error', () => settle(null));
    server.once('exit', () => settle(null));
    server.stdio[3].once('data', (number) => {
      settle({ name: `:${String(number).trim()}`, stop: () => server.kill() });
    });
  });
}
