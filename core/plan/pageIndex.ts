// The lines of a page in one packed box index: built once a page, asked by snapping, scale reading and tracing.
import { buildBoxIndex } from '../geometry/boxIndex';
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
  const s = linework.segments;
  const boxes = buildBoxIndex(s.length / 4, (k) => {
    const [x1, y1, x2, y2] = segmentAt(s, k);
    return [Math.min(x1, x2), Math.min(y1, y2), Math.max(x1, x2), Math.max(y1, y2)];
  });
  return { linework, boxes, hidden: null };
}

export function segmentAt(segments: Float64Array, k: number): PageLine {
  return [segments[4 * k] ?? 0, segments[4 * k + 1] ?? 0, segments[4 * k + 2] ?? 0, segments[4 * k + 3] ?? 0];
}
