// One re-layout as a drag asks for it, and the search, on a busy roof and on a very large one.
import { estimate } from '../../core/job/estimate';
import type { Job } from '../../core/job/schema';
import { searchLayout, type SearchProgress } from '../../core/search/searchLayout';
import { searchWork } from '../../core/search/searchWork';
import type { SearchReport, SearchSpec } from '../../core/search/types';
import type { Roof } from '../../core/roof/types';
import { jobOfRoof } from '../support/jobs';
import { busyRoof, PLAIN_TRADE } from '../support/roofs';
import { ms, timeByTurns, type Row, type Timing } from './measure';

export function benchSearching(quick: boolean): Row[] {
  const busy = busyRoof(1, 5000e6, 200, 40);
  const job: Job = jobOfRoof(busy, { direction: 0, firstCourse: null, closing: null });
  const [relaid] = timeByTurns([() => estimate(job)], quick ? 15 : 60) as [Timing];
  const rows: Row[] = [
    {
      name: 're-layout, seams, fasteners, welds, verifier and price of 5,000 m² (200 corners, 40 openings)',
      figure: ms(relaid),
    },
  ];
  rows.push(searchRow('search of 5,000 m², 200 corners, 40 openings', busy));
  if (!quick)
    rows.push(
      searchRow('search of 100,000 m², 2,000 corners, 500 openings', busyRoof(1, 100_000e6, 2000, 500)),
    );
  return rows;
}

function searchRow(name: string, roof: Roof): Row {
  const spec: SearchSpec = {
    rolls: [{ id: 'wide', width: 3000, length: 30_000, cost: 990 }],
    field: null,
    rip: 'forbidden',
    sideLap: 120,
    lap: { endLap: 80, endLapStagger: 300, minPiece: 1500, joints: 'allowed', cutAllowance: 0 },
    trade: PLAIN_TRADE,
    money: { weldPerM: 1.3, handWeldPerM: 5, perJoint: 5, disposalPerM2: 0.6 },
    pinned: { direction: null, firstCourse: null },
    work: searchWork(roof),
  };
  const start = performance.now();
  const search: Generator<SearchProgress, SearchReport, void> = searchLayout(roof, spec);
  let first = 0;
  for (;;) {
    const step = search.next();
    if (step.done) {
      const took = performance.now() - start;
      const { best, scored, skipped, priced, settled } = step.value;
      const rolls = best[0]?.rolls ?? 0;
      const bound = Math.ceil(roof.area / 90e6);
      const memory = process.memoryUsage().heapUsed / 1e6;
      return {
        name,
        figure:
          `first answer ${first.toFixed(0)} ms, done ${took.toFixed(0)} ms, heap ${memory.toFixed(0)} MB; ` +
          `${scored} scored, ${skipped} skipped by bound, ${priced} cut in full, ${settled ? 'settled' : 'by counted work'}; ` +
          `${rolls} rolls, areaBound ${bound}, gap ${(100 * (rolls / bound - 1)).toFixed(1)} %`,
      };
    }
    if (first === 0 && step.value.best) first = performance.now() - start;
  }
}
