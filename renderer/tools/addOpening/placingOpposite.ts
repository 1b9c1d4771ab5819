// A rectangular opening: the corner opposite the first, pointed at or typed as `1200 x 900`.
import { mmPerPointOf } from '../../../core/job/pageScale';
import { parseLength } from '../../../core/units/lengths';
import type { PagePoint } from '../../../core/geometry/points';
import { aim, marksOf, sayRing } from '../ring';
import { snapMarks } from '../twoPoints';
import { refuse, stay } from '../types';
import type { SnapMark, StateSpec, Step, ToolView } from '../types';
import { addOpening } from './opening';

export interface OpeningOpposite {
  readonly at: 'addOpening.placingOpposite';
  readonly roof: string;
  readonly from: PagePoint;
  readonly to: PagePoint | null;
  readonly snap: SnapMark | null;
}

export const openingOpposite: StateSpec<OpeningOpposite> = {
  on: (state, event, view) => {
    if (event.type === 'back') return stay({ at: 'addOpening.idle', snap: null });
    if (event.type === 'typed') return typed(state, event.text, view);
    if (!('at' in event)) return stay(state);
    const { next, snap } = aim([], event.at, event.keys, view);
    return event.type === 'down' ? finish(state, next, view) : stay({ ...state, to: next, snap });
  },
  cancel: () => stay({ at: 'addOpening.idle', snap: null }),
  complete: (state, view) => (state.to ? finish(state, state.to, view) : stay(state)),
  interrupt: () => stay({ at: 'addOpening.idle', snap: null }),
  show: (state, view) => {
    const corners = state.to ? rectangle(state.from, state.to) : [state.from];
    return {
      hint: [
        sayRing({ corners, next: null, snap: null }, view),
        'Click the opposite corner, or type the two sides as 1200 x 900.',
      ]
        .filter(Boolean)
        .join('. '),
      typing: 'Sides',
      cursor: 'crosshair',
      marks: [...marksOf({ corners, next: null, snap: null }, view), ...snapMarks(state.snap)],
    };
  },
};

function rectangle(a: PagePoint, b: PagePoint): readonly PagePoint[] {
  return [a, [b[0], a[1]], b, [a[0], b[1]]];
}

function finish(state: OpeningOpposite, to: PagePoint, view: ToolView): Step {
  const least = 4 / view.pxPerPoint;
  if (Math.abs(to[0] - state.from[0]) < least || Math.abs(to[1] - state.from[1]) < least)
    return stay(state, refuse('The opening has no width: click the corner opposite the first.'));
  return addOpening(rectangle(state.from, to), state.roof, view);
}

function typed(state: OpeningOpposite, text: string, view: ToolView): Step {
  const mmPerPoint = mmPerPointOf(view.job, view.job.roofs[state.roof]);
  if (!mmPerPoint) return stay(state, refuse('The page has no scale yet: set it on the Plan stage first.'));
  const [first = '', second, more] = text.split(/\s*[x×*]\s*/i);
  if (second === undefined || more !== undefined)
    return stay(state, refuse('Type both sides with an x between them, such as 1200 x 900.'));
  const wide = parseLength(first, view.job.display);
  if ('fault' in wide) return stay(state, refuse(wide.fault));
  const high = parseLength(second, view.job.display);
  if ('fault' in high) return stay(state, refuse(high.fault));
  if (wide.mm <= 0 || high.mm <= 0) return stay(state, refuse('Both sides are more than zero.'));
  const right = !state.to || state.to[0] >= state.from[0] ? 1 : -1;
  const up = !state.to || state.to[1] >= state.from[1] ? 1 : -1;
  const to: PagePoint = [
    state.from[0] + (right * wide.mm) / mmPerPoint,
    state.from[1] + (up * high.mm) / mmPerPoint,
  ];
  return addOpening(rectangle(state.from, to), state.roof, view);
}
