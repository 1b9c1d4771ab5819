// In: readable dimensions. Out: the ratios that explain them, the one that explains most first. Bare numbers are taken
// in the unit that the sheet names, or else in the unit under which most of them agree on a scale that is in use.
import { NAMED_SCALES, MM_PER_POINT } from '../units/scales';
import { MM_PER_FOOT } from '../units/lengths';
import type { Dimension, Stretch } from './dimensions';
import type { Note } from './types';

export interface Explained {
  readonly dimension: Dimension;
  readonly stretch: Stretch;
  /** mm. */
  readonly stated: number;
}

export interface Vote {
  readonly ratio: number;
  readonly explained: readonly Explained[];
}

export interface Votes {
  readonly votes: readonly Vote[];
  readonly unit: BareUnit;
  /** No note names the unit of the bare numbers, and some dimensions are bare. */
  readonly unitAssumed: boolean;
}

/** mm of a bare whole number and of a bare decimal. */
export interface BareUnit {
  readonly name: string;
  readonly whole: number;
  readonly decimal: number;
}

/** Share by which a measured length may miss a stated one. */
export const AGREES = 0.01;

export function voteOnScale(
  dimensions: readonly Dimension[],
  notes: readonly Note[],
  noted: readonly number[],
): Votes {
  const bare = dimensions.some(({ states }) => states.kind !== 'stated');
  const named = bare ? unitNamed(notes) : null;
  const units = named ? [named] : bare ? BARE_UNITS : BARE_UNITS.slice(0, 1);
  let best: { votes: Vote[]; unit: BareUnit; worth: number } | null = null;
  for (const unit of units) {
    const votes = votesUnder(dimensions, unit);
    const worth = votes[0] ? worthOf(votes[0], unit, noted) : 0;
    if (!best || worth > best.worth) best = { votes, unit, worth };
  }
  return {
    votes: best?.votes ?? [],
    unit: best?.unit ?? MILLIMETRES,
    unitAssumed: bare && named === null,
  };
}

export function explains(ratio: number, dimension: Dimension, unit: BareUnit): Explained | null {
  const stated = statedMm(dimension, unit);
  const stretch = dimension.stretches.find(
    ({ length, weight }) =>
      weight >= LEAST_WEIGHT && Math.abs((length * ratio * MM_PER_POINT) / stated - 1) <= AGREES,
  );
  return stretch ? { dimension, stretch, stated } : null;
}

/** The scale in use that a measured ratio is as good as, or the ratio itself. */
export function usualRatio(measured: number): number {
  const usual = NAMED_SCALES.filter(({ ratio }) => Math.abs(ratio / measured - 1) < SNAPS);
  usual.sort((a, b) => Math.abs(a.ratio - measured) - Math.abs(b.ratio - measured));
  return usual[0]?.ratio ?? measured;
}

const MILLIMETRES: BareUnit = { name: 'millimetres', whole: 1, decimal: 1000 };
/** In order of preference: decimals beside whole millimetres are metres. */
const BARE_UNITS: readonly BareUnit[] = [
  MILLIMETRES,
  { name: 'centimetres', whole: 10, decimal: 1000 },
  { name: 'metres', whole: 1000, decimal: 1000 },
  { name: 'feet', whole: MM_PER_FOOT, decimal: MM_PER_FOOT },
];
const PREFERENCE_STEP = 0.1;
const LEAST_WEIGHT = 0.3;
/** Two dimensions vote for one ratio when theirs differ by less than this share. */
const ONE_RATIO = 0.01;
/** From measured millimetres a usual scale is recognised within this share; else the measured figure stands. */
const SNAPS = 0.0025;

function unitNamed(notes: readonly Note[]): BareUnit | null {
  for (const { text } of notes) {
    const match = /dim\w*\b.*?\b(millimet|mm\b|centimet|cm\b|met(?:re|er)|m\b|feet|ft\b)/i.exec(text);
    const word = match?.[1]?.toLowerCase();
    if (word === undefined) continue;
    if (word.startsWith('mi') || word === 'mm') return BARE_UNITS[0] ?? null;
    if (word.startsWith('c')) return BARE_UNITS[1] ?? null;
    if (word.startsWith('f')) return BARE_UNITS[3] ?? null;
    return BARE_UNITS[2] ?? null;
  }
  return null;
}

function worthOf(vote: Vote, unit: BareUnit, noted: readonly number[]): number {
  const usual = NAMED_SCALES.some(({ ratio }) => Math.abs(ratio / vote.ratio - 1) < SNAPS) ? 1 : 0.6;
  const inUse = vote.ratio >= 15 && vote.ratio <= 1300 ? 1 : 0.4;
  const agrees = noted.some((ratio) => Math.abs(ratio / vote.ratio - 1) < AGREES) ? 1.5 : 1;
  const preferred = 1 - PREFERENCE_STEP * BARE_UNITS.findIndex(({ name }) => name === unit.name);
  return weightOf(vote) * usual * inUse * agrees * preferred;
}

/** The ratio that most of some dimensions agree on. */
export function voteAmong(dimensions: readonly Dimension[], unit: BareUnit): Vote | null {
  return dimensions.length === 0 ? null : fullestVote(dimensions, unit);
}

function votesUnder(dimensions: readonly Dimension[], unit: BareUnit): Vote[] {
  const votes: Vote[] = [];
  let left = dimensions;
  while (left.length > 0) {
    const vote = fullestVote(left, unit);
    if (!vote || (votes.length > 0 && vote.explained.length < 2)) break;
    votes.push(vote);
    const settled = new Set(vote.explained.map(({ dimension }) => dimension));
    left = left.filter((dimension) => !settled.has(dimension));
  }
  return votes;
}

interface Ballot {
  readonly ratio: number;
  readonly weight: number;
  readonly dimension: number;
}

function fullestVote(dimensions: readonly Dimension[], unit: BareUnit): Vote | null {
  const ballots: Ballot[] = dimensions.flatMap((dimension, k) =>
    dimension.stretches.map(({ length, weight }) => ({
      ratio: statedMm(dimension, unit) / length / MM_PER_POINT,
      weight,
      dimension: k,
    })),
  );
  ballots.sort((a, b) => a.ratio - b.ratio || a.dimension - b.dimension);
  let best: { from: number; to: number; weight: number } | null = null;
  let to = 0;
  for (let from = 0; from < ballots.length; from++) {
    const low = ballots[from]?.ratio ?? 0;
    while (to < ballots.length && (ballots[to]?.ratio ?? 0) <= low * (1 + ONE_RATIO)) to++;
    const most = new Map<number, number>();
    for (const { dimension, weight } of ballots.slice(from, to))
      most.set(dimension, Math.max(most.get(dimension) ?? 0, weight));
    let weight = 0;
    for (const share of most.values()) weight += share;
    if (!best || weight > best.weight + 1e-9) best = { from, to, weight };
  }
  if (!best) return null;
  const ratio = settledRatio(ballots.slice(best.from, best.to));
  const explained = dimensions.flatMap((dimension) => explains(ratio, dimension, unit) ?? []);
  return explained.length > 0 ? { ratio, explained } : null;
}

/** The weighted median; a usual scale where that is as good as one. */
function settledRatio(ballots: readonly Ballot[]): number {
  const half = ballots.reduce((sum, { weight }) => sum + weight, 0) / 2;
  let sum = 0;
  let middle = 0;
  for (const { ratio, weight } of ballots) {
    sum += weight;
    middle = ratio;
    if (sum >= half) break;
  }
  return usualRatio(middle);
}

function weightOf(vote: Vote): number {
  return vote.explained.reduce((sum, { stretch }) => sum + stretch.weight, 0);
}

function statedMm({ states }: Dimension, unit: BareUnit): number {
  return states.kind === 'stated' ? states.mm : states.value * unit[states.kind];
}
