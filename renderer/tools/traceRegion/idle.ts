// One click inside a shape of the drawing proposes its outline.
import { mmPerPointAt } from '../../../core/job/pageScale';
import type { PagePoint } from '../../../core/geometry/points';
import { DEFAULT_GAP } from '../../../core/plan/traceRegion';
import type { RegionReading } from '../../../core/plan/traceRegion';
import { refuse, stay } from '../types';
import type { StateSpec, Step, ToolView } from '../types';

export interface RegionIdle {
  readonly at: 'traceRegion.idle';
  /** path: a closed path of the drawing is taken as it is. */
  readonly by: 'shape' | 'path';
}

export type RegionMode = 'shape' | 'outer' | 'path';

export const REGION_START: RegionIdle = { at: 'traceRegion.idle', by: 'shape' };

export const regionIdle: StateSpec<RegionIdle> = {
  on: (state, event, view) => {
    if (event.type === 'option' && event.option === 'path')
      return stay({ ...state, by: state.by === 'path' ? 'shape' : 'path' });
    if (event.type !== 'down') return stay(state);
    return propose(state, event.at, event.keys.shift ? 'outer' : state.by, view);
  },
  cancel: (state) => stay(state, { do: 'goTo', tool: 'select' }),
  complete: (state) => stay(state, { do: 'goTo', tool: 'select' }),
  interrupt: () => stay(REGION_START),
  show: ({ by }) => ({
    hint:
      by === 'path'
        ? 'Click inside a closed path of the drawing: it is taken as it is drawn.'
        : 'Click inside a roof of the drawing. With Shift: the outer boundary of the whole drawn part, lines inside it left out.',
    typing: null,
    cursor: 'crosshair',
    marks: [],
    options: [{ option: 'path', on: by === 'path' }],
  }),
};

/** The shape around the point, to be looked at before it is taken. */
export function propose(
  state: Step['state'],
  from: PagePoint,
  mode: RegionMode,
  view: ToolView,
  gap: number = DEFAULT_GAP,
): Step {
  if (mmPerPointAt(view.page, from) === null)
    return stay(state, refuse('The page has no scale yet: set it on the Plan stage, then trace.'));
  const reading = shapeAt(from, mode, gap, view);
  if ('refusal' in reading) return stay(state, refuse(`Nothing was traced: ${reading.refusal}.`));
  const { region } = reading;
  return stay({
    at: 'traceRegion.proposed',
    from,
    gap,
    mode,
    region,
    click: 'anew',
    typing: 'gap',
    before: null,
  });
}

export function shapeAt(from: PagePoint, mode: RegionMode, gap: number, view: ToolView): RegionReading {
  if (mode !== 'path') return view.trace(from, { gap, mode });
  const outline = view.closedPath(from);
  if (!outline) return { refusal: 'no closed path of the drawing lies round the point' };
  return { region: { outline, openings: [], closedGaps: [], smallMarks: 0, closedBy: 'drawn lines' } };
}
