// What is drawn on a roof beside its rings and fittings, moved along with it.
import type { PagePoint } from '../../geometry/points';
import type { JobRoof } from '../schema';

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
