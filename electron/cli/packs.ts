// The documents that the three people take away.
import { bidPdf } from '../../shared/packs/bidPdf';
import { cutListCsv, orderCsv, weldsCsv } from '../../shared/packs/csv';
import { orderPdf } from '../../shared/packs/orderPdf';
import { done, type Outcome } from '../../shared/errors/failure';
import type { Estimated } from './estimateJob';
import type { JobFile } from './readJobFile';

export interface Pack {
  readonly name: string;
  readonly bytes: Uint8Array;
}

export async function makePacks({ job, estimate }: Estimated & JobFile): Promise<Outcome<readonly Pack[]>> {
  const text = (content: string): Uint8Array => new TextEncoder().encode(content);
  return done([
    { name: 'bid.pdf', bytes: await bidPdf({ job, estimate }) },
    { name: 'order.pdf', bytes: await orderPdf({ job, estimate }) },
    { name: 'order.csv', bytes: text(orderCsv(estimate)) },
    { name: 'cut-list.csv', bytes: text(cutListCsv(estimate)) },
    { name: 'welds.csv', bytes: text(weldsCsv(estimate)) },
  ]);
}
