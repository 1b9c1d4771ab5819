// The estimate that belongs to the job on screen, or the newest there is. Only the newest question waits; an
// answer older than the one shown is dropped, and figures of an older revision are shown as lagging.
import type { Estimate } from '../../core/job/result';
import type { RoofDrawing } from '../../core/drawing/types';
import { EXACT_LATER } from '../../shared/worker/laid';
import type { EstimatorReply, EstimatorRequest } from '../../shared/worker/messages';
import type { Job } from '../../core/job/schema';
import type { DocumentState } from './editor';
import { createStore } from './store';
import type { Store } from './store';

export interface Results {
  readonly revision: number;
  readonly estimate: Estimate | null;
  readonly drawings: readonly RoofDrawing[];
  /** Which of two estimates of one revision the drawings belong to: half a step later where it is the exact one. */
  readonly drawn: number;
  /** The figures are of a cut in haste, and the exact one is being made. */
  readonly exactFollows: boolean;
  /** Why no exact cut could be made; the figures are of the other. */
  readonly noExact: string | null;
  /** Why the estimator could not answer; the job is untouched. */
  readonly failure: string | null;
}

/** Where estimates are made: a worker, or in tests the same function called directly. */
export interface EstimatorPort {
  post(request: EstimatorRequest): void;
  onReply(listener: (reply: EstimatorReply) => void): void;
}

export const NO_RESULTS: Results = {
  revision: -1,
  estimate: null,
  drawings: [],
  drawn: -1,
  exactFollows: false,
  noExact: null,
  failure: null,
};

/** The figures belong to an older job than the one on screen, or others of the same job follow. */
export const isLagging = ({ revision, exactFollows }: Results, document: DocumentState): boolean =>
  revision !== document.revision || exactFollows;

export function followJob(document: Store<DocumentState>, port: EstimatorPort): Store<Results> {
  const results = createStore<Results>(NO_RESULTS);
  let busy = false;
  let waiting: { job: Job; revision: number } | null = null;
  let asked = -1;

  const send = (): void => {
    if (busy || !waiting) return;
    const { job, revision } = waiting;
    waiting = null;
    busy = true;
    port.post({ kind: 'estimate', revision, job });
  };
  const ask = ({ job, revision }: DocumentState): void => {
    if (revision === asked) return;
    asked = revision;
    waiting = { job, revision };
    send();
  };

  const settle = (reply: Extract<EstimatorReply, { kind: 'exact' | 'noExact' }>): void => {
    if (reply.revision !== results.get().revision) return;
    results.update((now) =>
      reply.kind === 'noExact'
        ? { ...now, exactFollows: false, noExact: reply.message }
        : {
            ...now,
            estimate: reply.estimate,
            drawings: reply.drawings,
            drawn: reply.revision + EXACT_LATER,
            exactFollows: false,
          },
    );
  };

  port.onReply((reply) => {
    if (reply.kind === 'exact' || reply.kind === 'noExact') return settle(reply);
    if (reply.kind !== 'estimate' && reply.kind !== 'failed') return;
    busy = false;
    if (reply.revision > results.get().revision) {
      results.update((now) =>
        reply.kind === 'estimate'
          ? {
              revision: reply.revision,
              estimate: reply.estimate,
              drawings: reply.drawings,
              drawn: reply.revision,
              exactFollows: reply.exactFollows,
              noExact: null,
              failure: null,
            }
          : { ...now, revision: reply.revision, exactFollows: false, failure: reply.message },
      );
    }
    send();
  });
  document.subscribe(ask);
  ask(document.get());
  return results;
}
