// The search for a cheaper layout, as the panels see it: at most one runs, and what it found stays until the roof
// or its rates change under it.
import type { Job } from '../../core/job/schema';
import type { Priced, SearchReport } from '../../core/search/types';
import type { SearchReply, SearchRequest } from '../../shared/worker/search';
import { createStore, type Store } from './store';

export interface SearchState {
  readonly roof: string;
  /** The job that was searched: another object means another question. */
  readonly job: Job;
  readonly running: boolean;
  readonly scored: number;
  readonly priced: number;
  readonly best: Priced | null;
  readonly report: SearchReport | null;
  readonly failure: string | null;
}

/** A thread for one search; `stop` ends it at once. */
export type SearchPort = (request: SearchRequest, onReply: (reply: SearchReply) => void) => { stop(): void };

export interface Searches {
  readonly state: Store<SearchState | null>;
  start(job: Job, roof: string): void;
  stop(): void;
}

export function createSearches(port: SearchPort): Searches {
  const state = createStore<SearchState | null>(null);
  let running: { stop(): void } | null = null;
  const stop = (): void => {
    running?.stop();
    running = null;
    state.update((now) => (now?.running ? { ...now, running: false } : now));
  };
  const start = (job: Job, roof: string): void => {
    stop();
    state.set({ roof, job, running: true, scored: 0, priced: 0, best: null, report: null, failure: null });
    const own = port({ job, roof }, (reply) => {
      if (running !== own) return;
      state.update((now) => (now ? after(now, reply) : now));
      if (reply.kind !== 'progress') running = null;
    });
    running = own;
  };
  return { state, start, stop };
}

function after(now: SearchState, reply: SearchReply): SearchState {
  if (reply.kind === 'progress')
    return { ...now, scored: reply.scored, priced: reply.priced, best: reply.best };
  if (reply.kind === 'refused') return { ...now, running: false, failure: reply.message };
  const { report } = reply;
  return {
    ...now,
    running: false,
    report,
    scored: report.scored,
    priced: report.priced,
    best: report.best[0] ?? null,
  };
}
