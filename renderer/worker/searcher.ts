// The search thread: one roof, one search, progress on the way. It ends with its answer or when it is stopped.
import { searchRoof } from '../../core/job/searchRoof';
import type { SearchReply, SearchRequest } from '../../shared/worker/search';

self.onmessage = ({ data }: MessageEvent<SearchRequest>) => {
  const post = (reply: SearchReply): void => self.postMessage(reply);
  try {
    const started = searchRoof(data.job, data.roof);
    if ('faults' in started) {
      post({ kind: 'refused', message: started.faults[0]?.message ?? 'This roof cannot be laid.' });
      return;
    }
    for (;;) {
      const step = started.search.next();
      if (step.done) {
        post({ kind: 'done', report: step.value });
        return;
      }
      post({ kind: 'progress', ...step.value });
    }
  } catch (error) {
    post({ kind: 'refused', message: error instanceof Error ? error.message : String(error) });
  }
};
