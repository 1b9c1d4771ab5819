import { describe, expect, it } from 'vitest';
import { checkLength, findScale, scaleFromLength } from '../../../core/plan/scale';
import { toPageSpace, toRoofSpace } from '../../../core/plan/toRoof';
import { mmPerPoint } from '../../../core/units/scales';
import { noteOf } from './content';

const ratios = (...notes: ReturnType<typeof noteOf>[]) => findScale({ notes }).candidates.map((c) => c.ratio);

describe('findScale', () => {
  it('reads a scale note and leaves falls alone', () => {
    expect(ratios(noteOf('SCALE 1:100 @ A1'), noteOf('FALL 1:80'), noteOf('1 : 50', [300, 300]))).toEqual([
      100,
    ]);
  });
  it('reads feet and inches', () => {
    expect(ratios(noteOf(`SCALE: 1/8" = 1'-0"`), noteOf(`SLOPE 1/4" / FT`))).toEqual([96]);
    expect(ratios(noteOf('1″ = 20′'))).toEqual([240]);
  });
  it('reads a bare ratio where the word stands beside it', () => {
    expect(ratios(noteOf('Scale', [0, 20], 5), noteOf('1 : 200', [0, 8], 10))).toEqual([200]);
    expect(ratios(noteOf('Scale', [0, 500], 5), noteOf('1 : 200', [0, 8], 10))).toEqual([]);
  });
  it('puts first what is said most plainly, and keeps the notes as evidence', () => {
    const reading = findScale({ notes: [noteOf('1:20 @ A1'), noteOf('Scale 1:100', [5, 6])] });
    expect(reading.candidates).toEqual([
      { ratio: 100, from: 'note', evidence: [{ text: 'Scale 1:100', at: [5, 6] }] },
      { ratio: 20, from: 'note', evidence: [{ text: '1:20 @ A1', at: [0, 0] }] },
    ]);
  });
});

describe('checking and converting', () => {
  it('says how far a scale is off on a known length', () => {
    // 283.465 pt at 1:100 is 10 000 mm; the drawing says 10 100.
    const off = checkLength({ mmPerPoint: mmPerPoint(100), a: [0, 0], b: [283.4645669, 0], length: 10_100 });
    expect(off.measured).toBeCloseTo(10_000, 3);
    expect(off.offBy).toBeCloseTo(-100, 3);
    expect(off.percent).toBeCloseTo(-0.990099, 5);
  });
  it('takes the scale from two points and a length, and gives the length back', () => {
    const scale = scaleFromLength([10, 10], [40, 50], 5000);
    expect(scale).toBe(100);
    expect(scaleFromLength([1, 1], [1, 1], 5000)).toBeNull();
  });
  it('goes to the roof and back within one grid step', () => {
    const ring = [
      [124.882, 399.769],
      [484.287, 399.769],
      [484.287, 195.93],
    ] as const;
    const scale = mmPerPoint(100);
    const back = toPageSpace(toRoofSpace(ring, scale), scale);
    back.forEach((point, k) => {
      expect(Math.abs(point[0] - (ring[k]?.[0] ?? 0)) * scale).toBeLessThanOrEqual(0.1);
      expect(Math.abs(point[1] - (ring[k]?.[1] ?? 0)) * scale).toBeLessThanOrEqual(0.1);
    });
  });
});
