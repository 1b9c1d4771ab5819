// A page's content as tools need it: its lines indexed for snapping, and the scales it states.
import { readLinework } from '../../core/plan/linework';
import { findScale } from '../../core/plan/scale';
import type { ScaleCandidate } from '../../core/plan/scale';
import { buildSnapIndex } from '../../core/plan/snap';
import type { SnapIndex } from '../../core/plan/snap';
import type { PageContent } from '../../core/plan/types';

export interface PageLines {
  readonly index: SnapIndex;
  readonly scales: readonly ScaleCandidate[];
  readonly segments: number;
  /** A scan: little or nothing to snap to. */
  readonly raster: boolean;
}

export function readPageLines(content: PageContent): PageLines {
  const linework = readLinework(content);
  return {
    index: buildSnapIndex(linework),
    scales: findScale(linework).candidates,
    segments: linework.segments.length / 4,
    raster: linework.raster,
  };
}
