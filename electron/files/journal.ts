// The autosave journal: lines appended as the work goes on and synced, read back after a crash.
// Each running program has its own, claimed by a file with its process id, so that two hosts on one data folder
// never write into one journal.
import { rmSync } from 'node:fs';
import { mkdir, open, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { done, type Outcome } from '../../shared/errors/failure';
import { attempt, codeOf } from './failures';

const WHERE = 'autosave journal';

export interface Journal {
  read(): Promise<Outcome<string | null>>;
  append(lines: string): Promise<Outcome<null>>;
  clear(): Promise<Outcome<null>>;
  /** The program ends; its lines are kept where they hold unsaved work. Synchronous, so that it can come last. */
  release(lines: 'keep' | 'forget'): void;
}

/** A journal of the folder that no living program holds: one left by a crash before an empty one. */
export async function openJournal(folder: string): Promise<Outcome<Journal>> {
  return attempt(WHERE, 'write', async () => {
    await mkdir(folder, { recursive: true });
    const left = (await readdir(folder)).flatMap((name) => /^journal-(\d+)\.jsonl$/.exec(name)?.[1] ?? []);
    for (const n of left.map(Number).sort((a, b) => a - b)) {
      if (await claimed(claimOf(folder, n))) return journalAt(folder, n);
    }
    for (let n = 1; ; n++) {
      if (await claimed(claimOf(folder, n))) return journalAt(folder, n);
    }
  });
}

const claimOf = (folder: string, n: number): string => join(folder, `journal-${n}.pid`);

function journalAt(folder: string, n: number): Journal {
  const path = join(folder, `journal-${n}.jsonl`);
  return {
    read: () =>
      attempt(WHERE, 'read', async () => {
        const text = await readFile(path, 'utf8').catch((error: unknown) => {
          if (codeOf(error) === 'ENOENT') return '';
          throw error;
        });
        // A crash can tear the last line; whole lines before it still count.
        const whole = text.slice(0, text.lastIndexOf('\n') + 1);
        return whole === '' ? null : whole;
      }),
    append: (lines) =>
      attempt(WHERE, 'write', async () => {
        const file = await open(path, 'a');
        try {
          await file.writeFile(lines, 'utf8');
          await file.datasync();
        } finally {
          await file.close();
        }
        return null;
      }),
    clear: () =>
      attempt(WHERE, 'write', async () => {
        await rm(path, { force: true });
        return null;
      }),
    release: (lines) => {
      if (lines === 'forget') rmSync(path, { force: true });
      rmSync(claimOf(folder, n), { force: true });
    },
  };
}

async function claimed(claim: string): Promise<boolean> {
  try {
    await writeFile(claim, String(process.pid), { flag: 'wx' });
    return true;
  } catch (error) {
    if (codeOf(error) !== 'EEXIST') throw error;
  }
  const holder = Number(await readFile(claim, 'utf8').catch(() => ''));
  if (holder !== process.pid && Number.isInteger(holder) && holder > 0 && isAlive(holder)) return false;
  await writeFile(claim, String(process.pid));
  return true;
}

function isAlive(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return codeOf(error) === 'EPERM';
  }
}

/** For a data folder that cannot be written: the work goes on, only nothing is kept for after a crash. */
export function forgetfulJournal(): Journal {
  const nothing = () => Promise.resolve(done(null));
  return { read: nothing, append: nothing, clear: nothing, release: () => undefined };
}
