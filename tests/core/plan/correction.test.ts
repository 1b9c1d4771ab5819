import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  AS_IT_COMES,
  betweenCorrections,
  correctedPage,
  levelled,
  mapped,
  mappedDirection,
  scalesBothWays,
} from '../../../core/plan/correction';
import { readLinework } from '../../../core/plan/linework';
import { noteOf, pageOf } from './content';

const SHEET = { width: 600, height: 400 };
const correction = fc.record({
  degrees: fc.double({ min: -10, max: 10, noNaN: true }),
  stretch: fc.double({ min: 0.9, max: 1.1, noNaN: true }),
});
const place = fc.tuple(
  fc.double({ min: 0, max: 600, noNaN: true }),
  fc.double({ min: 0, max: 400, noNaN: true }),
);

describe('a page set right', () => {
  it('is the page itself where nothing is corrected', () => {
    expect(correctedPage(SHEET, AS_IT_COMES)).toEqual({ ...SHEET, map: [1, 0, -0, 1, 0, 0] });
  });
  it('holds the whole sheet, and there and back gives the point', () => {
    fc.assert(
      fc.property(correction, correction, place, (one, other, at) => {
        const { width, height, map } = correctedPage(SHEET, one);
        const [x, y] = mapped(map, at);
        expect(x).toBeGreaterThan(-1e-9);
        expect(y).toBeGreaterThan(-1e-9);
        expect(x).toBeLessThan(width + 1e-9);
        expect(y).toBeLessThan(height + 1e-9);
        const back = mapped(
          betweenCorrections(SHEET, other, one),
          mapped(betweenCorrections(SHEET, one, other), [x, y]),
        );
        expect(Math.hypot(back[0] - x, back[1] - y)).toBeLessThan(1e-9);
      }),
    );
  });
  it('lies level along the line that was picked, or plumb where that is nearer', () => {
    fc.assert(
      fc.property(correction, place, place, (now, a, b) => {
        fc.pre(Math.hypot(b[0] - a[0], b[1] - a[1]) > 10);
        const next = levelled(now, a, b);
        expect(Math.abs(next.degrees - now.degrees)).toBeLessThanOrEqual(45 + 1e-9);
        const map = betweenCorrections(SHEET, now, next);
        const [[p, q], [r, s]] = [mapped(map, a), mapped(map, b)];
        expect(Math.min(Math.abs(r - p), Math.abs(s - q))).toBeLessThan(1e-6);
      }),
    );
  });
  it('turns directions with it', () => {
    const map = betweenCorrections(SHEET, AS_IT_COMES, { degrees: 1.5, stretch: 1 });
    expect(mappedDirection(map, 90)).toBeCloseTo(91.5, 9);
    expect(
      mappedDirection(betweenCorrections(SHEET, AS_IT_COMES, { degrees: 0, stretch: 1.1 }), 90),
    ).toBeCloseTo(90, 9);
  });
  it('gives its lines and lettering as it is shown', () => {
    const lines = [
      {
        points: [
          [100, 100],
          [300, 100],
        ] as const,
      },
    ];
    const texts = [noteOf('12000', [100, 100])];
    const degrees = (Math.atan2(3, 4) * 180) / Math.PI;
    const linework = readLinework({ ...pageOf(lines, { texts }), correction: { degrees, stretch: 1.25 } });
    // Turned by the angle of the 3-4-5 triangle: 600 × 0.8 + 400 × 0.6 wide, (600 × 0.6 + 400 × 0.8) × 1.25 tall.
    expect([linework.width, linework.height]).toEqual([expect.closeTo(720, 9), expect.closeTo(850, 9)]);
    const [x1 = 0, y1 = 0, x2 = 0, y2 = 0] = linework.segments;
    expect([x2 - x1, y2 - y1]).toEqual([expect.closeTo(160, 4), expect.closeTo(150, 4)]);
    expect(linework.notes[0]?.angle).toBeCloseTo(degrees, 9);
    expect(linework.notes[0]?.at[0]).toBeCloseTo(x1, 4);
  });
});

describe('two known lengths', () => {
  it('give the scale across and up', () => {
    const across = { a: [10, 20], b: [110, 20], length: 10_000 } as const;
    const up = { a: [10, 20], b: [10, 220], length: 20_600 } as const;
    expect(scalesBothWays(across, up)).toEqual({
      across: expect.closeTo(100, 9),
      up: expect.closeTo(103, 9),
    });
    expect(scalesBothWays(up, across)).toEqual({
      across: expect.closeTo(100, 9),
      up: expect.closeTo(103, 9),
    });
  });
  it('may run askew', () => {
    // 100 mm a point across and 110 up: (30, 40) is √(3000² + 4400²), (−40, 30) is √(4000² + 3300²).
    const one = { a: [0, 0], b: [30, 40], length: Math.hypot(3000, 4400) } as const;
    const other = { a: [50, 50], b: [10, 80], length: Math.hypot(4000, 3300) } as const;
    expect(scalesBothWays(one, other)).toEqual({
      across: expect.closeTo(100, 6),
      up: expect.closeTo(110, 6),
    });
  });
  it('tell nothing where they run alike or contradict', () => {
    const one = { a: [0, 0], b: [100, 10], length: 10_000 } as const;
    expect(scalesBothWays(one, { a: [0, 0], b: [200, 30], length: 20_000 })).toBeNull();
    expect(
      scalesBothWays({ a: [0, 0], b: [60, 60], length: 1000 }, { a: [0, 0], b: [0, 100], length: 90_000 }),
    ).toBeNull();
  });
});
