import { describe, expect, it } from 'vitest';
import { describeLinework, FLATNESS_POINTS, readLinework } from '../../../core/plan/linework';
import type { PageContent } from '../../../core/plan/types';
import { SEGMENT_MARK } from '../../../core/plan/types';
import { pageOf } from './content';

const arrow = [
  {
    points: [
      [100, 50],
      [300, 50],
      [300, 200],
    ],
    as: 'ring',
  },
] as const;

describe('readLinework', () => {
  it('closes rings and counts what it drew', () => {
    const linework = readLinework(pageOf(arrow));
    expect([...linework.segments]).toEqual([100, 50, 300, 50, 300, 50, 300, 200, 300, 200, 100, 50]);
    expect(describeLinework(linework, { segments: 'counted' })).toMatchObject({
      page: { width: 600, height: 400, rotation: 0 },
      segments: 3,
      segmentCount: 3,
      curves: 0,
      raster: false,
    });
    expect(describeLinework(linework, { segments: 'listed' }).segments).toEqual([
      [100, 50, 300, 50],
      [300, 50, 300, 200],
      [300, 200, 100, 50],
    ]);
  });

  // A page that is drawn turned and then turned back by /Rotate shows what was meant: the same linework.
  it.each([90, 180, 270] as const)('a page turned by %d° gives the same linework', (rotation) => {
    const upright = readLinework(pageOf(arrow, texts(100, 50, 0)));
    const wide = rotation % 180 === 0;
    const turnBack: Record<90 | 180 | 270, (p: readonly [number, number]) => [number, number]> = {
      90: ([x, y]) => [400 - y, x],
      180: ([x, y]) => [600 - x, 400 - y],
      270: ([x, y]) => [y, 600 - x],
    };
    const turned = readLinework(
      pageOf([{ points: arrow[0].points.map(turnBack[rotation]), as: 'ring' }], {
        rotation,
        box: wide ? [0, 0, 600, 400] : [0, 0, 400, 600],
        ...texts(...turnBack[rotation]([100, 50]), rotation),
      }),
    );
    expect([turned.width, turned.height]).toEqual([600, 400]);
    expect([...turned.segments]).toEqual([...upright.segments]);
    expect(turned.notes).toEqual(upright.notes);
  });

  it('takes the crop box as origin and the page unit as scale', () => {
    const linework = readLinework(pageOf(arrow, { box: [100, 50, 400, 250], userUnit: 2 }));
    expect([linework.width, linework.height]).toEqual([600, 400]);
    expect([...linework.segments.slice(0, 4)]).toEqual([0, 0, 400, 0]);
  });

  it('keeps every chord of a curve within the stated flatness', () => {
    // A quarter circle of radius 100 about the origin, by its usual cubic (off by 0.03 at most).
    const k = 55.2285;
    const linework = readLinework(
      pageOf([
        {
          points: [
            [100, 0],
            [100, k],
            [k, 100],
            [0, 100],
          ],
          as: 'curve',
        },
      ]),
    );
    expect(linework.curves).toBe(1);
    expect(linework.marks.every((mark) => mark === SEGMENT_MARK.curve)).toBe(true);
    const s = linework.segments;
    for (let i = 0; i < s.length; i += 4) {
      const middle = Math.hypot(((s[i] ?? 0) + (s[i + 2] ?? 0)) / 2, ((s[i + 1] ?? 0) + (s[i + 3] ?? 0)) / 2);
      expect(Math.abs(100 - middle)).toBeLessThan(FLATNESS_POINTS + 0.03);
    }
  });

  it('tells a scan from a drawing that carries a picture', () => {
    const whole = { images: [corners(0, 0, 600, 400)] };
    const stamp = { images: [corners(10, 10, 60, 40)] };
    expect(readLinework(pageOf([], whole)).raster).toBe(true);
    expect(readLinework(pageOf(arrow, stamp)).raster).toBe(false);
  });
});

function texts(x: number, y: number, angle: number): Pick<PageContent, 'texts'> {
  return { texts: [{ text: 'NORTH', at: [x, y], height: 8, width: 40, angle }] };
}

function corners(left: number, bottom: number, right: number, top: number): [number, number][] {
  return [
    [left, bottom],
    [right, bottom],
    [right, top],
    [left, top],
  ];
}
