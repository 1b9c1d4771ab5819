// All states of all tools, by path; and the one function that steps them.
import type { PlacingFitting } from './placeFitting/idle';
import { placingFitting } from './placeFitting/idle';
import type { CheckFirst, CheckSecond, CheckTyping } from './checkLength/checkLength';
import { checkLength } from './checkLength/checkLength';
import type { FluteFirst, FluteSecond } from './alongFlute/alongFlute';
import { alongFlute } from './alongFlute/alongFlute';
import type { FallCorner, FallHigh, FallIdle, FallLow, FallAlong } from './drawFall/drawFall';
import { drawFall } from './drawFall/drawFall';
import type { LineFirst, LineSecond } from './drawLine/drawLine';
import { drawLine } from './drawLine/drawLine';
import type { MeasureFirst, MeasureSecond } from './measure/measure';
import { measure } from './measure/measure';
import type { OpeningIdle } from './addOpening/idle';
import { openingIdle } from './addOpening/idle';
import type { OpeningCorner } from './addOpening/placingCorner';
import { openingCorner } from './addOpening/placingCorner';
import type { OpeningOpposite } from './addOpening/placingOpposite';
import { openingOpposite } from './addOpening/placingOpposite';
import type { PanDragging, PanIdle } from './pan/pan';
import { pan } from './pan/pan';
import type { ScaleFirst, ScaleSecond, ScaleTyping } from './setScale/setScale';
import { scaleRegion } from './scaleRegion/scaleRegion';
import type { RegionFirst, RegionSecond, RegionTyping } from './scaleRegion/scaleRegion';
import { bothWays } from './setRight/bothWays';
import type { BothFirst, BothSecond, BothTyping } from './setRight/bothWays';
import { levelSheet } from './setRight/levelSheet';
import type { LevelFirst, LevelSecond } from './setRight/levelSheet';
import { setScale } from './setScale/setScale';
import type { SelectDragging } from './select/dragging';
import { selectDragging } from './select/dragging';
import type { SelectIdle } from './select/idle';
import { selectIdle } from './select/idle';
import type { SelectPointing } from './select/pointing';
import { selectPointing } from './select/pointing';
import type { RegionIdle } from './traceRegion/idle';
import { REGION_START, regionIdle } from './traceRegion/idle';
import type { RegionProposed } from './traceRegion/proposed';
import { regionProposed } from './traceRegion/proposed';
import type { TraceIdle } from './traceRoof/idle';
import { TRACE_START, traceIdle } from './traceRoof/idle';
import type { TraceCorner } from './traceRoof/placingCorner';
import { traceCorner } from './traceRoof/placingCorner';
import type { TraceRectangle } from './traceRoof/rectangle';
import { traceRectangle } from './traceRoof/rectangle';
import type { Showing, StateSpec, Step, ToolEvent, ToolName, ToolView } from './types';

export type ToolState =
  | SelectIdle
  | SelectPointing
  | SelectDragging
  | PanIdle
  | PanDragging
  | ScaleFirst
  | ScaleSecond
  | ScaleTyping
  | CheckFirst
  | CheckSecond
  | CheckTyping
  | RegionFirst
  | RegionSecond
  | RegionTyping
  | LevelFirst
  | LevelSecond
  | BothFirst
  | BothSecond
  | BothTyping
  | MeasureFirst
  | MeasureSecond
  | TraceIdle
  | TraceCorner
  | TraceRectangle
  | RegionIdle
  | RegionProposed
  | OpeningIdle
  | OpeningCorner
  | OpeningOpposite
  | PlacingFitting
  | LineFirst
  | LineSecond
  | FallIdle
  | FallCorner
  | FallHigh
  | FallLow
  | FallAlong
  | FluteFirst
  | FluteSecond;

type Specs = { readonly [Path in ToolState['at']]: StateSpec<Extract<ToolState, { at: Path }>> };

const SPECS: Specs = {
  'select.idle': selectIdle,
  'select.pointing': selectPointing,
  'select.dragging': selectDragging,
  ...pan,
  ...setScale,
  ...checkLength,
  ...scaleRegion,
  ...levelSheet,
  ...bothWays,
  ...measure,
  'traceRoof.idle': traceIdle,
  'traceRoof.placingCorner': traceCorner,
  'traceRoof.rectangle': traceRectangle,
  'traceRegion.idle': regionIdle,
  'traceRegion.proposed': regionProposed,
  'addOpening.idle': openingIdle,
  'addOpening.placingCorner': openingCorner,
  'addOpening.placingOpposite': openingOpposite,
  'placeFitting.idle': placingFitting,
  ...drawLine,
  ...drawFall,
  ...alongFlute,
};

const FIRST: { readonly [Name in ToolName]: ToolState } = {
  select: { at: 'select.idle' },
  pan: { at: 'pan.idle' },
  setScale: { at: 'setScale.first', snap: null },
  checkLength: { at: 'checkLength.first', snap: null },
  scaleRegion: { at: 'scaleRegion.first' },
  levelSheet: { at: 'levelSheet.first', snap: null },
  bothWays: { at: 'bothWays.first', known: null, snap: null },
  traceRoof: TRACE_START,
  traceRegion: REGION_START,
  addOpening: { at: 'addOpening.idle', snap: null },
  placeFitting: { at: 'placeFitting.idle', pointer: null, snap: null },
  drawLine: { at: 'drawLine.first', snap: null },
  drawFall: { at: 'drawFall.idle', snap: null },
  alongFlute: { at: 'alongFlute.first', snap: null },
  measure: { at: 'measure.first', snap: null },
};

export function firstState(tool: ToolName): ToolState {
  return FIRST[tool];
}

export function toolOf(state: ToolState): ToolName {
  return state.at.split('.')[0] as ToolName;
}

export function stepTool(state: ToolState, event: ToolEvent, view: ToolView): Step {
  const spec = SPECS[state.at] as StateSpec<ToolState>;
  if (event.type === 'cancel') return spec.cancel(state, view);
  if (event.type === 'complete') return spec.complete(state, view);
  if (event.type === 'interrupt') return spec.interrupt(state, view);
  return spec.on(state, event, view);
}

export function showTool(state: ToolState, view: ToolView): Showing {
  return (SPECS[state.at] as StateSpec<ToolState>).show(state, view);
}
