// The command that an opening's finished ring becomes.
import type { PagePoint } from '../../../core/geometry/points';
import { nextId, nextIds } from '../../document/ids';
import { isInside, ringsOnPage } from '../../document/rings';
import { refuse, say, stay } from '../types';
import type { Step, ToolView } from '../types';

/** The roof on this page that a point lies in, or null. */
export function roofUnder(at: PagePoint, view: ToolView): string | null {
  if (!view.page) return null;
  const ring = ringsOnPage(view.job, view.page.id).find(
    (one) =>
      one.owner === 'roof' &&
      isInside(
        one.edges.map((e) => e.at),
        at,
      ),
  );
  return ring?.id ?? null;
}

export function addOpening(corners: readonly PagePoint[], roof: string, view: ToolView): Step {
  const { job, options } = view;
  const outside = corners.find((at) => roofUnder(at, view) !== roof);
  if (outside)
    return stay(
      { at: 'addOpening.idle', snap: null },
      refuse('A corner of the opening lies outside its roof: draw it inside the outline.'),
    );
  const ids = nextIds(job, 'e', corners.length);
  const { kind, upstand } = options.opening;
  const edges = corners.map((at, k) => ({
    id: ids[k] ?? '',
    at,
    kind: kind === 'courtyard' ? ('parapet' as const) : ('curb' as const),
    upstand,
    allowance: 0,
  }));
  const count = Object.values(job.openings).filter((one) => one.kind === kind).length;
  const name = `${kind[0]?.toUpperCase() ?? ''}${kind.slice(1)} ${count + 1}`;
  const opening = { id: nextId(job, 'o'), roof, name, kind, ring: ids };
  return stay(
    { at: 'addOpening.idle', snap: null },
    { do: 'run', commands: [{ kind: 'addOpening', opening, edges }], label: 'Add opening' },
    { do: 'pick', selection: [{ kind: 'opening', id: opening.id, roof }] },
    say(`${name} added. Draw the next one, or press Escape.`),
  );
}
