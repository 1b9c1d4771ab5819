// The button is down but has not moved: it may still be a click or become a drag.
import type { PagePoint } from '../../../core/geometry/points';
import { togglePicked } from '../../document/picked';
import type { Picked } from '../../document/picked';
import { distance } from '../../document/rings';
import { stay } from '../types';
import type { Keys, StateSpec, Step, ToolView } from '../types';
import { pinMoved } from '../endLaps';
import { dragCommands } from './dragging';

export interface SelectPointing {
  readonly at: 'select.pointing';
  readonly from: PagePoint;
  readonly over: Picked | null;
  readonly keys: Keys;
}

/** A hand that trembles less than this still clicks. */
const DRAG_PX = 4;

export const selectPointing: StateSpec<SelectPointing> = {
  on: (state, event, view) => {
    if (event.type === 'move' && distance(state.from, event.at) * view.pxPerPoint >= DRAG_PX)
      return startDrag(state, event.at, event.keys, view);
    if (event.type === 'up') return click(state, view);
    return stay(state);
  },
  cancel: () => stay({ at: 'select.idle' }),
  complete: click,
  interrupt: () => stay({ at: 'select.idle' }),
  show: () => ({ hint: '', typing: null, cursor: 'default', marks: [] }),
};

function click(state: SelectPointing, view: ToolView): Step {
  const { over, keys } = state;
  if (!over) return stay({ at: 'select.idle' }, { do: 'pick', selection: keys.shift ? view.selection : [] });
  const selection = keys.shift ? togglePicked(view.selection, over) : [over];
  return stay({ at: 'select.idle' }, { do: 'pick', selection });
}

function startDrag(state: SelectPointing, to: PagePoint, keys: Keys, view: ToolView): Step {
  const { over, from } = state;
  const lap = over && view.endLap(over);
  if (over && lap)
    return stay(
      { at: 'select.dragging', from, over, lap, snap: null },
      { do: 'pick', selection: [over] },
      { do: 'begin', label: 'Move end lap' },
      { do: 'preview', commands: pinMoved(lap, [to[0] - from[0], to[1] - from[1]], view) },
    );
  const drag = over && dragCommands(over, from, to, keys, view);
  if (!over || !drag)
    return stay(
      { at: 'select.dragging', from, over: null, lap: null, snap: null },
      { do: 'panBy', by: [to[0] - from[0], to[1] - from[1]] },
    );
  return stay(
    { at: 'select.dragging', from, over, lap: null, snap: drag.snap },
    { do: 'pick', selection: [over] },
    { do: 'begin', label: `Move ${over.kind}` },
    { do: 'preview', commands: drag.commands },
  );
}
