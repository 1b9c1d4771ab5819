// Pipes, drains, scuppers, posts and anchors, one click each.
import type { PagePoint } from '../../../core/geometry/points';
import { nextId } from '../../document/ids';
import { distance, nearestOn, ringsOnPage } from '../../document/rings';
import { roofUnder } from '../addOpening/opening';
import { snapMarks } from '../twoPoints';
import { refuse, say, stay } from '../types';
import type { SnapMark, StateSpec, Step, ToolView } from '../types';

export interface PlacingFitting {
  readonly at: 'placeFitting.idle';
  readonly pointer: PagePoint | null;
  readonly snap: SnapMark | null;
}

/** How far from an edge a scupper may be clicked and still stand in it. */
const EDGE_REACH_PX = 24;

export const placingFitting: StateSpec<PlacingFitting> = {
  on: (state, event, view) => {
    if (!('at' in event)) return stay(state);
    const snap = view.snap({ at: event.at, keys: event.keys, placed: [], except: [] });
    const at = snap?.at ?? event.at;
    if (event.type === 'down') return place(state, at, view);
    return stay({ ...state, pointer: at, snap });
  },
  cancel: (state) => stay(state, { do: 'goTo', tool: 'select' }),
  complete: (state) => stay(state, { do: 'goTo', tool: 'select' }),
  interrupt: () => stay({ at: 'placeFitting.idle', pointer: null, snap: null }),
  show: (state, view) => ({
    hint: `Click where the ${view.options.fitting.kind} stands. Escape when all are placed.`,
    typing: null,
    cursor: 'crosshair',
    marks: snapMarks(state.snap),
  }),
};

function place(state: PlacingFitting, at: PagePoint, view: ToolView): Step {
  const { kind, size } = view.options.fitting;
  const spot = kind === 'scupper' ? onEdge(at, view) : at;
  const roof = spot ? ('roof' in spot ? spot.roof : roofUnder(at, view)) : null;
  if (!spot || !roof)
    return stay(
      state,
      refuse(
        kind === 'scupper'
          ? 'A scupper goes through a wall or parapet: click on an edge of a roof.'
          : `A ${kind} stands on a roof: click inside an outline.`,
      ),
    );
  const fitting = { id: nextId(view.job, 'f'), roof, kind, at: 'roof' in spot ? spot.at : spot, size };
  return stay(
    state,
    { do: 'run', commands: [{ kind: 'placeFitting', fitting }], label: `Place ${kind}` },
    { do: 'pick', selection: [{ kind: 'fitting', id: fitting.id, roof }] },
    say(`${kind[0]?.toUpperCase() ?? ''}${kind.slice(1)} placed.`),
  );
}

function onEdge(at: PagePoint, view: ToolView): { readonly at: PagePoint; readonly roof: string } | null {
  if (!view.page) return null;
  let best: { at: PagePoint; roof: string } | null = null;
  let nearest = EDGE_REACH_PX / view.pxPerPoint;
  for (const ring of ringsOnPage(view.job, view.page.id)) {
    if (ring.owner !== 'roof') continue;
    ring.edges.forEach((edge, k) => {
      const point = nearestOn(edge.at, ring.edges[(k + 1) % ring.edges.length]?.at ?? edge.at, at);
      const off = distance(point, at);
      if (off >= nearest) return;
      nearest = off;
      best = { at: point, roof: ring.roof };
    });
  }
  return best;
}
