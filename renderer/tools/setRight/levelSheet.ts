// A scan is seldom level: two points of a line that should be level or plumb turn the whole sheet, and what is drawn on
// it goes along.
import type { PagePoint } from '../../../core/geometry/points';
import { AS_IT_COMES, levelled } from '../../../core/plan/correction';
import { formatNumber } from '../../../core/units/numbers';
import { distance } from '../../document/rings';
import { firstPoint, pointAt, snapMarks } from '../twoPoints';
import { refuse, say, stay } from '../types';
import type { SnapMark, StateSpec, Step, ToolView } from '../types';

export interface LevelFirst {
  readonly at: 'levelSheet.first';
  readonly snap: SnapMark | null;
}
export interface LevelSecond {
  readonly at: 'levelSheet.second';
  readonly a: PagePoint;
  readonly b: PagePoint | null;
  readonly snap: SnapMark | null;
}

const start: LevelFirst = { at: 'levelSheet.first', snap: null };
/** Shorter lines give their direction too roughly. */
const LEAST_PX = 60;

const first = firstPoint(
  start,
  (a) => ({ at: 'levelSheet.second', a, b: null, snap: null }),
  () => 'Click one end of a long line that should be level or plumb: a wall, the border of the sheet.',
);

const second: StateSpec<LevelSecond> = {
  on: (state, event, view) => {
    if (event.type === 'back') return stay(start);
    if (!('at' in event)) return stay(state);
    // Shift would hold the line level, which is what is to be found out.
    const { at, snap } = pointAt({ ...event, keys: { ...event.keys, shift: false } }, null, view);
    if (event.type !== 'down') return stay({ ...state, b: at, snap });
    if (distance(state.a, at) * view.pxPerPoint < LEAST_PX)
      return stay(
        state,
        refuse('The two points lie too near to each other: click the far end of a long line.'),
      );
    return level(state.a, at, view);
  },
  cancel: () => stay(start),
  complete: (state) => stay(state),
  interrupt: () => stay(start),
  show: (state) => ({
    hint: 'Click its other end.',
    typing: null,
    cursor: 'crosshair',
    marks: [
      { kind: 'point', at: state.a },
      ...(state.b ? [{ kind: 'line', points: [state.a, state.b], closed: false } as const] : []),
      ...snapMarks(state.snap),
    ],
  }),
};

export const levelSheet = { 'levelSheet.first': first, 'levelSheet.second': second } as const;

function level(a: PagePoint, b: PagePoint, { page }: ToolView): Step {
  if (!page) return stay(start);
  const now = page.correction ?? AS_IT_COMES;
  const { degrees, stretch } = levelled(now, a, b);
  const by = degrees - now.degrees;
  if (Math.abs(by) < 0.005)
    return stay(start, say('The line lies level already: nothing was turned.'), {
      do: 'goTo',
      tool: 'select',
    });
  const way = by > 0 ? 'against the clock' : 'with the clock';
  const again = page.scale?.from.by === 'lengths' ? ' Measure both known lengths again.' : '';
  return stay(
    start,
    {
      do: 'run',
      commands: [{ kind: 'correctPage', page: page.id, degrees, stretch }],
      label: 'Level the sheet',
    },
    say(
      `The sheet is turned by ${formatNumber(Math.abs(by), 2)}° ${way}; what was drawn on it went along.${again}`,
    ),
    { do: 'goTo', tool: 'select' },
  );
}
