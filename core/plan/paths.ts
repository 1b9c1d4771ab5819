// The extent of each path of a page, and whether it closes: a closed path is a shape, never a dimension line.
import type { Box } from '../geometry/boxIndex';
import { segmentAt } from './pageIndex';
import { SEGMENT_MARK } from './types';
import type { Linework } from './types';

export interface PathShape {
  /** Segments of a path follow each other. */
  readonly first: number;
  readonly count: number;
  readonly box: Box;
  readonly closed: boolean;
  /** Made of curves alone, as wide as tall, and closed. */
  readonly circle: boolean;
}

export function findPaths(linework: Linework): PathShape[] {
  const { segments, path, marks } = linework;
  const shapes: PathShape[] = [];
  const count = path.length;
  for (let first = 0; first < count;) {
    let next = first;
    let [x0, y0, x1, y1] = [Infinity, Infinity, -Infinity, -Infinity];
    let curved = true;
    while (next < count && path[next] === path[first]) {
      const [ax, ay, bx, by] = segmentAt(segments, next);
      x0 = Math.min(x0, ax, bx);
      y0 = Math.min(y0, ay, by);
      x1 = Math.max(x1, ax, bx);
      y1 = Math.max(y1, ay, by);
      curved &&= ((marks[next] ?? 0) & SEGMENT_MARK.curve) !== 0;
      next++;
    }
    const start = segmentAt(segments, first);
    const end = segmentAt(segments, next - 1);
    const gap = Math.hypot(start[0] - end[2], start[1] - end[3]);
    const size = Math.max(x1 - x0, y1 - y0);
    const closed = next - first >= 3 && gap <= 1e-3 * size;
    const round = Math.abs(x1 - x0 - (y1 - y0)) < 0.05 * size;
    shapes.push({
      first,
      count: next - first,
      box: [x0, y0, x1, y1],
      closed,
      circle: closed && curved && round,
    });
    first = next;
  }
  return shapes;
}
