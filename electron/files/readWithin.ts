// Reads a file that is a file, and not larger than the caller can stand.
import { open } from 'node:fs/promises';
import { basename } from 'node:path';
import { failed, type Outcome } from '../../shared/errors/failure';
import { attempt } from './failures';

/** A job with its drawings, or a plan, is refused above this: 256 MiB. */
export const MOST_FILE_BYTES = 256 * 1024 * 1024;

export async function readWithin(
  path: string,
  most: number = MOST_FILE_BYTES,
  where: string = basename(path),
): Promise<Outcome<Uint8Array>> {
  const read = await attempt(where, 'read', async () => {
    const file = await open(path, 'r');
    try {
      const facts = await file.stat();
      if (!facts.isFile()) return facts.isDirectory() ? ('folder' as const) : ('other' as const);
      if (facts.size > most) return 'large' as const;
      const bytes = await file.readFile();
      // A file that grew meanwhile is held to the same limit.
      return bytes.byteLength > most ? ('large' as const) : new Uint8Array(bytes);
    } finally {
      await file.close();
    }
  });
  if (!read.ok) return read;
  if (read.value === 'folder') return failed('not-a-file', where, 'this is a folder', 'Name a file in it');
  if (read.value === 'other') return failed('not-a-file', where, 'this is not a file', 'Name a file');
  if (read.value === 'large') {
    const limit = Math.round(most / 1024 / 1024);
    return failed('too-large', where, `it is larger than ${limit} MiB`, 'Split it or reduce its drawings');
  }
  return { ok: true, value: read.value };
}
