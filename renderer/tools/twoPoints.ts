// Two points on the page, snapped: shared by the tools that ask for them.
import type { PagePoint } from '../../core/geometry/points';
import { regionAt } from '../../core/job/pageScale';
import { distance } from '../document/rings';
import { parseLength } from '../../core/units/lengths';
import { sayDistance } from './typing';
import { refuse, stay } from './types';
import type { Mark, PointerEventOfTool, SnapMark, StateSpec, Step, ToolView } from './types';
import type { ToolState } from './toolState';

/** Where the pointer means: snapped, and with Shift held square from the first point. */
export function pointAt(
  event: PointerEventOfTool,
  from: PagePoint | null,
  view: ToolView,
): { readonly at: PagePoint; readonly snap: SnapMark | null } {
  const placed = from ? [from] : [];
  const snap = view.snap({ at: event.at, keys: event.keys, placed, except: [] });
  return { at: snap?.at ?? event.at, snap };
}

/** What a tool is in before any of its points is given. */
type FirstState = Extract<ToolState, { readonly at: `${string}.first`; readonly snap: SnapMark | null }>;

/** The state that waits for the first of two points: a click goes on to the next state, and leaving it is leaving the
 * tool. */
export function firstPoint<S extends FirstState>(
  start: S,
  next: (a: PagePoint) => ToolState,
  hint: (view: ToolView) => string,
): StateSpec<S> {
  const leave: Step = { state: start, effects: [{ do: 'goTo', tool: 'select' }] };
  return {
    on: (state, event, view) => {
      if (!('at' in event)) return stay(state);
      const { at, snap } = pointAt(event, null, view);
      return event.type === 'down' ? stay(next(at)) : stay({ ...state, snap });
    },
    cancel: () => leave,
    complete: () => leave,
    interrupt: () => stay(start),
    show: (state, view) => ({
      hint: hint(view),
      typing: null,
      cursor: 'crosshair',
      marks: snapMarks(state.snap),
    }),
  };
}

/** What a tool is in while the second of its two points is asked for. */
type SecondState = Extract<
  ToolState,
  {
    readonly at: `${string}.second`;
    readonly a: PagePoint;
    readonly b: PagePoint | null;
    readonly snap: SnapMark | null;
  }
>;

/** The state that waits for the second of two points: giving it up begins again with the first. */
export function secondPoint<S extends SecondState>(
  start: ToolState,
  taken: (state: S, at: PagePoint, view: ToolView) => Step,
  hint: string,
): StateSpec<S> {
  return {
    on: (state, event, view) => {
      if (event.type === 'back') return stay(start);
      if (!('at' in event)) return stay(state);
      const { at, snap } = pointAt(event, state.a, view);
      return event.type === 'down' ? taken(state, at, view) : stay({ ...state, b: at, snap });
    },
    cancel: () => stay(start),
    complete: (state) => stay(state),
    interrupt: () => stay(start),
    show: (state, view) => ({
      hint,
      typing: null,
      cursor: 'crosshair',
      marks: spanMarks(state.a, state.b, state.snap, view),
    }),
  };
}

/** On to typing the length between two points, unless they are one spot or hold under two scales. */
export function onToLength(state: SecondState, at: PagePoint, view: ToolView, next: ToolState): Step {
  if (isOneSpot(state.a, at, view)) return stay(state, refuse(ONE_SPOT));
  if (inTwoScales(state.a, at, view)) return stay(state, refuse(TWO_SCALES));
  return stay(next);
}

/** Two ends so near to each other on the screen are one. */
export function isOneSpot(a: PagePoint, b: PagePoint, { pxPerPoint }: ToolView): boolean {
  return distance(a, b) * pxPerPoint < 4;
}

export const ONE_SPOT = 'The two ends lie on one spot: click the other end of the length.';

/** Whether a region with a scale of its own holds one of the two places and not the other. */
export function inTwoScales(a: PagePoint, b: PagePoint, { page }: ToolView): boolean {
  return page !== null && regionAt(page, a) !== regionAt(page, b);
}

export const TWO_SCALES =
  'One end lies in a region with a scale of its own and the other outside it: click both on one side of its border.';

/** The true length between two points as a person typed it: more than zero, or why not. */
export function readKnownLength(
  text: string,
  view: ToolView,
): { readonly mm: number } | { readonly fault: string } {
  const length = parseLength(text, view.job.display);
  if ('fault' in length || length.mm > 0) return length;
  return { fault: 'A known length is more than zero.' };
}

export function spanMarks(
  a: PagePoint,
  b: PagePoint | null,
  snap: SnapMark | null,
  view: ToolView,
): readonly Mark[] {
  const marks: Mark[] = [{ kind: 'point', at: a }];
  if (b && distance(a, b) > 0) {
    marks.push({ kind: 'line', points: [a, b], closed: false }, { kind: 'point', at: b });
    marks.push({
      kind: 'text',
      at: [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2],
      text: sayDistance(distance(a, b), a, view),
      along: Math.atan2(b[1] - a[1], b[0] - a[0]),
    });
  }
  return [...marks, ...snapMarks(snap)];
}

export function snapMarks(snap: SnapMark | null): readonly Mark[] {
  if (!snap) return [];
  return [
    ...snap.guides.map((points): Mark => ({ kind: 'guide', points })),
    { kind: 'snap', at: snap.at, text: snap.kind },
  ];
}
