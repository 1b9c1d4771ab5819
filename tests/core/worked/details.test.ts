// Details, fasteners and welding time, worked by hand.
import { describe, expect, it } from 'vitest';
import { listDetails } from '../../../core/details/listDetails';
import { placeFasteners } from '../../../core/fastening/placeFasteners';
import type { Layout } from '../../../core/sheets/types';
import { findSeams } from '../../../core/seams/findSeams';
import type { Seams } from '../../../core/seams/types';
import { layRoof } from '../../../core/sheets/layRoof';
import { built, layoutSpec, rectangle, roofSpec } from '../../support/roofs';

const SHEET = 20_000;

function laid(roof: Parameters<typeof layRoof>[0], spec = layoutSpec()): { layout: Layout; seams: Seams } {
  const result = layRoof(roof, spec);
  if ('faults' in result) throw new Error(result.faults[0]?.message);
  return { layout: result.layout, seams: findSeams(roof, result.layout) };
}

describe('details', () => {
  it('a free-standing curb 1.2 × 2.4 m, 0.3 m high, foot 0.1 m: 8.0 + 1.2 + 2.2 = 11.4 m by hand', () => {
    // Membrane reference, section 6: foot weld 2(a + b) + 8f = 7.2 + 0.8 = 8.0; four upright laps of 0.3 = 1.2;
    // four outside corners, none inside, at 0.5–0.6 m of weld each, about 2.2.
    const spec = roofSpec(rectangle(20_000, 10_000), [rectangle(1200, 2400, 5000, 5000)], {
      kind: 'eave',
      upstand: 0,
    });
    const openings = spec.openings.map((o) => ({
      ...o,
      edges: o.edges.map((e) => ({ ...e, kind: 'curb' as const, upstand: 300 })),
    }));
    const details = listDetails(built({ ...spec, openings }), SHEET);
    expect(details.flashings).toHaveLength(4);
    expect(details.flashings.reduce((sum, f) => sum + f.weld, 0)).toBeCloseTo(8000 + 1200, 6);
    expect(details.corners.map((c) => c.kind)).toEqual(['outside', 'outside', 'outside', 'outside']);
  });
  it('tells the inside corner of an L from its outside ones: a parapet roof has 5 inside, 1 outside', () => {
    //  ┌────┐        Standing on the roof, five corners are inside corners of the parapet; at the notch the
    //  │    └───┐    parapet juts into the roof: one outside corner.
    //  └────────┘
    const outline = [
      [0, 0],
      [20_000, 0],
      [20_000, 8000],
      [9000, 8000],
      [9000, 15_000],
      [0, 15_000],
    ] as const;
    const details = listDetails(built(roofSpec(outline)), SHEET);
    expect(details.corners.filter((c) => c.kind === 'inside')).toHaveLength(5);
    expect(details.corners.filter((c) => c.kind === 'outside')).toHaveLength(1);
    expect(details.flashings.reduce((sum, f) => sum + f.length, 0)).toBe(70_000);
  });
  it('laps a flashing longer than its sheet: 50 m from 20 m sheets has two laps of its own', () => {
    const details = listDetails(built(roofSpec(rectangle(50_000, 10_000))), SHEET);
    // Foot: 50.0 m less a foot of 0.1 at each inside corner = 49.8; upright: two sheet laps and one corner, 0.3 each.
    expect(details.flashings[0]?.weld).toBeCloseTo(49_800 + 3 * 300, 6);
  });
  it('welds a pipe boot along its flange: π (100 + 2 × 90) mm', () => {
    const roof = built({
      ...roofSpec(rectangle(9000, 9000)),
      fittings: [{ id: 'p', kind: 'pipe', at: [4000, 4000], size: 100 }],
    });
    expect(listDetails(roof, SHEET).boots[0]?.weld).toBeCloseTo(Math.PI * 280, 6);
  });
});

describe('fasteners', () => {
  // Fastening reference, section 5: count = ⌈row / spacing⌉ + 1; 200 ft at 6 in → 401, at 12 in → 201.
  it.each([
    [152.4, 401],
    [304.8, 201],
  ])('200 ft at %d mm: %d in the row', (spacing, count) => {
    const roof = built(roofSpec(rectangle(60_960, 5000)));
    const { layout, seams } = laid(
      roof,
      layoutSpec({ roll: { id: 'r', width: 3000, length: 61_000, cost: 0 } }),
    );
    const { rows } = placeFasteners(roof, layout, seams, { inLap: spacing, atEdge: 0 });
    expect(rows.map((row) => row.count)).toEqual([count]);
  });
  it('stands on the sheet that goes under, 35 mm from its edge', () => {
    // Two courses lap at 2.88 … 3.00 m. The higher lies over, so the plates stand on the lower one: 3000 − 35.
    const roof = built(roofSpec(rectangle(10_000, 5000)));
    const { layout, seams } = laid(roof);
    const [row] = placeFasteners(roof, layout, seams, { inLap: 300, atEdge: 0 }).rows;
    expect(row?.from[1]).toBeCloseTo(2965, 6);
    // With water running up, the lower lies over and the plates stand on the higher one: 2880 + 35.
    const uphill = built({ ...roofSpec(rectangle(10_000, 5000)), fall: { downhill: 90, ratio: null } });
    const other = laid(uphill);
    const [over] = placeFasteners(uphill, other.layout, other.seams, { inLap: 300, atEdge: 0 }).rows;
    expect(over?.from[1]).toBeCloseTo(2915, 6);
  });
});
