// A page's content as tools need it: its lines indexed for snapping and tracing, and the scales it states.
import { readLinework } from '../../core/plan/linework';
import { buildPageIndex } from '../../core/plan/pageIndex';
import type { PageIndex } from '../../core/plan/pageIndex';
import { findScale } from '../../core/plan/scale';
import type { ScaleReading } from '../../core/plan/scale';
import type { PageContent } from '../../core/plan/types';

export interface PageLines {
  readonly index: PageIndex;
  readonly scale: ScaleReading;
  readonly segments: number;
  /** A scan: little or nothing to snap to. */
  readonly raster: boolean;
}

export function readPageLines(content: PageContent): PageLines {
  const linework = readLinework(content);
  const index = buildPageIndex(linework);
  return {
    index,
    scale: findScale(linework, index),
    segments: linework.segments.length / 4,
    raster: linework.raster,
  };
}
