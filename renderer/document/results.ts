// The estimate that belongs to the job on screen, or the newest there is. Only the newest question waits; an
// answer older than the one shown is dropped, and figures of an older revision are shown as lagging.
import type { Estimate } from '../../core/job/result';
import type { RoofDrawing } from '../../core/drawing/types';
import type { EstimatorReply, EstimatorRequest } from '../../shared/worker/messages';
import type { Job } from '../../core/job/schema';
import type { DocumentState } from './editor';
import { createStore } from './store';
import type { Store } from './store';

export interface Results {
  readonly revision: number;
  readonly estimate: Estimate | null;
  readonly drawings: readonly RoofDrawing[];
  /** Why the estimator could not answer; the job is untouched. */
  readonly failure: string | null;
}

/** Where estimates are made: a worker, or in tests the same function called directly. */
export interface EstimatorPort {
  post(request: EstimatorRequest): void;
  onReply(listener: (reply: EstimatorReply) => void): void;
}

export const NO_RESULTS: Results = { revision: -1, estimate: null, drawings: [], failure: null };

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

  port.onReply((reply) => {
    if (reply.kind !== 'estimate' && reply.kind !== 'failed') return;
    busy = false;
    if (reply.revision > results.get().revision) {
      results.update((now) =>
        reply.kind === 'estimate'
          ? {
              revision: reply.revision,
              estimate: reply.estimate,
              drawings: reply.drawings,
              failure: null,
            }
          : { ...now, revision: reply.revision, failure: reply.message },
      );
    }
    send();
  });
  document.subscribe(ask);
  ask(document.get());
  return results;
}
