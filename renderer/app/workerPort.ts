// The estimator thread as the document sees it, and packs asked of it one by one.
import type { EstimatorPort } from '../document/results';
import type { PackName } from '../../shared/packs/packNames';
import type { EstimatorReply, EstimatorRequest } from '../../shared/worker/messages';
import type { Job } from '../../core/job/schema';

export interface EstimatorThread extends EstimatorPort {
  /** Each estimate's drawings go there too, without passing through the window. */
  sendDrawingsTo(port: MessagePort): void;
  makePack(pack: PackName, job: Job, drawings: ReadonlyMap<string, Uint8Array>): Promise<Uint8Array>;
}

export function startEstimator(): EstimatorThread {
  const worker = new Worker(new URL('estimator.js', document.baseURI), { type: 'module' });
  const listeners: ((reply: EstimatorReply) => void)[] = [];
  const packs = new Map<number, { done: (bytes: Uint8Array) => void; fail: (error: Error) => void }>();
  let asked = 0;
  let current = -1;

  const post = (request: EstimatorRequest): void => {
    if (request.kind === 'estimate') current = request.revision;
    worker.postMessage(request);
  };
  worker.onmessage = (event: MessageEvent<EstimatorReply>) => {
    const reply = event.data;
    if (reply.kind === 'packed') packs.get(reply.request)?.done(reply.bytes);
    if (reply.kind === 'packFailed') packs.get(reply.request)?.fail(new Error(reply.message));
    for (const listener of listeners) listener(reply);
  };
  worker.onerror = (event) => {
    const message = `The estimator stopped: ${event.message || 'its script could not be loaded'}`;
    for (const listener of listeners) listener({ kind: 'failed', revision: current, message });
  };

  return {
    post,
    sendDrawingsTo: (port) =>
      worker.postMessage({ kind: 'drawings', port } satisfies EstimatorRequest, [port]),
    onReply: (listener) => void listeners.push(listener),
    makePack: (pack, job, drawings) =>
      new Promise((resolve, reject) => {
        const request = ++asked;
        const settle = () => packs.delete(request);
        packs.set(request, {
          done: (bytes) => (settle(), resolve(bytes)),
          fail: (error) => (settle(), reject(error)),
        });
        post({ kind: 'pack', request, pack, job, drawings });
      }),
  };
}
