// The rules of the trade worked by hand; the working stands beside the figures. Rules: common practice, no source;
// the geometry is its own source.
import { describe, expect, it } from 'vitest';
import { findSeams } from '../../../core/seams/findSeams';
import type { Facet, Fitting, Roof, RoofSpec } from '../../../core/roof/types';
import { fourWayFall } from '../../../core/roof/water';
import type { RoofPoint, RoofRing } from '../../../core/geometry/points';
import { layRoof } from '../../../core/sheets/layRoof';
import type { LayoutSpec } from '../../../core/sheets/types';
import { built, layoutSpec, PLAIN_TRADE, rectangle, ringSpec, roofSpec } from '../../support/roofs';

function laidOut(roof: Roof, spec: LayoutSpec) {
  const laid = layRoof(roof, spec);
  if ('faults' in laid) throw new Error(laid.faults[0]?.message);
  return { layout: laid.layout, seams: findSeams(roof, laid.layout) };
}

const metres = (laps: readonly { readonly length: number }[]) =>
  laps.reduce((sum, lap) => sum + lap.length, 0) / 1000;
const withRoof = (ring: RoofRing, changes: Partial<RoofSpec>) => built({ ...roofSpec(ring), ...changes });

const ELL: RoofRing = [
  [0, 0],
  [24_000, 0],
  [24_000, 9000],
  [12_000, 9000],
  [12_000, 18_000],
  [0, 18_000],
];

describe('an L-shape with two rows of 1.50 m along every edge', () => {
  // Two rows reach 2 × 1.50 − 0.12 = 2.88 m in; laps are counted on their centre, 2.82 m in. Longest edge first: E0
  // (24 m), E5 (18), E2 and E4 (12), E1 and E3 (9).
  //   E0 runs through:            24.00
  //   E5 ends on E0:              18.00 − 2.88 + 0.12 = 15.24
  //   E2 runs on past the inside corner by E3's depth: 12.00 + 2.88 = 14.88
  //   E4 ends on E5:              12.00 − 2.88 + 0.12 = 9.24
  //   E1 between E0 and E2:       9.00 − 2 × 2.88 + 2 × 0.12 = 3.48
  //   E3 from E2 to E4:           9.00 − 2.88 + 2 × 0.12 = 6.36
  const edges = ringSpec(ELL, 'e', { perimeter: { sheets: 2, width: 1500 } });
  const { layout, seams } = laidOut(built({ ...roofSpec(ELL), outline: edges }), layoutSpec());

  it('one side runs through at each corner, and the other is lapped onto it', () => {
    const lengthOf = (band: string, number: number) => {
      const course = layout.courses.find((c) => c.band === band && c.number === number);
      const own = layout.sheets.filter((sheet) => sheet.course === course?.index);
      return Math.max(...own.map((s) => s.along[1])) - Math.min(...own.map((s) => s.along[0]));
    };
    const expected = { E0: 24_000, E5: 15_240, E2: 14_880, E4: 9240, E1: 3480, E3: 6360 };
    for (const [band, length] of Object.entries(expected))
      for (const row of [1, 2]) {
        // Clipped bands reach two steps of the grid past rounding at each end.
        expect(lengthOf(band, row), `${band} row ${row}`).toBeGreaterThanOrEqual(length - 0.1);
        expect(lengthOf(band, row), `${band} row ${row}`).toBeLessThanOrEqual(length + 0.6);
      }
    expect(new Set(layout.sheets.filter((s) => s.band !== 'F').map((s) => s.width))).toEqual(new Set([1500]));
  });

  it('counts every metre of lap once', () => {
    // Between the two rows of an edge, on the ground they answer for: E0 24.00, E5 15.18, E2 14.82, E4 9.18, E1 3.36,
    // E3 6.24: 72.78. Rows on rows: six ends of 2.82: 16.92. The field's border, 2.82 m in from every edge:
    // 18.36 + 3.36 + 12.00 + 9.00 + 6.36 + 12.36 = 61.44. The field's own laps at 5.70 (18.36 m wide), 8.58, 11.46 and
    // 14.34 (6.36 m wide): 37.44. Together 188.58 m.
    const within = seams.sideLaps.filter((lap) => !lap.betweenBands);
    expect(metres(within)).toBeCloseTo(72.78 + 37.44, 2);
    expect(metres(seams.sideLaps)).toBeCloseTo(188.58, 2);
  });

  it('the field’s courses end in one line on the rows, each of their laps with a T-joint there', () => {
    // Four field laps, two ends each: eight. E5, E1 (twice), E4, E3 (twice) end on rows with a lap of their own: six.
    // And the lap between E2's two rows ends, past the inside corner, on the field: one.
    const onRows = seams.tJoints.filter(({ sideLap }) =>
      seams.sideLaps.some((lap) => lap.id === sideLap && lap.betweenBands),
    );
    const endLaps = new Set(seams.endLaps.map(({ id }) => id));
    expect(onRows.filter(({ endLap }) => !endLaps.has(endLap))).toHaveLength(15);
  });
});

describe('rows of 1.40 m along one side and of 1.10 m along the other', () => {
  it('are slit from rolls of their own: two lanes of a 3 m roll either way, but not the same two', () => {
    const { corners, edges } = ringSpec(rectangle(20_000, 12_000), 'e');
    const rows = (width: number) => ({ sheets: 1, width });
    const outline = {
      corners,
      edges: edges.map((edge, i) => ({
        ...edge,
        perimeter: i === 0 ? rows(1400) : i === 2 ? rows(1100) : null,
      })),
    };
    const { layout } = laidOut(built({ ...roofSpec(corners), outline }), layoutSpec());
    const slit = layout.sheets.filter(({ band }) => band !== 'F');
    expect(slit.map(({ band, width }) => [band, width])).toEqual([
      ['E0', 1400],
      ['E2', 1100],
    ]);
    expect(new Set(slit.map(({ cut }) => cut.roll)).size).toBe(2);
  });
});

describe('rows along an edge that bends by 10°', () => {
  // The bend is at (20 m, 0). Two rows of 1.50 m reach 2.88 m in; the middle of their lap lies 1.44 m in, and square to
  // the edges the two laps would come to the bend 1.44 ÷ cos 10° − 1.44 = 0.022 m apart: a sheet lies across. It runs in
  // along the line that halves the bend. A corner that juts out: the edges fall back by 0.75 m × tan 5° at its sides,
  // 0.066 m, so that it is (2.88 ÷ cos 5° + 0.066) = 2.957 m long. At 1.44 m in the rows' laps end on its two sides:
  // half a lap within them, so (1.50 − 0.12) m apart at the least.
  const [cos, sin] = [Math.cos(Math.PI / 18), Math.sin(Math.PI / 18)];
  const bent: RoofRing = [
    [0, 0],
    [20_000, 0],
    [20_000 + 18_000 * cos, 18_000 * sin],
    [20_000 + 18_000 * cos - 15_000 * sin, 18_000 * sin + 15_000 * cos],
    [0, 18_000],
  ];
  const outlined = (sheets: number, ring: RoofRing) =>
    laidOut(
      built({ ...roofSpec(ring), outline: ringSpec(ring, 'e', { perimeter: { sheets, width: 1500 } }) }),
      layoutSpec(),
    );

  it('has a sheet across it, on which the rows of both sides end', () => {
    const { layout, seams } = outlined(2, bent);
    const across = layout.sheets.filter(({ band }) => band === 'E1X');
    expect(across).toHaveLength(1);
    expect(across[0]?.length).toBeGreaterThanOrEqual(2957);
    expect(across[0]?.length).toBeLessThanOrEqual(2957 + 10);
    const ends = ['E0-C01.1|E0-C02.1', 'E1-C01.1|E1-C02.1'].map((id) => {
      const lap = seams.sideLaps.find((one) => one.id === id);
      const far = ([x, y]: RoofPoint) => Math.hypot(x - 20_000, y);
      return [lap?.from, lap?.to].sort((a, b) => far(a as RoofPoint) - far(b as RoofPoint))[0] as RoofPoint;
    });
    const [a, b] = ends as [RoofPoint, RoofPoint];
    expect(Math.hypot(a[0] - b[0], a[1] - b[1])).toBeGreaterThan(1380 - 1);
    expect(
      new Set(seams.sideLaps.flatMap(({ id }) => (id.includes('E1X') ? id.split('|') : []))).size,
    ).toBeGreaterThan(5);
  });

  it('needs none with one row, nor where the laps come to the corner far apart', () => {
    // At 30° the laps are 1.44 ÷ cos 30° − 1.44 = 0.22 m apart.
    const steeper = bent.map(([x, y], i): RoofPoint =>
      i === 2 ? [20_000 + 18_000 * Math.cos(Math.PI / 6), 9000] : i === 3 ? [28_000, 24_000] : [x, y],
    );
    const names = (sheets: number, ring: RoofRing) => outlined(sheets, ring).layout.bands.map(({ id }) => id);
    expect(names(1, bent)).not.toContain('E1X');
    expect(names(2, steeper)).not.toContain('E1X');
    expect(names(2, bent)).toContain('E1X');
  });
});

describe('a four-way fall to one drain, 40 × 12 m, the drain at 20.00, 4.40', () => {
  // Courses of 2.88 m: laps at 2.94, 5.82, 8.70 and 11.58. Below the drain the water runs up the courses, above it
  // down; the planes at the sides fall along the laps, so no lap faces the water there.
  const drain: Fitting = { id: 'd', kind: 'drain', at: [20_000, 4400], size: 100 };
  const roof = withRoof(rectangle(40_000, 12_000), {
    fittings: [drain],
    facets: fourWayFall(rectangle(40_000, 12_000), drain.at, 0.02, (side) => `f${side}`),
  });
  const long = { id: 'long', width: 3000, length: 60_000, cost: 0 };
  const facing = (spec: LayoutSpec) => {
    const { layout, seams } = laidOut(roof, spec);
    return seams.sideLaps.filter((lap) => {
      const y = lap.from[1];
      const lower = layout.sheets.find(({ id }) => id === lap.between[0]);
      return (lap.over === lower?.id) !== y < 4400;
    });
  };

  it('no lap has to face the water where sheets lap either way', () => {
    expect(facing(layoutSpec({ roll: long }))).toEqual([]);
  });

  it('at least one line has to where a sheet has one bare edge: the one below the drain', () => {
    // All laps go one way. Up the courses sheds the water above the drain (three lines), down them below it (one): the
    // plane below is 40 × (1 − 2.94 / 4.40) = 13.3 m wide at its lap, the one above 32.5, 17.4 and 2.2 m.
    const fleece = layoutSpec({
      roll: long,
      lap: { endLap: 0 },
      trade: { ...PLAIN_TRADE, strip: 150, off: ['drain-clear'] },
    });
    expect(new Set(facing(fleece).map((lap) => lap.from[1]))).toEqual(new Set([2940]));
  });
});

describe('a valley at 45° to the courses, 40 × 12 m', () => {
  // From 10, 0 to 22, 12. Over the course from v to v + 3 m (and 0.30 m beyond) it lies from 9.70 + v to 13.30 + v:
  // end laps of 80 mm keep their centres 0.30 + 0.04 m off that. A roll of 20 m would be joined at 19.96 m.
  const planes: readonly Facet[] = [
    {
      id: 'left',
      ring: [
        [0, 0],
        [10_000, 0],
        [22_000, 12_000],
        [0, 12_000],
      ],
      downhill: 0,
      ratio: 0.02,
    },
    {
      id: 'right',
      ring: [
        [10_000, 0],
        [40_000, 0],
        [40_000, 12_000],
        [22_000, 12_000],
      ],
      downhill: 180,
      ratio: 0.02,
    },
  ];
  const roof = withRoof(rectangle(40_000, 12_000), {
    lines: [{ id: 'v', kind: 'valley', from: [10_000, 0], to: [22_000, 12_000] }],
    facets: planes,
  });
  const { layout, seams } = laidOut(
    roof,
    layoutSpec({ roll: { id: 'short', width: 3000, length: 20_000, cost: 0 } }),
  );

  it('crosses every side lap once and no end lap', () => {
    const lines = layout.courses.slice(0, -1).map((c) => c.low + c.width - c.lapAbove / 2);
    expect(lines).toEqual([2940, 5820, 8700, 11_580]);
    // By hand: where a lap's edge ends beside the valley it is 300 mm off it, square to the valley; 300 ÷ sin 45° = 424
    // along the course, and the lap's centre half a lap of 80 mm further.
    const off = 300 / Math.SQRT1_2 + 40;
    for (const lap of seams.endLaps) {
      const { low } = layout.courses.find(({ index }) => index === lap.course) as { low: number };
      const [from, to] = [low + 10_000 - off, low + 13_000 + off];
      const u = lap.from[0];
      expect(u <= from + 0.1 || u >= to - 0.1, `${lap.id} at ${u}`).toBe(true);
    }
  });

  it('end laps shed water to both sides of it', () => {
    for (const lap of seams.endLaps) {
      const [x, y] = [lap.from[0], (lap.from[1] + Math.min(12_000, lap.to[1])) / 2];
      const left = x - 10_000 < y;
      expect(lap.over, lap.id).toBe(lap.between[left ? 0 : 1]);
    }
  });
});

describe('a tie-in across one wing of the L, at x = 15 m', () => {
  // The part to its left, 15 m wide below y = 9 m and 12 m above: ⌈(18.00 − 0.12) / 2.88⌉ = 7 courses, laps at 2.94,
  // 5.82 and 8.70 (15 m) and at 11.58, 14.46 and 17.34 (12 m): 81 m. The part to its right, 9 × 9 m:
  // ⌈8.88 / 2.88⌉ = 4 courses, three laps of 9 m: 27 m. No lap joins the two.
  const roof = withRoof(ELL, {
    lines: [{ id: 't', kind: 'tie-in', from: [15_000, 0], to: [15_000, 9000] }],
  });
  const { layout, seams } = laidOut(roof, layoutSpec());

  it('is crossed by no sheet', () => {
    for (const sheet of layout.sheets) {
      const xs = sheet.corners.map(([x]) => x);
      expect(Math.max(...xs) <= 15_000.5 || Math.min(...xs) >= 14_999.5, sheet.id).toBe(true);
    }
  });

  it('parts the membrane into 7 and 4 courses with 108 m of side lap', () => {
    const of = (band: string) => layout.courses.filter((c) => c.band === band).length;
    expect([of('F'), of('F2')]).toEqual([7, 4]);
    expect(metres(seams.sideLaps)).toBeCloseTo(81 + 27, 2);
    for (const lap of seams.sideLaps) {
      const bands = lap.between.map((id) => layout.sheets.find((sheet) => sheet.id === id)?.band);
      expect(bands[0]).toBe(bands[1]);
    }
  });
});

describe('a fleece-backed rectangle, 24 × 5.88 m, rolls of 3 × 10 m, strips of 150 mm', () => {
  // Two courses, each of three pieces that butt at their ends: 24 = 10 + 10 + 4, no lap lost: 48 m, ⌈4.8⌉ = 5 rolls.
  // Four strips of 3.00 m with two welds each: 24.00 m. Each strip ends once on the one side lap: four patches.
  const spec = layoutSpec({
    roll: { id: 'fleece', width: 3000, length: 10_000, cost: 0 },
    lap: { endLap: 0 },
    trade: { ...PLAIN_TRADE, strip: 150 },
  });
  const { layout, seams } = laidOut(withRoof(rectangle(24_000, 5880), {}), spec);

  it('takes twice the end weld and a patch at each strip’s end over the side lap', () => {
    expect(layout.cutList.rolls).toHaveLength(5);
    expect(layout.cutList.lowerBound).toBe(5);
    expect(seams.endLaps).toHaveLength(4);
    expect(seams.endLaps.every((lap) => lap.overlap === 0 && lap.welds === 2)).toBe(true);
    expect(metres(seams.endLaps.map((lap) => ({ length: lap.length * lap.welds })))).toBeCloseTo(24, 9);
    expect(seams.tJoints).toHaveLength(4);
  });

  it('bears its bare edge where the next sheet covers it', () => {
    expect(new Set(layout.sheets.map(({ selvedge }) => selvedge))).toEqual(new Set(['high']));
    expect(seams.sideLaps.every((lap) => lap.over === lap.between[1])).toBe(true);
  });
});
