// A sheet that was copied or scanned measures differently across and up: two known lengths set both ways right, and the
// sheet is shown stretched so that one scale holds.
import type { PagePoint } from '../../../core/geometry/points';
import {
  AS_IT_COMES,
  betweenCorrections,
  mapped,
  scalesBothWays,
  STRETCHED,
} from '../../../core/plan/correction';
import type { KnownLength } from '../../../core/plan/correction';
import { formatNumber } from '../../../core/units/numbers';
import { formatScale, ratioOf } from '../../../core/units/scales';
import { pointAt, readKnownLength, snapMarks, spanMarks, isOneSpot, ONE_SPOT } from '../twoPoints';
import { refuse, stay } from '../types';
import type { Mark, SnapMark, StateSpec, Step, ToolView } from '../types';

export interface BothFirst {
  readonly at: 'bothWays.first';
  /** The first of the two lengths, once it is known. */
  readonly known: KnownLength | null;
  readonly snap: SnapMark | null;
}
export interface BothSecond {
  readonly at: 'bothWays.second';
  readonly known: KnownLength | null;
  readonly a: PagePoint;
  readonly b: PagePoint | null;
  readonly snap: SnapMark | null;
}
export interface BothTyping {
  readonly at: 'bothWays.typing';
  readonly known: KnownLength | null;
  readonly a: PagePoint;
  readonly b: PagePoint;
}

const start: BothFirst = { at: 'bothWays.first', known: null, snap: null };
const leave: Step = { state: start, effects: [{ do: 'goTo', tool: 'select' }] };

const first: StateSpec<BothFirst> = {
  on: (state, event, view) => {
    if (event.type === 'back') return stay(start);
    if (!('at' in event)) return stay(state);
    const { at, snap } = pointAt(event, null, view);
    return event.type === 'down'
      ? stay({ at: 'bothWays.second', known: state.known, a: at, b: null, snap: null })
      : stay({ ...state, snap });
  },
  cancel: ({ known }) => (known ? stay(start) : leave),
  complete: () => leave,
  interrupt: () => stay(start),
  show: ({ known, snap }) => ({
    hint: known
      ? 'Now one end of a known length that runs the other way, up the sheet.'
      : 'Click one end of a length you know that runs across the sheet.',
    typing: null,
    cursor: 'crosshair',
    marks: [...knownMarks(known), ...snapMarks(snap)],
  }),
};

const second: StateSpec<BothSecond> = {
  on: (state, event, view) => {
    const { known } = state;
    if (event.type === 'back') return stay({ ...start, known });
    if (!('at' in event)) return stay(state);
    const { at, snap } = pointAt(event, state.a, view);
    if (event.type !== 'down') return stay({ ...state, b: at, snap });
    if (isOneSpot(state.a, at, view)) return stay(state, refuse(ONE_SPOT));
    return stay({ at: 'bothWays.typing', known, a: state.a, b: at });
  },
  cancel: ({ known }) => stay({ ...start, known }),
  complete: (state) => stay(state),
  interrupt: () => stay(start),
  show: (state, view) => ({
    hint: 'Click its other end. Shift keeps it level or upright.',
    typing: null,
    cursor: 'crosshair',
    marks: [...knownMarks(state.known), ...spanMarks(state.a, state.b, state.snap, { ...view, page: null })],
  }),
};

const typing: StateSpec<BothTyping> = {
  on: (state, event, view) => {
    const { known, a, b } = state;
    if (event.type === 'back') return stay({ at: 'bothWays.second', known, a, b: null, snap: null });
    if (event.type !== 'typed') return stay(state);
    const length = readKnownLength(event.text, view);
    if ('fault' in length) return stay(state, refuse(length.fault));
    const typed = { a, b, length: length.mm };
    return known ? set(state, known, typed, view) : stay({ ...start, known: typed });
  },
  cancel: ({ known, a }) => stay({ at: 'bothWays.second', known, a, b: null, snap: null }),
  complete: (state) => stay(state, refuse('Type the true length between the two points, then Enter.')),
  interrupt: () => stay(start),
  show: (state, view) => ({
    hint: 'Type the true length between the two points, then Enter.',
    typing: 'True length',
    cursor: 'crosshair',
    marks: [...knownMarks(state.known), ...spanMarks(state.a, state.b, null, { ...view, page: null })],
  }),
};

export const bothWays = {
  'bothWays.first': first,
  'bothWays.second': second,
  'bothWays.typing': typing,
} as const;

function set(state: BothTyping, known: KnownLength, typed: KnownLength, { page, job }: ToolView): Step {
  if (!page) return stay(start);
  const scales = scalesBothWays(known, typed);
  if (!scales)
    return stay(
      { at: 'bothWays.first', known, snap: null },
      refuse(
        'The two lengths do not tell across from up: click a second one square to the first, and check what was typed.',
      ),
    );
  const now = page.correction ?? AS_IT_COMES;
  const next = { degrees: now.degrees, stretch: now.stretch * (scales.up / scales.across) };
  const map = betweenCorrections(page.correction ?? page, now, next);
  const there = ({ a, b, length }: KnownLength): KnownLength => ({
    a: mapped(map, a),
    b: mapped(map, b),
    length,
  });
  const [across, up] = (runsAcross(known) ? [known, typed] : [typed, known]).map(there);
  if (!across || !up) return stay(state);
  const more = 100 * (scales.up / scales.across - 1);
  const scale = formatScale(ratioOf(scales.across), job.display);
  const far = Math.abs(more) > 100 * STRETCHED;
  return stay(
    start,
    {
      do: 'run',
      commands: [
        { kind: 'correctPage', page: page.id, ...next },
        {
          kind: 'setScale',
          page: page.id,
          scale: { mmPerPoint: scales.across, from: { by: 'lengths', across, up } },
        },
      ],
      label: 'Set the scale both ways',
    },
    {
      do: 'say',
      text: far
        ? `A point of this sheet stands for ${formatNumber(Math.abs(more), 2)} % ${more > 0 ? 'more' : 'less'} up it than across: it was stretched when it was copied or scanned. It is shown set right, at ${scale} both ways.`
        : `Scale set to ${scale} both ways, which differed by ${formatNumber(Math.abs(more), 2)} %.`,
      wrong: far,
    },
    { do: 'goTo', tool: 'select' },
  );
}

function runsAcross({ a, b }: KnownLength): boolean {
  return Math.abs(b[0] - a[0]) >= Math.abs(b[1] - a[1]);
}

function knownMarks(known: KnownLength | null): readonly Mark[] {
  return known ? [{ kind: 'line', points: [known.a, known.b], closed: false }] : [];
}
