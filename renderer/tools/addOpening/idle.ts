// Before the first corner of an opening.
import { aim } from '../ring';
import { snapMarks } from '../twoPoints';
import { refuse, stay } from '../types';
import type { SnapMark, StateSpec } from '../types';
import { roofUnder } from './opening';

export interface OpeningIdle {
  readonly at: 'addOpening.idle';
  readonly snap: SnapMark | null;
}

export const openingIdle: StateSpec<OpeningIdle> = {
  on: (state, event, view) => {
    if (!('at' in event)) return stay(state);
    const { next, snap } = aim([], event.at, event.keys, view);
    if (event.type !== 'down') return stay({ ...state, snap });
    const roof = roofUnder(next, view);
    if (!roof) return stay(state, refuse('An opening lies in a roof: start inside an outline.'));
    return view.options.opening.shape === 'rectangle'
      ? stay({ at: 'addOpening.placingOpposite', roof, from: next, to: null, snap: null })
      : stay({ at: 'addOpening.placingCorner', roof, corners: [next], next: null, snap: null });
  },
  cancel: (state) => stay(state, { do: 'goTo', tool: 'select' }),
  complete: (state) => stay(state, { do: 'goTo', tool: 'select' }),
  interrupt: () => stay({ at: 'addOpening.idle', snap: null }),
  show: (state, view) => ({
    hint: `Click the first corner of the ${view.options.opening.kind}, inside a roof.`,
    typing: null,
    cursor: 'crosshair',
    marks: snapMarks(state.snap),
  }),
};
