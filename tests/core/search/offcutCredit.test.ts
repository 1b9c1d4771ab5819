// What flashings out of offcuts save, in the search: by hand, against the layout's own strips, and never above the
// most that the bound hopes for.
import { describe, expect, it } from 'vitest';
import { listDetails } from '../../../core/details/listDetails';
import type { Roof } from '../../../core/roof/types';
import { mostCredit } from '../../../core/search/offcutCredit';
import { priceCandidate, regionsByDirection } from '../../../core/search/priceCandidate';
import { scoreLayout } from '../../../core/search/scoreLayout';
import { searchLayout } from '../../../core/search/searchLayout';
import { searchWork } from '../../../core/search/searchWork';
import type { Priced, SearchSpec } from '../../../core/search/types';
import { layRoof } from '../../../core/sheets/layRoof';
import { productsOf } from '../../../core/sheets/listCuts';
import { reuseOffcuts } from '../../../core/sheets/reuseOffcuts';
import type { RollProduct } from '../../../core/sheets/types';
import { built, generatedRoof, layoutSpec, PLAIN_TRADE, rectangle, roofSpec } from '../../support/roofs';

const FIELD: RollProduct = { id: 'field', width: 3000, length: 30_000, cost: 990 };
const FLASHING: RollProduct = { id: 'flashing', width: 1000, length: 20_000, cost: 200 };

function specFor(roof: Roof, wanted: boolean): SearchSpec {
  return {
    rolls: [FIELD],
    field: FIELD.id,
    rip: 'forbidden',
    sideLap: 120,
    lap: layoutSpec().lap,
    trade: PLAIN_TRADE,
    money: { weldPerM: 1.3, handWeldPerM: 5, perJoint: 5, disposalPerM2: 0.6 },
    flashings: wanted ? { pieces: listDetails(roof, FLASHING.length).flashings, roll: FLASHING } : null,
    pinned: { direction: null, firstCourse: null, closings: null },
    work: searchWork(roof),
  };
}

function priced(roof: Roof, spec: SearchSpec, direction: number): Priced {
  const candidate = { roll: FIELD, closing: null, rules: { direction, firstCourse: 0 }, bound: 0 };
  const found = priceCandidate(roof, regionsByDirection(roof, spec)(direction), candidate, spec);
  if (!found) throw new Error('it cannot be cut');
  return found;
}

function cheapest(roof: Roof, spec: SearchSpec): Priced {
  const search = searchLayout(roof, spec);
  for (;;) {
    const step = search.next();
    if (step.done) return step.value.best[0] as Priced;
  }
}

describe('offcuts that serve flashings', () => {
  it('worked: 20 × 6 m with parapets 300 mm high save 264.48', () => {
    // As in reuse.test.ts: both long sides take two strips of 10 m, which cover 9.9 m each, and both short sides one of
    // 6 m: 51.6 m. Two lanes of 0.4 m come out of a flashing roll of 20 m for 200: 5 a metre, 258 in all. 52 m × 0.4 m
    // are no waste: 20.8 m² × 0.6 = 12.48. Four upright laps of 0.3 m are welded by hand: 1.2 m × 5 = 6.
    const roof = built(roofSpec(rectangle(20_000, 6000)));
    const found = priced(roof, specFor(roof, true), 0);
    expect(found.saved).toBeCloseTo(264.48, 6);
    expect(found.cost).toBeCloseTo(priced(roof, specFor(roof, false), 0).cost - 264.48, 6);
  });

  it('save as many metres as the layout that is laid then, and no more than the bound hopes for', () => {
    let [some, same] = [0, 0];
    for (let seed = 1; seed <= 60; seed++) {
      const roof = generatedRoof(seed);
      const spec = specFor(roof, true);
      const found = priced(roof, spec, 0);
      expect(found.saved, `seed ${seed}`).toBeLessThanOrEqual(mostCredit(spec) + 1e-6);
      const regions = regionsByDirection(roof, spec)(0);
      const { bound } = scoreLayout(regions, FIELD, null, 0, spec);
      expect(bound, `seed ${seed}`).toBeLessThanOrEqual(found.cost + 1e-6);
      if (found.saved > 0) some++;
      const money = spec.money as NonNullable<SearchSpec['money']>;
      const joint = money.perJoint + 3 * money.weldPerM;
      const laid = layRoof(roof, layoutSpec({ roll: FIELD, direction: 0, firstCourse: 0 }), joint);
      if ('faults' in laid) throw new Error(laid.faults[0]?.message);
      const { cutList } = laid.layout;
      if (cutList.rolls.length !== found.rolls || laid.layout.sheets.length === 0) continue;
      const strips = reuseOffcuts(cutList, productsOf(laid.layout), spec.flashings?.pieces ?? []);
      const metres = strips.reduce((sum, { covers }) => sum + covers, 0) / 1000;
      const area = strips.reduce((sum, { length, height }) => sum + length * height, 0) / 1e6;
      // Every flashing here is 0.4 m high: two lanes. A lap of 0.3 m is brought by each strip but the last of an edge.
      const laps = (metres * 5 + area * money.disposalPerM2 - found.saved) / (0.3 * money.handWeldPerM);
      if (Math.abs(laps - Math.round(laps)) < 1e-6 && laps > -1e-6 && laps <= strips.length) same++;
    }
    expect(some).toBeGreaterThan(20);
    expect(same).toBeGreaterThan(50);
  });

  it('never make the search choose what is dearer once they are counted', () => {
    for (let seed = 1; seed <= 6; seed++) {
      const roof = generatedRoof(seed, { area: 400e6 });
      const [without, counted] = [cheapest(roof, specFor(roof, false)), cheapest(roof, specFor(roof, true))];
      const { direction, firstCourse } = without.rules;
      const candidate = { roll: FIELD, closing: null, rules: { direction, firstCourse }, bound: 0 };
      const spec = specFor(roof, true);
      const same = priceCandidate(roof, regionsByDirection(roof, spec)(direction), candidate, spec);
      expect(counted.cost, `seed ${seed}`).toBeLessThanOrEqual((same?.cost ?? Infinity) + 1e-6);
    }
  });
});
