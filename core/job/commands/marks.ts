// What is drawn on a roof beside its rings and fittings, and what the work keeps by its place, moved along with it.
import type { PagePoint } from '../../geometry/points';
import type { Job, JobRoof } from '../schema';

export function withMarksMoved(roof: JobRoof, to: (at: PagePoint) => PagePoint): JobRoof {
  const { deck, laying } = roof;
  return {
    ...roof,
    lines: roof.lines.map((line) => ({ ...line, from: to(line.from), to: to(line.to) })),
    facets: roof.facets.map((facet) => ({ ...facet, ring: facet.ring.map(to) })),
    deck: deck?.rib ? { ...deck, rib: to(deck.rib) } : deck,
    laying: laying.pins ? { ...laying, pins: laying.pins.map(to) } : laying,
  };
}

/** Courses put on another day, and the way up; the work itself where none is on the roofs that move. */
export function withWorkMoved(
  work: Job['work'],
  moves: (roof: string) => boolean,
  to: (at: PagePoint) => PagePoint,
): Job['work'] {
  const { moved, access } = work;
  const accessMoves = access !== null && moves(access.roof);
  if (!accessMoves && !moved.some(({ roof }) => moves(roof))) return work;
  return {
    ...work,
    moved: moved.map((one) => (moves(one.roof) ? { ...one, at: to(one.at) } : one)),
    access: accessMoves ? { ...access, at: to(access.at) } : access,
  };
}
