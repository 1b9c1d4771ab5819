// A traced outline before it is taken: its openings, and the gaps that were bridged, each marked on the plan. A
// neighbouring shape can be added, a layer left out, and the outline drawn in to the inner face of its parapet.
import type { PagePoint } from '../../../core/geometry/points';
import { innerFace, joinShapes } from '../../../core/plan/shapes';
import { AMPLE } from '../../../core/plan/traceRegion';
import type { PageGap, Region } from '../../../core/plan/traceRegion';
import { roofUnder, addOpening } from '../addOpening/opening';
import { sayRing } from '../ring';
import { addRoof } from '../traceRoof/addRoof';
import { sayDistance } from '../typing';
import { refuse, say, stay } from '../types';
import type { Mark, StateSpec, Step, ToolOptionName, ToolView } from '../types';
import { propose, readPoints, REGION_START, shapeAt, widen } from './idle';
import type { RegionMode } from './idle';

export interface RegionProposed {
  readonly at: 'traceRegion.proposed';
  /** Where the person clicked. */
  readonly from: PagePoint;
  /** Page points. */
  readonly gap: number;
  readonly mode: RegionMode;
  readonly region: Region;
  /** What the next click does: another proposal, a shape more, or the line's layer left out. */
  readonly click: 'anew' | 'add' | 'leave out';
  /** What a typed length is. */
  readonly typing: 'gap' | 'parapet';
  /** The proposal that this one was made from; Backspace goes back to it. */
  readonly before: RegionProposed | null;
}

export const regionProposed: StateSpec<RegionProposed> = {
  on: (state, event, view) => {
    switch (event.type) {
      case 'back':
        return stay(state.before ?? REGION_START);
      case 'option':
        return choose(state, event.option);
      case 'typed':
        return state.typing === 'parapet'
          ? drawIn(state, event.text, view)
          : widen(state, state, event.text, view);
      case 'relined':
        // Added shapes would be lost: a person who has gone so far is not asked to begin again.
        return state.before ? stay(state) : propose(state, state.from, state.mode, view, state.gap);
      case 'down':
        if (state.click === 'leave out') return leaveOut(state, event.at, view);
        if (state.click === 'add' || event.keys.ctrl) return add(state, event.at, view);
        return propose(state, event.at, event.keys.shift ? 'outer' : base(state.mode), view, state.gap);
      default:
        return stay(state);
    }
  },
  cancel: () => stay(REGION_START),
  complete: take,
  interrupt: () => stay(REGION_START),
  show: (state, view) => ({
    hint: [said(state, view), NEXT[state.click], state.typing === 'parapet' ? PARAPET : null, ENDING]
      .filter(Boolean)
      .join('. '),
    typing: state.typing === 'parapet' ? 'Parapet thickness' : 'Widest gap',
    cursor: 'crosshair',
    marks: marksOf(state, view),
    options: [
      { option: 'add', on: state.click === 'add' },
      { option: 'leaveOut', on: state.click === 'leave out' },
      { option: 'inner', on: state.typing === 'parapet' },
    ],
  }),
};

const NEXT = {
  anew: 'A length typed now is the widest gap to bridge',
  add: 'Click in the shape beside it: the line between the two is dropped',
  'leave out': 'Click a line: its layer, or lines of its width, are left out',
} as const;
const PARAPET = 'Type the parapet’s thickness: the outline moves in by it';
const ENDING = 'Enter takes it; Backspace goes a step back; Escape drops it.';

/** A click after an outer boundary was traced means a shape again unless Shift is held. */
function base(mode: RegionMode): RegionMode {
  return mode === 'outer' ? 'shape' : mode;
}

function choose(state: RegionProposed, option: ToolOptionName): Step {
  const turned = <T extends string>(now: T, to: T, off: T): T => (now === to ? off : to);
  switch (option) {
    case 'add':
      return stay({ ...state, click: turned(state.click, 'add', 'anew') });
    case 'leaveOut':
      return stay({ ...state, click: turned(state.click, 'leave out', 'anew') });
    case 'inner':
      return stay({ ...state, typing: turned(state.typing, 'parapet', 'gap') });
    default:
      return stay(state);
  }
}

function add(state: RegionProposed, at: PagePoint, view: ToolView): Step {
  const reading = shapeAt(at, base(state.mode), state.gap, view);
  const joined = 'refusal' in reading ? reading : joinShapes(state.region, reading.region);
  if ('refusal' in joined) return stay(state, refuse(`Nothing was added: ${joined.refusal}.`));
  return stay({ ...state, region: joined.region, before: state });
}

function leaveOut(state: RegionProposed, at: PagePoint, view: ToolView): Step {
  const lines = view.lineKind(at);
  if (!lines) return stay(state, refuse('No line of the drawing lies there: click on one.'));
  return stay(
    { ...state, click: 'anew' },
    { do: 'leaveOut', lines },
    say(`Left out: ${lines.name}. The Plan stage shows it again.`),
  );
}

function drawIn(state: RegionProposed, text: string, view: ToolView): Step {
  const points = readPoints(text, state.from, view);
  if ('fault' in points) return stay(state, refuse(points.fault));
  const outline = innerFace(state.region.outline, points.points);
  if (!outline)
    return stay(state, refuse('A side of the outline is too short for a parapet so thick: type less.'));
  return stay({ ...state, region: { ...state.region, outline }, typing: 'gap', before: state });
}

function said({ region, from }: RegionProposed, view: ToolView): string {
  const { outline, openings, closedGaps, openGaps, closedBy } = region;
  return [
    sayRing({ corners: outline, next: null, snap: null }, view),
    `${count(outline.length, 'corner')}, ${count(openings.length, 'opening')}`,
    closedGaps.length > 0 ? `${count(closedGaps.length, 'gap')} bridged, marked on the plan` : null,
    openGaps.length > 0
      ? `it runs through ${count(openGaps.length, 'opening')} between walls, marked too: a gap of ${sayDistance(AMPLE * widest(openGaps), from, view)} closes ${openGaps.length === 1 ? 'it' : 'all'}`
      : null,
    closedBy === 'all lines' ? 'closed by dashed, dimension or grid lines: look twice' : null,
  ]
    .filter(Boolean)
    .join('; ');
}

function marksOf({ region }: RegionProposed, view: ToolView): readonly Mark[] {
  const rings = [region.outline, ...region.openings];
  return [
    ...rings.map((ring): Mark => ({ kind: 'line', points: [...ring, ...ring.slice(0, 1)], closed: false })),
    ...region.outline.slice(0, MOST_POINTS).map((at): Mark => ({ kind: 'point', at })),
    ...region.closedGaps.map((gap) => markOf(gap, 'gap', view)),
    ...region.openGaps.map((gap) => markOf(gap, 'open', view)),
  ];
}

function markOf({ from, to }: PageGap, word: string, view: ToolView): Mark {
  return {
    kind: 'snap',
    at: [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2],
    text: `${word}, ${sayDistance(widest([{ from, to }]), from, view)}`,
  };
}

function widest(gaps: readonly PageGap[]): number {
  return Math.max(...gaps.map(({ from, to }) => Math.hypot(to[0] - from[0], to[1] - from[1])));
}

/** An arc has more corners than can be told apart as points. */
const MOST_POINTS = 200;

/** Inside a roof that is there already it is an opening; else a roof with its openings. */
function take({ from, region }: RegionProposed, view: ToolView): Step {
  const within = roofUnder(from, view);
  if (within === null) return addRoof(region.outline, view, region.openings);
  const step = addOpening(region.outline, within, view);
  return { ...step, state: REGION_START };
}

function count(number: number, noun: string): string {
  return `${number === 0 ? 'no' : number} ${noun}${number === 1 ? '' : 's'}`;
}
