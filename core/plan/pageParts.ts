// In: a page's lines. Out: the parts that it is drawn in, plan beside detail beside title block, apart by white paper.
// Promise: frames and lines that cross the whole sheet join nothing.
import type { PagePoint } from '../geometry/points';
import { segmentAt } from './pageIndex';
import type { Linework } from './types';

export interface PagePart {
  readonly low: PagePoint;
  readonly high: PagePoint;
}

/** Whether two parts share ground; a border is none. */
export function overlap(a: PagePart, b: PagePart): boolean {
  return ([0, 1] as const).every((axis) => a.low[axis] < b.high[axis] && b.low[axis] < a.high[axis]);
}

export interface PageParts {
  readonly parts: readonly PagePart[];
  /** The part that lies at a place or within reach of it; null on white paper. */
  at(place: PagePoint): PagePart | null;
}

/** Cells along the longer side. */
const CELLS = 160;
/** Cells of white paper that two drawings at least keep between them, less one. */
const REACH = 1;
/** A line longer than this share of the sheet is a frame or divides it. */
const CROSSES = 0.6;

export function findParts(linework: Linework): PageParts {
  const { width, height } = linework;
  const cell = Math.max(width, height) / CELLS;
  const columns = Math.max(1, Math.ceil(width / cell));
  const rows = Math.max(1, Math.ceil(height / cell));
  const inked = inkCells(linework, { cell, columns, rows });
  const label = new Int32Array(columns * rows).fill(-1);
  const parts: PagePart[] = [];
  for (let start = 0; start < inked.length; start++) {
    if (inked[start] !== 1 || label[start] !== -1) continue;
    parts.push(flood(start, parts.length));
  }
  return {
    parts,
    at([x, y]) {
      const [column, row] = [Math.floor(x / cell), Math.floor(y / cell)];
      for (let ring = 0; ring <= REACH + 1; ring++)
        for (let dy = -ring; dy <= ring; dy++)
          for (let dx = -ring; dx <= ring; dx++) {
            if (Math.max(Math.abs(dx), Math.abs(dy)) !== ring) continue;
            const [i, j] = [column + dx, row + dy];
            if (i < 0 || j < 0 || i >= columns || j >= rows) continue;
            const part = parts[label[j * columns + i] ?? -1];
            if (part) return part;
          }
      return null;
    },
  };

  function flood(start: number, number: number): PagePart {
    const waiting = [start];
    label[start] = number;
    let [left, bottom, right, top] = [columns, rows, 0, 0];
    for (let k = waiting.pop(); k !== undefined; k = waiting.pop()) {
      const [i, j] = [k % columns, Math.floor(k / columns)];
      [left, bottom] = [Math.min(left, i), Math.min(bottom, j)];
      [right, top] = [Math.max(right, i + 1), Math.max(top, j + 1)];
      for (let dy = -REACH - 1; dy <= REACH + 1; dy++)
        for (let dx = -REACH - 1; dx <= REACH + 1; dx++) {
          const [x, y] = [i + dx, j + dy];
          if (x < 0 || y < 0 || x >= columns || y >= rows) continue;
          const other = y * columns + x;
          if (inked[other] !== 1 || label[other] !== -1) continue;
          label[other] = number;
          waiting.push(other);
        }
    }
    return { low: [left * cell, bottom * cell], high: [right * cell, top * cell] };
  }
}

interface Grid {
  readonly cell: number;
  readonly columns: number;
  readonly rows: number;
}

function inkCells({ segments, width, height }: Linework, { cell, columns, rows }: Grid): Uint8Array {
  const inked = new Uint8Array(columns * rows);
  const count = segments.length / 4;
  for (let k = 0; k < count; k++) {
    const [x1, y1, x2, y2] = segmentAt(segments, k);
    if (Math.abs(x2 - x1) > CROSSES * width || Math.abs(y2 - y1) > CROSSES * height) continue;
    const steps = 1 + Math.ceil((2 * Math.max(Math.abs(x2 - x1), Math.abs(y2 - y1))) / cell);
    for (let n = 0; n <= steps; n++) {
      const i = Math.floor((x1 + ((x2 - x1) * n) / steps) / cell);
      const j = Math.floor((y1 + ((y2 - y1) * n) / steps) / cell);
      if (i >= 0 && j >= 0 && i < columns && j < rows) inked[j * columns + i] = 1;
    }
  }
  return inked;
}
