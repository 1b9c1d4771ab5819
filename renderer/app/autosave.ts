// Writes the journal as changes happen: the job as last saved goes in front of the first change after it.
import type { Bridge } from '../../shared/channels/bridge';
import type { OpenJob } from '../document/editor';
import { writeJournalLine } from '../document/journal';
import type { JournalLine } from '../document/journal';

export interface Autosave {
  /** For the editor: one line more. */
  record(line: JournalLine): void;
  /** The job is saved, or another is open: what stands in the journal is no longer needed. */
  startFrom(base: OpenJob): void;
  /** The journal on disk already holds this base and changes. */
  continueFrom(base: OpenJob): void;
}

export function createAutosave(bridge: Bridge, onTrouble: (why: string) => void): Autosave {
  let base: OpenJob | null = null;
  let written = false;
  let told = false;
  let waiting = '';
  let work: Promise<void> = Promise.resolve();

  const queue = (task: () => Promise<void>): void => {
    work = work.then(task).catch((error: unknown) => {
      if (told) return;
      told = true;
      onTrouble(
        `Unsaved changes are not being kept for a crash: ${error instanceof Error ? error.message : String(error)}`,
      );
    });
  };
  const flush = async (): Promise<void> => {
    const lines = waiting;
    waiting = '';
    if (lines !== '') await bridge.appendJournal(lines);
  };

  return {
    record(line) {
      if (!written && base) waiting += writeJournalLine({ kind: 'base', open: base });
      written = true;
      waiting += writeJournalLine(line);
      queue(flush);
    },
    startFrom(next) {
      base = next;
      written = false;
      waiting = '';
      queue(() => bridge.clearJournal());
    },
    continueFrom(known) {
      base = known;
      written = true;
    },
  };
}
