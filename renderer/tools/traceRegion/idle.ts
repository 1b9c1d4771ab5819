// One click inside a shape of the drawing proposes its outline.
import type { PagePoint } from '../../../core/geometry/points';
import { DEFAULT_GAP } from '../../../core/plan/traceRegion';
import { refuse, stay } from '../types';
import type { Keys, StateSpec, Step, ToolView } from '../types';

export interface RegionIdle {
  readonly at: 'traceRegion.idle';
}

export const regionIdle: StateSpec<RegionIdle> = {
  on: (state, event, view) =>
    event.type === 'down' ? propose(state, event.at, event.keys, view) : stay(state),
  cancel: (state) => stay(state, { do: 'goTo', tool: 'select' }),
  complete: (state) => stay(state, { do: 'goTo', tool: 'select' }),
  interrupt: () => stay({ at: 'traceRegion.idle' }),
  show: () => ({
    hint: 'Click inside a roof of the drawing. With Shift: the outer boundary of the whole drawn part, lines inside it left out.',
    typing: null,
    cursor: 'crosshair',
    marks: [],
  }),
};

/** The shape around the point, to be looked at before it is taken. */
export function propose(
  state: Step['state'],
  from: PagePoint,
  keys: Pick<Keys, 'shift'>,
  view: ToolView,
  gap: number = DEFAULT_GAP,
): Step {
  if (!view.page?.scale)
    return stay(state, refuse('The page has no scale yet: set it on the Plan stage, then trace.'));
  const mode = keys.shift ? 'outer' : 'shape';
  const reading = view.trace(from, { gap, mode });
  if ('refusal' in reading) {
    const why = reading.refusal;
    return stay(state, refuse(`Nothing was traced: ${why}.`));
  }
  return stay({ at: 'traceRegion.proposed', from, gap, mode, region: reading.region });
}
