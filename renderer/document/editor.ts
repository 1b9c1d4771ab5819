// The open job: its commands, gestures, history and selection. No React, no DOM; the clock stays outside.
// A gesture's preview is always computed from its mark, so it does not drift and cancelling costs nothing.
import { applyCommand } from '../../core/job/commands/applyCommand';
import type { Command } from '../../core/job/commands/types';
import { differenceOf } from '../../core/job/difference';
import { newlyStraddling } from '../../core/job/pageScale';
import type { Job } from '../../core/job/schema';
import { EMPTY_HISTORY, record, redoOnce, undoOnce } from './history';
import type { History } from './history';
import type { JournalLine } from './journal';
import { labelOf } from './labels';
import type { Selection } from './picked';
import { createStore } from './store';
import type { Store } from './store';

export interface OpenJob {
  readonly job: Job;
  /** The imported files, by SHA-256. */
  readonly drawings: ReadonlyMap<string, Uint8Array>;
  readonly name: string;
  /** Where saving goes; null: nowhere yet. */
  readonly target: string | null;
}

export interface DocumentState {
  /** What is shown: the preview while a gesture runs, else the same as `settled`. */
  readonly job: Job;
  /** The job as the history knows it. */
  readonly settled: Job;
  /** Rises with every change of `job`. */
  readonly revision: number;
  readonly name: string;
  readonly target: string | null;
  readonly unsaved: boolean;
  readonly selection: Selection;
  readonly undoLabel: string | null;
  readonly redoLabel: string | null;
  readonly drawings: ReadonlyMap<string, Uint8Array>;
  /** Label of the gesture under way. */
  readonly gesture: string | null;
}

export interface Editor {
  readonly state: Store<DocumentState>;
  /** One command, or several as one entry. Returns why not, in words, or null. */
  run(commands: Command | readonly Command[], label?: string): string | null;
  begin(label: string): void;
  preview(commands: readonly Command[]): string | null;
  /** Folds the gesture into one entry; selection after it where given. */
  commit(selection?: Selection): void;
  revert(): void;
  undo(): string | null;
  redo(): string | null;
  pick(selection: Selection): void;
  addBytes(sha256: string, bytes: Uint8Array): void;
  open(what: OpenJob): void;
  markSaved(name: string, target: string | null): void;
  markUnsaved(): void;
}

interface Gesture {
  readonly label: string;
  readonly mark: Job;
  readonly selection: Selection;
  commands: readonly Command[];
}

export function createEditor(what: OpenJob, journal: (line: JournalLine) => void): Editor {
  let history: History = EMPTY_HISTORY;
  let gesture: Gesture | null = null;
  const state = createStore<DocumentState>(freshState(what, 0));

  const put = (change: Partial<DocumentState>): void => {
    const now = state.get();
    const job = change.job ?? now.job;
    state.set({
      ...now,
      ...change,
      revision: job === now.job ? now.revision : now.revision + 1,
      undoLabel: history.past.at(-1)?.label ?? null,
      redoLabel: history.future.at(-1)?.label ?? null,
      gesture: gesture?.label ?? null,
    });
  };

  const settle = (
    label: string,
    next: Job,
    commands: readonly Command[],
    before: Selection,
    after: Selection,
  ): void => {
    const settled = state.get().settled;
    if (next === settled) return put({ job: settled, selection: after });
    history = record(history, { label, difference: differenceOf(settled, next), before, after });
    journal({ kind: 'entry', label, commands });
    put({ job: next, settled: next, unsaved: true, selection: after });
  };

  const revert = (): void => {
    if (!gesture) return;
    const { mark, selection } = gesture;
    gesture = null;
    put({ job: mark, selection });
  };

  const turn = (direction: 'undo' | 'redo'): string | null => {
    revert();
    const turned = (direction === 'undo' ? undoOnce : redoOnce)(history, state.get().settled);
    if (!turned) return null;
    history = turned.history;
    journal({ kind: direction });
    const { job, selection } = turned;
    put({ job, settled: job, unsaved: true, selection: standing(job, selection) });
    return turned.label;
  };

  return {
    state,
    run(given, label) {
      const commands: readonly Command[] = isList(given) ? given : [given];
      const first = commands[0];
      if (!first) return null;
      revert();
      const { settled, selection } = state.get();
      const result = applyAll(settled, commands);
      if ('refusal' in result) return result.refusal;
      settle(label ?? labelOf(first.kind), result.job, commands, selection, standing(result.job, selection));
      return null;
    },
    begin(label) {
      revert();
      const { settled, selection } = state.get();
      gesture = { label, mark: settled, selection, commands: [] };
      put({});
    },
    preview(commands) {
      if (!gesture) throw new Error('preview outside a gesture');
      const result = applyAll(gesture.mark, commands);
      if ('refusal' in result) return result.refusal;
      gesture.commands = commands;
      put({ job: result.job });
      return null;
    },
    commit(selection) {
      if (!gesture) return;
      const { label, commands, selection: before } = gesture;
      gesture = null;
      const { job } = state.get();
      settle(label, job, commands, before, standing(job, selection ?? before));
    },
    revert,
    undo: () => turn('undo'),
    redo: () => turn('redo'),
    pick: (selection) => put({ selection }),
    addBytes(sha256, bytes) {
      const { drawings } = state.get();
      if (drawings.has(sha256)) return;
      journal({ kind: 'drawing', sha256, bytes });
      put({ drawings: new Map(drawings).set(sha256, bytes) });
    },
    open(opened) {
      history = EMPTY_HISTORY;
      gesture = null;
      state.set(freshState(opened, state.get().revision + 1));
    },
    markSaved: (name, target) => put({ name, target, unsaved: false }),
    markUnsaved: () => put({ unsaved: true }),
  };
}

const freshState = (what: OpenJob, revision: number): DocumentState => ({
  job: what.job,
  settled: what.job,
  revision,
  name: what.name,
  target: what.target,
  unsaved: false,
  selection: [],
  undoLabel: null,
  redoLabel: null,
  drawings: what.drawings,
  gesture: null,
});

function applyAll(job: Job, commands: readonly Command[]): { job: Job } | { refusal: string } {
  let now = job;
  for (const command of commands) {
    const result = applyCommand(now, command);
    if ('refusal' in result) return result;
    now = result.job;
  }
  const straddling = newlyStraddling(job, now);
  return straddling === null ? { job: now } : { refusal: straddling };
}

/** A selection without what the job no longer holds. Sheets, laps and welds are derived and may come back. */
function standing(job: Job, selection: Selection): Selection {
  const kept = selection.filter(({ kind, id, roof }) => {
    if (kind === 'edge' || kind === 'corner') return id in job.edges;
    if (kind === 'roof') return id in job.roofs;
    if (kind === 'opening') return id in job.openings;
    if (kind === 'fitting') return id in job.fittings;
    if (kind === 'pin') return job.roofs[roof ?? '']?.laying.pins?.[Number(id)] !== undefined;
    if (kind === 'line') return Object.values(job.roofs).some((roof) => roof.lines.some((l) => l.id === id));
    return true;
  });
  return kept.length === selection.length ? selection : kept;
}

const isList = (given: Command | readonly Command[]): given is readonly Command[] => Array.isArray(given);
