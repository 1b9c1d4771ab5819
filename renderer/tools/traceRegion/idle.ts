// One click inside a shape of the drawing proposes its outline.
import { mmPerPointAt } from '../../../core/job/pageScale';
import type { PagePoint } from '../../../core/geometry/points';
import { DEFAULT_GAP } from '../../../core/plan/traceRegion';
import type { RegionReading } from '../../../core/plan/traceRegion';
import { parseLength } from '../../../core/units/lengths';
import { sayDistance } from '../typing';
import { refuse, stay } from '../types';
import type { StateSpec, Step, ToolView } from '../types';

export interface RegionIdle {
  readonly at: 'traceRegion.idle';
  /** path: a closed path of the drawing is taken as it is. */
  readonly by: 'shape' | 'path';
  /** Where nothing closed, and how it was asked for: a typed gap tries there again. */
  readonly tried: { readonly from: PagePoint; readonly mode: RegionMode } | null;
}

export type RegionMode = 'shape' | 'outer' | 'path';

export const REGION_START: RegionIdle = { at: 'traceRegion.idle', by: 'shape', tried: null };

export const regionIdle: StateSpec<RegionIdle> = {
  on: (state, event, view) => {
    if (event.type === 'option' && event.option === 'path')
      return stay({ ...state, by: state.by === 'path' ? 'shape' : 'path' });
    if (event.type === 'typed' && state.tried) return widen(state, state.tried, event.text, view);
    if (event.type !== 'down') return stay(state);
    return propose(state, event.at, event.keys.shift ? 'outer' : state.by, view);
  },
  cancel: (state) => stay(state, { do: 'goTo', tool: 'select' }),
  complete: (state) => stay(state, { do: 'goTo', tool: 'select' }),
  interrupt: () => stay(REGION_START),
  show: ({ by, tried }) => ({
    hint:
      by === 'path'
        ? 'Click inside a closed path of the drawing: it is taken as it is drawn.'
        : 'Click inside a roof of the drawing. With Shift: the outer boundary of the whole drawn part, lines inside it left out.',
    typing: tried ? 'Widest gap' : null,
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
  if ('refusal' in reading) {
    const { refusal, closesWith } = reading;
    const idle = state.at === 'traceRegion.idle' ? { ...state, tried: { from, mode } } : state;
    const wider =
      closesWith === undefined
        ? ''
        : ` It closes with gaps of ${sayDistance(closesWith, from, view)}: type that.`;
    return stay(idle, refuse(`Nothing was traced: ${refusal}.${wider}`));
  }
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

/** The shape there with a typed gap. */
export function widen(
  state: Step['state'],
  { from, mode }: { readonly from: PagePoint; readonly mode: RegionMode },
  text: string,
  view: ToolView,
): Step {
  const points = readPoints(text, from, view);
  if ('fault' in points) return stay(state, refuse(points.fault));
  return propose(state, from, mode, view, points.points);
}

/** A typed length in points of the page. */
export function readPoints(
  text: string,
  at: PagePoint,
  view: ToolView,
): { readonly points: number } | { readonly fault: string } {
  const mmPerPoint = mmPerPointAt(view.page, at);
  if (!mmPerPoint) return { fault: 'The page has no scale yet: set it on the Plan stage first.' };
  const parsed = parseLength(text, view.job.display);
  return 'fault' in parsed ? parsed : { points: parsed.mm / mmPerPoint };
}

export function shapeAt(from: PagePoint, mode: RegionMode, gap: number, view: ToolView): RegionReading {
  if (mode !== 'path') return view.trace(from, { gap, mode });
  const outline = view.closedPath(from);
  if (!outline) return { refusal: 'no closed path of the drawing lies round the point' };
  return {
    region: { outline, openings: [], closedGaps: [], openGaps: [], smallMarks: 0, closedBy: 'drawn lines' },
  };
}
