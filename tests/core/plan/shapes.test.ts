import { describe, expect, it } from 'vitest';
import { ringHolds, signedArea } from '../../../core/geometry/ring';
import type { PagePoint } from '../../../core/geometry/points';
import { flattenArc } from '../../../core/plan/arc';
import { FLATNESS_POINTS, readLinework } from '../../../core/plan/linework';
import { findPaths } from '../../../core/plan/paths';
import { closedPathAround, innerFace, joinShapes } from '../../../core/plan/shapes';
import type { Region } from '../../../core/plan/traceRegion';
import { pageOf } from './content';

function shape(...outline: readonly PagePoint[]): Region {
  return { outline, openings: [], closedGaps: [], openGaps: [], smallMarks: 0, closedBy: 'drawn lines' };
}

const box = (x0: number, y0: number, x1: number, y1: number): PagePoint[] => [
  [x0, y0],
  [x1, y0],
  [x1, y1],
  [x0, y1],
];

describe('a neighbour joined to a traced shape', () => {
  it('drops the line between the two, and keeps the corners as they were traced', () => {
    const joined = joinShapes(shape(...box(0, 0, 100.123, 50)), shape(...box(100.123, 0, 180, 80)));
    expect(joined).toMatchObject({
      region: {
        outline: [
          [0, 0],
          [180, 0],
          [180, 80],
          [100.123, 80],
          [100.123, 50],
          [0, 50],
        ],
        openings: [],
      },
    });
  });

  it('makes what the two enclose an opening', () => {
    const horseshoe = shape([0, 0], [90, 0], [90, 30], [30, 30], [30, 60], [90, 60], [90, 90], [0, 90]);
    const joined = joinShapes(horseshoe, shape(...box(90, 0, 120, 90)));
    if ('refusal' in joined) throw new Error(joined.refusal);
    const { outline, openings } = joined.region;
    expect(signedArea(outline)).toBeCloseTo(120 * 90, 6);
    expect(openings.map((ring) => signedArea(ring))).toEqual([-60 * 30]);
  });

  it('refuses shapes that do not touch', () => {
    expect(joinShapes(shape(...box(0, 0, 10, 10)), shape(...box(20, 0, 30, 10)))).toHaveProperty('refusal');
  });
});

describe('the inner face of a parapet', () => {
  it('lies the thickness inside each side, at inside corners too', () => {
    // An L of 100 × 80 with a notch of 40 × 30 at its upper right.
    const outline: PagePoint[] = [
      [0, 0],
      [100, 0],
      [100, 50],
      [60, 50],
      [60, 80],
      [0, 80],
    ];
    expect(
      innerFace(outline, 2)?.map(([x, y]) => [Math.round(x * 1e6) / 1e6, Math.round(y * 1e6) / 1e6]),
    ).toEqual([
      [2, 2],
      [98, 2],
      [98, 48],
      [58, 48],
      [58, 78],
      [2, 78],
    ]);
  });

  it('is refused where a side would turn over', () => {
    expect(innerFace(box(0, 0, 100, 8), 5)).toBeNull();
  });
});

describe('an arc by three points', () => {
  it('stays within the stated flatness and ends where it should', () => {
    const corners = flattenArc([100, 0], [0, 100], [-100, 0]);
    if (!corners) throw new Error('no arc');
    expect(corners.at(-1)).toEqual([-100, 0]);
    let pen: PagePoint = [100, 0];
    for (const corner of corners) {
      expect(Math.hypot(...corner)).toBeCloseTo(100, 9);
      const middle = Math.hypot((pen[0] + corner[0]) / 2, (pen[1] + corner[1]) / 2);
      expect(100 - middle).toBeLessThanOrEqual(FLATNESS_POINTS + 1e-9);
      expect(corner[1]).toBeGreaterThanOrEqual(0);
      pen = corner;
    }
  });

  it('goes the way on which the middle point lies', () => {
    const [first] = flattenArc([100, 0], [0, -100], [-100, 0]) ?? [];
    expect(first?.[1]).toBeLessThan(0);
  });

  it('is none where the three lie in line', () => {
    expect(flattenArc([0, 0], [5, 5], [10, 10])).toBeNull();
  });
});

describe('a closed path taken as it is', () => {
  const linework = readLinework(
    pageOf([
      { points: [...box(10, 10, 200, 150), [10, 10]] },
      { points: [...box(40, 40, 90, 80).reverse(), [40, 80]] },
      {
        points: [
          [0, 0],
          [300, 200],
        ],
      },
    ]),
  );
  const paths = findPaths(linework);

  it('is the smallest round the point, counter-clockwise', () => {
    const ring = closedPathAround(linework, paths, null, [60, 60]);
    expect(ring && signedArea(ring)).toBeCloseTo(50 * 40, 6);
    expect(ring && ringHolds(ring, [60, 60])).toBe(true);
  });

  it('is none where no closed path lies round it, or the one that does is hidden', () => {
    expect(closedPathAround(linework, paths, null, [250, 20])).toBeNull();
    expect(
      closedPathAround(linework, paths, new Uint8Array(linework.widths.length).fill(1), [60, 60]),
    ).toBeNull();
  });
});
