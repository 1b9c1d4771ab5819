// In: a roof and what may be chosen. Out, as a generator: progress, and at the end the cheapest ways of laying found.
// Promise: candidates are cut in full in the order of their bounds until no bound is below the cheapest cost found,
// so the cheapest of all candidates is among the best; it stops by counted work, never by the clock.
import type { RoofRing } from '../geometry/points';
import { packRegion } from '../geometry/strips';
import { jointCost } from '../price/layMoney';
import { coveredRegion } from '../roof/coveredRegion';
import type { Roof } from '../roof/types';
import { cutCourses } from '../sheets/cutCourses';
import { frameOf, ringToFrame } from '../sheets/frame';
import { autoDirections } from '../sheets/layRoof';
import type { Closing, RollProduct } from '../sheets/types';
import { apart, candidateDirections, criticalOffsets } from './candidates';
import { layCost, scoreLayout, type Regions } from './scoreLayout';
import type { Candidate, Priced, SearchReport, SearchSpec } from './types';

export interface SearchProgress {
  readonly scored: number;
  readonly priced: number;
  readonly best: Priced | null;
}

/** How many of the best are reported. */
const BEST_KEPT = 5;
/** Scored between two reports of progress. */
const REPORT_EVERY = 64;

export function* searchLayout(roof: Roof, spec: SearchSpec): Generator<SearchProgress, SearchReport, void> {
  const regionsIn = regionsByDirection(roof);
  const directions = spec.pinned.direction === null ? candidateDirections(roof) : [spec.pinned.direction];
  const candidates: Candidate[] = [];
  const fields = spec.rolls.filter((roll) => spec.field === null || roll.id === spec.field);
  const ways = fields.reduce((sum, roll) => sum + closingsFor(roll, spec).length, 0);
  const perWay = Math.max(2, Math.floor(spec.work.scored / (directions.length * ways)));
  const found: Priced[] = [];
  let best: Priced | null = null;
  let scored = 0;
  let settled = true;
  // The plain ways first: an answer at once for a person who stops the search, and one that no answer is worse than.
  for (const candidate of plainCandidates(roof, fields, spec)) {
    const priced = priceCandidate(regionsIn(candidate.rules.direction), candidate, spec);
    if (!priced) continue;
    found.push(priced);
    if (!best || priced.cost < best.cost) best = priced;
    yield { scored, priced: found.length, best };
  }
  for (const direction of directions)
    for (const roll of fields) {
      const regions = regionsIn(direction);
      const cover = roll.width - spec.sideLap;
      const offsets =
        spec.pinned.firstCourse === null
          ? criticalOffsets(regions.covered, cover, spec.sideLap, perWay)
          : [spec.pinned.firstCourse];
      if (spec.pinned.firstCourse === null && offsets.length >= perWay) settled = false;
      for (const firstCourse of offsets)
        for (const closing of closingsFor(roll, spec)) {
          const score = scoreLayout(regions, roll, closing, firstCourse, spec);
          scored++;
          const last = score.courses[score.courses.length - 1];
          // Where the closing sheet is too narrow the last course is whole, and that candidate is there already.
          if (closing && last?.roll === roll.id && last.lanes === 1) continue;
          const candidate = { roll, closing, rules: { direction, firstCourse }, bound: score.bound };
          candidates.push(candidate);
          if (scored % REPORT_EVERY === 0) yield { scored, priced: found.length, best };
        }
    }

  candidates.sort(
    (a, b) =>
      a.bound - b.bound || a.rules.direction - b.rules.direction || b.rules.firstCourse - a.rules.firstCourse,
  );
  const plain = found.length;
  for (const candidate of candidates) {
    if (best && candidate.bound >= best.cost) break;
    if (found.length - plain >= spec.work.priced) {
      settled = false;
      break;
    }
    const priced = priceCandidate(regionsIn(candidate.rules.direction), candidate, spec);
    if (!priced) continue;
    found.push(priced);
    if (!best || priced.cost < best.cost) best = priced;
    yield { scored, priced: found.length, best };
  }
  return {
    best: bestOf(found),
    byDirection: costByDirection(directions, candidates, found),
    scored,
    skipped: candidates.length - (found.length - plain),
    priced: found.length,
    settled,
  };
}

/** Along the longest edge and across it from the low edge, or as pinned; the bound is not needed. */
function plainCandidates(roof: Roof, fields: readonly RollProduct[], { pinned }: SearchSpec): Candidate[] {
  const directions = pinned.direction === null ? autoDirections(roof) : [pinned.direction];
  return directions.flatMap((direction) =>
    fields.map((roll) => ({
      roll,
      closing: null,
      rules: { direction, firstCourse: pinned.firstCourse ?? 0 },
      bound: 0,
    })),
  );
}

/** A whole last sheet, a narrower roll, or lanes of the same roll. */
function closingsFor(roll: RollProduct, spec: SearchSpec): readonly (Closing | null)[] {
  const narrow = spec.rolls
    .filter((other) => other.width < roll.width && other.width > spec.sideLap)
    .map((other): Closing => ({ kind: 'narrow', roll: other }));
  const lanes = spec.rip === 'allowed' ? LANES.filter((n) => roll.width / n > 2 * spec.sideLap) : [];
  return [null, ...narrow, ...lanes.map((n): Closing => ({ kind: 'rip', lanes: n }))];
}

/** Numbers of lanes a roll is slit into. */
const LANES = [2, 3, 4] as const;

/** Cuts a candidate in full; null where the rules leave no way to cut it. */
export function priceCandidate(regions: Regions, candidate: Candidate, spec: SearchSpec): Priced | null {
  const { roll, closing, rules } = candidate;
  const { courses, runs, sideMetres } = scoreLayout(regions, roll, closing, rules.firstCourse, spec);
  const joint = spec.money && jointCost(spec.money, roll.width);
  const cuts = cutCourses({ courses, runs, roll, closing, lap: spec.lap, joint });
  if ('fault' in cuts) return null;
  const { products, joints } = cuts;
  return {
    ...candidate,
    cost: layCost({ products, joints, sideMetres, area: regions.area }, spec),
    rolls: products.reduce((sum, { count }) => sum + count, 0),
    lowerBound: products.reduce((sum, product) => sum + product.lowerBound, 0),
    joints,
    area: products.reduce(
      (sum, product) => sum + product.count * product.roll.width * product.roll.length,
      0,
    ),
    sideMetres,
  };
}

/** The roof's regions turned into a direction, made once for each. */
export function regionsByDirection(roof: Roof): (direction: number) => Regions {
  const own = [roof.outline, ...roof.openings.map((o) => o.ring)];
  const covered = coveredRegion(roof);
  const known = new Map<number, Regions>();
  return (direction) => {
    const before = known.get(direction);
    if (before) return before;
    const frame = frameOf(direction);
    const turn = (rings: readonly RoofRing[]) => packRegion(rings.map((ring) => ringToFrame(frame, ring)));
    const regions = { roof: turn(own), covered: turn(covered), area: roof.area };
    known.set(direction, regions);
    return regions;
  };
}

function bestOf(found: readonly Priced[]): Priced[] {
  const kept: Priced[] = [];
  for (const priced of [...found].sort((a, b) => a.cost - b.cost)) {
    const same = (other: Priced) =>
      apart(other.rules.direction, priced.rules.direction) < 1 && other.roll === priced.roll;
    if (kept.length < BEST_KEPT && !kept.some(same)) kept.push(priced);
  }
  return kept;
}

function costByDirection(
  directions: readonly number[],
  candidates: readonly Candidate[],
  found: readonly Priced[],
): SearchReport['byDirection'] {
  const least = (costs: readonly number[]) => costs.reduce((a, b) => Math.min(a, b), Infinity);
  return [...directions]
    .sort((a, b) => a - b)
    .map((direction) => {
      const priced = least(found.filter((p) => p.rules.direction === direction).map((p) => p.cost));
      const bound = least(candidates.filter((c) => c.rules.direction === direction).map((c) => c.bound));
      return {
        direction,
        cost: Math.min(priced, Number.isFinite(priced) ? priced : bound),
        exact: Number.isFinite(priced),
      };
    })
    .filter(({ cost }) => Number.isFinite(cost));
}
