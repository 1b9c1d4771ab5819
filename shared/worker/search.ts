// What crosses between the window and the thread that searches one roof. A search is stopped by ending its thread;
// the best so far has crossed already.
import type { Job } from '../../core/job/schema';
import type { Priced, SearchReport } from '../../core/search/types';

export interface SearchRequest {
  readonly job: Job;
  readonly roof: string;
}

export type SearchReply =
  | {
      readonly kind: 'progress';
      readonly scored: number;
      readonly priced: number;
      readonly best: Priced | null;
    }
  | { readonly kind: 'done'; readonly report: SearchReport }
  | { readonly kind: 'refused'; readonly message: string };
