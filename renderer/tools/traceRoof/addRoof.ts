// The commands that a finished outline becomes, with the openings that were traced along with it.
import type { Command } from '../../../core/job/commands/types';
import type { PagePoint } from '../../../core/geometry/points';
import { nextId, nextIds, nextLetter } from '../../document/ids';
import { say, stay } from '../types';
import type { Step, ToolView } from '../types';
import { TRACE_START } from './idle';

export function addRoof(
  corners: readonly PagePoint[],
  view: ToolView,
  openings: readonly (readonly PagePoint[])[] = [],
): Step {
  const { job, page, options } = view;
  if (!page) return stay(TRACE_START);
  const rings = [corners, ...openings];
  const ids = nextIds(
    job,
    'e',
    rings.reduce((sum, ring) => sum + ring.length, 0),
  );
  const letter = nextLetter(job);
  const outline = ids.slice(0, corners.length);
  const edges = corners.map((at, k) => ({ id: outline[k] ?? '', at, ...options.edge }));
  const roof = {
    id: nextId(job, 'r'),
    letter,
    name: `Roof ${letter}`,
    page: page.id,
    outline,
    fall: null,
    lines: [],
    facets: [],
    deck: null,
    laying: { direction: 'auto', firstCourse: null, closing: null },
  } as const;
  const commands: Command[] = [{ kind: 'addRoof', roof, edges }];
  const openingIds = nextIds(job, 'o', openings.length);
  let used = corners.length;
  openings.forEach((ring, k) => {
    const { kind, upstand } = options.opening;
    const ringIds = ids.slice(used, used + ring.length);
    used += ring.length;
    commands.push({
      kind: 'addOpening',
      opening: { id: openingIds[k] ?? '', roof: roof.id, name: `Opening ${k + 1}`, kind, ring: ringIds },
      edges: ring.map((at, n) => ({
        id: ringIds[n] ?? '',
        at,
        kind: kind === 'courtyard' ? 'parapet' : 'curb',
        upstand,
        allowance: 0,
      })),
    });
  });
  const which = openings.length === 1 ? 'its opening' : `each of its ${openings.length} openings`;
  const assumed = openings.length > 0 ? `, and ${which} a ${options.opening.kind}` : '';
  return stay(
    TRACE_START,
    { do: 'run', commands, label: 'Trace roof' },
    { do: 'pick', selection: [{ kind: 'roof', id: roof.id, roof: roof.id }] },
    say(
      `Roof ${letter} has ${corners.length} sides, each assumed a ${options.edge.kind}${assumed}: say what they are in the tables.`,
    ),
    { do: 'goTo', tool: 'select' },
  );
}
