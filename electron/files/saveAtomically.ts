// Saves a file so that at every moment either the old or the new one is whole: written beside, synced, renamed.
// The last three versions of a job stay in the folder `.lapstrake-versions` next to it, as `name.lapjob.~1~`
// (the newest) to `~3~`.
import { copyFile, link, mkdir, open, realpath, rename, rm } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import type { Outcome } from '../../shared/errors/failure';
import { attempt, codeOf } from './failures';

export const VERSIONS_FOLDER = '.lapstrake-versions';
const KEPT = 3;

export async function saveAtomically(
  path: string,
  bytes: Uint8Array,
  { versions }: { readonly versions: 'keep' | 'none' },
): Promise<Outcome<string>> {
  return attempt(basename(path), 'write', async () => {
    const place = await followLinks(path);
    const beside = join(dirname(place), `.${basename(place)}.saving-${process.pid}`);
    try {
      await writeAndSync(beside, bytes);
      if (versions === 'keep') await keepVersion(place);
      await rename(beside, place);
    } catch (error) {
      await rm(beside, { force: true });
      throw error;
    }
    await syncFolder(dirname(place));
    return path;
  });
}

/** Several files into one folder: all are written beside first, so that a failure leaves none of them. */
export async function saveAllAtomically(
  folder: string,
  files: readonly { readonly name: string; readonly bytes: Uint8Array }[],
): Promise<Outcome<readonly string[]>> {
  return attempt(folder, 'write', async () => {
    await mkdir(folder, { recursive: true });
    const besides = files.map(({ name }) => join(folder, `.${name}.saving-${process.pid}`));
    try {
      for (const [k, file] of files.entries()) await writeAndSync(besides[k] ?? '', file.bytes);
      for (const [k, file] of files.entries()) await rename(besides[k] ?? '', join(folder, file.name));
    } catch (error) {
      for (const beside of besides) await rm(beside, { force: true });
      throw error;
    }
    await syncFolder(folder);
    return files.map(({ name }) => join(folder, name));
  });
}

async function followLinks(path: string): Promise<string> {
  try {
    return await realpath(path);
  } catch (error) {
    if (codeOf(error) === 'ENOENT') return path;
    throw error;
  }
}

async function writeAndSync(path: string, bytes: Uint8Array): Promise<void> {
  const file = await open(path, 'w');
  try {
    await file.writeFile(bytes);
    await file.sync();
  } finally {
    await file.close();
  }
}

async function keepVersion(path: string): Promise<void> {
  const folder = join(dirname(path), VERSIONS_FOLDER);
  const version = (n: number): string => join(folder, `${basename(path)}.~${n}~`);
  try {
    await mkdir(folder, { recursive: true });
    for (let n = KEPT - 1; n >= 1; n--) {
      await rename(version(n), version(n + 1)).catch(ignoreMissing);
    }
    // A link keeps the old bytes without copying them: the save that follows replaces only the name.
    await link(path, version(1)).catch(async (error: unknown) => {
      if (codeOf(error) === 'ENOENT') return;
      await copyFile(path, version(1));
    });
  } catch (error) {
    // Where no version can be kept the save itself still matters more.
    if (codeOf(error) === '') throw error;
  }
}

function ignoreMissing(error: unknown): void {
  if (codeOf(error) !== 'ENOENT') throw error;
}

async function syncFolder(folder: string): Promise<void> {
  try {
    const handle = await open(folder, 'r');
    await handle.sync().finally(() => handle.close());
  } catch (error) {
    // Windows opens no folders; there the rename itself is durable enough.
    if (codeOf(error) === '') throw error;
  }
}
