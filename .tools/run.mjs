// Bundles one TypeScript file and runs it in this Node: `node .tools/run.mjs FILE [arguments]`.
import { build } from 'esbuild';
import { mkdir } from 'node:fs/promises';
import { basename, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';

const [file, ...rest] = process.argv.slice(2);
if (!file) {
  console.error('usage: node .tools/run.mjs FILE [arguments]');
  process.exit(2);
}
const outDir = resolve('dist/scripts');
await mkdir(outDir, { recursive: true });
const outfile = resolve(outDir, basename(file).replace(/\.tsx?$/, '.mjs'));
await build({
  entryPoints: [file],
  outfile,
  bundle: true,
  platform: 'node',
  format: 'esm',
  target: 'node20',
  packages: 'external',
  sourcemap: 'inline',
  logLevel: 'warning',
});
process.argv = [process.argv[0], file, ...rest];
await import(pathToFileURL(outfile).href);
