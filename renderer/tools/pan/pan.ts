// Moving the sheet by hand.
import type { PagePoint } from '../../../core/geometry/points';
import { stay } from '../types';
import type { Showing, StateSpec } from '../types';

export interface PanIdle {
  readonly at: 'pan.idle';
}
export interface PanDragging {
  readonly at: 'pan.dragging';
  /** The page point that stays under the pointer. */
  readonly held: PagePoint;
}

const show = (cursor: 'grab' | 'grabbing'): Showing => ({
  hint: 'Drag to move the sheet. Escape goes back to picking.',
  typing: null,
  cursor,
  marks: [],
});

const idle: StateSpec<PanIdle> = {
  on: (state, event) => (event.type === 'down' ? stay({ at: 'pan.dragging', held: event.at }) : stay(state)),
  cancel: (state) => stay(state, { do: 'goTo', tool: 'select' }),
  complete: (state) => stay(state, { do: 'goTo', tool: 'select' }),
  interrupt: (state) => stay(state),
  show: () => show('grab'),
};

const dragging: StateSpec<PanDragging> = {
  on: (state, event) => {
    if (event.type === 'move')
      return stay(state, {
        do: 'panBy',
        by: [event.at[0] - state.held[0], event.at[1] - state.held[1]],
      });
    return event.type === 'up' ? stay({ at: 'pan.idle' }) : stay(state);
  },
  cancel: () => stay({ at: 'pan.idle' }),
  complete: () => stay({ at: 'pan.idle' }),
  interrupt: () => stay({ at: 'pan.idle' }),
  show: () => show('grabbing'),
};

export const pan = { 'pan.idle': idle, 'pan.dragging': dragging } as const;
