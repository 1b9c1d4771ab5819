import { describe, expect, it } from 'vitest';
import { FILLS, hideLines, listGroups, widthClassOf } from '../../../core/plan/hiding';
import { readLinework } from '../../../core/plan/linework';
import { buildPageIndex } from '../../../core/plan/pageIndex';
import { buildSegmentIndex, openSegmentIndex } from '../../../core/geometry/segmentIndex';
import { snapPoint } from '../../../core/plan/snap';
import { buildRegionIndex, traceRegion } from '../../../core/plan/traceRegion';
import type { PagePoint } from '../../../core/geometry/points';
import { seeded } from '../../support/random';
import { pageOf } from './content';

const room: PagePoint[] = [
  [100, 100],
  [500, 100],
  [500, 300],
  [100, 300],
  [100, 100],
];
const wall: PagePoint[] = [
  [300, 100],
  [300, 300],
];
const linework = readLinework(pageOf([{ points: room }, { points: wall }]));
const page = buildPageIndex({
  ...linework,
  layers: ['', 'Walls'],
  layer: Uint16Array.from(linework.path, (path) => path),
  widths: Float32Array.from(linework.path, (path) => (path === 1 ? 0.72 : 1.44)),
});

describe('what can be hidden on a sheet', () => {
  it('is listed by layer and width with how many lines each holds, most first', () => {
    const { layers, widths } = listGroups(page.linework);
    expect(layers).toEqual([
      { key: 0, count: 4, name: '' },
      { key: 1, count: 1, name: 'Walls' },
    ]);
    expect(widths).toEqual([
      { key: 51, count: 4 },
      { key: 25, count: 1 },
    ]);
    expect(widthClassOf(0.5, 'fill')).toBe(FILLS);
  });

  it('is neither snapped to nor traced', () => {
    const query = {
      pointer: [301, 200],
      radius: 5,
      placed: [],
      corners: [],
      ortho: 'free',
      last: null,
    } as const;
    const area = (index: typeof page): number | null => {
      const traced = traceRegion(buildRegionIndex(index), [200, 200]);
      return 'refusal' in traced ? null : Math.max(...traced.region.outline.map(([x]) => x));
    };
    expect(snapPoint(page, query)?.label).toBe('the middle of a line');
    expect(area(page)).toBe(300);
    for (const hidden of [
      hideLines(page, { layers: [1], widths: [] }),
      hideLines(page, { layers: [], widths: [25] }),
    ]) {
      expect(snapPoint(hidden, query)).toBeNull();
      expect(area(hidden)).toBe(500);
    }
    expect(
      hideLines(hideLines(page, { layers: [1], widths: [] }), { layers: [], widths: [] }).hidden,
    ).toBeNull();
  });
});

describe('an index of lines', () => {
  it('finds the same lines where it was handed to another thread', () => {
    const again = openSegmentIndex(page.linework.segments, structuredClone(page.boxes.data));
    expect(again.search([250, 150, 350, 250])).toEqual(page.boxes.search([250, 150, 350, 250]));
    expect(openSegmentIndex(new Float64Array(), null).search([0, 0, 1, 1])).toEqual([]);
  });
  it('tells each line that passes a box once, and no long slanted one that does not', () => {
    const { next: random } = seeded(11);
    const lines = Array.from({ length: 300 }, () =>
      [random(), random(), random(), random()].map((v) => 900 * v),
    );
    const index = buildSegmentIndex(Float64Array.from(lines.flat()));
    const opened = openSegmentIndex(Float64Array.from(lines.flat()), structuredClone(index.data));
    let far = 0;
    for (let n = 0; n < 200; n++) {
      const [x, y, size] = [900 * random(), 900 * random(), 30 * random()];
      const found = index.search([x, y, x + size, y + size]);
      const visited: number[] = [];
      index.each([x, y, x + size, y + size], (k) => visited.push(k));
      expect(visited.sort((a, b) => a - b)).toEqual(found);
      expect(opened.search([x, y, x + size, y + size])).toEqual(found);
      expect(new Set(found).size).toBe(found.length);
      // By hand: places along each line, every thousandth of it.
      const through = lines.flatMap(([x1 = 0, y1 = 0, x2 = 0, y2 = 0], k) =>
        Array.from({ length: 1001 }, (_, t) => [
          x1 + ((x2 - x1) * t) / 1000,
          y1 + ((y2 - y1) * t) / 1000,
        ]).some(([px = 0, py = 0]) => px >= x && px <= x + size && py >= y && py <= y + size)
          ? [k]
          : [],
      );
      expect(found).toEqual(expect.arrayContaining(through));
      far += found.length - through.length;
    }
    // Boxes of whole lines would give some seventy that are far off each time.
    expect(far / 200).toBeLessThan(15);
  });
});
