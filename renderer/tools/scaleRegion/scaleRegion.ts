// A part of the page with a scale of its own, by two corners. A corner of one that is there already is taken up again
// and put elsewhere.
import { regionAt } from '../../../core/job/pageScale';
import type { RegionBox } from '../../../core/job/pageScale';
import type { JobScale, ScaleRegion } from '../../../core/job/schema';
import type { PagePoint } from '../../../core/geometry/points';
import { formatScale, mmPerPoint, parseScale } from '../../../core/units/scales';
import { nextRegionId } from '../../document/ids';
import { distance } from '../../document/rings';
import { refuse, say, stay } from '../types';
import type { Mark, StateSpec, Step, ToolView } from '../types';

export interface RegionFirst {
  readonly at: 'scaleRegion.first';
}
export interface RegionSecond {
  readonly at: 'scaleRegion.second';
  readonly from: PagePoint;
  readonly to: PagePoint | null;
  /** The region whose corner was taken up; null for a new one. */
  readonly region: string | null;
}
export interface RegionTyping extends RegionBox {
  readonly at: 'scaleRegion.typing';
}

const start: RegionFirst = { at: 'scaleRegion.first' };
const leave: Step = { state: start, effects: [{ do: 'goTo', tool: 'select' }] };

/** Nearer than this on the screen a click takes a corner up. */
const CORNER_PX = 10;
/** A smaller region is a slip of the hand. */
const LEAST_PX = 12;

const first: StateSpec<RegionFirst> = {
  on: (state, event, view) => {
    if (event.type !== 'down' || !view.page) return stay(state);
    const taken = cornerNear(event.at, view);
    if (taken)
      return stay({ at: 'scaleRegion.second', from: taken.opposite, to: event.at, region: taken.region });
    if (regionAt(view.page, event.at))
      return stay(
        state,
        refuse('This place lies in a region already: click outside it, or take up a corner of it.'),
      );
    return stay({ at: 'scaleRegion.second', from: event.at, to: null, region: null });
  },
  cancel: () => leave,
  complete: () => leave,
  interrupt: () => stay(start),
  show: (_state, view) => ({
    hint: view.page?.regions?.length
      ? 'Click one corner of the part that has a scale of its own, or take up a corner of a region to move it.'
      : 'Click one corner of the part that has a scale of its own: a detail, an inset, a section.',
    typing: null,
    cursor: 'crosshair',
    marks: (view.page?.regions ?? []).flatMap((region) =>
      cornersOf(region).map((at): Mark => ({ kind: 'point', at })),
    ),
  }),
};

const second: StateSpec<RegionSecond> = {
  on: (state, event, view) => {
    if (event.type === 'back') return stay(start);
    if (!('at' in event)) return stay(state);
    if (event.type !== 'down') return stay({ ...state, to: event.at });
    const box = boxOf(state.from, event.at);
    if (Math.min(box.high[0] - box.low[0], box.high[1] - box.low[1]) * view.pxPerPoint < LEAST_PX)
      return stay(state, refuse('The region has no width: click the corner opposite the first.'));
    const known = view.page?.regions?.find(({ id }) => id === state.region);
    return known
      ? put({ ...known, ...box }, 'Move region', view)
      : stay({ at: 'scaleRegion.typing', ...box });
  },
  cancel: () => stay(start),
  complete: (state) => stay(state),
  interrupt: () => stay(start),
  show: (state) => ({
    hint: 'Click the corner opposite.',
    typing: null,
    cursor: 'crosshair',
    marks: state.to ? boxMarks(boxOf(state.from, state.to)) : [{ kind: 'point', at: state.from }],
  }),
};

const typing: StateSpec<RegionTyping> = {
  on: (state, event, view) => {
    if (event.type === 'back')
      return stay({ at: 'scaleRegion.second', from: state.low, to: state.high, region: null });
    if (event.type !== 'typed') return stay(state);
    const parsed = parseScale(event.text);
    if ('fault' in parsed) return stay(state, refuse(parsed.fault));
    const { ratio } = parsed;
    const scale: JobScale = {
      mmPerPoint: mmPerPoint(ratio),
      from: { by: 'ratio', ratio, text: event.text.trim() },
    };
    return add(state, scale, `The region is at ${formatScale(ratio, view.job.display)}.`, view);
  },
  cancel: () => stay(start),
  complete: (state, view) =>
    view.page?.scale
      ? add(
          state,
          view.page.scale,
          'The region has the page’s scale for now: set its own from two points in it.',
          view,
        )
      : stay(state, refuse('Type the scale of this part, such as 1:20, then Enter.')),
  interrupt: () => stay(start),
  show: (state) => ({
    hint: 'Type the scale of this part, such as 1:20. Enter alone leaves it to be measured from two points in it.',
    typing: 'Scale of the region',
    cursor: 'crosshair',
    marks: boxMarks(state),
  }),
};

export const scaleRegion = {
  'scaleRegion.first': first,
  'scaleRegion.second': second,
  'scaleRegion.typing': typing,
} as const;

function add({ low, high }: RegionBox, scale: JobScale, said: string, view: ToolView): Step {
  const step = put({ id: nextRegionId(view.job), low, high, scale }, 'Set the scale of a region', view);
  return { ...step, effects: [...step.effects, say(said)] };
}

function put(region: ScaleRegion, label: string, { page }: ToolView): Step {
  if (!page) return stay(start);
  return stay(
    start,
    { do: 'run', commands: [{ kind: 'setRegion', page: page.id, region }], label },
    { do: 'goTo', tool: 'select' },
  );
}

function cornerNear(
  at: PagePoint,
  { page, pxPerPoint }: ToolView,
): { readonly region: string; readonly opposite: PagePoint } | null {
  for (const region of page?.regions ?? []) {
    const corners = cornersOf(region);
    const k = corners.findIndex((corner) => distance(corner, at) * pxPerPoint < CORNER_PX);
    const opposite = corners[(k + 2) % 4];
    if (k >= 0 && opposite) return { region: region.id, opposite };
  }
  return null;
}

function cornersOf({ low, high }: RegionBox): readonly PagePoint[] {
  return [low, [high[0], low[1]], high, [low[0], high[1]]];
}

function boxOf(a: PagePoint, b: PagePoint): RegionBox {
  return {
    low: [Math.min(a[0], b[0]), Math.min(a[1], b[1])],
    high: [Math.max(a[0], b[0]), Math.max(a[1], b[1])],
  };
}

function boxMarks(box: RegionBox): readonly Mark[] {
  const corners = cornersOf(box);
  return [{ kind: 'line', points: [...corners, ...corners.slice(0, 1)], closed: false }];
}
