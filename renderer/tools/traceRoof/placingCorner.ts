// Corner after corner, until the first one is clicked again or Enter closes the outline.
import type { PagePoint } from '../../../core/geometry/points';
import { aim, close, marksOf, place, placeTyped, sayRing } from '../ring';
import type { Drawing } from '../ring';
import { refuse, stay } from '../types';
import type { StateSpec, Step, ToolView } from '../types';
import { addRoof } from './addRoof';

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
