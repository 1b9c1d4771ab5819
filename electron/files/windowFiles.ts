// The built window's files, for the custom protocol on the desktop and for the loopback host: the same bytes
// under the same content policy.
import { readFile } from 'node:fs/promises';
import { extname, join, normalize, sep } from 'node:path';

export interface WindowFile {
  readonly bytes: Uint8Array;
  readonly headers: Readonly<Record<string, string>>;
}

/** A file of the window by the path of its address, or null where there is none. */
export async function readWindowFile(folder: string, path: string): Promise<WindowFile | null> {
  const inside = insideOf(folder, path === '/' ? '/index.html' : path);
  const type = inside && TYPES[extname(inside).toLowerCase()];
  if (!inside || !type) return null;
  try {
    const bytes = new Uint8Array(await readFile(inside));
    return { bytes, headers: { 'Content-Type': type, ...guardsFor(path) } };
  } catch {
    return null;
  }
}

/** Scripts of threads that need WebAssembly: one decodes images by it, the other cuts exactly where joints are
 * forbidden. The page itself never may. */
const WITH_WASM: readonly string[] = ['/reader.js', '/estimator.js'];

/** Headers for anything that comes from here. */
export function guardsFor(path: string): Readonly<Record<string, string>> {
  const wasm = WITH_WASM.includes(path) ? " 'wasm-unsafe-eval'" : '';
  return {
    'Content-Security-Policy': [
      "default-src 'none'",
      `script-src 'self'${wasm}`,
      "style-src 'self'",
      "font-src 'self'",
      "img-src 'self' blob: data:",
      "connect-src 'self'",
      "worker-src 'self' blob:",
      "base-uri 'none'",
      "form-action 'none'",
      "frame-ancestors 'none'",
    ].join('; '),
    'X-Content-Type-Options': 'nosniff',
    'Referrer-Policy': 'no-referrer',
    'Cross-Origin-Opener-Policy': 'same-origin',
    'Cross-Origin-Resource-Policy': 'same-origin',
    'Cache-Control': 'no-store',
  };
}

function insideOf(folder: string, path: string): string | null {
  let plain: string;
  try {
    plain = decodeURIComponent(path);
  } catch {
    return null;
  }
  const whole = normalize(join(folder, plain));
  return !plain.includes('\0') && whole.startsWith(folder + sep) ? whole : null;
}

const TYPES: Record<string, string> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.mjs': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json',
  '.map': 'application/json',
  '.wasm': 'application/wasm',
  '.woff2': 'font/woff2',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.bcmap': 'application/octet-stream',
  '.pfb': 'application/octet-stream',
  '.ttf': 'font/ttf',
  '.icc': 'application/octet-stream',
};
