// Runs against a second opinion: the merged shadows of clipper-lib's strip clipping, on 2,000 generated roofs and on
// real building outlines.
import { describe, expect, it } from 'vitest';
import { lengthAt, profileOf } from '../../../core/geometry/profile';
import { chords, packRegion } from '../../../core/geometry/strips';
import { frameOf, ringToFrame } from '../../../core/sheets/frame';
import { layCourses } from '../../../core/sheets/layCourses';
import { spanCourses } from '../../../core/sheets/spanCourses';
import type { Roof } from '../../../core/roof/types';
import { realOutlines } from '../../support/outlines';
import { clippedSpans } from '../../support/plainWays';
import { seeded } from '../../support/random';
import { generatedRoof } from '../../support/roofs';

const ROLLS = [3000, 2100, 1050].map((width) => ({ id: 'r', width, length: 30_000, cost: 0 }));
const WITHIN_MM = 0.1;

function compare(name: string, roof: Roof, seed: number): void {
  const luck = seeded(seed + 99);
  const frame = frameOf(luck.next() < 0.3 ? luck.whole(0, 1) * 90 : luck.between(0, 180));
  // Both are given corners and courses on the grid, so that snapping moves nothing under one of them alone.
  const onGrid = (mm: number) => Math.round(mm * 10) / 10;
  const rings = [roof.outline, ...roof.openings.map((o) => o.ring)].map((ring) =>
    ringToFrame(frame, ring).map(([u, v]) => [onGrid(u), onGrid(v)] as const),
  );
  const region = packRegion(rings);
  const roll = ROLLS[luck.whole(0, 2)] as (typeof ROLLS)[number];
  const courses = layCourses(region.v, roll, null, {
    firstCourse: -onGrid(luck.between(0, roll.width - 130)),
    sideLap: 120,
  });
  const runs = spanCourses(courses, region, { minPiece: 0, cutAllowance: 0 });
  const clipped = clippedSpans(
    rings,
    courses.map((c) => [c.low, c.low + c.width] as const),
  );
  courses.forEach((course, i) => {
    const own = runs.filter((run) => run.course === course.index).map((run) => run.span);
    // A sliver thinner than the grid is there for one and not for the other: compare what is longer, and where two
    // spans all but touch compare them joined.
    const joined = (spans: readonly (readonly [number, number])[]) => {
      const list: [number, number][] = [];
      for (const [a, b] of spans) {
        const last = list[list.length - 1];
        if (last && a - last[1] <= 2 * WITHIN_MM) last[1] = b;
        else list.push([a, b]);
      }
      return list.filter(([a, b]) => b - a > 2 * WITHIN_MM);
    };
    const [mine, theirs] = [joined(own), joined(clipped[i] ?? [])];
    expect(mine.length, `${name}, course ${course.index}`).toBe(theirs.length);
    mine.forEach(([a, b], k) => {
      const [c, d] = theirs[k] as [number, number];
      expect(Math.max(Math.abs(a - c), Math.abs(b - d)), `${name}, course ${course.index}`).toBeLessThan(
        WITHIN_MM,
      );
    });
  });
}

describe('spanCourses', () => {
  it('equals the merged shadows of clipped strips within 0.1 mm on 2,000 generated roofs', () => {
    for (let seed = 1; seed <= 2000; seed++)
      compare(`seed ${seed}`, generatedRoof(seed, { area: 20e6 * 1000 ** ((seed % 100) / 100) }), seed);
  });
  it('equals them on every real outline there is', () => {
    realOutlines().forEach(({ id, roof }, i) => compare(id, roof, i + 1));
  });
});

describe('profileOf', () => {
  it('tells how much of a line lies in a region as its chords do, within 0.01 mm', () => {
    for (let seed = 1; seed <= 300; seed++) {
      const luck = seeded(seed);
      const roof = generatedRoof(seed);
      const frame = frameOf(luck.next() < 0.5 ? luck.whole(0, 1) * 90 : luck.between(0, 180));
      const rings = [roof.outline, ...roof.openings.map((o) => o.ring)].map((ring) =>
        ringToFrame(frame, ring),
      );
      const region = packRegion(rings);
      const profile = profileOf(rings);
      const [low, high] = region.v;
      const lines = Float64Array.from({ length: 40 }, () => luck.between(low - 100, high + 100)).sort();
      chords(region, lines).forEach((spans, i) => {
        const length = spans.reduce((sum, [a, b]) => sum + b - a, 0);
        const told = lengthAt(profile, lines[i] as number);
        expect(Math.abs(told - length), `seed ${seed} at ${lines[i]}`).toBeLessThan(0.01);
      });
    }
  });
});
