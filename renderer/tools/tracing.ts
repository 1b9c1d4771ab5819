// Tracing as the tools ask for it: on the page's strokes as they were sorted, away from the window's thread.
import type { PagePoint } from '../../core/geometry/points';
import { traceRegion } from '../../core/plan/traceRegion';
import type { RegionIndex, RegionOptions, RegionReading } from '../../core/plan/traceRegion';

export function traceOn(region: RegionIndex | null, at: PagePoint, options: RegionOptions): RegionReading {
  if (!region) return { refusal: 'this page has no lines to trace, or they are still being read' };
  return traceRegion(region, at, options);
}
