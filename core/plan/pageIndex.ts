// The lines of a page in one packed box index: built once a page, asked by snapping, scale reading and tracing.
import { buildBoxIndex, joinBoxIndexes } from '../geometry/boxIndex';
import type { BoxIndex } from '../geometry/boxIndex';
import type { PageLine } from './lines';
import type { Linework } from './types';

export interface PageIndex {
  readonly linework: Linework;
  readonly boxes: BoxIndex;
  /** Per segment, 1 where a person has hidden it: it is neither snapped to nor traced. Null where none is. */
  readonly hidden: Uint8Array | null;
}

export function buildPageIndex(linework: Linework): PageIndex {
  return { linework, boxes: boxesOf(linework.segments), hidden: null };
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
    boxes: joinBoxIndexes(page.boxes, boxesOf(more)),
    hidden: page.hidden,
  };
}

function boxesOf(segments: Float64Array): BoxIndex {
  return buildBoxIndex(segments.length / 4, (k) => {
    const [x1, y1, x2, y2] = segmentAt(segments, k);
    return [Math.min(x1, x2), Math.min(y1, y2), Math.max(x1, x2), Math.max(y1, y2)];
  });
}

export function segmentAt(segments: Float64Array, k: number): PageLine {
  return [segments[4 * k] ?? 0, segments[4 * k + 1] ?? 0, segments[4 * k + 2] ?? 0, segments[4 * k + 3] ?? 0];
}
