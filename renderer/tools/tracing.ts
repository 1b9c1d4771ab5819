// Tracing as the tools ask for it. What a page's strokes are is worked out once a page, on the first trace.
import type { PagePoint } from '../../core/geometry/points';
import type { PageIndex } from '../../core/plan/pageIndex';
import { buildRegionIndex, traceRegion } from '../../core/plan/traceRegion';
import type { RegionIndex, RegionOptions, RegionReading } from '../../core/plan/traceRegion';

export type Tracer = (index: PageIndex | null, at: PagePoint, options: RegionOptions) => RegionReading;

export function createTracer(): Tracer {
  const ready = new WeakMap<PageIndex, RegionIndex>();
  return (index, at, options) => {
    if (!index) return { refusal: 'this page has no lines to trace, or they are still being read' };
    const region = ready.get(index) ?? buildRegionIndex(index);
    ready.set(index, region);
    return traceRegion(region, at, options);
  };
}
