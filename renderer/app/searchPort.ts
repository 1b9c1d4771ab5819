// A thread for each search: ending the thread is how a search is stopped.
import type { SearchPort } from '../document/searches';
import type { SearchReply } from '../../shared/worker/search';

export const startSearch: SearchPort = (request, onReply) => {
  const worker = new Worker(new URL('searcher.js', document.baseURI), { type: 'module' });
  worker.onmessage = ({ data }: MessageEvent<SearchReply>) => {
    onReply(data);
    if (data.kind !== 'progress') worker.terminate();
  };
  worker.onerror = (event) => {
    onReply({
      kind: 'refused',
      message: `The search stopped: ${event.message || 'its script could not be loaded'}`,
    });
    worker.terminate();
  };
  worker.postMessage(request);
  return { stop: () => worker.terminate() };
};
