// How much counted work a search is given: less for a roof whose every candidate takes longer to score, so that a
// small roof is searched to the end and a very large one still answers in seconds.
import type { Roof } from '../roof/types';
import type { SearchSpec } from './types';

export function searchWork(roof: Roof): SearchSpec['work'] {
  const sides = roof.edges.length;
  const within = (least: number, value: number, most: number) =>
    Math.round(Math.min(most, Math.max(least, value)));
  return { scored: within(600, SIDES_SCORED / sides, 5000), priced: within(8, SIDES_PRICED / sides, 160) };
}

/** Sides of a roof looked at while scoring, and while cutting in full, candidates taken together. */
const SIDES_SCORED = 700_000;
const SIDES_PRICED = 60_000;
