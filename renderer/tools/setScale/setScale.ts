// The page's scale from two points and the true length between them.
import type { Command } from '../../../core/job/commands/types';
import { regionAt } from '../../../core/job/pageScale';
import { formatScale, ratioOf } from '../../../core/units/scales';
import type { PagePoint } from '../../../core/geometry/points';
import { distance } from '../../document/rings';
import { firstPoint, onToLength, readKnownLength, spanMarks, secondPoint } from '../twoPoints';
import { refuse, say, stay } from '../types';
import type { SnapMark, StateSpec } from '../types';

export interface ScaleFirst {
  readonly at: 'setScale.first';
  readonly snap: SnapMark | null;
}
export interface ScaleSecond {
  readonly at: 'setScale.second';
  readonly a: PagePoint;
  readonly b: PagePoint | null;
  readonly snap: SnapMark | null;
}
export interface ScaleTyping {
  readonly at: 'setScale.typing';
  readonly a: PagePoint;
  readonly b: PagePoint;
}

const start: ScaleFirst = { at: 'setScale.first', snap: null };

const first = firstPoint(
  start,
  (a) => ({ at: 'setScale.second', a, b: null, snap: null }),
  () => 'Click one end of a length you know: a dimension, a grid bay, a wall.',
);

const second = secondPoint<ScaleSecond>(
  start,
  (state, at, view) => onToLength(state, at, view, { at: 'setScale.typing', a: state.a, b: at }),
  'Click its other end. Shift keeps it level or upright.',
);

const typing: StateSpec<ScaleTyping> = {
  on: (state, event, view) => {
    if (event.type === 'back') return stay({ at: 'setScale.second', a: state.a, b: null, snap: null });
    if (event.type !== 'typed' || !view.page) return stay(state);
    const length = readKnownLength(event.text, view);
    if ('fault' in length) return stay(state, refuse(length.fault));
    const mmPerPoint = length.mm / distance(state.a, state.b);
    const scale = { mmPerPoint, from: { by: 'length', a: state.a, b: state.b, length: length.mm } } as const;
    const region = regionAt(view.page, state.a);
    const command: Command = region
      ? { kind: 'setRegion', page: view.page.id, region: { ...region, scale } }
      : { kind: 'setScale', page: view.page.id, scale };
    const which = region ? 'Scale of the region' : 'Scale';
    return stay(
      start,
      { do: 'run', commands: [command], label: 'Set scale' },
      say(
        `${which} set to ${formatScale(ratioOf(mmPerPoint), view.job.display)}. Check it against a second length.`,
      ),
      { do: 'goTo', tool: 'select' },
    );
  },
  cancel: (state) => stay({ at: 'setScale.second', a: state.a, b: null, snap: null }),
  complete: (state) => stay(state, refuse('Type the true length between the two points, then Enter.')),
  interrupt: () => stay(start),
  show: (state, view) => ({
    hint: 'Type the true length between the two points, then Enter.',
    typing: 'True length',
    cursor: 'crosshair',
    marks: spanMarks(state.a, state.b, null, { ...view, page: null }),
  }),
};

export const setScale = {
  'setScale.first': first,
  'setScale.second': second,
  'setScale.typing': typing,
} as const;
