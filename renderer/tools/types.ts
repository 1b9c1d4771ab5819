// What every tool is made of. A state is data with its path as tag; a transition is a pure function of state,
// event and a readonly view of the editor, and returns the next state and what is to be done.
import type { Command } from '../../core/job/commands/types';
import type { Job, JobPage } from '../../core/job/schema';
import type { PagePoint, PageRing } from '../../core/geometry/points';
import type { RegionOptions, RegionReading } from '../../core/plan/traceRegion';
import type { Picked, Selection } from '../document/picked';
import type { ToolOptions } from '../document/view';
import type { ToolState } from './toolState';

export const TOOL_NAMES = [
  'select',
  'pan',
  'setScale',
  'checkLength',
  'scaleRegion',
  'levelSheet',
  'bothWays',
  'traceRoof',
  'traceRegion',
  'addOpening',
  'placeFitting',
  'drawLine',
  'drawFall',
  'alongFlute',
  'measure',
] as const;
export type ToolName = (typeof TOOL_NAMES)[number];

export interface Keys {
  readonly shift: boolean;
  readonly alt: boolean;
  readonly ctrl: boolean;
}

export const NO_KEYS: Keys = { shift: false, alt: false, ctrl: false };

export type ToolEvent =
  | { readonly type: 'down' | 'move' | 'up' | 'double'; readonly at: PagePoint; readonly keys: Keys }
  /** A line typed in the field over the plan and closed with Enter. */
  | { readonly type: 'typed'; readonly text: string }
  | { readonly type: 'back' }
  /** One of what the state offers, by key or button. */
  | { readonly type: 'option'; readonly option: ToolOptionName }
  /** The lines that can be traced are others than before: some were hidden or shown. */
  | { readonly type: 'relined' }
  | { readonly type: 'delete' }
  /** An arrow key: direction on the page, and how far in mm on the roof. */
  | { readonly type: 'nudge'; readonly direction: PagePoint; readonly mm: number }
  | EndingEvent;

export type EndingEvent =
  { readonly type: 'cancel' } | { readonly type: 'complete' } | { readonly type: 'interrupt' };

export type PointerEventOfTool = Extract<ToolEvent, { at: PagePoint }>;

export interface SnapMark {
  readonly at: PagePoint;
  /** In words: "end of a line", "in line with the last side". */
  readonly kind: string;
  /** Lines to show why. */
  readonly guides: readonly (readonly [PagePoint, PagePoint])[];
}

export interface SnapRequest {
  readonly at: PagePoint;
  readonly keys: Keys;
  /** Corners placed so far in this ring, the first of them closing it. */
  readonly placed: readonly PagePoint[];
  /** Corners of the job that are being dragged and so are no candidates. */
  readonly except: readonly string[];
}

export const TOOL_OPTIONS = {
  rectangle: { key: 'r', name: 'Rectangle by three points' },
  arc: { key: 'a', name: 'Arc through the next point' },
  path: { key: 'p', name: 'A closed path as it is' },
  add: { key: 'a', name: 'Add a neighbouring shape' },
  leaveOut: { key: 'l', name: 'Leave a line’s layer out' },
  inner: { key: 'i', name: 'To the parapet’s inner face' },
  lowLine: { key: 'b', name: 'By its low line' },
  highLine: { key: 'g', name: 'By its high line' },
} as const;
export type ToolOptionName = keyof typeof TOOL_OPTIONS;

/** A layer of the drawing, or lines of one width where it has no layers. */
export interface LineKind {
  readonly of: 'layers' | 'widths';
  readonly key: number;
  readonly name: string;
}

export interface EndLapPlace {
  readonly roof: string;
  /** Middle of the lap on the page, and a unit step along its course. */
  readonly at: PagePoint;
  readonly along: PagePoint;
  /** Which of the roof's pins holds it; null where none does. */
  readonly pin: number | null;
}

export interface ToolView {
  readonly job: Job;
  readonly page: JobPage | null;
  readonly selection: Selection;
  readonly options: ToolOptions;
  /** Screen pixels per page point. */
  readonly pxPerPoint: number;
  hit(at: PagePoint): Picked | null;
  snap(request: SnapRequest): SnapMark | null;
  /** Where a laid end lap stands, and the way its course runs; null where it is none. */
  endLap(picked: Picked): EndLapPlace | null;
  /** The closed shape around a point of the page, from the drawing's lines. */
  trace(at: PagePoint, options: RegionOptions): RegionReading;
  /** The smallest closed path of the drawing round a point. */
  closedPath(at: PagePoint): PageRing | null;
  /** What the line under the pointer can be left out with. */
  lineKind(at: PagePoint): LineKind | null;
}

export type Effect =
  | { readonly do: 'run'; readonly commands: readonly Command[]; readonly label: string }
  | { readonly do: 'begin'; readonly label: string }
  | { readonly do: 'preview'; readonly commands: readonly Command[] }
  | { readonly do: 'commit'; readonly selection?: Selection }
  | { readonly do: 'revert' }
  | { readonly do: 'pick'; readonly selection: Selection }
  /** Hidden from sight, snapping and tracing; `relined` follows. */
  | { readonly do: 'leaveOut'; readonly lines: LineKind }
  | { readonly do: 'panBy'; readonly by: PagePoint }
  | { readonly do: 'say'; readonly text: string; readonly wrong: boolean }
  /** A typed hand-over: which tool is next. */
  | { readonly do: 'goTo'; readonly tool: ToolName };

export interface Step {
  readonly state: ToolState;
  readonly effects: readonly Effect[];
}

/** What a state shows while it stands; the canvas paints it and decides nothing. */
export interface Showing {
  readonly hint: string;
  /** What may be typed now: the field's name, or null for no field. */
  readonly typing: string | null;
  readonly cursor: 'default' | 'crosshair' | 'grab' | 'grabbing' | 'move';
  readonly marks: readonly Mark[];
  /** What else can be done here, and which of it is on. */
  readonly options?: readonly { readonly option: ToolOptionName; readonly on: boolean }[];
}

export type Mark =
  | { readonly kind: 'line'; readonly points: readonly PagePoint[]; readonly closed: boolean }
  | { readonly kind: 'guide'; readonly points: readonly PagePoint[] }
  | { readonly kind: 'point'; readonly at: PagePoint }
  | { readonly kind: 'snap'; readonly at: PagePoint; readonly text: string }
  | { readonly kind: 'text'; readonly at: PagePoint; readonly text: string; readonly along: number | null };

/** Every state answers cancel, complete and interrupt; the type demands it. */
export interface StateSpec<S extends { readonly at: string }> {
  on(state: S, event: Exclude<ToolEvent, EndingEvent>, view: ToolView): Step;
  cancel(state: S, view: ToolView): Step;
  complete(state: S, view: ToolView): Step;
  interrupt(state: S, view: ToolView): Step;
  show(state: S, view: ToolView): Showing;
}

export function stay(state: ToolState, ...effects: readonly Effect[]): Step {
  return { state, effects };
}

export function say(text: string): Effect {
  return { do: 'say', text, wrong: false };
}

export function refuse(text: string): Effect {
  return { do: 'say', text, wrong: true };
}
