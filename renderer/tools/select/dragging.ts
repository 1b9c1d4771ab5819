// Something follows the pointer: a corner, an edge, an opening, a fitting; or else the sheet itself.
import type { Command } from '../../../core/job/commands/types';
import type { PagePoint } from '../../../core/geometry/points';
import { isPicked } from '../../document/picked';
import type { Picked } from '../../document/picked';
import { distance, edgeEnds, ringOfEdge } from '../../document/rings';
import { snapMarks } from '../twoPoints';
import { sayDistance } from '../typing';
import { stay } from '../types';
import { pinMoved, pinOf } from '../endLaps';
import { moveLine, moveRoof } from './moveRoof';
import type { EndLapPlace, Keys, Mark, SnapMark, StateSpec, Step, ToolView } from '../types';

export interface SelectDragging {
  readonly at: 'select.dragging';
  readonly from: PagePoint;
  /** null: the sheet is dragged. */
  readonly over: Picked | null;
  /** The end lap as it stood when it was taken: while it moves, the laid one is a moment late. */
  readonly lap: EndLapPlace | null;
  readonly snap: SnapMark | null;
}

export const selectDragging: StateSpec<SelectDragging> = {
  on: (state, event, view) => {
    if (event.type === 'up') return letGo(state, view);
    if (event.type !== 'move') return stay(state);
    if (!state.over)
      return stay(state, {
        do: 'panBy',
        by: [event.at[0] - state.from[0], event.at[1] - state.from[1]],
      });
    if (state.lap) {
      const by: PagePoint = [event.at[0] - state.from[0], event.at[1] - state.from[1]];
      return stay(state, { do: 'preview', commands: pinMoved(state.lap, by, view) });
    }
    const drag = dragCommands(state.over, state.from, event.at, event.keys, view);
    if (!drag) return stay(state);
    return stay({ ...state, snap: drag.snap }, { do: 'preview', commands: drag.commands });
  },
  cancel: () => stay({ at: 'select.idle' }, { do: 'revert' }),
  complete: letGo,
  interrupt: () => stay({ at: 'select.idle' }, { do: 'revert' }),
  show: (state, view) => ({
    hint: state.lap
      ? 'The lap goes along its course and stays pinned. Escape puts it back.'
      : state.over
        ? 'Escape puts it back. Alt lets go of snapping.'
        : '',
    typing: null,
    cursor: state.over ? 'move' : 'grabbing',
    marks: [...snapMarks(state.snap), ...lengthsAround(state.over, view)],
  }),
};

function letGo({ lap }: SelectDragging, view: ToolView): Step {
  const picked = lap ? { selection: [pinOf(lap, view.job)] } : {};
  return stay({ at: 'select.idle' }, { do: 'commit', ...picked });
}

/** What dragging means for the thing held, from the gesture's start; null where it stays put. */
export function dragCommands(
  over: Picked,
  from: PagePoint,
  to: PagePoint,
  keys: Keys,
  view: ToolView,
): { readonly commands: readonly Command[]; readonly snap: SnapMark | null } | null {
  const { job } = view;
  const snapAt = (at: PagePoint, except: readonly string[]) => view.snap({ at, keys, placed: [], except });
  switch (over.kind) {
    case 'corner': {
      if (!job.edges[over.id]) return null;
      const snap = snapAt(to, [over.id]);
      const at = keys.shift ? lockedToSides(over.id, snap?.at ?? to, view) : (snap?.at ?? to);
      return { commands: [{ kind: 'moveCorner', edge: over.id, at }], snap };
    }
    case 'edge': {
      const ends = edgeEnds(job, over.id);
      if (!ends) return null;
      const snap = snapAt(
        to,
        ends.map((e) => e.id),
      );
      const by = sideways(ends[0].at, ends[1].at, from, snap?.at ?? to);
      return {
        commands: ends.map((end) => ({
          kind: 'moveCorner',
          edge: end.id,
          at: [end.at[0] + by[0], end.at[1] + by[1]],
        })),
        snap,
      };
    }
    case 'fitting': {
      if (!job.fittings[over.id]) return null;
      const snap = snapAt(to, []);
      return { commands: [{ kind: 'setFitting', fitting: over.id, fields: { at: snap?.at ?? to } }], snap };
    }
    case 'opening': {
      const ring = job.openings[over.id]?.ring;
      if (!ring) return null;
      return {
        commands: [{ kind: 'moveRing', edges: ring, by: [to[0] - from[0], to[1] - from[1]] }],
        snap: null,
      };
    }
    case 'roof': {
      // Only once it is picked: else a hand that means to move the sheet would move the roof.
      if (!isPicked(view.selection, over)) return null;
      const commands = moveRoof(job, over.id, [to[0] - from[0], to[1] - from[1]]);
      return commands.length === 0 ? null : { commands, snap: null };
    }
    case 'line': {
      const commands = moveLine(job, over.id, [to[0] - from[0], to[1] - from[1]]);
      return commands.length === 0 ? null : { commands, snap: null };
    }
    default:
      return null;
  }
}

/** The part of a move that is square to the edge a–b. */
function sideways(a: PagePoint, b: PagePoint, from: PagePoint, to: PagePoint): PagePoint {
  const run = distance(a, b);
  if (run === 0) return [to[0] - from[0], to[1] - from[1]];
  const [nx, ny] = [-(b[1] - a[1]) / run, (b[0] - a[0]) / run];
  const onEdge = (from[0] - a[0]) * nx + (from[1] - a[1]) * ny;
  const t = (to[0] - a[0]) * nx + (to[1] - a[1]) * ny - (Math.abs(onEdge) < 1e-9 ? 0 : onEdge);
  return [t * nx, t * ny];
}

/** With Shift a corner slides along one of its two sides. */
function lockedToSides(edge: string, at: PagePoint, view: ToolView): PagePoint {
  const ring = ringOfEdge(view.job, edge);
  const k = ring?.edges.findIndex((e) => e.id === edge) ?? -1;
  const here = ring?.edges[k];
  if (!ring || !here) return at;
  const n = ring.edges.length;
  const sides = [ring.edges[(k + 1) % n], ring.edges[(k + n - 1) % n]].flatMap((other) => {
    const run = other ? distance(here.at, other.at) : 0;
    return other && run > 0
      ? [[(other.at[0] - here.at[0]) / run, (other.at[1] - here.at[1]) / run] as const]
      : [];
  });
  const slid = sides.map(([x, y]): PagePoint => {
    const t = (at[0] - here.at[0]) * x + (at[1] - here.at[1]) * y;
    return [here.at[0] + t * x, here.at[1] + t * y];
  });
  return slid.sort((p, q) => distance(p, at) - distance(q, at))[0] ?? at;
}

/** Lengths of the sides that the drag changes. */
function lengthsAround(over: Picked | null, view: ToolView): readonly Mark[] {
  if (!over || (over.kind !== 'corner' && over.kind !== 'edge')) return [];
  const ring = ringOfEdge(view.job, over.id);
  if (!ring) return [];
  const n = ring.edges.length;
  const k = ring.edges.findIndex((e) => e.id === over.id);
  const touched = over.kind === 'corner' ? [k, k + n - 1] : [k, k + n - 1, k + 1];
  return touched.flatMap((i): readonly Mark[] => {
    const [a, b] = [ring.edges[i % n], ring.edges[(i + 1) % n]];
    if (!a || !b) return [];
    return [
      {
        kind: 'text',
        at: [(a.at[0] + b.at[0]) / 2, (a.at[1] + b.at[1]) / 2],
        text: sayDistance(distance(a.at, b.at), a.at, view),
        along: Math.atan2(b.at[1] - a.at[1], b.at[0] - a.at[0]),
      },
    ];
  });
}
