// Draws the demo data anew: `npm run demo`. The same bytes each time.
import { createHash } from 'node:crypto';
import { mkdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { drawDemoFiles } from './files';

const folder = process.argv[2] ?? 'demo-data';
await mkdir(folder, { recursive: true });
const files = await drawDemoFiles();
const manifest: Record<string, { sha256: string; bytes: number }> = {};
for (const [name, bytes] of files) {
  await writeFile(join(folder, name), bytes);
  manifest[name] = { sha256: createHash('sha256').update(bytes).digest('hex'), bytes: bytes.length };
  console.log(`${name}  ${bytes.length} bytes`);
}
await writeFile(join(folder, 'manifest.json'), `${JSON.stringify(manifest, null, 2)}\n`);
