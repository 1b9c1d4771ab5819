// Every document that a job gives, by its file name.
import type { Estimate } from '../../core/job/result';
import type { Job } from '../../core/job/schema';
import type { PackName } from './packNames';
import { bidPdf } from './bidPdf';
import { bidXlsx } from './bidXlsx';
import { cutListCsv, orderCsv, weldsCsv } from './csv';
import { layoutDxf } from './layoutDxf';
import { orderPdf } from './orderPdf';
import { roofPdf } from './roofPdf';

export interface PackInput {
  readonly job: Job;
  readonly estimate: Estimate;
  /** The imported drawings by their SHA-256. */
  readonly files: ReadonlyMap<string, Uint8Array>;
}

export async function writePack(name: PackName, input: PackInput): Promise<Uint8Array> {
  switch (name) {
    case 'bid.pdf':
      return bidPdf(input);
    case 'order.pdf':
      return orderPdf(input);
    case 'roof.pdf':
      return roofPdf(input);
    case 'order.csv':
      return new TextEncoder().encode(orderCsv(input.estimate));
    case 'cut-list.csv':
      return new TextEncoder().encode(cutListCsv(input.estimate));
    case 'bid.xlsx':
      return bidXlsx(input);
    case 'layout.dxf':
      return layoutDxf(input);
    case 'welds.csv':
      return new TextEncoder().encode(weldsCsv(input.estimate));
  }
}
