// Builds everything the two README commands need into dist/: the window, its worker, main and preload, the
// loopback host, and the command line. `npm ci` runs it through `prepare`.
import { build } from 'esbuild';
import { cp, mkdir, rename, rm, writeFile, readFile } from 'node:fs/promises';
import { existsSync, rmSync } from 'node:fs';

// The schema library carries its messages in fifty languages; the program speaks one.
const oneLanguage = {
  name: 'one-language',
  setup: ({ onLoad }) =>
    onLoad({ filter: /zod[\\/]v4[\\/]locales[\\/]index\.js$/ }, () => ({
      contents: "export { default as en } from './en.js';",
    })),
};

// The library's two halves share one thread (shared/readers/pdfThread.ts), so nothing is transferred; listing what
// would be makes a buffer of its own for each of hundreds of thousands of paths.
const nothingTransferred = {
  name: 'nothing-transferred',
  setup: ({ onLoad }) =>
    onLoad({ filter: /pdfjs-dist[\\/]legacy[\\/]build[\\/]pdf\.worker\.mjs$/ }, async ({ path }) => {
      const source = await readFile(path, 'utf8');
      const changed = source.replace('get _transfers() {', 'get _transfers() { return [];');
      if (changed === source) throw new Error('pdf.worker.mjs has no _transfers: look at what replaced it');
      return { contents: changed };
    }),
};

const watchful = {
  logLevel: 'warning',
  sourcemap: true,
  bundle: true,
  plugins: [oneLanguage, nothingTransferred],
};
const version = JSON.parse(await readFile('package.json', 'utf8')).version;
const define = { __VERSION__: JSON.stringify(version) };

// Built beside and swapped in whole, so that what is running, or a build that fails, never sees half a program.
const out = `dist-building-${process.pid}`;
await mkdir(`${out}/renderer`, { recursive: true });
process.once('exit', () => rmSync(out, { recursive: true, force: true }));

const node = { ...watchful, platform: 'node', target: 'node20', define };
const web = {
  ...watchful,
  platform: 'browser',
  target: ['chrome114', 'es2022'],
  format: 'esm',
  define: { ...define, 'process.env.NODE_ENV': '"production"' },
  minify: true,
  loader: { '.woff2': 'file', '.woff': 'empty' },
  assetNames: 'fonts/[name]',
};
// A CommonJS library inside an ESM bundle may ask for `require`; Node's ESM has none of its own.
const requireBanner = {
  js: "import { createRequire as __createRequire } from 'node:module'; const require = __createRequire(import.meta.url);",
};

await Promise.all([
  // Main and preload are CommonJS, so that older and newer runtimes start them.
  build({
    ...node,
    entryPoints: { main: 'electron/main/main.ts', preload: 'electron/preload/preload.ts' },
    outdir: `${out}/electron`,
    format: 'cjs',
    outExtension: { '.js': '.cjs' },
    // Electron 25, the oldest runtime it starts on, carries Node 18.
    target: 'node18',
    external: ['electron'],
  }),
  build({
    ...node,
    entryPoints: { start: 'electron/start/start.ts' },
    outdir: `${out}/electron`,
    format: 'esm',
    outExtension: { '.js': '.mjs' },
    banner: requireBanner,
    external: ['electron'],
  }),
  build({
    ...node,
    entryPoints: { lapstrake: 'electron/cli/lapstrake.ts', pdfChild: 'electron/cli/pdfChild.ts' },
    outdir: `${out}/cli`,
    format: 'esm',
    splitting: true,
    // Less to read is a faster start; --debug turns the source maps on.
    minify: true,
    outExtension: { '.js': '.mjs' },
    banner: { js: '#!/usr/bin/env node\n' + requireBanner.js },
    external: ['pdfjs-dist', '@napi-rs/canvas', 'highs'],
  }),
  build({ ...web, entryPoints: { app: 'renderer/app/main.tsx' }, outdir: `${out}/renderer` }),
  build({
    ...web,
    entryPoints: {
      searcher: 'renderer/worker/searcher.ts',
      reader: 'renderer/reader/reader.ts',
      laidPainter: 'renderer/canvas/laidPainter.ts',
    },
    outdir: `${out}/renderer`,
  }),
  // The exact solver is a file of its own, read where a job needs it.
  build({
    ...web,
    entryPoints: { estimator: 'renderer/worker/estimator.ts' },
    outdir: `${out}/renderer`,
    splitting: true,
    chunkNames: 'solver/[name]-[hash]',
    external: ['node:module'],
  }),
]);

await cp('node_modules/highs/build/highs.wasm', `${out}/renderer/solver/highs.wasm`);
await cp('renderer/app/index.html', `${out}/renderer/index.html`);
for (const folder of ['cmaps', 'standard_fonts', 'wasm', 'iccs']) {
  if (existsSync(`node_modules/pdfjs-dist/${folder}`))
    await cp(`node_modules/pdfjs-dist/${folder}`, `${out}/renderer/pdf/${folder}`, { recursive: true });
}
await writeFile(`${out}/version.txt`, version + '\n');

const old = `${out}-old`;
if (existsSync('dist')) await rename('dist', old);
await rename(out, 'dist');
await rm(old, { recursive: true, force: true });
