// In: a roof and what may be chosen. Out, as a generator: progress, and at the end the cheapest ways of laying found.
// Promise: candidates are cut in full in the order of their bounds until no bound is below the cheapest cost found,
// so the cheapest of all candidates is among the best; it stops by counted work, never by the clock.
import type { Roof } from '../roof/types';
import { isRow } from '../sheets/bands';
import { clearOffsets } from '../sheets/layCourses';
import { autoDirections, decksDirection } from '../sheets/layRoof';
import type { Closing, Course, RollProduct } from '../sheets/types';
import { apart, candidateDirections, criticalOffsets } from './candidates';
import { priceCandidate, regionsByDirection } from './priceCandidate';
import { rollMoney, scoreLayout, type Regions } from './scoreLayout';
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
  const hunt = new Hunt(roof, spec);
  yield* hunt.plain();
  yield* hunt.look(hunt.directions, spec.work.scored);
  yield* hunt.settle(spec.work.priced);
  // Closer round the best direction found, for roofs whose edges point everywhere, and at more offsets in the best of
  // all; work for it is counted apart.
  const free = spec.pinned.direction === null && decksDirection(roof, spec.trade) === null;
  for (const step of free ? CLOSER_DEG : []) {
    yield* hunt.look(hunt.closer(step), spec.work.scored / CLOSER_SHARE);
    yield* hunt.settle(spec.work.priced / CLOSER_SHARE);
  }
  yield* hunt.look(hunt.bestDirections(), spec.work.scored / CLOSER_SHARE);
  yield* hunt.settle(spec.work.priced / CLOSER_SHARE);
  return hunt.report();
}

/** Every so manieth offset is looked at first, then every so manieth, then the others. */
const FIRST_LOOK = 8;
const SECOND_LOOK = 2;

function inLooks<T>(list: readonly T[]): readonly (readonly T[])[] {
  return [
    list.filter((_, i) => i % FIRST_LOOK === 0),
    list.filter((_, i) => i % FIRST_LOOK !== 0 && i % SECOND_LOOK === 0),
    list.filter((_, i) => i % SECOND_LOOK !== 0),
  ];
}

/** Steps to either side of the best direction, degrees, one after the other. */
const CLOSER_DEG = [2, 1, 0.5] as const;
/** How many of the best directions are looked at again. */
const BEST_AGAIN = 2;
/** The share of the counted work that each closer look takes. */
const CLOSER_SHARE = 6;

/** What a search has seen so far. */
class Hunt {
  readonly directions: readonly number[];
  private readonly fields: readonly RollProduct[];
  private readonly ways: number;
  private readonly regionsIn: (direction: number) => Regions;
  /** By direction the offsets that were looked at, for each roll. */
  private readonly looked = new Map<number, Map<string, Set<number>>>();
  private readonly seen: Candidate[] = [];
  private open: Candidate[] = [];
  private readonly found: Priced[] = [];
  /** The cheapest found by direction and roll: no other of these is reported. */
  private readonly bestIn = new Map<string, Priced>();
  private cut = 0;
  private best: Priced | null = null;
  private scored = 0;
  private skipped = 0;
  private settled = true;

  constructor(
    private readonly roof: Roof,
    private readonly spec: SearchSpec,
  ) {
    this.regionsIn = regionsByDirection(roof, spec);
    this.directions =
      spec.pinned.direction === null ? candidateDirections(roof, spec.trade) : [spec.pinned.direction];
    this.fields = spec.rolls.filter((roll) => spec.field === null || roll.id === spec.field);
    this.ways = this.fields.reduce((sum, roll) => sum + closingsFor(roll, spec).length, 0);
  }

  /** The plain ways first: an answer at once for a person who stops, and one that no answer is dearer than. */
  *plain(): Generator<SearchProgress, void> {
    for (const candidate of plainCandidates(this.roof, this.fields, this.spec)) {
      this.price(candidate);
      yield this.progress();
    }
  }

  /** Scores directions at offsets that were not looked at before. Where a few of them all cost more for certain than
   * the best that is known, and by more than a roll, or half of them more at all, the rest of that direction is left. */
  *look(directions: readonly number[], work: number): Generator<SearchProgress, void> {
    const perWay = Math.max(2, Math.floor(work / (directions.length * this.ways)));
    for (const direction of directions) {
      const before = this.looked.get(direction) ?? new Map<string, Set<number>>();
      this.looked.set(direction, before);
      for (const roll of this.fields) {
        const seen = before.get(roll.id) ?? new Set<number>();
        before.set(roll.id, seen);
        const fresh = this.offsets(this.regionsIn(direction), roll, perWay + seen.size).filter(
          (offset) => !seen.has(offset),
        );
        const from = this.seen.length;
        let margin = rollMoney(roll, this.spec);
        for (const share of inLooks(fresh)) {
          for (const firstCourse of share) {
            seen.add(firstCourse);
            yield* this.score(direction, roll, firstCourse);
          }
          yield* this.keepsMore(from);
          const { best } = this;
          if (best && !this.seen.slice(from).some((candidate) => mayBeat(candidate, best, margin))) break;
          margin = 0;
        }
      }
    }
  }

  /** Of the candidates from one on the first is cut at once where it breaks fewer rules than the best that is known: as
   * long as that breaks more, nothing else is left out for its cost. */
  private *keepsMore(from: number): Generator<SearchProgress, void> {
    const [first] = this.seen.slice(from).sort(byBound);
    if (!first || !this.best || first.broken >= this.best.broken) return;
    this.open = this.open.filter((candidate) => candidate !== first);
    this.price(first);
    yield this.progress();
  }

  private *score(direction: number, roll: RollProduct, firstCourse: number): Generator<SearchProgress, void> {
    const { spec } = this;
    for (const closing of closingsFor(roll, spec)) {
      const score = scoreLayout(this.regionsIn(direction), roll, closing, firstCourse, spec);
      if (++this.scored % REPORT_EVERY === 0) yield this.progress();
      // Where the closing sheet is too narrow the last course is whole, and that candidate is there already.
      if (closing && !spec.pinned.closings && !closes(score.laid.courses, roll)) continue;
      const { broken, bound } = score;
      const candidate = { roll, closing, rules: { direction, firstCourse }, broken, bound };
      this.open.push(candidate);
      this.seen.push(candidate);
    }
  }

  /** Cuts what is open in full, in the order of its bounds, until no bound is below the best. */
  *settle(work: number): Generator<SearchProgress, void> {
    this.open.sort(byBound);
    let priced = 0;
    for (const candidate of this.open) {
      if (this.best && !mayBeat(candidate, this.best)) break;
      if (priced >= work) {
        this.settled = false;
        break;
      }
      this.price(candidate);
      priced++;
      yield this.progress();
    }
    this.skipped += this.open.length - priced;
    this.open = [];
  }

  closer(step: number): readonly number[] {
    const middle = this.best?.rules.direction ?? 0;
    return [middle - step, middle + step]
      .map((direction) => (direction + 180) % 180)
      .filter((direction) => !this.looked.has(direction));
  }

  bestDirections(): readonly number[] {
    return [...new Set(cheapestFirst(this.found).map(({ rules }) => rules.direction))].slice(0, BEST_AGAIN);
  }

  report(): SearchReport {
    return {
      best: bestOf(this.found),
      byDirection: costByDirection([...this.looked.keys()], this.seen, this.found),
      scored: this.scored,
      skipped: this.skipped,
      priced: this.cut,
      settled: this.settled,
      boundKnows: BOUND_KNOWS,
    };
  }

  private offsets(regions: Regions, roll: RollProduct, most: number): readonly number[] {
    const { pinned, sideLap } = this.spec;
    if (pinned.firstCourse !== null) return [pinned.firstCourse];
    const [first] = regions.bands;
    if (!first) return [];
    const offsets = criticalOffsets(first.packed, roll.width - sideLap, sideLap, most);
    if (offsets.length >= most) this.settled = false;
    const clear = clearOffsets(first.packed.v, roll.width, sideLap, first.keep);
    const every = Math.ceil(clear.length / CLEAR_TRIED);
    return [...new Set([...clear.filter((_, i) => i % every === 0), ...offsets])].slice(0, most);
  }

  private price(candidate: Candidate): void {
    const { direction } = candidate.rules;
    const key = `${direction}/${candidate.roll.id}`;
    const own = this.bestIn.get(key);
    const limit = own && own.broken <= candidate.broken ? own.cost : Infinity;
    this.cut++;
    const priced = priceCandidate(this.roof, this.regionsIn(direction), candidate, this.spec, limit);
    if (!priced) return;
    this.found.push(priced);
    if (!own || beats(priced, own)) this.bestIn.set(key, priced);
    if (!this.best || beats(priced, this.best)) this.best = priced;
  }

  private progress(): SearchProgress {
    return { scored: this.scored, priced: this.cut, best: this.best };
  }
}

/** Deterministic to the last: ties go to the smaller angle, then to the offset nearer 0. */
function byBound(a: Candidate, b: Candidate): number {
  return (
    a.broken - b.broken ||
    a.bound - b.bound ||
    a.rules.direction - b.rules.direction ||
    b.rules.firstCourse - a.rules.firstCourse
  );
}

/** Fewer broken rules first, then money. */
const beats = (a: Priced, b: Priced) => (a.broken === b.broken ? a.cost < b.cost : a.broken < b.broken);

/** By its bound, or but for a margin of money. */
const mayBeat = (candidate: Candidate, best: Priced, margin = 0) =>
  candidate.broken === best.broken ? candidate.bound < best.cost + margin : candidate.broken < best.broken;

/** Of the offsets at which some lap just keeps clear so many are tried in each direction. */
const CLEAR_TRIED = 12;

const BOUND_KNOWS =
  'side and end laps, joints that long runs and few rolls force, rows along edges, widened laps, target sheets at side laps';

/** Whether some course is cut from other than whole sheets of the field. */
const closes = (courses: readonly Course[], roll: RollProduct) =>
  courses.some((course) => !isRow(course) && (course.roll !== roll.id || course.lanes > 1));

/** Along the longest edge and across it from the low edge, each as far as it is not pinned; the bound is not needed. */
function plainCandidates(
  roof: Roof,
  fields: readonly RollProduct[],
  { pinned, trade }: SearchSpec,
): Candidate[] {
  const directions = pinned.direction === null ? autoDirections(roof, trade) : [pinned.direction];
  return directions.flatMap((direction) =>
    fields.map((roll) => ({
      roll,
      closing: pinned.closings?.[0] ?? null,
      rules: { direction, firstCourse: pinned.firstCourse ?? 0 },
      broken: 0,
      bound: 0,
    })),
  );
}

/** A whole last sheet, a narrower roll, or lanes of the same roll. */
function closingsFor(roll: RollProduct, spec: SearchSpec): readonly (Closing | null)[] {
  if (spec.pinned.closings) return spec.pinned.closings;
  const narrow = spec.rolls
    .filter((other) => other.width < roll.width && other.width > spec.sideLap)
    .map((other): Closing => ({ kind: 'narrow', roll: other }));
  const lanes = spec.rip === 'allowed' ? LANES.filter((n) => roll.width / n > 2 * spec.sideLap) : [];
  return [null, ...narrow, ...lanes.map((n): Closing => ({ kind: 'rip', lanes: n }))];
}

/** Numbers of lanes a roll is slit into. */
const LANES = [2, 3, 4] as const;

/** After what breaks fewer rules. */
const cheapestFirst = (found: readonly Priced[]) =>
  [...found].sort((a, b) => a.broken - b.broken || a.cost - b.cost);

function bestOf(found: readonly Priced[]): Priced[] {
  const kept: Priced[] = [];
  for (const priced of cheapestFirst(found)) {
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
