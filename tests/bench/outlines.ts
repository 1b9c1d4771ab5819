// Real outlines, where they lie beside the checkout: the searched layout against the plain one (longest edge, no
// offset, whole sheets).
import { PLAIN_TRADE } from '../support/roofs';
import { priceCandidate, regionsByDirection } from '../../core/search/priceCandidate';
import { searchLayout } from '../../core/search/searchLayout';
import { searchWork } from '../../core/search/searchWork';
import type { Priced, SearchReport, SearchSpec } from '../../core/search/types';
import { areaBound } from '../../core/sheets/bounds';
import { autoDirections } from '../../core/sheets/layRoof';
import type { RollProduct } from '../../core/sheets/types';
import { realOutlines, type Outline } from '../support/outlines';
import type { Row } from './measure';

const WIDE: RollProduct = { id: 'wide', width: 3000, length: 30_000, cost: 990 };
const NARROW: RollProduct = { id: 'narrow', width: 1500, length: 20_000, cost: 336 };

export function benchOutlines(): Row[] {
  const outlines = realOutlines();
  if (outlines.length === 0) return [{ name: 'real outlines', figure: 'not beside this checkout; left out' }];
  const pairs = outlines.map(compare);
  const mean = (list: readonly number[]) => list.reduce((sum, value) => sum + value, 0) / list.length;
  const sum = (of: (priced: Priced) => number, which: 'plain' | 'best') =>
    pairs.reduce((total, pair) => total + of(pair[which]), 0);
  const saved = (of: (priced: Priced) => number) =>
    pairs.map(({ plain, best }) => 100 * (1 - of(best) / of(plain)));
  const gaps = pairs.map(({ best, bound }) => best.rolls - bound).sort((a, b) => a - b);
  const beforeAfter = (of: (priced: Priced) => number, digits = 0) =>
    `${sum(of, 'plain').toFixed(digits)} → ${sum(of, 'best').toFixed(digits)}`;
  const membrane = saved((p) => p.area);
  const money = saved((p) => p.cost);
  return [
    {
      name: `membrane bought on ${pairs.length} real outlines`,
      figure: `${mean(membrane).toFixed(2)} % less in the mean, ${Math.min(...membrane).toFixed(2)} % at worst, ${Math.max(...membrane).toFixed(1)} % at best`,
    },
    {
      name: 'money',
      figure: `${mean(money).toFixed(2)} % less in the mean, ${Math.min(...money).toFixed(2)} % at worst`,
    },
    {
      name: 'before → after',
      figure: `rolls ${beforeAfter((p) => p.rolls)}, end laps ${beforeAfter((p) => p.joints)}, money ${beforeAfter((p) => p.cost)}`,
    },
    {
      name: 'rolls above areaBound',
      figure: `median ${gaps[Math.floor(gaps.length / 2)] ?? 0}, worst ${gaps[gaps.length - 1] ?? 0}`,
    },
  ];
}

function compare({ roof }: Outline): {
  readonly plain: Priced;
  readonly best: Priced;
  readonly bound: number;
} {
  const spec: SearchSpec = {
    rolls: [WIDE, NARROW],
    field: WIDE.id,
    rip: 'allowed',
    sideLap: 120,
    lap: { endLap: 80, endLapStagger: 300, minPiece: 1500, joints: 'allowed', cutAllowance: 0 },
    trade: PLAIN_TRADE,
    money: { weldPerM: 1.3, handWeldPerM: 5, perJoint: 5, disposalPerM2: 0.6 },
    pinned: { direction: null, firstCourse: null, closings: null },
    work: searchWork(roof),
  };
  const [direction] = autoDirections(roof, spec.trade) as [number];
  const candidate = { roll: WIDE, closing: null, rules: { direction, firstCourse: 0 }, bound: 0 };
  const plain = priceCandidate(roof, regionsByDirection(roof, spec)(direction), candidate, spec);
  const best = finished(searchLayout(roof, spec)).best[0];
  if (!plain || !best) throw new Error(`${roof.id} cannot be laid`);
  return { plain, best, bound: areaBound(roof.area, WIDE) };
}

function finished(search: Generator<unknown, SearchReport, void>): SearchReport {
  for (;;) {
    const step = search.next();
    if (step.done) return step.value;
  }
}
