// Setting a page right: it is shown turned and stretched, and everything drawn on it goes along, so that a roof stays on
// its walls and the scale on what it was measured by.
import {
  AS_IT_COMES,
  betweenCorrections,
  correctedPage,
  mapped,
  mappedDirection,
} from '../../plan/correction';
import type { PageMap } from '../../plan/correction';
import type { PagePoint } from '../../geometry/points';
import type { Job, JobEdge, JobFitting, JobPage, JobRoof, JobScale } from '../schema';
import { withMarksMoved, withWorkMoved } from './marks';
import { noSuch, refuse, withRecord, withRecords } from './tables';
import type { CommandHandlers } from './types';

type Changing<T> = { -readonly [K in keyof T]: T[K] };

/** Beyond this a sheet was not stretched by a copier: a length was mistyped. */
const MOST_STRETCH = 2;

export const correctionCommands: CommandHandlers<'correctPage'> = {
  correctPage: (job, { page, degrees, stretch }) => {
    const record = job.pages[page];
    if (!record) return noSuch('page', page);
    if (!Number.isFinite(degrees) || !(stretch >= 1 / MOST_STRETCH && stretch <= MOST_STRETCH))
      return refuse(
        'The sheet would measure more than twice as much one way as the other',
        'Check the two lengths and what was clicked for them',
      );
    const issued = Object.values(job.issues)
      .flatMap(({ roofs }) => roofs)
      .find(({ roof }) => job.roofs[roof]?.page === page);
    if (issued)
      return refuse(
        `The layout of “${issued.name}” was issued, and what is laid on it is known by its place`,
        'Set the sheet right before a layout is issued',
      );
    const sheet = record.correction ?? { width: record.width, height: record.height };
    const now = record.correction ?? AS_IT_COMES;
    const next = { degrees, stretch };
    const map = betweenCorrections(sheet, now, next);
    const { width, height } = correctedPage(sheet, next);
    const counted = Object.values(job.roofs).find(
      (roof) => roof.page === page && roof.laying.firstCourse !== null && turnsOver(roof, map),
    );
    if (counted)
      return refuse(
        `The courses of “${counted.name}” would be counted from its other side, and its first course was set by hand`,
        'Let go of the first course on the Sheets stage, then set the sheet right',
      );
    const corrected = moved(record, map);
    const plain = degrees === 0 && stretch === 1;
    corrected.width = plain ? sheet.width : width;
    corrected.height = plain ? sheet.height : height;
    if (plain) delete corrected.correction;
    else corrected.correction = { ...next, width: sheet.width, height: sheet.height };
    return { job: movedRoofs({ ...job, pages: withRecord(job.pages, corrected) }, page, map) };
  },
};

/** A direction that passes 0° or 180° counts its courses from the other side. */
function turnsOver({ laying: { direction } }: JobRoof, map: PageMap): boolean {
  if (direction === 'auto') return false;
  const turned = mappedDirection(map, direction);
  return turned < 0 || turned >= 180;
}

function moved(page: JobPage, map: PageMap): Changing<JobPage> {
  const ends = <T extends { readonly a: PagePoint; readonly b: PagePoint }>(length: T): T => ({
    ...length,
    a: mapped(map, length.a),
    b: mapped(map, length.b),
  });
  const withEnds = (scale: JobScale): JobScale => {
    const { from } = scale;
    if (from.by === 'length') return { ...scale, from: ends(from) };
    if (from.by === 'lengths')
      return { ...scale, from: { ...from, across: ends(from.across), up: ends(from.up) } };
    return scale;
  };
  return {
    ...page,
    scale: page.scale && withEnds(page.scale),
    checks: page.checks.map(ends),
    ...(page.regions
      ? {
          // A region keeps its size: it is drawn with air round its detail, and its sides stay level.
          regions: page.regions.map(({ low, high, scale, id }) => {
            const [x, y] = mapped(map, [(low[0] + high[0]) / 2, (low[1] + high[1]) / 2]);
            const [wide, tall] = [(high[0] - low[0]) / 2, (high[1] - low[1]) / 2];
            return {
              id,
              low: [x - wide, y - tall],
              high: [x + wide, y + tall],
              scale: withEnds(scale),
            } as const;
          }),
        }
      : {}),
  };
}

function movedRoofs(job: Job, page: string, map: PageMap): Job {
  const roofs = Object.values(job.roofs).filter((roof) => roof.page === page);
  if (roofs.length === 0) return job;
  const own = new Set(roofs.map(({ id }) => id));
  const at = <T extends { readonly at: PagePoint }>(record: T): T => ({
    ...record,
    at: mapped(map, record.at),
  });
  const rings = [
    ...roofs.flatMap(({ outline }) => outline),
    ...Object.values(job.openings).flatMap(({ roof, ring }) => (own.has(roof) ? ring : [])),
  ];
  const edges = rings.flatMap((id): JobEdge[] => (job.edges[id] ? [at(job.edges[id])] : []));
  const fittings = Object.values(job.fittings)
    .filter(({ roof }) => own.has(roof))
    .map((fitting): JobFitting => at(fitting));
  return {
    ...job,
    roofs: withRecords(
      job.roofs,
      roofs.map((roof) => movedRoof(roof, map)),
    ),
    edges: withRecords(job.edges, edges),
    fittings: withRecords(job.fittings, fittings),
    work: withWorkMoved(
      job.work,
      (roof) => own.has(roof),
      (place) => mapped(map, place),
    ),
  };
}

/** Places go along with the page, and directions turn with it. */
function movedRoof(roof: JobRoof, map: PageMap): JobRoof {
  const turned = (degrees: number, full: 180 | 360): number =>
    ((mappedDirection(map, degrees) % full) + full) % full;
  const { fall, facets, deck, laying, ...moved } = withMarksMoved(roof, (at) => mapped(map, at));
  return {
    ...moved,
    fall: fall && { ...fall, downhill: turned(fall.downhill, 360) },
    facets: facets.map((facet) => ({ ...facet, downhill: turned(facet.downhill, 360) })),
    deck: deck && { ...deck, flutes: deck.flutes === null ? null : turned(deck.flutes, 180) },
    laying: {
      ...laying,
      direction: laying.direction === 'auto' ? 'auto' : turned(laying.direction, 180),
      ...(laying.order && turnsOver(roof, map) ? { order: laying.order === 'up' ? 'down' : 'up' } : {}),
    },
  };
}
