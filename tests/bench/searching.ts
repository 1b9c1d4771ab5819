// One re-layout as a drag asks for it, and the search, on a busy roof and on a very large one.
import { assumedIn } from '../../core/job/assumed';
import { estimate, patchesIn } from '../../core/job/estimate';
import { estimateRoof, isSound, ROOF_STEPS } from '../../core/job/estimateRoof';
import type { Job } from '../../core/job/schema';
import { orderMaterials } from '../../core/order/orderMaterials';
import { priceBid } from '../../core/price/priceBid';
import { measureJob, measureRoof } from '../../core/quantities/measure';
import { searchLayout, type SearchProgress } from '../../core/search/searchLayout';
import { searchWork } from '../../core/search/searchWork';
import type { SearchReport, SearchSpec } from '../../core/search/types';
import type { Roof } from '../../core/roof/types';
import { fourWayFall } from '../../core/roof/water';
import type { RoofPoint } from '../../core/geometry/points';
import { ringBounds } from '../../core/geometry/ring';
import { packRegion } from '../../core/geometry/strips';
import { frameOf, ringToFrame } from '../../core/sheets/frame';
import { layCourses } from '../../core/sheets/layCourses';
import type { TradeRules } from '../../core/sheets/types';
import { jobOfRoof } from '../support/jobs';
import { clippedSpans } from '../support/plainWays';
import { busyRoof, PLAIN_TRADE } from '../support/roofs';
import { coldSearchRow } from './coldSearch';
import { ms, timeByTurns, type Row, type Timing } from './measure';

/** What the plain way takes for the runs alone is at least this share of what the whole chain takes. By least times,
 * since the chain clears memory in threads of its own, which a busy machine makes wait. */
const RELAID_LEAST = 0.08;

export function benchSearching(quick: boolean): Row[] {
  const busy = busyRoof(1, 5000e6, 200, 40);
  const job: Job = jobOfRoof(busy, { direction: 0, firstCourse: null, closing: null });
  const frame = frameOf(0);
  const rings = [busy.outline, ...busy.openings.map((o) => o.ring)].map((ring) => ringToFrame(frame, ring));
  const roll = job.rates.rolls[0];
  if (!roll) throw new Error('the job has no roll');
  const courses = layCourses(packRegion(rings).v, { ...roll, cost: 0 }, null, {
    firstCourse: 0,
    sideLap: job.system.sideLap,
  });
  const strips = courses.map((c) => [c.low, c.low + c.width] as const);
  const [relaid, chain, clipped] = timeByTurns(
    [() => estimate(job), layingOf(job), () => clippedSpans(rings, strips)],
    quick ? 90 : 150,
  ) as [Timing, Timing, Timing];
  const rows: Row[] = [
    {
      name: 're-layout of 5,000 m² (200 corners, 40 openings): roof, cutting and its bound, seams, fastener rows, quantities, price',
      figure: `${ms(chain)}; weld plan, work plan and findings as before`,
    },
    {
      name: 'the same with the weld plan, the work plan and the verifier',
      figure: `${ms(relaid)}; clipping its ${courses.length} courses alone ${ms(clipped)}`,
      ratio: {
        value: clipped.least / relaid.least,
        atLeast: RELAID_LEAST,
        against: 'clipping each course with clipper-lib, which gives the runs alone',
      },
    },
  ];
  rows.push(...searchRows('search of 5,000 m², 200 corners, 40 openings', busy));
  rows.push(coldSearchRow('the same from the command line', busy, quick ? 3 : 9));
  if (!quick)
    rows.push(
      ...searchRows('search of 100,000 m², 2,000 corners, 500 openings', busyRoof(1, 100_000e6, 2000, 500)),
    );
  return rows;
}

/** A job's roof laid anew and priced; its weld and work plans and the verifier's findings stay those of before. */
function layingOf(job: Job): () => unknown {
  const { roofs, weldPlan, workPlan } = estimate(job);
  const record = Object.values(job.roofs)[0];
  const steps = { ...ROOF_STEPS, verifyLayout: () => [] };
  const rules = { rates: job.rates, assumed: assumedIn(job) };
  const patches = patchesIn(job);
  if (!record || roofs.length !== 1) throw new Error('the job has not just one roof');
  return () => {
    const laid = estimateRoof(job, record, patches, steps);
    if (!isSound(laid)) throw new Error(laid.faults[0]?.message);
    const quantities = measureRoof(
      {
        ...laid,
        welds: weldPlan.runs,
        adhered: job.system.attachment === 'adhered',
        days: workPlan.byRoof[0] ?? null,
      },
      rules,
    );
    const whole = measureJob([{ letter: laid.letter, quantities }], weldPlan, workPlan);
    const { rates, assumed } = rules;
    const order = orderMaterials(whole, { rates, attachment: job.system.attachment, patches, assumed });
    return priceBid(order, whole, rates, assumed);
  };
}

/** With the rules of the trade a search takes at most twice as long as without. */
const RULES_LEAST = 0.5;

function searchRows(name: string, roof: Roof): Row[] {
  const plain = searched(roof, PLAIN_TRADE);
  const ruled = searched(withTrade(roof), {
    ...PLAIN_TRADE,
    minWidth: 600,
    cornerClear: 300,
    reinforced: true,
    inLap: true,
  });
  return [
    { name, figure: plain.figure },
    {
      name: `${name}, with the rules of the trade`,
      figure: `${ruled.figure}; the bound knows ${ruled.boundKnows}`,
      ratio: {
        value: plain.took / ruled.took,
        atLeast: RULES_LEAST,
        against: 'the same search without the rules',
      },
    },
  ];
}

/** Four drains with their valleys between them, a four-way fall, and room for a machine along every edge. */
function withTrade(roof: Roof): Roof {
  const { x, y } = ringBounds([roof.outline]);
  const at = (u: number, v: number): RoofPoint => [x[0] + u * (x[1] - x[0]), y[0] + v * (y[1] - y[0])];
  const drains = [at(0.2, 0.5), at(0.4, 0.5), at(0.6, 0.5), at(0.8, 0.5)];
  return {
    ...roof,
    edges: roof.edges.map((edge) => ({ ...edge, clear: edge.ring === 0 ? 300 : 0 })),
    fittings: drains.map((place, i) => ({ id: `drain ${i}`, kind: 'drain', at: place, size: 200 })),
    lines: drains
      .slice(1)
      .map((to, i) => ({ id: `valley ${i}`, kind: 'valley', from: drains[i] as RoofPoint, to })),
    facets: fourWayFall(
      [at(0, 0), at(1, 0), at(1, 1), at(0, 1)],
      at(0.5, 0.5),
      0.02,
      (side) => `fall ${side}`,
    ),
  };
}

function searched(
  roof: Roof,
  trade: TradeRules,
): { readonly figure: string; readonly took: number; readonly boundKnows: string } {
  const spec: SearchSpec = {
    rolls: [{ id: 'wide', width: 3000, length: 30_000, cost: 990 }],
    field: null,
    rip: 'forbidden',
    sideLap: 120,
    lap: { endLap: 80, endLapStagger: 300, minPiece: 1500, joints: 'allowed', cutAllowance: 0 },
    trade,
    money: { weldPerM: 1.3, handWeldPerM: 5, perJoint: 5, disposalPerM2: 0.6 },
    pinned: { direction: null, firstCourse: null, closings: null },
    work: searchWork(roof),
  };
  const start = performance.now();
  const search: Generator<SearchProgress, SearchReport, void> = searchLayout(roof, spec);
  let first = 0;
  for (;;) {
    const step = search.next();
    if (step.done) {
      const took = performance.now() - start;
      const { best, scored, skipped, priced, settled, boundKnows } = step.value;
      const rolls = best[0]?.rolls ?? 0;
      const bound = Math.ceil(roof.area / 90e6);
      const memory = process.memoryUsage().heapUsed / 1e6;
      return {
        took,
        boundKnows,
        figure:
          `first answer ${first.toFixed(0)} ms, done ${took.toFixed(0)} ms, heap ${memory.toFixed(0)} MB; ` +
          `${scored} scored, ${skipped} skipped by bound, ${priced} cut in full, ${settled ? 'settled' : 'by counted work'}; ` +
          `${rolls} rolls, areaBound ${bound}, gap ${(100 * (rolls / bound - 1)).toFixed(1)} %`,
      };
    }
    if (first === 0 && step.value.best) first = performance.now() - start;
  }
}
