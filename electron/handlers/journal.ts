// The autosave journal: read, append, clear.
import type { Outcome } from '../../shared/errors/failure';
import type { Services } from './services';

export function answerReadJournal(_request: null, { journal }: Services): Promise<Outcome<string | null>> {
  return journal.read();
}

export function answerAppendJournal(lines: string, { journal }: Services): Promise<Outcome<null>> {
  return journal.append(lines);
}

export function answerClearJournal(_request: null, { journal }: Services): Promise<Outcome<null>> {
  return journal.clear();
}
