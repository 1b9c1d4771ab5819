// Places on disk that the page may name: it gets an opaque word for each, and only words given out here open
// anything, so that a page gone astray cannot reach other files. The recent list survives the session.
import { createHash } from 'node:crypto';
import { access } from 'node:fs/promises';
import { basename, join, resolve } from 'node:path';
import { readSmallFile, writeSmallFile } from './smallFiles';

const MOST_RECENT = 12;

export interface Place {
  readonly name: string;
  readonly target: string;
}

export interface Places {
  /** The word for a path, which from now on may be used. */
  wordFor(path: string): string;
  pathOf(target: string): string | null;
  recent(): Promise<readonly Place[]>;
  remember(path: string): Promise<void>;
}

export async function openPlaces(dataFolder: string): Promise<Places> {
  const file = join(dataFolder, 'recent.json');
  const known = new Map<string, string>();
  let paths = pathsIn(await readSmallFile(file));
  const wordFor = (path: string): string => {
    const whole = resolve(path);
    const word = createHash('sha256').update(whole).digest('hex').slice(0, 32);
    known.set(word, whole);
    return word;
  };
  return {
    wordFor,
    pathOf: (target) => known.get(target) ?? null,
    recent: async () => {
      const there = await Promise.all(paths.map(exists));
      return paths
        .filter((_path, k) => there[k])
        .map((path) => ({ name: basename(path), target: wordFor(path) }));
    },
    remember: async (path) => {
      const whole = resolve(path);
      paths = [whole, ...paths.filter((other) => other !== whole)].slice(0, MOST_RECENT);
      // A recent list that cannot be written costs a convenience, not the save that led here.
      await writeSmallFile(file, paths);
    },
  };
}

const pathsIn = (value: unknown): string[] =>
  Array.isArray(value)
    ? value.filter((item): item is string => typeof item === 'string').slice(0, MOST_RECENT)
    : [];

const exists = (path: string): Promise<boolean> =>
  access(path).then(
    () => true,
    () => false,
  );
