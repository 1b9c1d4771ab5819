import { describe, expect, it } from 'vitest';
import { FILLS, hideLines, listGroups, widthClassOf } from '../../../core/plan/hiding';
import { readLinework } from '../../../core/plan/linework';
import { buildPageIndex } from '../../../core/plan/pageIndex';
import { openBoxIndex } from '../../../core/geometry/boxIndex';
import { snapPoint } from '../../../core/plan/snap';
import { buildRegionIndex, traceRegion } from '../../../core/plan/traceRegion';
import type { PagePoint } from '../../../core/geometry/points';
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

describe('a box index that was handed to another thread', () => {
  it('finds the same boxes', () => {
    const again = openBoxIndex(page.boxes.count, structuredClone(page.boxes.data));
    expect(again.search([250, 150, 350, 250])).toEqual(page.boxes.search([250, 150, 350, 250]));
    expect(openBoxIndex(0, null).search([0, 0, 1, 1])).toEqual([]);
  });
});
