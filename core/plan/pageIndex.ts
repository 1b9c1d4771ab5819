// The lines of a page in one packed box index: built once a page, asked by snapping, scale reading and tracing.
import { joinBoxIndexes } from '../geometry/boxIndex';
import type { BoxIndex } from '../geometry/boxIndex';
import { buildSegmentIndex } from '../geometry/segmentIndex';
import type { PageLine } from './lines';
import type { Linework } from './types';

export interface PageIndex {
  readonly linework: Linework;
  readonly boxes: BoxIndex;
  /** Per segment, 1 where a person has hidden it: it is neither snapped to nor traced. Null where none is. */
  readonly hidden: Uint8Array | null;
}

export function buildPageIndex(linework: Linework): PageIndex {
  return { linework, boxes: buildSegmentIndex(linework.segments), hidden: null };
}

/** The page with more lines after its own, x1, y1, x2, y2 of each; they have no pen, path or layer. */
export function withLines(page: PageIndex, more: Float64Array): PageIndex {
  if (more.length === 0) return page;
  const { linework } = page;
  const segments = new Float64Array(linework.segments.length + more.length);
  segments.set(linework.segments);
  segments.set(more, linework.segments.length);
  return {
    linework: { ...linework, segments },
    boxes: joinBoxIndexes(page.boxes, buildSegmentIndex(more)),
    hidden: page.hidden,
  };
}

export function segmentAt(segments: Float64Array, k: number): PageLine {
  return [segments[4 * k] ?? 0, segments[4 * k + 1] ?? 0, segments[4 * k + 2] ?? 0, segments[4 * k + 3] ?? 0];
}
