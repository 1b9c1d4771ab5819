import { describe, expect, it } from 'vitest';
import { buildRoof } from '../../../core/roof/buildRoof';
import { coveredRegion } from '../../../core/roof/coveredRegion';
import { ringLength, signedArea } from '../../../core/geometry/ring';
import type { RoofRing } from '../../../core/geometry/points';
import type { RoofSpec } from '../../../core/roof/types';
import { built, generatedRoof, mirrored, rectangle, roofSpec, turned } from '../../support/roofs';
import { tradeCase } from '../../support/trade';

const faultOf = (spec: RoofSpec) => {
  const result = buildRoof(spec);
  return 'faults' in result ? result.faults[0] : undefined;
};

describe('buildRoof', () => {
  it('runs outlines counter-clockwise and openings clockwise, edges with their corners', () => {
    //  given clockwise:  (0,10) → (10,10) → (10,0) → (0,0); edge e0 is the top side
    const clockwise: RoofRing = [
      [0, 10_000],
      [10_000, 10_000],
      [10_000, 0],
      [0, 0],
    ];
    const roof = built(roofSpec(clockwise, [rectangle(2000, 2000, 4000, 4000)]));
    expect(signedArea(roof.outline)).toBeGreaterThan(0);
    expect(signedArea(roof.openings[0]?.ring ?? [])).toBeLessThan(0);
    const top = roof.edges.find((edge) => edge.id === 'e0');
    expect([top?.from, top?.to]).toEqual([
      [10_000, 10_000],
      [0, 10_000],
    ]);
    expect(roof.area).toBe(100e6 - 4e6);
    expect(roof.perimeter).toBe(40_000);
  });

  it('keeps area when a corner is added on an edge, and the edge’s kind on both halves', () => {
    const plain = built(roofSpec(rectangle(10_000, 6000)));
    const spec = roofSpec([
      [0, 0],
      [5000, 0],
      [10_000, 0],
      [10_000, 6000],
      [0, 6000],
    ]);
    const split = built(spec);
    expect(split.area).toBe(plain.area);
    expect(split.edges).toHaveLength(5);
  });

  it('has the same area turned, mirrored and renumbered', () => {
    for (let seed = 1; seed <= 100; seed++) {
      const roof = generatedRoof(seed, { turn: 'none' });
      const openings = roof.openings.map((o) => o.ring);
      const variants = [
        ...[90, 180, 270].map((a) =>
          roofSpec(
            turned(roof.outline, a),
            openings.map((r) => turned(r, a)),
          ),
        ),
        roofSpec(mirrored(roof.outline), openings.map(mirrored)),
        roofSpec([...roof.outline.slice(2), ...roof.outline.slice(0, 2)], openings),
      ];
      for (const spec of variants)
        expect(Math.abs(built(spec).area / roof.area - 1), `seed ${seed}`).toBeLessThan(1e-9);
    }
  });

  const wrong: readonly (readonly [rule: string, spec: RoofSpec, says: RegExp])[] = [
    [
      'self-crossing',
      roofSpec([
        [0, 0],
        [10_000, 10_000],
        [10_000, 0],
        [0, 10_000],
      ]),
      /crosses itself.*\(5\.00, 5\.00\) m.*Move a corner/,
    ],
    [
      'self-crossing',
      roofSpec([
        [0, 0],
        [10_000, 0],
        [5000, 0],
        [5000, 5000],
      ]),
      /crosses itself/,
    ],
    [
      'opening-outside',
      roofSpec(rectangle(10_000, 10_000), [rectangle(1000, 1000, 20_000, 0)]),
      /lies outside.*Move it inside/,
    ],
    [
      'opening-outside',
      roofSpec(rectangle(10_000, 10_000), [rectangle(4000, 1000, 8000, 2000)]),
      /crosses the outline/,
    ],
    [
      'openings-overlap',
      roofSpec(rectangle(10_000, 10_000), [
        rectangle(3000, 3000, 1000, 1000),
        rectangle(3000, 3000, 2000, 2000),
      ]),
      /overlap/,
    ],
    [
      'openings-overlap',
      roofSpec(rectangle(10_000, 10_000), [
        rectangle(5000, 5000, 1000, 1000),
        rectangle(1000, 1000, 2000, 2000),
      ]),
      /lies inside the opening/,
    ],
    [
      'too-few-corners',
      roofSpec([
        [0, 0],
        [1000, 0],
        [1000, 0],
      ]),
      /fewer than three/,
    ],
    [
      'no-area',
      roofSpec([
        [0, 0],
        [50, 0],
        [50, 50],
        [0, 50],
      ]),
      /less than 0.01 m²/,
    ],
    [
      'not-finite',
      roofSpec([
        [0, 0],
        [Number.NaN, 0],
        [50, 50],
      ]),
      /no position/,
    ],
    [
      'too-large',
      roofSpec([
        [0, 0],
        [9e6, 0],
        [9e6, 9e6],
      ]),
      /Check the scale/,
    ],
  ];
  it.each(wrong)('refuses %s and says what to do', (rule, spec, says) => {
    const fault = faultOf(spec);
    expect(fault?.rule).toBe(rule);
    expect(fault?.message).toMatch(says);
  });
});

describe('coveredRegion', () => {
  const area = (rings: readonly RoofRing[]) => rings.reduce((sum, ring) => sum + signedArea(ring), 0);
  it('is the roof itself without allowances', () => {
    const roof = built(roofSpec(rectangle(10_000, 6000), [rectangle(1000, 1000, 2000, 2000)]));
    expect(area(coveredRegion(roof))).toBe(roof.area);
  });
  it('grows a rectangle by its allowance, mitred: (10 + 0.2) × (6 + 0.2) m', () => {
    const roof = built(roofSpec(rectangle(10_000, 6000), [], { allowance: 100 }));
    expect(area(coveredRegion(roof))).toBeCloseTo(10_200 * 6200, 0);
  });
  it('grows an L as area + perimeter × a + 4 a² for its five outward and one inward corner, less one a²', () => {
    // Five convex corners add a² each, the reflex one takes a² away (its quads overlap): net 4 a².
    const outline: RoofRing = [
      [0, 0],
      [20_000, 0],
      [20_000, 8000],
      [9000, 8000],
      [9000, 15_000],
      [0, 15_000],
    ];
    const roof = built(roofSpec(outline, [], { allowance: 75 }));
    expect(area(coveredRegion(roof))).toBeCloseTo(roof.area + ringLength(outline) * 75 + 4 * 75 * 75, 0);
  });
  it('cuts a mitre off at twice the allowance', () => {
    // A needle with a tip of about 5.7°: a full mitre would reach 20 allowances.
    const roof = built(
      roofSpec(
        [
          [0, 0],
          [20_000, 0],
          [20_000, 2000],
        ],
        [],
        { allowance: 100 },
      ),
    );
    const xs = coveredRegion(roof).flatMap((ring) => ring.map((p) => p[0]));
    expect(Math.min(...xs)).toBeGreaterThan(-200.2);
  });
  it('is one ring round a roof that winds, whatever rounding leaves along its sides', () => {
    // A spiral with 50 mm all round has no opening, so by hand one ring.
    expect(coveredRegion(tradeCase(8827).roof)).toHaveLength(1);
  });
  it('shrinks an opening by its own allowance', () => {
    const spec = roofSpec(rectangle(10_000, 10_000), [rectangle(2000, 2000, 4000, 4000)]);
    const openings = spec.openings.map((o) => ({
      ...o,
      edges: o.edges.map((e) => ({ ...e, allowance: 50 })),
    }));
    expect(area(coveredRegion(built({ ...spec, openings })))).toBeCloseTo(100e6 - 1900 * 1900, 0);
  });
});
