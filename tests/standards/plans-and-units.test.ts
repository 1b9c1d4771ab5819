import { describe, expect, it } from 'vitest';
import { ringLength, signedArea } from '../../core/geometry/ring';
import { toRoofSpace } from '../../core/plan/toRoof';
import { parseFall, slopeFactor, toDegrees } from '../../core/units/angles';
import { MM_PER_FOOT, MM_PER_INCH } from '../../core/units/lengths';
import { mmPerPoint, parseScale } from '../../core/units/scales';

// ISO 32000-1, 8.3.2.3: a user-space unit is 1/72 inch, so metres per point = 25.4/72/1000 · N.
describe('metres per point at a scale, ISO 32000-1 8.3.2.3', () => {
  it.each([
    ['1:50', 50, 0.017639],
    ['1:100', 100, 0.035278],
    ['1:200', 200, 0.070556],
    ['1:250', 250, 0.088194],
    ['1:500', 500, 0.176389],
    [`1/16" = 1'-0"`, 192, 0.067733],
    [`3/32" = 1'-0"`, 128, 0.045156],
    [`1/8" = 1'-0"`, 96, 0.033867],
    [`3/16" = 1'-0"`, 64, 0.022578],
    [`1/4" = 1'-0"`, 48, 0.016933],
    [`1 1/2" = 1'-0"`, 8, 0.002822],
    [`1" = 10'`, 120, 0.042333],
    [`1" = 20'`, 240, 0.084667],
    [`1" = 100'`, 1200, 0.423333],
  ])('%s is 1:%d', (text, ratio, metresPerPoint) => {
    expect(parseScale(text)).toEqual({ ratio });
    expect(mmPerPoint(ratio) / 1000).toBeCloseTo(metresPerPoint, 6);
  });

  it('reads a printed note with its sheet size', () => {
    expect(parseScale('Scale 1 : 100 @ A1')).toEqual({ ratio: 100 });
  });

  it.each(['NTS', '100', '1:0', '0:5', '1 = 20', ''])('refuses “%s”', (text) =>
    expect(parseScale(text)).toHaveProperty('fault'),
  );
});

describe('geometry checks at scale', () => {
  it('T3: 283.465 pt at 1:100 is 10.000 m', () =>
    expect((283.465 * mmPerPoint(100)) / 1000).toBeCloseTo(10, 4));
  it('T1: 108 × 72 pt at 1/8″ = 1′ is 12 × 8 ft = 96 ft²', () => {
    const ftPerPoint = mmPerPoint(96) / MM_PER_FOOT;
    expect(108 * ftPerPoint * 72 * ftPerPoint).toBeCloseTo(96, 9);
  });
  it('T4: UserUnit 2, 36 pt at 1:50 is 1.270 m', () =>
    expect((36 * 2 * mmPerPoint(50)) / 1000).toBeCloseTo(1.27, 9));
});

// √(1 + s²); atan s. The international inch is 25.4 mm, the foot 304.8 mm, exactly.
describe('falls', () => {
  it.each([
    ['1:80', 1.25, 0.716, 1.000078],
    ['1:60', 1.667, 0.955, 1.000139],
    ['1/4:12', 2.083, 1.193, 1.000217],
    ['1/4" per foot', 2.083, 1.193, 1.000217],
    ['1:40', 2.5, 1.432, 1.000312],
    ['1/2:12', 4.167, 2.386, 1.000868],
    ['3:12', 25, 14.036, 1.030776],
    ['5°', 8.749, 5, 1.00382],
    ['10°', 17.633, 10, 1.015427],
  ])('%s', (text, percent, degrees, factor) => {
    const fall = parseFall(text);
    if ('fault' in fall) throw new Error(fall.fault);
    expect(fall.ratio * 100).toBeCloseTo(percent, 2);
    expect(toDegrees(Math.atan(fall.ratio))).toBeCloseTo(degrees, 2);
    expect(slopeFactor(fall.ratio)).toBeCloseTo(factor, 6);
  });
  it('the foot is twelve inches', () => expect(MM_PER_FOOT / MM_PER_INCH).toBeCloseTo(12, 12));
});

// Polygon area A = ½ |Σ (xᵢ·yᵢ₊₁ − xᵢ₊₁·yᵢ)|.
describe('areas at scale', () => {
  it('T2: an L of six page points at 1:100 is 76.00 m², 40 m round', () => {
    const ring = toRoofSpace(
      [
        [0, 0],
        [283.465, 0],
        [283.465, 170.079],
        [113.386, 170.079],
        [113.386, 283.465],
        [0, 283.465],
      ],
      mmPerPoint(100),
    );
    expect(signedArea(ring) / 1e6).toBeCloseTo(76, 2);
    expect(ringLength(ring) / 1000).toBeCloseTo(40, 3);
  });
  it('T5: 20 × 15 m less a rooflight of 1.2 × 2.4 m is 297.12 m², 70 + 7.2 m of edge', () => {
    const box = (wide: number, deep: number) =>
      [
        [0, 0],
        [wide, 0],
        [wide, deep],
        [0, deep],
      ] as const;
    const [outer, hole] = [box(20_000, 15_000), box(1_200, 2_400)];
    expect((signedArea(outer) - signedArea(hole)) / 1e6).toBeCloseTo(297.12, 9);
    expect([ringLength(outer), ringLength(hole)]).toEqual([70_000, 7_200]);
  });
});
