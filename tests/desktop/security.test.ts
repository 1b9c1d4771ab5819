import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { startDesktop, type DesktopProgram } from './program';
import { canShowDesktop } from './surroundings';

/** Everything the page may call; another name here is a wider door. */
const EXPOSED = [
  'kind',
  'about',
  'startFile',
  'openFile',
  'openRecent',
  'recentFiles',
  'saveJob',
  'exportFile',
  'readJournal',
  'appendJournal',
  'clearJournal',
  'readSettings',
  'writeSettings',
  'setDocumentState',
  'onMenu',
  'onFile',
];

describe.skipIf(!canShowDesktop)('the desktop window', () => {
  let program: DesktopProgram;

  beforeAll(async () => {
    program = await startDesktop();
  });

  afterAll(() => program.close());

  test('has no Node in the page, and exposes these names only', async () => {
    const seen = await program.page.evaluate(() => {
      const exposed = (globalThis as unknown as { lapstrake: object }).lapstrake;
      return {
        names: Object.keys(exposed),
        node: ['process', 'require', 'module', 'Buffer', 'global'].filter((name) => name in globalThis),
      };
    });
    expect(seen).toEqual({ names: EXPOSED, node: [] });
  });

  test('is sandboxed, isolated, and without Node integration', async () => {
    const preferences = await program.app.evaluate(({ BrowserWindow }) => {
      const contents = BrowserWindow.getAllWindows()[0]?.webContents as unknown as {
        getLastWebPreferences(): Record<string, unknown>;
      };
      const { sandbox, contextIsolation, nodeIntegration, webviewTag } = contents.getLastWebPreferences();
      return { sandbox, contextIsolation, nodeIntegration, webviewTag };
    });
    expect(preferences).toEqual({
      sandbox: true,
      contextIsolation: true,
      nodeIntegration: false,
      webviewTag: false,
    });
  });

  test('comes from its own address under a strict content policy', async () => {
    expect(program.page.url()).toBe('app://lapstrake/');
    const policy = await program.page.evaluate(
      async () => (await fetch('/')).headers.get('content-security-policy') ?? '',
    );
    expect(policy).toContain("default-src 'none'");
    expect(policy).toContain("script-src 'self';");
    expect(policy).not.toMatch(/unsafe-eval|unsafe-inline|\*/);
    // WebAssembly is for the two threads that need it.
    const scripts = await program.page.evaluate(() =>
      Promise.all(
        ['app', 'reader', 'estimator', 'searcher', 'laidPainter'].map(async (name) => {
          const policy = (await fetch(`/${name}.js`)).headers.get('content-security-policy') ?? '';
          return policy.includes("'wasm-unsafe-eval'") ? name : '';
        }),
      ),
    );
    expect(scripts.filter((name) => name !== '')).toEqual(['reader', 'estimator']);
  });

  test('refuses eval and inline scripts', async () => {
    // Later and from the page itself: what a debugger evaluates is let through.
    const ran = await program.page.evaluate(
      () =>
        new Promise((resolve) => {
          setTimeout(() => {
            const script = document.createElement('script');
            script.textContent = 'globalThis.__inline = true';
            document.head.append(script);
            script.remove();
            try {
              resolve([String(new Function('return "ran"')()), '__inline' in globalThis]);
            } catch {
              resolve(['refused', '__inline' in globalThis]);
            }
          }, 20);
        }),
    );
    expect(ran).toEqual(['refused', false]);
  });

  test('goes nowhere else and opens no windows', async () => {
    await program.page.evaluate(() => {
      window.open('https://example.org/');
      location.href = 'https://example.org/';
    });
    await program.page.evaluate(() => new Promise((resolve) => setTimeout(resolve, 300)));
    expect(program.page.url()).toBe('app://lapstrake/');
    expect(program.app.windows()).toHaveLength(1);
  });

  test('reaches no network and no file', async () => {
    const answers = await program.page.evaluate(() =>
      Promise.all(
        ['https://example.org/', 'http://127.0.0.1:1/', 'file:///etc/hostname', 'app://elsewhere/'].map(
          (address) =>
            fetch(address).then(
              (response) => response.status,
              () => 'refused',
            ),
        ),
      ),
    );
    expect(answers).toEqual(['refused', 'refused', 'refused', 'refused']);
  });

  test('serves nothing outside the window folder', async () => {
    const statuses = await program.page.evaluate(() =>
      Promise.all(
        ['/..%2felectron%2fmain.cjs', '/%2e%2e/%2e%2e/package.json', '/..\\..\\package.json', '/app.js'].map(
          async (path) => (await fetch(path)).status,
        ),
      ),
    );
    expect(statuses).toEqual([404, 404, 404, 200]);
  });

  test('is granted no permissions', async () => {
    const state = await program.page.evaluate(async () => {
      const camera = await navigator.permissions.query({ name: 'camera' as PermissionName });
      const notification = await Notification.requestPermission();
      return [camera.state, notification];
    });
    expect(state).not.toContain('granted');
  });

  test('refuses calls that are not in their form, in words', async () => {
    const words = await program.page.evaluate(async () => {
      const { lapstrake } = globalThis as unknown as {
        lapstrake: Record<string, (request: unknown) => Promise<unknown>>;
      };
      const say = (promise: Promise<unknown> | undefined): Promise<string> =>
        (promise ?? Promise.resolve()).then(
          () => 'taken',
          (error: Error) => error.message,
        );
      return [
        await say(lapstrake.openRecent?.('/etc/passwd')),
        await say(lapstrake.saveJob?.({ name: '../x.lapjob', bytes: new Uint8Array(1), target: null })),
        await say(lapstrake.openRecent?.('0123456789abcdef0123456789abcdef')),
      ];
    });
    expect(words[0]).toMatch(/^openRecent: the call was not understood/);
    expect(words[1]).toMatch(/^saveJob: the call was not understood/);
    expect(words[2]).toMatch(/not known any more\. Open the file by hand\.$/);
  });
});
