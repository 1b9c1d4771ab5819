// Roofs laid by hand; the working stands beside the figures.
import { describe, expect, it } from 'vitest';
import { findSeams } from '../../../core/seams/findSeams';
import { layRoof } from '../../../core/sheets/layRoof';
import type { LayoutSpec } from '../../../core/sheets/types';
import type { Roof } from '../../../core/roof/types';
import { built, layoutSpec, rectangle, roofSpec } from '../../support/roofs';

function laidOut(roof: Roof, spec: LayoutSpec) {
  const laid = layRoof(roof, spec);
  if ('faults' in laid) throw new Error(laid.faults[0]?.message);
  const seams = findSeams(roof, laid.layout);
  const metres = (laps: readonly { length: number }[]) =>
    laps.reduce((sum, lap) => sum + lap.length, 0) / 1000;
  return { layout: laid.layout, seams, side: metres(seams.sideLaps), end: metres(seams.endLaps) };
}

describe('(a) 30 m × 12 m, rolls 3 × 30 m, side lap 120, end lap 80, direction 0', () => {
  // Courses: ⌈(12 000 − 120) / (3000 − 120)⌉ = ⌈4.125⌉ = 5. Runs of 30.00 m fit a roll of 30 m: 5 rolls, no end
  // lap. Four laps between five courses: 4 × 30 m = 120 m.
  const { layout, seams, side } = laidOut(built(roofSpec(rectangle(30_000, 12_000))), layoutSpec());
  it('takes 5 courses, 5 rolls, 120 m of side lap and no end lap', () => {
    expect(layout.courses).toHaveLength(5);
    expect(layout.cutList.rolls).toHaveLength(5);
    expect(layout.cutList.lowerBound).toBe(5);
    expect(side).toBeCloseTo(120, 9);
    expect(seams.endLaps).toHaveLength(0);
    expect(seams.tJoints).toHaveLength(0);
  });
});

describe('(b) the same with 100 mm allowance all round', () => {
  // Across: 12.20 m to cover, ⌈(12 200 − 120) / 2880⌉ = ⌈4.19⌉ = 5 courses. Runs of 30.20 m: a second piece of
  // 30.20 + 0.08 − 30.00 = 0.28 m is below 1.50 m, so 30.28 − 1.50 = 28.78 m and 1.50 m. Five runs:
  // 5 × 30.28 = 151.4 m; the five short pieces (7.5 m) come off one roll: 5 + 1 = 6 rolls; ⌈151.4 / 30⌉ = 6.
  const spec = roofSpec(rectangle(30_000, 12_000), [], { allowance: 100 });
  const { layout, seams, side } = laidOut(built(spec), layoutSpec());
  it('cuts each run as 28.78 + 1.50 m, the short piece at alternate ends', () => {
    expect(layout.courses).toHaveLength(5);
    const lengths = layout.courses.map((c) =>
      layout.sheets.filter((s) => s.course === c.index).map((s) => s.length),
    );
    for (const pair of lengths) expect([...pair].sort((a, b) => a - b)).toEqual([1500, 28_780]);
    const shortFirst = lengths.map((pair) => pair[0] === 1500);
    for (let i = 1; i < shortFirst.length; i++) expect(shortFirst[i]).toBe(!shortFirst[i - 1]);
  });
  it('takes 151.4 m in all, 6 rolls, 5 end laps, 120 m of side lap', () => {
    expect(layout.sheets.reduce((sum, s) => sum + s.length, 0)).toBeCloseTo(151_400, 6);
    expect(layout.cutList.rolls).toHaveLength(6);
    expect(layout.cutList.lowerBound).toBe(6);
    expect(seams.endLaps).toHaveLength(5);
    // The laps run on into the allowance, but only what has roof under it counts.
    expect(side).toBeCloseTo(120, 9);
  });
});

describe('(c) an L-shape with one opening', () => {
  //  24 ┌───────┐          Courses of 2.88 m cover: ⌈(24 000 − 120) / 2880⌉ = ⌈8.29⌉ = 9. Lap centre lines at
  //     │       │          2.94, 5.82, 8.70, 11.58 (30 m wide) and 14.46, 17.34, 20.22, 23.10 (15 m wide):
  //  12 │       └──────┐   4 × 30 + 4 × 15 = 180 m, less the opening (x 5 … 8, y 5 … 8), which only the line at
  //     │  ▢           │   5.82 crosses: 180 − 3 = 177 m.
  //   0 └──────────────┘   Course 5 covers 11.52 … 14.52 and needs 30 m below y = 12; courses 6 … 9 need 15 m.
  //     0      15      30  The opening is no wider than the courses: in course 2 (2.88 … 5.88) and course 3 (5.76 …
  //                        8.76) the roof goes past it above or below, so the runs stay whole. 5 × 30 + 4 × 15 =
  //                        210 m = 7 rolls exactly.
  const outline = [
    [0, 0],
    [30_000, 0],
    [30_000, 12_000],
    [15_000, 12_000],
    [15_000, 24_000],
    [0, 24_000],
  ] as const;
  const roof = built(roofSpec(outline, [rectangle(3000, 3000, 5000, 5000)]));
  const { layout, seams, side } = laidOut(roof, layoutSpec());
  it('takes 9 courses, 7 rolls, 177 m of side lap, no end lap', () => {
    expect(roof.area).toBe(30_000 * 12_000 + 15_000 * 12_000 - 3000 * 3000);
    expect(layout.courses).toHaveLength(9);
    expect(layout.cutList.rolls).toHaveLength(7);
    expect(side).toBeCloseTo(177, 9);
    expect(seams.endLaps).toHaveLength(0);
  });
  it('gives a pair of sheets that meets on both sides of the opening two laps', () => {
    expect(seams.sideLaps.map((lap) => lap.id)).toEqual(
      expect.arrayContaining(['C02.1|C03.1', 'C02.1|C03.1#2']),
    );
    const pair = seams.sideLaps.filter((lap) => lap.id.startsWith('C02.1|C03.1'));
    expect(pair.map((lap) => lap.length)).toEqual([5000, 22_000]);
  });
});

describe('(d) 20 m × 30 m, rolls 2.10 × 20 m, side lap 120, end lap 100', () => {
  // Cover 1.98 m: ten courses reach 10 × 1.98 + 0.12 = 19.92 m, 80 mm short of 20 m: 11 courses. Ten laps of
  // 30 m = 300 m. Length bound with one lap a run: 11 × 30.10 = 331.1 m ÷ 20 = 16.56: at least 17 rolls.
  // (Check A of the reference, computed there.)
  const spec = layoutSpec({ roll: { id: 'r', width: 2100, length: 20_000, cost: 0 }, lap: { endLap: 100 } });
  const { layout, side } = laidOut(built(roofSpec(rectangle(30_000, 20_000))), spec);
  it('takes 11 courses and at least 17 rolls', () => {
    expect(layout.courses).toHaveLength(11);
    expect(layout.cutList.lowerBound).toBe(17);
    expect(layout.cutList.rolls.length).toBeGreaterThanOrEqual(17);
    expect(layout.cutList.rolls.length).toBeLessThanOrEqual(22);
    expect(side).toBeCloseTo(300, 9);
  });
});

describe('formulas of the layout reference, section 5', () => {
  const courses = (width: number, sheet: number, lap: number) => {
    const roof = built(roofSpec(rectangle(10_000, width)));
    return laidOut(
      roof,
      layoutSpec({ roll: { id: 'r', width: sheet, length: 30_480, cost: 0 }, sideLap: lap }),
    ).layout.courses.length;
  };
  it('Check D: 150 ft across, 10 ft sheets, 6 in laps: 16 courses', () => {
    expect(courses(150 * 304.8, 3048, 152.4)).toBe(16);
  });
  it('Check B: 20 × 30 m from 2.10 × 25 m: 14 rolls, which is the bound', () => {
    const spec = layoutSpec({
      roll: { id: 'r', width: 2100, length: 25_000, cost: 0 },
      lap: { endLap: 100 },
    });
    const { layout } = laidOut(built(roofSpec(rectangle(30_000, 20_000))), spec);
    expect(layout.cutList.rolls).toHaveLength(14);
    expect(layout.cutList.lowerBound).toBe(14);
  });
});
