// Before the first corner of an outline.
import { mmPerPointAt } from '../../../core/job/pageScale';
import { aim } from '../ring';
import { snapMarks } from '../twoPoints';
import { refuse, stay } from '../types';
import type { SnapMark, StateSpec } from '../types';

export interface TraceIdle {
  readonly at: 'traceRoof.idle';
  readonly snap: SnapMark | null;
  readonly by: 'corners' | 'rectangle';
}

export const TRACE_START: TraceIdle = { at: 'traceRoof.idle', snap: null, by: 'corners' };

export const traceIdle: StateSpec<TraceIdle> = {
  on: (state, event, view) => {
    if (event.type === 'option' && event.option === 'rectangle')
      return stay({ ...state, by: state.by === 'rectangle' ? 'corners' : 'rectangle' });
    if (event.type === 'typed')
      return stay(state, refuse('Click the first corner, then type the length of the side.'));
    if (!('at' in event)) return stay(state);
    const { next, snap } = aim([], event.at, event.keys, view);
    if (event.type !== 'down') return stay({ ...state, snap });
    if (mmPerPointAt(view.page, next) === null)
      return stay(state, refuse('The page has no scale yet: set it on the Plan stage, then trace.'));
    return state.by === 'rectangle'
      ? stay({ at: 'traceRoof.rectangle', corners: [next], next: null, snap: null })
      : stay({
          at: 'traceRoof.placingCorner',
          corners: [next],
          next: null,
          snap: null,
          arc: null,
          steps: [1],
        });
  },
  cancel: (state) => stay(state, { do: 'goTo', tool: 'select' }),
  complete: (state) => stay(state, { do: 'goTo', tool: 'select' }),
  interrupt: () => stay(TRACE_START),
  show: (state) => ({
    hint:
      state.by === 'rectangle'
        ? 'Click one corner of the rectangle, then the end of that side, then how deep it is.'
        : 'Click the first corner of the roof. It snaps to the ends and crossings of the drawing’s lines.',
    typing: null,
    cursor: 'crosshair',
    marks: snapMarks(state.snap),
    options: [{ option: 'rectangle', on: state.by === 'rectangle' }],
  }),
};
