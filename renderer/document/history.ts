// Undo without inverses: a stack of differences, each with its label and the selection on both sides of it.
import { applyDifference, reverseDifference } from '../../core/job/difference';
import type { differenceOf } from '../../core/job/difference';
import type { Job } from '../../core/job/schema';
import type { Selection } from './picked';

export type JobDifference = ReturnType<typeof differenceOf>;

export interface HistoryEntry {
  /** For the menu: "Move corner". */
  readonly label: string;
  readonly difference: JobDifference;
  readonly before: Selection;
  readonly after: Selection;
}

export interface History {
  readonly past: readonly HistoryEntry[];
  readonly future: readonly HistoryEntry[];
}

export const EMPTY_HISTORY: History = { past: [], future: [] };

/** A new entry ends what could have been redone. */
export function record(history: History, entry: HistoryEntry): History {
  return { past: [...history.past, entry], future: [] };
}

interface Turned {
  readonly history: History;
  readonly job: Job;
  readonly selection: Selection;
  readonly label: string;
}

/** One step back, or null where there is none. */
export function undoOnce(history: History, job: Job): Turned | null {
  const entry = history.past.at(-1);
  if (!entry) return null;
  return {
    history: { past: history.past.slice(0, -1), future: [...history.future, entry] },
    job: applyDifference(job, reverseDifference(entry.difference)),
    selection: entry.before,
    label: entry.label,
  };
}

/** One step forward again, or null where there is none. */
export function redoOnce(history: History, job: Job): Turned | null {
  const entry = history.future.at(-1);
  if (!entry) return null;
  return {
    history: { past: [...history.past, entry], future: history.future.slice(0, -1) },
    job: applyDifference(job, entry.difference),
    selection: entry.after,
    label: entry.label,
  };
}
