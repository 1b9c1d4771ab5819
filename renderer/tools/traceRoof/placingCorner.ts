// Corner after corner, until the first one is clicked again or Enter closes the outline.
import type { PagePoint } from '../../../core/geometry/points';
import { flattenArc } from '../../../core/plan/arc';
import { aim, close, marksOf, place, placeTyped, sayRing } from '../ring';
import type { Drawing } from '../ring';
import { refuse, say, stay } from '../types';
import type { StateSpec, Step, ToolView } from '../types';
import { addRoof } from './addRoof';
import { TRACE_START } from './idle';

export interface TraceCorner extends Drawing {
  readonly at: 'traceRoof.placingCorner';
  /** An arc in the making: the point it goes through, or null while that is to come. */
  readonly arc: { readonly through: PagePoint | null } | null;
  /** Corners that each step so far has placed: an arc many, and Backspace takes all of them back. */
  readonly steps: readonly number[];
}

export const traceCorner: StateSpec<TraceCorner> = {
  on: (state, event, view) => {
    if (event.type === 'back') return takeBack(state);
    if (event.type === 'option' && event.option === 'arc')
      return stay({ ...state, arc: state.arc ? null : { through: null } });
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
  interrupt: () => stay(TRACE_START),
  show: (state, view) => ({
    hint: [
      sayRing(shown(state), view),
      state.arc
        ? state.arc.through
          ? 'Click where the arc ends.'
          : 'Click a point that the arc goes through.'
        : state.corners.length < 3
          ? 'Click the next corner, or type the side’s length. Shift keeps it square.'
          : 'Click the first corner or press Enter to close. Backspace takes a corner back.',
    ]
      .filter(Boolean)
      .join('. '),
    typing: 'Side length',
    cursor: 'crosshair',
    marks: marksOf(shown(state), view),
    options: [{ option: 'arc', on: state.arc !== null }],
  }),
};

/** `FLATNESS_POINTS` in the words of a person. */
const FLATNESS_ON_PAPER = '0.05 mm';

function put(state: TraceCorner, at: PagePoint, view: ToolView): Step {
  if (state.arc) return putOnArc(state, state.arc.through, at, view);
  const placed = place(state.corners, at, view);
  if ('fault' in placed) return stay(state, refuse(placed.fault));
  return placed.closed
    ? addRoof(placed.corners, view)
    : stay({
        ...state,
        corners: placed.corners,
        snap: null,
        steps: [...state.steps, placed.corners.length - state.corners.length],
      });
}

/** The ring with the arc in the making as it would be. */
function shown(state: TraceCorner): Drawing {
  const { arc, next, corners } = state;
  const start = corners.at(-1);
  const bow = arc?.through && next && start ? flattenArc(start, arc.through, next) : null;
  return bow ? { ...state, corners: [...corners, ...bow.slice(0, -1)] } : state;
}

function putOnArc(state: TraceCorner, through: PagePoint | null, at: PagePoint, view: ToolView): Step {
  if (!through) return stay({ ...state, arc: { through: at }, snap: null });
  const start = state.corners.at(-1);
  const bow = start && flattenArc(start, through, at);
  if (!bow)
    return stay(
      state,
      refuse('The three points lie in line: click the arc’s end beside the line, or leave the arc.'),
    );
  const [first] = state.corners;
  const closes = first && Math.hypot(at[0] - first[0], at[1] - first[1]) * view.pxPerPoint < 1;
  const corners = [...state.corners, ...(closes ? bow.slice(0, -1) : bow)];
  const told = say(
    `The arc stands as ${bow.length} straight sides, none further than ${FLATNESS_ON_PAPER} on paper from it.`,
  );
  if (closes) return finish({ ...state, corners, arc: null }, view);
  const steps = [...state.steps, bow.length];
  return stay({ ...state, corners, arc: null, next: null, snap: null, steps }, told);
}

function takeBack(state: TraceCorner): Step {
  const { arc, corners, steps } = state;
  if (arc) return stay({ ...state, arc: arc.through ? { through: null } : null });
  const left = corners.length - (steps.at(-1) ?? 1);
  return left > 0
    ? stay({ ...state, corners: corners.slice(0, left), steps: steps.slice(0, -1) })
    : stay(TRACE_START);
}

function finish(state: TraceCorner, view: ToolView): Step {
  const closed = close(state.corners);
  return 'fault' in closed ? stay(state, refuse(closed.fault)) : addRoof(closed.corners, view);
}
