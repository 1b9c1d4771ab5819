// Tracing as the tools ask for it: on the page's strokes as they were sorted, away from the window's thread.
import type { PagePoint, PageRing } from '../../core/geometry/points';
import { FILLS, widthClassOf } from '../../core/plan/hiding';
import { nearestOnSegment } from '../../core/plan/lines';
import { segmentAt } from '../../core/plan/pageIndex';
import type { PageIndex } from '../../core/plan/pageIndex';
import { findPaths } from '../../core/plan/paths';
import type { PathShape } from '../../core/plan/paths';
import { closedPathAround } from '../../core/plan/shapes';
import { traceRegion } from '../../core/plan/traceRegion';
import type { RegionIndex, RegionOptions, RegionReading } from '../../core/plan/traceRegion';
import { SEGMENT_MARK } from '../../core/plan/types';
import type { Linework } from '../../core/plan/types';
import type { LineKind } from './types';

export function traceOn(region: RegionIndex | null, at: PagePoint, options: RegionOptions): RegionReading {
  if (!region) return { refusal: 'this page has no lines to trace, or they are still being read' };
  return traceRegion(region, at, options);
}

const pathsOf = new WeakMap<Linework, readonly PathShape[]>();

export function closedPathOn(index: PageIndex | null, at: PagePoint): PageRing | null {
  if (!index) return null;
  const { linework, hidden } = index;
  const paths = pathsOf.get(linework) ?? findPaths(linework);
  pathsOf.set(linework, paths);
  return closedPathAround(linework, paths, hidden, at);
}

/** The layer of the line nearest to the point, within reach; its width where the drawing has no layers. */
export function lineKindOn(index: PageIndex | null, at: PagePoint, reach: number): LineKind | null {
  if (!index) return null;
  const { linework, boxes, hidden } = index;
  let best = -1;
  let least = reach;
  boxes.each([at[0] - reach, at[1] - reach, at[0] + reach, at[1] + reach], (k) => {
    if (hidden?.[k] === 1) return;
    const foot = nearestOnSegment(at, segmentAt(linework.segments, k));
    const away = Math.hypot(foot[0] - at[0], foot[1] - at[1]);
    if (away > least) return;
    least = away;
    best = k;
  });
  if (best < 0) return null;
  const layer = linework.layer[best] ?? 0;
  const name = linework.layers[layer] ?? '';
  if (linework.layers.length > 1)
    return { of: 'layers', key: layer, name: name === '' ? 'lines on no layer' : `layer “${name}”` };
  const fill = ((linework.marks[best] ?? 0) & SEGMENT_MARK.fill) !== 0;
  const key = widthClassOf(linework.widths[best] ?? 0, fill ? 'fill' : 'line');
  return { of: 'widths', key, name: key === FILLS ? 'fills' : `lines ${(key / 100).toFixed(2)} mm wide` };
}
