// What the stages see of the open window: the stores, and what a person can set off. The app provides it.
import { createContext, useContext } from 'react';
import type { Command } from '../../core/job/commands/types';
import type { PagePoint } from '../../core/geometry/points';
import type { Estimate } from '../../core/job/result';
import type { Job } from '../../core/job/schema';
import { NOTHING_HIDDEN } from '../../core/plan/hiding';
import type { Hiding, listGroups } from '../../core/plan/hiding';
import type { ScaleReading } from '../../core/plan/scale';
import type { Quantity } from '../../core/quantities/types';
import type { DocumentState } from '../document/editor';
import type { Picked } from '../document/picked';
import type { PackName } from '../../shared/packs/packNames';
import type { PinEffect } from '../document/pinEffects';
import { isLagging, type Results } from '../document/results';
import type { Searches } from '../document/searches';
import type { Store } from '../document/store';
import type { Stage, ToolOptions, ViewState } from '../document/view';
import type { ToolState } from '../tools/toolState';
import type { ToolName } from '../tools/types';
import { useStore } from '../ui/useStore';

/** What the page on screen says of itself, once it has been read. */
export interface PageReading {
  readonly page: string | null;
  /** locked: the drawing asks for a password that nobody gave. */
  readonly state: 'none' | 'reading' | 'read' | 'unreadable' | 'locked';
  /** Drawing operators read so far. */
  readonly operators: number;
  readonly scale: ScaleReading;
  readonly segments: number;
  /** A scan: nothing to snap to. */
  readonly raster: boolean;
  /** Its layers and line widths, and which of them are hidden. */
  readonly groups: ReturnType<typeof listGroups>;
  readonly hiding: Hiding;
  /** Ready to be traced. */
  readonly sorted: boolean;
}

export const NOTHING_READ: PageReading = {
  page: null,
  state: 'none',
  operators: 0,
  scale: { candidates: [], dimensions: 0, against: [], warnings: [], regions: [] },
  segments: 0,
  raster: false,
  groups: { layers: [], widths: [] },
  hiding: NOTHING_HIDDEN,
  sorted: false,
};

export interface Actions {
  /** Null, or why not in words; the words are also shown as a notice. */
  run(commands: Command | readonly Command[], label?: string): string | null;
  /** Shows the job as these commands would leave it, until that is kept or let go. Null, or why not in words. */
  preview(commands: readonly Command[], label: string): string | null;
  /** What is previewed becomes one entry of the history. */
  keep(): void;
  letGo(): void;
  chooseTool(tool: ToolName): void;
  setOptions(options: Partial<ToolOptions>): void;
  setStage(stage: Stage): void;
  showPage(page: string): void;
  importPlan(): void;
  /** Hides layers and line widths of the page on screen from sight, snapping and tracing. */
  hide(hiding: Hiding): void;
  addBlankPage(): void;
  exportPack(name: PackName): void;
  pick(picked: readonly Picked[]): void;
  /** Opens or closes a figure's "why" and lights what it came from. */
  explain(quantity: Pick<Quantity, 'key' | 'from'>): void;
  /** Brings a spot of a page into the middle. */
  jumpTo(page: string, at: PagePoint): void;
  undo(): void;
  redo(): void;
  say(text: string, wrong: boolean): void;
}

export interface Session {
  readonly document: Store<DocumentState>;
  readonly results: Store<Results>;
  readonly view: Store<ViewState>;
  readonly tool: Store<ToolState>;
  readonly reading: Store<PageReading>;
  /** Small pictures of pages by their key; null where none is to be had. */
  readonly thumbnails: Store<ReadonlyMap<string, ImageBitmap | null>>;
  readonly searches: Searches;
  readonly pinEffect: Store<PinEffect | null>;
  readonly actions: Actions;
}

const SessionContext = createContext<Session | null>(null);
export const SessionProvider = SessionContext.Provider;

export function useSession(): Session {
  const session = useContext(SessionContext);
  if (!session) throw new Error('no session around this panel');
  return session;
}

export interface Live {
  readonly job: Job;
  readonly estimate: Estimate | null;
  /** The figures belong to an older job than the one on screen, or others of the same job follow. */
  readonly lagging: boolean;
  readonly view: ViewState;
  readonly actions: Actions;
}

/** What nearly every panel needs. */
export function useLive(): Live {
  const { document, results, view, actions } = useSession();
  const now = useStore(document);
  const known = useStore(results);
  const { job } = now;
  const { estimate } = known;
  return { job, estimate, lagging: isLagging(known, now), view: useStore(view), actions };
}

/** A shipped figure that nobody has confirmed yet. */
export function isAssumed(job: Job, path: string): boolean {
  return !job.confirmed.includes(path);
}
