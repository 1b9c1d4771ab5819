// A traced outline before it is taken: its openings, and the gaps that were bridged, each marked on the plan.
import type { PagePoint } from '../../../core/geometry/points';
import type { Region } from '../../../core/plan/traceRegion';
import { parseLength } from '../../../core/units/lengths';
import { roofUnder, addOpening } from '../addOpening/opening';
import { sayRing } from '../ring';
import { addRoof } from '../traceRoof/addRoof';
import { sayDistance } from '../typing';
import { refuse, stay } from '../types';
import type { Mark, StateSpec, Step, ToolView } from '../types';
import { propose } from './idle';

export interface RegionProposed {
  readonly at: 'traceRegion.proposed';
  /** Where the person clicked. */
  readonly from: PagePoint;
  /** Page points. */
  readonly gap: number;
  readonly mode: 'shape' | 'outer';
  readonly region: Region;
}

export const regionProposed: StateSpec<RegionProposed> = {
  on: (state, event, view) => {
    if (event.type === 'back') return stay({ at: 'traceRegion.idle' });
    if (event.type === 'typed') return widen(state, event.text, view);
    return event.type === 'down' ? propose(state, event.at, event.keys, view, state.gap) : stay(state);
  },
  cancel: () => stay({ at: 'traceRegion.idle' }),
  complete: take,
  interrupt: () => stay({ at: 'traceRegion.idle' }),
  show: (state, view) => ({
    hint: [
      said(state, view),
      'Enter takes it; Escape drops it; a length typed now is the widest gap to bridge.',
    ]
      .filter(Boolean)
      .join('. '),
    typing: 'Widest gap',
    cursor: 'crosshair',
    marks: marksOf(state, view),
  }),
};

function said({ region }: RegionProposed, view: ToolView): string {
  const { outline, openings, closedGaps, closedBy } = region;
  return [
    sayRing({ corners: outline, next: null, snap: null }, view),
    `${count(outline.length, 'corner')}, ${count(openings.length, 'opening')}`,
    closedGaps.length > 0 ? `${count(closedGaps.length, 'gap')} bridged, marked on the plan` : null,
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
    ...region.closedGaps.map(({ from, to }): Mark => {
      const wide = Math.hypot(to[0] - from[0], to[1] - from[1]);
      return {
        kind: 'snap',
        at: [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2],
        text: `gap of ${sayDistance(wide, view)}`,
      };
    }),
  ];
}

/** An arc has more corners than can be told apart as points. */
const MOST_POINTS = 200;

function widen(state: RegionProposed, text: string, view: ToolView): Step {
  const mmPerPoint = view.page?.scale?.mmPerPoint;
  if (!mmPerPoint) return stay(state);
  const parsed = parseLength(text, view.job.display);
  if ('fault' in parsed) return stay(state, refuse(parsed.fault));
  return propose(state, state.from, { shift: state.mode === 'outer' }, view, parsed.mm / mmPerPoint);
}

/** Inside a roof that is there already it is an opening; else a roof with its openings. */
function take({ from, region }: RegionProposed, view: ToolView): Step {
  const within = roofUnder(from, view);
  if (within === null) return addRoof(region.outline, view, region.openings);
  const step = addOpening(region.outline, within, view);
  return { ...step, state: { at: 'traceRegion.idle' } };
}

function count(number: number, noun: string): string {
  return `${number === 0 ? 'no' : number} ${noun}${number === 1 ? '' : 's'}`;
}
