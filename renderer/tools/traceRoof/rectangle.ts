// A rectangle by three points: two ends of a side, and how far the opposite side lies.
//
//     d ┄┄┄┄┄ c   third point anywhere on the line d–c
//     │       │
//     a ───── b
import type { PagePoint } from '../../../core/geometry/points';
import { aim, marksOf, sayRing } from '../ring';
import type { Drawing } from '../ring';
import { along, readTypedSide } from '../typing';
import { refuse, stay } from '../types';
import type { StateSpec, Step, ToolView } from '../types';
import { addRoof } from './addRoof';
import { TRACE_START } from './idle';

export interface TraceRectangle extends Drawing {
  readonly at: 'traceRoof.rectangle';
}

export const traceRectangle: StateSpec<TraceRectangle> = {
  on: (state, event, view) => {
    if (event.type === 'back') return takeBack(state);
    if (event.type === 'typed') return typed(state, event.text, view);
    if (!('at' in event)) return stay(state);
    const { next, snap } = aim(state.corners, event.at, event.keys, view);
    return event.type === 'down' ? put(state, next, view) : stay({ ...state, next, snap });
  },
  cancel: takeBack,
  complete: (state) =>
    stay(state, refuse('The rectangle wants its third point: click how deep it is, or type it.')),
  interrupt: () => stay(TRACE_START),
  show: (state, view) => {
    const [a, b] = state.corners;
    const ring = a && b && state.next ? rectangleOf(a, b, state.next) : null;
    const shown: Drawing = ring
      ? { corners: ring, next: null, snap: state.snap }
      : { corners: state.corners, next: state.next, snap: state.snap };
    return {
      hint: [
        sayRing(shown, view),
        b
          ? 'Click a point on the opposite side, or type how deep the rectangle is.'
          : 'Click the other end of the side, or type its length.',
      ]
        .filter(Boolean)
        .join('. '),
      typing: b ? 'Depth' : 'Side length',
      cursor: 'crosshair',
      marks: marksOf(shown, view),
    };
  },
};

function put(state: TraceRectangle, at: PagePoint, view: ToolView): Step {
  const [a, b] = state.corners;
  if (!a || Math.hypot(at[0] - a[0], at[1] - a[1]) * view.pxPerPoint < LEAST_PX)
    return stay(state, refuse('The two ends lie on one spot: click the other end of the side.'));
  if (!b) return stay({ ...state, corners: [a, at], next: null, snap: null });
  const ring = rectangleOf(a, b, at);
  return ring
    ? addRoof(ring, view)
    : stay(state, refuse('The third point lies on the first side: click one on the opposite side.'));
}

const LEAST_PX = 4;

function typed(state: TraceRectangle, text: string, view: ToolView): Step {
  const [a, b] = state.corners;
  if (!a) return stay(state);
  const side = readTypedSide(text, a, view);
  if ('fault' in side) return stay(state, refuse(side.fault));
  if (!b) {
    const end = along(a, state.next, side);
    return end ? put(state, end, view) : stay(state, refuse('Point the way, then type the length.'));
  }
  const run = Math.hypot(b[0] - a[0], b[1] - a[1]);
  const toLeft: PagePoint = [-(b[1] - a[1]) / run, (b[0] - a[0]) / run];
  const { next } = state;
  const right = next !== null && (next[0] - a[0]) * toLeft[0] + (next[1] - a[1]) * toLeft[1] < 0;
  const deep = right ? -side.points : side.points;
  return put(state, [b[0] + toLeft[0] * deep, b[1] + toLeft[1] * deep], view);
}

/** Counter-clockwise; null where the third point gives it no depth. */
function rectangleOf(a: PagePoint, b: PagePoint, third: PagePoint): readonly PagePoint[] | null {
  const run = Math.hypot(b[0] - a[0], b[1] - a[1]);
  const [ux, uy] = [(b[0] - a[0]) / run, (b[1] - a[1]) / run];
  const deep = (third[1] - a[1]) * ux - (third[0] - a[0]) * uy;
  if (!(Math.abs(deep) > run * 1e-6)) return null;
  const off: PagePoint = [-uy * deep, ux * deep];
  const ring: readonly PagePoint[] = [a, b, [b[0] + off[0], b[1] + off[1]], [a[0] + off[0], a[1] + off[1]]];
  return deep > 0 ? ring : [...ring].reverse();
}

function takeBack(state: TraceRectangle): Step {
  return state.corners.length > 1
    ? stay({ ...state, corners: state.corners.slice(0, -1) })
    : stay({ ...TRACE_START, by: 'rectangle' });
}
