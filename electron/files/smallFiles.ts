// Small JSON files of the data folder: settings, the recent list, the window's place. One that is missing or
// torn reads as null, because none of them is worth refusing to start for.
import { writeFileSync } from 'node:fs';
import { mkdir, readFile } from 'node:fs/promises';
import { dirname } from 'node:path';
import { attempt, codeOf } from './failures';
import { saveAtomically } from './saveAtomically';
import type { Outcome } from '../../shared/errors/failure';

export async function readSmallFile(path: string): Promise<unknown> {
  try {
    return JSON.parse(await readFile(path, 'utf8')) as unknown;
  } catch {
    return null;
  }
}

export async function writeSmallFile(path: string, value: unknown): Promise<Outcome<null>> {
  const made = await attempt(dirname(path), 'write', () => mkdir(dirname(path), { recursive: true }));
  if (!made.ok) return made;
  const text = new TextEncoder().encode(`${JSON.stringify(value, null, 2)}\n`);
  const saved = await saveAtomically(path, text, { versions: 'none' });
  return saved.ok ? { ok: true, value: null } : saved;
}

/** For the last moment of a program, when nothing is waited for any more. */
export function writeSmallFileNow(path: string, value: unknown): void {
  try {
    writeFileSync(path, `${JSON.stringify(value, null, 2)}\n`);
  } catch (error) {
    if (codeOf(error) === '') throw error;
  }
}
