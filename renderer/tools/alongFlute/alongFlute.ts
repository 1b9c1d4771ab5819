// The direction of a steel deck's flutes, by two clicks along one.
import type { PagePoint } from '../../../core/geometry/points';
import { formatAngle, toDegrees, turn } from '../../../core/units/angles';
import { distance } from '../../document/rings';
import { roofUnder } from '../addOpening/opening';
import { firstPoint, pointAt, spanMarks } from '../twoPoints';
import { refuse, say, stay } from '../types';
import type { SnapMark, StateSpec, Step, ToolView } from '../types';

export interface FluteFirst {
  readonly at: 'alongFlute.first';
  readonly snap: SnapMark | null;
}
export interface FluteSecond {
  readonly at: 'alongFlute.second';
  readonly a: PagePoint;
  readonly b: PagePoint | null;
  readonly snap: SnapMark | null;
}

const start: FluteFirst = { at: 'alongFlute.first', snap: null };
const where = (view: ToolView): string =>
  view.options.flute.gives === 'flange' ? 'the middle of a top flange' : 'a flute';

const first = firstPoint(
  start,
  (a) => ({ at: 'alongFlute.second', a, b: null, snap: null }),
  (view) => `Click a place on ${where(view)} of the deck.`,
);

const second: StateSpec<FluteSecond> = {
  on: (state, event, view) => {
    if (event.type === 'back') return stay(start);
    if (!('at' in event)) return stay(state);
    const { at, snap } = pointAt(event, state.a, view);
    return event.type === 'down' ? give(state, at, view) : stay({ ...state, b: at, snap });
  },
  cancel: () => stay(start),
  complete: () => stay(start),
  interrupt: () => stay(start),
  show: (state, view) => ({
    hint: `Click farther along ${where(view)}. Shift keeps it level or upright.`,
    typing: null,
    cursor: 'crosshair',
    marks: spanMarks(state.a, state.b, state.snap, view),
  }),
};

export const alongFlute = { 'alongFlute.first': first, 'alongFlute.second': second } as const;

function give(state: FluteSecond, to: PagePoint, view: ToolView): Step {
  const from = state.a;
  if (distance(from, to) * view.pxPerPoint < 2)
    return stay(state, refuse('Two places along the flute are needed: click farther along it.'));
  const id = roofUnder(from, view) ?? roofUnder(to, view);
  const roof = id === null ? undefined : view.job.roofs[id];
  if (!roof) return stay(start, refuse('These places lie on no roof: click inside an outline.'));
  const flutes = turn(toDegrees(Math.atan2(to[1] - from[1], to[0] - from[0])), 180);
  const { deck } = roof;
  const steel = {
    kind: 'steel' as const,
    flutes,
    pitch: deck?.pitch ?? null,
    flange: deck?.flange ?? null,
    rib: view.options.flute.gives === 'flange' ? from : (deck?.rib ?? null),
  };
  return stay(
    start,
    {
      do: 'run',
      commands: [{ kind: 'setRoof', roof: roof.id, fields: { deck: steel } }],
      label: 'Give flute direction',
    },
    { do: 'goTo', tool: 'select' },
    say(`Steel deck, flutes at ${formatAngle(flutes)}: courses fastened in their laps run across them.`),
  );
}
