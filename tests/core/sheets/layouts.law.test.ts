// Laws of laying, on 1,000 generated roofs: concave, with openings, turned, from 20 m² to 20,000 m².
import { describe, expect, it } from 'vitest';
import { chords, packRegion } from '../../../core/geometry/strips';
import { placeFasteners } from '../../../core/fastening/placeFasteners';
import { findSeams } from '../../../core/seams/findSeams';
import { ringToFrame } from '../../../core/sheets/frame';
import { layRoof } from '../../../core/sheets/layRoof';
import type { Layout, LayoutSpec } from '../../../core/sheets/types';
import { lappedArea, cutArea } from '../../../core/quantities/laps';
import { verifyLayout } from '../../../core/verify/verifyLayout';
import { seeded } from '../../support/random';
import { generatedRoof, layoutSpec } from '../../support/roofs';
import { coveredArea } from '../../support/overlaps';

const ROOFS = 1000;
const ROLLS = [
  { id: 'wide', width: 3000, length: 30_000, cost: 0 },
  { id: 'narrow', width: 2100, length: 20_000, cost: 0 },
  { id: 'half', width: 1050, length: 15_000, cost: 0 },
];

function specFor(seed: number): LayoutSpec {
  const luck = seeded(seed + 7_000_000);
  const roll = ROLLS[luck.whole(0, 2)] as (typeof ROLLS)[number];
  return layoutSpec({ roll, direction: luck.next() < 0.5 ? 'auto' : luck.between(0, 179.9) });
}

describe(`on ${ROOFS} generated roofs`, () => {
  const cases = Array.from({ length: ROOFS }, (_, i) => i + 1).map((seed) => {
    const roof = generatedRoof(seed);
    const spec = specFor(seed);
    const laid = layRoof(roof, spec);
    if ('faults' in laid) throw new Error(`seed ${seed}: ${laid.faults[0]?.message}`);
    const seams = findSeams(roof, laid.layout);
    return { seed, roof, spec, layout: laid.layout, seams };
  });

  it('the verifier holds nothing of severity error against the layout', () => {
    for (const { seed, roof, layout, seams } of cases) {
      const spacing = { inLap: 300, atEdge: 300 };
      const fastening = placeFasteners(roof, layout, seams, spacing);
      const errors = verifyLayout(roof, layout, seams, fastening, spacing).filter(
        (f) => f.severity === 'error',
      );
      expect(errors, `seed ${seed}`).toEqual([]);
    }
  });

  it('every point of the roof is under a sheet', () => {
    for (const { seed, roof, layout } of cases) {
      const luck = seeded(seed);
      const xs = roof.outline.map((p) => p[0]);
      const ys = roof.outline.map((p) => p[1]);
      for (let k = 0; k < 40; k++) {
        const point = [
          luck.between(Math.min(...xs), Math.max(...xs)),
          luck.between(Math.min(...ys), Math.max(...ys)),
        ] as const;
        if (!inside(roof.outline, point) || roof.openings.some((o) => inside(o.ring, point))) continue;
        expect(under(layout, point), `seed ${seed} at ${point.join()}`).toBe(true);
      }
    }
  });

  it('side-lap metres equal the roof’s chords at the lap lines within 1 mm each', () => {
    for (const { seed, roof, layout, seams } of cases) {
      const rings = [roof.outline, ...roof.openings.map((o) => o.ring)].map((ring) =>
        ringToFrame(layout.frame, ring),
      );
      const lines = layout.courses.slice(0, -1).map((c) => c.low + c.width - c.lapAbove / 2);
      const expected = chords(packRegion(rings), Float64Array.from(lines)).map((spans) =>
        spans.reduce((sum, [a, b]) => sum + b - a, 0),
      );
      layout.courses.slice(0, -1).forEach((course, i) => {
        const own = seams.sideLaps
          .filter((lap) => lap.course === course.index)
          .reduce((sum, lap) => sum + lap.length, 0);
        expect(Math.abs(own - (expected[i] as number)), `seed ${seed}, course ${course.index}`).toBeLessThan(
          1,
        );
      });
    }
  });

  it('Σ sheets − Σ overlaps of two + Σ overlaps of three = covered area, within 1e-6', () => {
    for (const { seed, layout, seams } of cases) {
      const { singles, pairs, triples, covered } = coveredArea(layout.sheets);
      expect(Math.abs(singles - pairs + triples - covered) / covered, `seed ${seed}`).toBeLessThan(1e-6);
      expect(
        Math.abs(cutArea(layout.sheets) - lappedArea(layout, seams) - covered) / covered,
        `seed ${seed}`,
      ).toBeLessThan(1e-6);
    }
  });

  it('cut + offcut = bought for every roll, and rolls are no fewer than the bound', () => {
    for (const { spec, layout } of cases) {
      for (const roll of layout.cutList.rolls) {
        const cut = roll.pieces.reduce((sum, piece) => sum + piece.length, 0);
        expect(cut + roll.offcut).toBeCloseTo(spec.roll.length, 6);
        expect(roll.offcut).toBeGreaterThanOrEqual(0);
      }
      expect(layout.cutList.rolls.length).toBeGreaterThanOrEqual(layout.cutList.lowerBound);
      expect(layout.cutList.lowerBound).toBeGreaterThanOrEqual(1);
    }
  });
});

function under(layout: Layout, [x, y]: readonly [number, number]): boolean {
  const { cos, sin } = layout.frame;
  const [u, v] = [x * cos + y * sin, y * cos - x * sin];
  return layout.sheets.some(
    (s) =>
      u >= s.along[0] - 0.01 && u <= s.along[1] + 0.01 && v >= s.across[0] - 0.01 && v <= s.across[1] + 0.01,
  );
}

/** By winding angle: another way than the one the program uses. */
function inside(ring: readonly (readonly [number, number])[], [x, y]: readonly [number, number]): boolean {
  let turn = 0;
  ring.forEach((a, i) => {
    const b = ring[(i + 1) % ring.length] as readonly [number, number];
    const [ax, ay, bx, by] = [a[0] - x, a[1] - y, b[0] - x, b[1] - y];
    turn += Math.atan2(ax * by - ay * bx, ax * bx + ay * by);
  });
  return Math.abs(turn) > Math.PI;
}
