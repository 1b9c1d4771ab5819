// Falls: an arrow from high to low, a low line or a high line for the whole roof; a part drawn corner by corner and
// then its arrow or line; or one click on a drain that all sides fall to.
import type { PagePoint } from '../../../core/geometry/points';
import { aim, close, marksOf, place, placeTyped } from '../ring';
import type { Drawing } from '../ring';
import { pointAt, snapMarks, spanMarks } from '../twoPoints';
import { refuse, stay } from '../types';
import type { Mark, Showing, SnapMark, StateSpec, Step, ToolEvent, ToolView } from '../types';
import { fallByArrow, fallByLine, fallToDrain } from './falls';
import type { FallLine } from './falls';

export interface FallIdle {
  readonly at: 'drawFall.idle';
  readonly snap: SnapMark | null;
}
export interface FallCorner extends Drawing {
  readonly at: 'drawFall.corner';
}
/** The part is closed; its arrow is still to come. */
export interface FallHigh {
  readonly at: 'drawFall.high';
  readonly ring: readonly PagePoint[];
  readonly snap: SnapMark | null;
}
export interface FallLow {
  readonly at: 'drawFall.low';
  readonly ring: readonly PagePoint[] | null;
  readonly a: PagePoint;
  readonly b: PagePoint | null;
  readonly snap: SnapMark | null;
}
/** The low or the high line of the whole roof or a closed part, by its two ends. */
export interface FallAlong {
  readonly at: 'drawFall.line';
  readonly which: FallLine;
  readonly ring: readonly PagePoint[] | null;
  readonly a: PagePoint | null;
  readonly b: PagePoint | null;
  readonly snap: SnapMark | null;
}

const start: FallIdle = { at: 'drawFall.idle', snap: null };
const leave: Step = { state: start, effects: [{ do: 'goTo', tool: 'select' }] };

const BEGIN = {
  roof: 'Click a high place of the roof; the next click says where water runs. Or give its low or high line.',
  part: 'Click the first corner of the part that falls its own way.',
  drain: 'Click the drain that all sides of its roof fall to.',
} as const;

const idle: StateSpec<FallIdle> = {
  on: (state, event, view) => {
    const { way } = view.options.fall;
    const along = way === 'roof' ? lineAsked(event, null) : null;
    if (along) return along;
    if (!('at' in event)) return stay(state);
    if (way === 'drain') return stay(start, ...(event.type === 'down' ? fallToDrain(event.at, view) : []));
    const { at, snap } = pointAt(event, null, view);
    if (event.type !== 'down') return stay({ ...state, snap });
    return way === 'part'
      ? stay({ at: 'drawFall.corner', corners: [at], next: null, snap: null })
      : stay({ at: 'drawFall.low', ring: null, a: at, b: null, snap: null });
  },
  cancel: () => leave,
  complete: () => leave,
  interrupt: () => stay(start),
  show: (state, view) => ({
    hint: BEGIN[view.options.fall.way],
    typing: null,
    cursor: 'crosshair',
    ...(view.options.fall.way === 'roof' ? { options: lineOptions(null) } : {}),
    marks: snapMarks(state.snap),
  }),
};

function lineOptions(on: FallLine | null): Showing['options'] & object {
  return [
    { option: 'lowLine', on: on === 'low' },
    { option: 'highLine', on: on === 'high' },
  ];
}

function lineAsked(event: ToolEvent, ring: readonly PagePoint[] | null): Step | null {
  if (event.type !== 'option') return null;
  if (event.option !== 'lowLine' && event.option !== 'highLine') return null;
  const which = event.option === 'lowLine' ? 'low' : 'high';
  return stay({ at: 'drawFall.line', which, ring, a: null, b: null, snap: null });
}

const corner: StateSpec<FallCorner> = {
  on: (state, event, view) => {
    if (event.type === 'back') return takeBack(state);
    if (event.type === 'typed') {
      const typed = placeTyped(state, event.text, view);
      return 'fault' in typed ? stay(state, refuse(typed.fault)) : put(state, typed.at, view);
    }
    if (event.type === 'double') return finish(state);
    if (!('at' in event)) return stay(state);
    const { next, snap } = aim(state.corners, event.at, event.keys, view);
    return event.type === 'down' ? put(state, next, view) : stay({ ...state, next, snap });
  },
  cancel: takeBack,
  complete: finish,
  interrupt: () => stay(start),
  show: (state, view) => ({
    hint:
      state.corners.length < 3
        ? 'Click the next corner of the part. Parts may reach over the roof’s edge.'
        : 'Click the first corner or press Enter to close the part; then comes its arrow.',
    typing: 'Side length',
    cursor: 'crosshair',
    marks: marksOf(state, view),
  }),
};

const high: StateSpec<FallHigh> = {
  on: (state, event, view) => {
    if (event.type === 'back') return stay(start);
    const along = lineAsked(event, state.ring);
    if (along) return along;
    if (!('at' in event)) return stay(state);
    const { at, snap } = pointAt(event, null, view);
    return event.type === 'down'
      ? stay({ at: 'drawFall.low', ring: state.ring, a: at, b: null, snap: null })
      : stay({ ...state, snap });
  },
  cancel: () => stay(start),
  complete: (state) => stay(state),
  interrupt: () => stay(start),
  show: (state) => ({
    hint: 'Click a high place of this part; the next click says where its water runs.',
    typing: null,
    cursor: 'crosshair',
    options: lineOptions(null),
    marks: [...ringMarks(state.ring), ...snapMarks(state.snap)],
  }),
};

const low: StateSpec<FallLow> = {
  on: (state, event, view) => {
    if (event.type === 'back') return back(state);
    if (!('at' in event)) return stay(state);
    const { at, snap } = pointAt(event, state.a, view);
    if (event.type !== 'down') return stay({ ...state, b: at, snap });
    return stay(start, ...fallByArrow(state.a, at, state.ring, view));
  },
  cancel: back,
  complete: (state) => stay(state),
  interrupt: () => stay(start),
  show: (state, view) => ({
    hint: 'Click lower down, the way water runs. Shift keeps it level or upright.',
    typing: null,
    cursor: 'crosshair',
    marks: [...ringMarks(state.ring), ...spanMarks(state.a, state.b, state.snap, view)],
  }),
};

const line: StateSpec<FallAlong> = {
  on: (state, event, view) => {
    if (event.type === 'back') return offLine(state);
    const asked = lineAsked(event, state.ring);
    // The option that is on goes off: back to the arrow.
    if (asked)
      return asked.state.at === state.at && asked.state.which === state.which ? toArrow(state) : asked;
    if (!('at' in event)) return stay(state);
    const { at, snap } = pointAt(event, state.a, view);
    if (event.type !== 'down') return stay({ ...state, b: state.a && at, snap });
    return state.a
      ? stay(start, ...fallByLine(state.which, state.a, at, state.ring, view))
      : stay({ ...state, a: at, snap: null });
  },
  cancel: offLine,
  complete: (state) => stay(state),
  interrupt: () => stay(start),
  show: (state, view) => ({
    hint: state.a
      ? `Click the other end of the ${state.which} line.`
      : `Click one end of the ${state.which} line: water runs square ${state.which === 'low' ? 'to it' : 'away from it'}.`,
    typing: null,
    cursor: 'crosshair',
    options: lineOptions(state.which),
    marks: [
      ...ringMarks(state.ring),
      ...(state.a ? spanMarks(state.a, state.b, state.snap, view) : snapMarks(state.snap)),
    ],
  }),
};

function offLine(state: FallAlong): Step {
  return state.a ? stay({ ...state, a: null, b: null, snap: null }) : toArrow(state);
}

function toArrow(state: Pick<FallAlong, 'ring'>): Step {
  return state.ring ? stay({ at: 'drawFall.high', ring: state.ring, snap: null }) : stay(start);
}

export const drawFall = {
  'drawFall.idle': idle,
  'drawFall.corner': corner,
  'drawFall.high': high,
  'drawFall.low': low,
  'drawFall.line': line,
} as const;

function put(state: FallCorner, at: PagePoint, view: ToolView): Step {
  const placed = place(state.corners, at, view);
  if ('fault' in placed) return stay(state, refuse(placed.fault));
  return placed.closed
    ? stay({ at: 'drawFall.high', ring: placed.corners, snap: null })
    : stay({ ...state, corners: placed.corners, snap: null });
}

function takeBack(state: FallCorner): Step {
  return state.corners.length > 1 ? stay({ ...state, corners: state.corners.slice(0, -1) }) : stay(start);
}

function finish(state: FallCorner): Step {
  const closed = close(state.corners);
  return 'fault' in closed
    ? stay(state, refuse(closed.fault))
    : stay({ at: 'drawFall.high', ring: closed.corners, snap: null });
}

function back(state: FallLow): Step {
  return state.ring ? stay({ at: 'drawFall.high', ring: state.ring, snap: null }) : stay(start);
}

const ringMarks = (ring: readonly PagePoint[] | null): readonly Mark[] =>
  ring ? [{ kind: 'line', points: ring, closed: true }] : [];
