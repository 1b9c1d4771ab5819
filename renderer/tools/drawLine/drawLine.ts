// Expansion joints, tie-ins, phase lines and valleys: two clicks each.
import type { LineKind } from '../../../core/roof/types';
import type { PagePoint } from '../../../core/geometry/points';
import { nextMarkIds } from '../../document/ids';
import { distance } from '../../document/rings';
import { roofUnder } from '../addOpening/opening';
import { firstPoint, pointAt, spanMarks } from '../twoPoints';
import { along, readTypedSide } from '../typing';
import { refuse, say, stay } from '../types';
import type { SnapMark, StateSpec, Step, ToolView } from '../types';

export interface LineFirst {
  readonly at: 'drawLine.first';
  readonly snap: SnapMark | null;
}
export interface LineSecond {
  readonly at: 'drawLine.second';
  readonly a: PagePoint;
  readonly b: PagePoint | null;
  readonly snap: SnapMark | null;
}

/** What each kind asks of the sheets, as it is told when one is drawn. */
const ASKS: Readonly<Record<LineKind, readonly [name: string, asks: string]>> = {
  expansion: ['Expansion joint', 'no sheet crosses it'],
  'tie-in': ['Tie-in', 'no sheet crosses it'],
  phase: ['Phase line', 'no sheet crosses it'],
  valley: ['Valley', 'no side lap runs along it and no end lap lies in it'],
};

const start: LineFirst = { at: 'drawLine.first', snap: null };
const nameOf = (view: ToolView): string => ASKS[view.options.line.kind][0].toLowerCase();

const first = firstPoint(
  start,
  (a) => ({ at: 'drawLine.second', a, b: null, snap: null }),
  (view) => `Click where the ${nameOf(view)} starts.`,
);

const second: StateSpec<LineSecond> = {
  on: (state, event, view) => {
    if (event.type === 'back') return stay(start);
    if (event.type === 'typed') {
      const side = readTypedSide(event.text, state.a, view);
      if ('fault' in side) return stay(state, refuse(side.fault));
      const at = along(state.a, state.b, side);
      return at ? draw(state, at, view) : stay(state, refuse('Point the way first, or type an angle too.'));
    }
    if (!('at' in event)) return stay(state);
    const { at, snap } = pointAt(event, state.a, view);
    return event.type === 'down' ? draw(state, at, view) : stay({ ...state, b: at, snap });
  },
  cancel: () => stay(start),
  complete: () => stay(start),
  interrupt: () => stay(start),
  show: (state, view) => ({
    hint: `Click where the ${nameOf(view)} ends, or type its length. Shift keeps it level or upright.`,
    typing: 'Line length',
    cursor: 'crosshair',
    marks: spanMarks(state.a, state.b, state.snap, view),
  }),
};

export const drawLine = { 'drawLine.first': first, 'drawLine.second': second } as const;

function draw(state: LineSecond, to: PagePoint, view: ToolView): Step {
  const from = state.a;
  if (distance(from, to) * view.pxPerPoint < 2)
    return stay(state, refuse('Both ends are in one place: click the end somewhere else.'));
  const middle: PagePoint = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2];
  const roof = roofUnder(middle, view) ?? roofUnder(from, view) ?? roofUnder(to, view);
  if (roof === null)
    return stay(start, refuse('The line lies on no roof: draw it inside an outline, from edge to edge.'));
  const { kind } = view.options.line;
  const [name, asks] = ASKS[kind];
  const [id = 'l1'] = nextMarkIds(view.job, 'l', 1);
  return stay(
    start,
    {
      do: 'run',
      commands: [{ kind: 'addLine', roof, line: { id, kind, from, to } }],
      label: `Draw ${name.toLowerCase()}`,
    },
    { do: 'pick', selection: [{ kind: 'line', id, roof }] },
    say(`${name} drawn: ${asks}. Draw the next one, or press Escape.`),
  );
}
