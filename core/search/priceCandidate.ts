// In: a candidate and its roof. Out: what it costs when it is cut in full, or null where the rules leave no way to cut
// it or none below a limit. Promise: the same money as its bound, so that the two can be compared.
import { profileOf } from '../geometry/profile';
import { ringHolds } from '../geometry/ring';
import { jointCost } from '../price/layMoney';
import type { Roof } from '../roof/types';
import { placeBands } from '../sheets/bands';
import { cutBands } from '../sheets/cutBands';
import { ringToFrame, toFrame } from '../sheets/frame';
import { turnBands } from '../sheets/layBands';
import { offcutCredit } from './offcutCredit';
import { drainsOn, layCost, scoreLayout, worthBelow, type Regions } from './scoreLayout';
import type { Candidate, Priced, SearchSpec } from './types';

/** Cuts a candidate in full; null where the rules leave no way to cut it, or where that is seen to cost no less than the
 * limit. */
export function priceCandidate(
  roof: Roof,
  regions: Regions,
  candidate: Omit<Candidate, 'broken'>,
  spec: SearchSpec,
  limit = Infinity,
): Priced | null {
  const { roll, closing, rules } = candidate;
  const { laid, sideMetres, targets, broken } = scoreLayout(regions, roll, closing, rules.firstCourse, spec);
  const { area } = regions;
  const joint = spec.money && jointCost(spec.money, roll.width);
  const cuts = cutBands({
    roof,
    bands: regions.bands.map(({ band }) => band),
    laid,
    roll,
    rolls: spec.rolls,
    closing,
    lap: spec.lap,
    joint,
    trade: spec.trade,
    effort: spec.flashings ? 'search offcuts' : 'search',
    worth: worthBelow(limit, { laid, roll, sideMetres, area, targets }, spec),
  });
  if ('fault' in cuts) return null;
  const { products, joints } = cuts;
  const saved = offcutCredit(cuts, spec, targets);
  return {
    ...candidate,
    broken,
    cost: layCost({ products, joints, sideMetres, area, targets }, spec) - saved,
    saved,
    rolls: products.reduce((sum, { count }) => sum + count, 0),
    lowerBound: products.reduce((sum, product) => sum + product.lowerBound, 0),
    joints,
    area: products.reduce(
      (sum, product) => sum + product.count * product.roll.width * product.roll.length,
      0,
    ),
    sideMetres,
    targets: targets.length,
  };
}

/** The roof's bands turned into a direction, made once for each. */
export function regionsByDirection(
  roof: Roof,
  { sideLap, trade }: Pick<SearchSpec, 'sideLap' | 'trade'>,
): (direction: number) => Regions {
  const places = placeBands(roof, sideLap);
  const drains = trade.off.includes('drain-clear') ? [] : roof.fittings.filter((f) => f.kind === 'drain');
  const known = new Map<number, Regions>();
  return (direction) => {
    const before = known.get(direction);
    if (before) return before;
    const bands = turnBands(roof, places, direction, { sideLap, trade });
    const regions = {
      bands,
      grounds: bands.map(({ band }) => profileOf(band.ground.map((ring) => ringToFrame(band.frame, ring)))),
      drains: bands.map(({ band }) =>
        drainsOn(
          drains
            .filter(({ at }) => band.ground.filter((ring) => ringHolds(ring, at)).length % 2 === 1)
            .map((drain) => ({ ...drain, v: toFrame(band.frame, drain.at)[1] })),
        ),
      ),
      area: roof.area,
    };
    known.set(direction, regions);
    return regions;
  };
}
