// A second known length held against the scale: says how far off it is, in per cent and millimetres.
import { mmPerPointAt } from '../../../core/job/pageScale';
import { formatLength } from '../../../core/units/lengths';
import type { LengthCheck } from '../../../core/job/schema';
import { checkLength as compareLength } from '../../../core/plan/scale';
import type { PagePoint } from '../../../core/geometry/points';
import { onToLength, pointAt, readKnownLength, snapMarks, spanMarks, secondPoint } from '../twoPoints';
import { refuse, say, stay } from '../types';
import type { SnapMark, StateSpec, Step, ToolView } from '../types';

export interface CheckFirst {
  readonly at: 'checkLength.first';
  readonly snap: SnapMark | null;
}
export interface CheckSecond {
  readonly at: 'checkLength.second';
  readonly a: PagePoint;
  readonly b: PagePoint | null;
  readonly snap: SnapMark | null;
}
export interface CheckTyping {
  readonly at: 'checkLength.typing';
  readonly a: PagePoint;
  readonly b: PagePoint;
}

const start: CheckFirst = { at: 'checkLength.first', snap: null };
const leave: Step = { state: start, effects: [{ do: 'goTo', tool: 'select' }] };
const NO_SCALE = 'Set the scale first; then a second length can prove it.';

const first: StateSpec<CheckFirst> = {
  on: (state, event, view) => {
    if (!('at' in event)) return stay(state);
    const { at, snap } = pointAt(event, null, view);
    if (event.type !== 'down') return stay({ ...state, snap });
    if (mmPerPointAt(view.page, at) === null) return stay(state, refuse(NO_SCALE));
    return stay({ at: 'checkLength.second', a: at, b: null, snap: null });
  },
  cancel: () => leave,
  complete: () => leave,
  interrupt: () => stay(start),
  show: (state) => ({
    hint: 'Click one end of a second length you know, far from the first and turned the other way.',
    typing: null,
    cursor: 'crosshair',
    marks: snapMarks(state.snap),
  }),
};

const second = secondPoint<CheckSecond>(
  start,
  (state, at, view) => onToLength(state, at, view, { at: 'checkLength.typing', a: state.a, b: at }),
  'Click its other end. Shift keeps it level or upright.',
);

const typing: StateSpec<CheckTyping> = {
  on: (state, event, view) => {
    if (event.type === 'back') return stay({ at: 'checkLength.second', a: state.a, b: null, snap: null });
    if (event.type !== 'typed' || !view.page) return stay(state);
    const length = readKnownLength(event.text, view);
    if ('fault' in length) return stay(state, refuse(length.fault));
    const check = { a: state.a, b: state.b, length: length.mm };
    return stay(
      start,
      { do: 'run', commands: [{ kind: 'addCheck', page: view.page.id, check }], label: 'Check a length' },
      say(sayOff(check, view)),
      { do: 'goTo', tool: 'select' },
    );
  },
  cancel: (state) => stay({ at: 'checkLength.second', a: state.a, b: null, snap: null }),
  complete: (state) => stay(state, refuse('Type the length it should have, then Enter.')),
  interrupt: () => stay(start),
  show: (state, view) => ({
    hint: 'Type the length it should have, then Enter.',
    typing: 'Stated length',
    cursor: 'crosshair',
    marks: spanMarks(state.a, state.b, null, view),
  }),
};

export const checkLength = {
  'checkLength.first': first,
  'checkLength.second': second,
  'checkLength.typing': typing,
} as const;

function sayOff(check: LengthCheck, view: ToolView): string {
  const mmPerPoint = mmPerPointAt(view.page, check.a);
  if (mmPerPoint === null) return NO_SCALE;
  const { measured, offBy, percent } = compareLength({ ...check, mmPerPoint });
  const { display } = view.job;
  if (Math.abs(offBy) < 0.5) return `It measures ${formatLength(measured, display)}: exactly as stated.`;
  const way = offBy > 0 ? 'long' : 'short';
  return `It measures ${formatLength(measured, display)}: ${formatLength(Math.abs(offBy), display)} too ${way}, ${Math.abs(percent).toFixed(2)} % off.`;
}
