// A job with the heavy drawing and a roof of some five thousand sheets on it.
import { createHash } from 'node:crypto';
import { packJob } from '../../core/job/container';
import { newJob } from '../../core/job/newJob';
import type { Job } from '../../core/job/schema';
import { mmPerPoint } from '../../core/units/scales';
import { HEAVY_PAGE, HEAVY_ROOF } from './heavyPdf';

/** At this scale the roof takes about five thousand sheets of the shipped roll. */
const RATIO = 1290;

export function heavyJob(drawing: Uint8Array): Uint8Array {
  const sha256 = createHash('sha256').update(drawing).digest('hex');
  const ids = HEAVY_ROOF.map((_, k) => `e${k + 1}`);
  const job: Job = {
    ...newJob({ name: 'Heavy sheet', date: '2026-01-01' }),
    drawings: {
      d1: { id: 'd1', name: 'heavy.pdf', kind: 'pdf', sha256, bytes: drawing.length, pageCount: 1 },
    },
    pages: {
      p1: {
        id: 'p1',
        drawing: 'd1',
        number: 1,
        name: 'Heavy sheet',
        ...HEAVY_PAGE,
        scale: { mmPerPoint: mmPerPoint(RATIO), from: { by: 'ratio', ratio: RATIO, text: `1:${RATIO}` } },
        checks: [],
      },
    },
    edges: Object.fromEntries(
      HEAVY_ROOF.map((at, k) => [
        ids[k],
        { id: ids[k] ?? '', at, kind: 'parapet' as const, upstand: 300, allowance: 0 },
      ]),
    ),
    roofs: {
      r1: {
        id: 'r1',
        letter: 'A',
        name: 'Roof A',
        page: 'p1',
        outline: ids,
        fall: null,
        lines: [],
        facets: [],
        deck: null,
        laying: { direction: 0, firstCourse: null, closing: null },
      },
    },
  };
  return packJob(job, new Map([[sha256, drawing]]));
}
