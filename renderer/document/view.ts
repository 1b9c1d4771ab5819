// What is looked at and how: not saved with the job, not undone.
import type { EdgeKind, FittingKind, LineKind, OpeningKind } from '../../core/roof/types';
import type { PagePoint } from '../../core/geometry/points';

export const STAGES = ['plan', 'roof', 'sheets', 'welds', 'order', 'bid'] as const;
export type Stage = (typeof STAGES)[number];

/** What the next traced side, opening or fitting will be. */
export interface ToolOptions {
  readonly edge: { readonly kind: EdgeKind; readonly upstand: number; readonly allowance: number };
  readonly opening: {
    readonly kind: OpeningKind;
    readonly shape: 'rectangle' | 'outline';
    readonly upstand: number;
  };
  readonly fitting: { readonly kind: FittingKind; readonly size: number };
  readonly line: { readonly kind: LineKind };
  /** One arrow for the whole roof, a part of it with an arrow of its own, or four ways to a drain. */
  readonly fall: { readonly way: 'roof' | 'part' | 'drain'; readonly ratio: number | null };
  /** Whether the clicks along a flute stand on the middle of a top flange. */
  readonly flute: { readonly gives: 'direction' | 'flange' };
}

export interface ViewState {
  readonly stage: Stage;
  /** Id of the page on the plan; null before anything is imported. */
  readonly page: string | null;
  /** Ids lit on the plan by a figure's "why". */
  readonly lit: readonly string[];
  /** Key of the figure whose "why" is open. */
  readonly why: string | null;
  /** A spot to bring into sight, and a count so that the same spot can be asked for twice. */
  readonly target: { readonly at: PagePoint; readonly count: number } | null;
  readonly options: ToolOptions;
  /** A sentence for the person, and whether it tells of something wrong. */
  readonly notice: { readonly text: string; readonly wrong: boolean } | null;
}

/** Round figures of the display's own system. Common practice, no source; said before they are used. */
export function firstOptions(display: 'metric' | 'imperial'): ToolOptions {
  const mm = (metric: number, inches: number): number => (display === 'metric' ? metric : inches * 25.4);
  return {
    edge: { kind: 'parapet', upstand: mm(300, 12), allowance: 0 },
    opening: { kind: 'curb', shape: 'rectangle', upstand: mm(200, 8) },
    fitting: { kind: 'drain', size: mm(100, 4) },
    line: { kind: 'tie-in' },
    fall: { way: 'roof', ratio: null },
    flute: { gives: 'direction' },
  };
}

export const FIRST_VIEW: ViewState = {
  stage: 'plan',
  page: null,
  lit: [],
  why: null,
  target: null,
  options: firstOptions('metric'),
  notice: null,
};
