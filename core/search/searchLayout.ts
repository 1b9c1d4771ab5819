// In: a roof and what may be chosen. Out, as a generator: progress, and at the end the cheapest ways of laying found.
// Promise: candidates are cut in full in the order of their bounds until no bound is below the cheapest cost found,
// so the cheapest of all candidates is among the best; it stops by counted work, never by the clock.
import type { RoofRing } from '../geometry/points';
import { packRegion } from '../geometry/strips';
import { coveredRegion } from '../roof/coveredRegion';
import type { Roof } from '../roof/types';
import { cutRuns } from '../sheets/cutRuns';
import { frameOf, ringToFrame } from '../sheets/frame';
import { candidateDirections, criticalOffsets } from './candidates';
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
  const perDirection = Math.max(4, Math.floor(spec.work.scored / (directions.length * spec.rolls.length)));
  let best: Priced | null = null;
  let scored = 0;
  let settled = true;
  for (const direction of directions)
    for (const roll of spec.rolls) {
      const regions = regionsIn(direction);
      const cover = roll.width - spec.sideLap;
      const offsets =
        spec.pinned.firstCourse === null
          ? criticalOffsets(regions.covered, cover, spec.sideLap, perDirection)
          : [spec.pinned.firstCourse];
      if (offsets.length >= perDirection) settled = false;
      for (const firstCourse of offsets) {
        const { bound } = scoreLayout(regions, roll, firstCourse, spec);
        candidates.push({ roll, rules: { direction, firstCourse }, bound });
        if (++scored % REPORT_EVERY === 0) yield { scored, priced: 0, best };
      }
    }

  candidates.sort(
    (a, b) =>
      a.bound - b.bound || a.rules.direction - b.rules.direction || b.rules.firstCourse - a.rules.firstCourse,
  );
  const found: Priced[] = [];
  for (const candidate of candidates) {
    if (best && candidate.bound >= best.cost) break;
    if (found.length >= spec.work.priced) {
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
    skipped: candidates.length - found.length,
    priced: found.length,
    settled,
  };
}

/** Cuts a candidate in full; null where the rules leave no way to cut it. */
export function priceCandidate(regions: Regions, candidate: Candidate, spec: SearchSpec): Priced | null {
  const { roll, rules } = candidate;
  const scored = scoreLayout(regions, roll, rules.firstCourse, spec);
  const joint = spec.money && spec.money.perJoint + (roll.width / 1000) * spec.money.weldPerM;
  const cuts = cutRuns(scored.runs, roll, spec.lap, joint === null ? null : { roll: roll.cost, joint });
  if ('fault' in cuts) return null;
  const { rolls, joints, lowerBound } = cuts;
  const endMetres = (joints * roll.width) / 1000;
  const laying = { roll, rolls, joints, sideMetres: scored.sideMetres, endMetres, area: regions.area };
  return {
    ...candidate,
    cost: layCost(laying, spec),
    rolls,
    lowerBound,
    joints,
    sideMetres: scored.sideMetres,
    endMetres,
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
      other.rules.direction === priced.rules.direction && other.roll === priced.roll;
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
