// Before the first corner of an outline.
import { aim } from '../ring';
import { snapMarks } from '../twoPoints';
import { refuse, stay } from '../types';
import type { SnapMark, StateSpec } from '../types';

export interface TraceIdle {
  readonly at: 'traceRoof.idle';
  readonly snap: SnapMark | null;
}

export const traceIdle: StateSpec<TraceIdle> = {
  on: (state, event, view) => {
    if (event.type === 'typed')
      return stay(state, refuse('Click the first corner, then type the length of the side.'));
    if (!('at' in event)) return stay(state);
    const { next, snap } = aim([], event.at, event.keys, view);
    if (event.type !== 'down') return stay({ ...state, snap });
    if (!view.page?.scale)
      return stay(state, refuse('The page has no scale yet: set it on the Plan stage, then trace.'));
    return stay({ at: 'traceRoof.placingCorner', corners: [next], next: null, snap: null });
  },
  cancel: (state) => stay(state, { do: 'goTo', tool: 'select' }),
  complete: (state) => stay(state, { do: 'goTo', tool: 'select' }),
  interrupt: () => stay({ at: 'traceRoof.idle', snap: null }),
  show: (state) => ({
    hint: 'Click the first corner of the roof. It snaps to the ends and crossings of the drawing’s lines.',
    typing: null,
    cursor: 'crosshair',
    marks: snapMarks(state.snap),
  }),
};
