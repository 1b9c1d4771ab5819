// Which file a start opens: the one a person named, else the job worked on last, else the demo.
import { readdir, stat } from 'node:fs/promises';
import { basename, join } from 'node:path';

export function isPlanName(name: string): boolean {
  return /\.pdf$/i.test(name);
}

export function isJobName(name: string): boolean {
  return /\.lapjob$/i.test(name);
}

/** The first of a command line's words that is a file for us. */
export function fileAmong(words: readonly string[]): string | null {
  return words.find((word) => !word.startsWith('-') && (isPlanName(word) || isJobName(word))) ?? null;
}

/** The largest demo job: the one with the most work in it. */
export async function demoJob(projectRoot: string): Promise<string | null> {
  const folder = join(projectRoot, 'demo-data');
  const names = await readdir(folder).catch(() => []);
  const jobs = await Promise.all(
    names
      .filter(isJobName)
      .sort()
      .map(async (name) => ({ path: join(folder, name), size: (await stat(join(folder, name))).size })),
  );
  const [largest] = jobs.sort((a, b) => b.size - a.size || (basename(a.path) < basename(b.path) ? -1 : 1));
  return largest?.path ?? null;
}
