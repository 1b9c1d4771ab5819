// Before the desktop tests: finds a browser and an Electron runtime, makes a display, and hands them to the tests
// with words for what is missing.
import { existsSync } from 'node:fs';
import { findBrowser, findRuntime, startDisplay } from './surroundings.mjs';

export default async function setup({ provide }) {
  if (!existsSync('dist/electron/main.cjs')) throw new Error('the program is not built: run npm run build');
  const browser = await findBrowser(process.env);
  const runtime = findRuntime(process.env);
  const display = await startDisplay(process.env);
  const missing = [
    ...(runtime ? [] : ["Electron's binary (npm start fetches it)"]),
    ...(display ? [] : ['a display (or Xvfb)']),
    ...(browser ? [] : ['Chromium (or its path in CHROMIUM_PATH)']),
  ];
  provide('surroundings', { browser, runtime, display: display?.name ?? null });
  if (missing.length > 0) {
    console.log(
      `Not to be had here: ${missing.join(', ')}. The desktop tests that need it are skipped; the command line, the host and everything else are tested all the same.`,
    );
  }
  return () => display?.stop();
}
