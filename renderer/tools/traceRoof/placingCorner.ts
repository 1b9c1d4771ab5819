// Corner after corner, until the first one is clicked again or Enter closes the outline.
import type { PagePoint } from '../../../core/geometry/points';
import { nextId, nextIds, nextLetter } from '../../document/ids';
import { aim, close, marksOf, place, placeTyped, sayRing } from '../ring';
import type { Drawing } from '../ring';
import { refuse, say, stay } from '../types';
import type { StateSpec, Step, ToolView } from '../types';

export interface TraceCorner extends Drawing {
  readonly at: 'traceRoof.placingCorner';
}

export const traceCorner: StateSpec<TraceCorner> = {
  on: (state, event, view) => {
    if (event.type === 'back') return takeBack(state);
    if (event.type === 'typed') {
      const typed = placeTyped(state, event.text, view);
      return 'fault' in typed ? stay(state, refuse(typed.fault)) : put(state, typed.at, view);
    }
    if (event.type === 'double') return finish(state, view);
    if (!('at' in event)) return stay(state);
    const { next, snap } = aim(state.corners, event.at, event.keys, view);
    return event.type === 'down' ? put(state, next, view) : stay({ ...state, next, snap });
  },
  cancel: takeBack,
  complete: finish,
  interrupt: () => stay({ at: 'traceRoof.idle', snap: null }),
  show: (state, view) => ({
    hint: [
      sayRing(state, view),
      state.corners.length < 3
        ? 'Click the next corner, or type the side’s length. Shift keeps it square.'
        : 'Click the first corner or press Enter to close. Backspace takes a corner back.',
    ]
      .filter(Boolean)
      .join('. '),
    typing: 'Side length',
    cursor: 'crosshair',
    marks: marksOf(state, view),
  }),
};

function put(state: TraceCorner, at: PagePoint, view: ToolView): Step {
  const placed = place(state.corners, at, view);
  if ('fault' in placed) return stay(state, refuse(placed.fault));
  return placed.closed
    ? addRoof(placed.corners, view)
    : stay({ ...state, corners: placed.corners, snap: null });
}

function takeBack(state: TraceCorner): Step {
  return state.corners.length > 1
    ? stay({ ...state, corners: state.corners.slice(0, -1) })
    : stay({ at: 'traceRoof.idle', snap: null });
}

function finish(state: TraceCorner, view: ToolView): Step {
  const closed = close(state.corners);
  return 'fault' in closed ? stay(state, refuse(closed.fault)) : addRoof(closed.corners, view);
}

function addRoof(corners: readonly PagePoint[], view: ToolView): Step {
  const { job, page, options } = view;
  if (!page) return stay({ at: 'traceRoof.idle', snap: null });
  const ids = nextIds(job, 'e', corners.length);
  const letter = nextLetter(job);
  const edges = corners.map((at, k) => ({ id: ids[k] ?? '', at, ...options.edge }));
  const roof = {
    id: nextId(job, 'r'),
    letter,
    name: `Roof ${letter}`,
    page: page.id,
    outline: ids,
    fall: null,
    laying: { direction: 'auto', firstCourse: null, closing: null },
  } as const;
  return stay(
    { at: 'traceRoof.idle', snap: null },
    { do: 'run', commands: [{ kind: 'addRoof', roof, edges }], label: 'Trace roof' },
    { do: 'pick', selection: [{ kind: 'roof', id: roof.id, roof: roof.id }] },
    say(
      `Roof ${letter} has ${corners.length} sides, each assumed a ${options.edge.kind}: say what they are in the table of edges.`,
    ),
    { do: 'goTo', tool: 'select' },
  );
}
