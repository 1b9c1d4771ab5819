import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ringHolds, signedArea } from '../../../core/geometry/ring';
import { readLinework } from '../../../core/plan/linework';
import { buildPageIndex } from '../../../core/plan/pageIndex';
import { buildRegionIndex, traceRegion } from '../../../core/plan/traceRegion';
import type { Region, RegionOptions } from '../../../core/plan/traceRegion';
import type { PageContent } from '../../../core/plan/types';
import { noteOf, pageOf } from './content';

type Place = readonly [number, number];
type Line = { readonly points: readonly Place[]; readonly as?: 'curve' | 'ring' | 'fill' };

const box = (x: number, y: number, w: number, h: number): Line => ({
  points: [
    [x, y],
    [x + w, y],
    [x + w, y + h],
    [x, y + h],
  ],
  as: 'ring',
});
const line = (...points: Place[]): Line => ({ points });

/** A swing in chords; degrees counter-clockwise. */
function swing([x, y]: Place, r: number, from: number, to: number): Line {
  return line(
    ...Array.from({ length: 10 }, (_, n): Place => {
      const turn = ((from + ((to - from) * n) / 9) / 180) * Math.PI;
      return [x + r * Math.cos(turn), y + r * Math.sin(turn)];
    }),
  );
}

/** From the hinge: the leaf open by an angle, and its swing to the latch. */
function leaf(hinge: Place, r: number, open: number, shut: number): Line[] {
  const turn = (open / 180) * Math.PI;
  const tip: Place = [hinge[0] + r * Math.cos(turn), hinge[1] + r * Math.sin(turn)];
  return [line(hinge, tip), swing(hinge, r, open, shut)];
}

function read(lines: readonly Line[], at: Place, options?: RegionOptions, page: Partial<PageContent> = {}) {
  const linework = readLinework({ ...pageOf(lines), ...page });
  return traceRegion(buildRegionIndex(buildPageIndex(linework)), at, options);
}

function regionOf(...given: Parameters<typeof read>): Region {
  const reading = read(...given);
  if ('refusal' in reading) throw new Error(reading.refusal);
  return reading.region;
}

const ROOF = box(100, 100, 300, 200);

describe('region', () => {
  it('is the shape around the point, from its lowest corner, counter-clockwise', () => {
    expect(regionOf([ROOF], [200, 200])).toEqual({
      outline: [
        [100, 100],
        [400, 100],
        [400, 300],
        [100, 300],
      ],
      openings: [],
      closedGaps: [],
      openGaps: [],
      smallMarks: 0,
      closedBy: 'drawn lines',
    });
  });
  it('has the islands in it as openings, clockwise, and what lies in an island belongs to it', () => {
    const region = regionOf(
      [ROOF, box(150, 150, 60, 50), box(160, 160, 40, 30), box(300, 220, 40, 40)],
      [120, 280],
    );
    expect(region.openings.map((ring) => signedArea(ring))).toEqual([-3000, -1600]);
  });
  it('leaves small marks out and counts them', () => {
    const cross = [line([250, 250], [250, 252]), line([249, 251], [251, 251])];
    expect(regionOf([ROOF, ...cross, box(200, 150, 1.5, 1.5)], [120, 120]).openings).toEqual([]);
  });
  it('is cut by a line that runs across, and not by one that ends within', () => {
    expect(regionOf([ROOF, line([250, 100], [250, 180])], [120, 120]).outline).toHaveLength(4);
    expect(signedArea(regionOf([ROOF, line([250, 90], [250, 310])], [120, 120]).outline)).toBeCloseTo(
      30_000,
      6,
    );
  });
  it('bridges a gap and shows it; a wider one is refused with the reason', () => {
    const open = [line([100, 100], [400, 100], [400, 300], [100, 300]), line([100, 298.5], [100, 100])];
    expect(regionOf(open, [200, 200]).closedGaps).toEqual([{ from: [100, 300], to: [100, 298.5] }]);
    const wider = [line([100, 100], [400, 100], [400, 300], [100, 300]), line([100, 290], [100, 100])];
    expect(read(wider, [200, 200])).toMatchObject({
      refusal: expect.stringMatching(/gaps of 2 points: allow wider/),
    });
    expect(signedArea(regionOf(wider, [200, 200], { gap: 12 }).outline)).toBeCloseTo(60_000, 6);
  });
  it('says with which gap a shape would close', () => {
    const wider = [line([100, 100], [400, 100], [400, 300], [100, 300]), line([100, 290], [100, 100])];
    const refused = read(wider, [200, 200]);
    if ('region' in refused) throw new Error('it closed');
    // The gap of 10 points and a fiftieth.
    expect(refused.closesWith).toBe(10.2);
    expect(signedArea(regionOf(wider, [200, 200], { gap: 10.2 }).outline)).toBeCloseTo(60_000, 6);
  });
  describe('in two rooms of 145 × 200 between double walls, with a doorway of 30 that has no door', () => {
    // Faces as a drafter leaves them: the outer walls' inner faces whole, the wall between them 10 thick and in two parts.
    const rooms = [
      box(100, 100, 300, 200),
      box(245, 100, 10, 80),
      box(245, 210, 10, 90),
      box(90, 90, 320, 220),
    ];
    it('runs through the doorway, and says where and how wide', () => {
      const region = regionOf(rooms, [150, 200]);
      expect(signedArea(region.outline)).toBeCloseTo(300 * 200 - 170 * 10, 6);
      expect(region.closedGaps).toEqual([]);
      expect(region.openGaps).toHaveLength(1);
      const [{ from, to } = { from: [0, 0], to: [0, 0] }] = region.openGaps;
      expect(Math.hypot(to[0] - from[0], to[1] - from[1])).toBeCloseTo(30, 6);
    });
    it('is one room where gaps of that width are bridged', () => {
      const region = regionOf(rooms, [150, 200], { gap: 31 });
      expect(signedArea(region.outline)).toBeCloseTo(145 * 200, 6);
      expect(region.closedGaps).toHaveLength(1);
      expect(region.openGaps).toEqual([]);
    });
    it('closes at the wall where a leaf and its swing are drawn, as a curve or in chords, and leaves both out', () => {
      const leaf = line([245, 180], [215, 180]);
      const [k, r] = [(30 * 4 * (Math.SQRT2 - 1)) / 3, 30];
      const curve: Line = {
        points: [
          [245 - r, 180],
          [245 - r, 180 + k],
          [245 - k, 180 + r],
          [245, 180 + r],
        ],
        as: 'curve',
      };
      const chords = line(
        ...Array.from({ length: 10 }, (_, n): Place => {
          const turn = Math.PI / 2 + (n / 9) * (Math.PI / 2);
          return [245 + r * Math.cos(turn), 180 + r * Math.sin(turn)];
        }),
      );
      for (const swing of [curve, chords]) {
        const region = regionOf([...rooms, leaf, swing], [150, 200]);
        expect(signedArea(region.outline)).toBeCloseTo(145 * 200, 4);
        expect(region.closedGaps).toHaveLength(1);
      }
    });
    it('keeps a bow that no leaf belongs to', () => {
      const curve: Line = {
        points: [
          [100, 130],
          [117, 130],
          [130, 117],
          [130, 100],
        ],
        as: 'curve',
      };
      expect(signedArea(regionOf([ROOF, curve], [105, 105]).outline)).toBeLessThan(1000);
    });
  });
  it('keeps a round corner whose hips run to its middle', () => {
    // A quarter of radius 60 about (340, 240); its hips go on to the ridge.
    const k = (60 * 4 * (Math.SQRT2 - 1)) / 3;
    const eave = [
      line([340, 300], [100, 300], [100, 100], [400, 100], [400, 240]),
      {
        points: [
          [400, 240],
          [400, 240 + k],
          [340 + k, 300],
          [340, 300],
        ],
        as: 'curve',
      } as const,
      line([340, 240], [400, 240]),
      line([340, 240], [340, 300]),
      line([340, 240], [200, 200]),
    ];
    const region = regionOf(eave, [150, 150], { mode: 'outer' });
    expect(signedArea(region.outline)).toBeCloseTo(300 * 200 - (1 - Math.PI / 4) * 60 ** 2, -1.5);
  });
  it.each<[string, Line[]]>([
    ['one on the other side of the wall', [line([255, 210], [285, 210]), swing([255, 210], 30, 270, 360)]],
    ['two leaves', [...leaf([245, 180], 15, 180, 90), ...leaf([245, 210], 15, 180, 270)]],
    ['a leaf that stands half open', leaf([245, 180], 30, 135, 90)],
    ['a hinge in the middle of the wall', leaf([250, 180], 30, 180, 90)],
    ['a frame that keeps it off the wall', leaf([245, 182], 26, 180, 90)],
    ['a sill across the opening', [...leaf([245, 180], 30, 180, 90), line([245, 180], [245, 210])]],
  ])('closes a doorway of 30 in a wall of 10 at the wall: %s', (_what, door) => {
    const rooms = [box(100, 100, 300, 200), box(245, 100, 10, 80), box(245, 210, 10, 90)];
    const west = signedArea(regionOf([...rooms, ...door], [150, 200]).outline);
    const east = signedArea(regionOf([...rooms, ...door], [350, 200]).outline);
    expect(west).toBeCloseTo(145 * 200, -2.5);
    expect(east).toBeCloseTo(145 * 200, -2.5);
  });
  it('refuses a point outside every shape, off the page, and a page without lines', () => {
    expect(read([ROOF], [50, 50])).toHaveProperty('refusal');
    expect(read([ROOF], [700, 50])).toMatchObject({ refusal: expect.stringMatching(/outside the page/) });
    expect(read([], [50, 50])).toMatchObject({ refusal: expect.stringMatching(/no lines/) });
  });
  it('passes over hatching', () => {
    const hatch = Array.from({ length: 60 }, (_, k) => line([102 + k * 4, 100], [202 + k * 4, 300]));
    expect(regionOf([ROOF, ...hatch], [120, 280]).outline).toHaveLength(4);
    expect(regionOf([ROOF, ...hatch], [200, 200]).outline).toHaveLength(4);
  });
  it('passes over dimension lines and leaders', () => {
    const arrow = (tip: Place, back: Place, aside: Place) => [
      line(tip, [tip[0] + back[0] + aside[0], tip[1] + back[1] + aside[1]]),
      line(tip, [tip[0] + back[0] - aside[0], tip[1] + back[1] - aside[1]]),
    ];
    const dimension = [
      line([100, 200], [400, 200]),
      ...arrow([100, 200], [4, 0], [0, 1]),
      ...arrow([400, 200], [-4, 0], [0, 1]),
    ];
    expect(regionOf([ROOF, ...dimension], [120, 120]).outline).toHaveLength(4);
    const leader = [line([250, 90], [250, 310]), ...arrow([250, 310], [0, -4], [1, 0])];
    expect(regionOf([ROOF, ...leader], [120, 120]).outline).toHaveLength(4);
  });
  it('passes over dashed lines, unless nothing closes without them', () => {
    const dashed = (lines: readonly Line[], which: readonly number[]): Partial<PageContent> => ({
      paths: {
        ...pageOf(lines).paths,
        dashed: Uint8Array.from(lines, (_, k) => (which.includes(k) ? 1 : 0)),
      },
    });
    const across = [ROOF, line([250, 90], [250, 310])];
    expect(regionOf(across, [120, 120], {}, dashed(across, [1])).closedBy).toBe('drawn lines');
    expect(regionOf([ROOF], [120, 120], {}, dashed([ROOF], [0])).closedBy).toBe('all lines');
  });
  it('--outer is the boundary of the whole drawn part, its dangling lines left out', () => {
    const hips = [line([100, 100], [200, 200]), line([400, 100], [300, 200]), line([200, 200], [300, 200])];
    const stray = line([400, 300], [450, 340]);
    const wing = box(400, 100, 60, 50);
    const region = regionOf([ROOF, ...hips, stray, wing], [250, 250], { mode: 'outer' });
    expect(region.outline).toEqual([
      [100, 100],
      [460, 100],
      [460, 150],
      [400, 150],
      [400, 300],
      [100, 300],
    ]);
  });
  it('--outer passes over the border of the sheet', () => {
    expect(regionOf([box(10, 10, 580, 380), ROOF], [250, 250], { mode: 'outer' }).outline).toHaveLength(4);
    expect(read([box(10, 10, 580, 380), ROOF], [500, 350], { mode: 'outer' })).toMatchObject({
      refusal: expect.stringMatching(/border of the sheet/),
    });
  });
  it('takes a frame round a letter for a mark', () => {
    const texts = [{ ...noteOf('B', [205, 203], 8), width: 6 }];
    expect(regionOf([ROOF, box(200, 200, 16, 14)], [120, 120], {}, { texts }).openings).toEqual([]);
  });
});

/** A staircase outline with a hole, on a skewed grid: simple, and every corner turns. */
const shape = fc
  .record({
    steps: fc.array(fc.tuple(fc.integer({ min: 12, max: 40 }), fc.integer({ min: 10, max: 25 })), {
      minLength: 2,
      maxLength: 6,
    }),
    turn: fc.integer({ min: 0, max: 359 }),
    mirrored: fc.boolean(),
    stray: fc.integer({ min: 0, max: 3 }),
  })
  .map(({ steps, turn, mirrored, stray }) => {
    const width = steps.reduce((sum, [w]) => sum + w, 0);
    const points: Place[] = [
      [0, 0],
      [width, 0],
    ];
    let x = width;
    let y = 60;
    for (const [w, h] of steps) {
      points.push([x, y], [x - w, y]);
      x -= w;
      y += h;
    }
    const [cos, sin] = [Math.cos((turn * Math.PI) / 180), Math.sin((turn * Math.PI) / 180)];
    const put = ([px, py]: Place): Place => {
      const mx = mirrored ? -px : px;
      return [300 + (mx - width / 2) * cos - (py - 50) * sin, 300 + (mx - width / 2) * sin + (py - 50) * cos];
    };
    const dangling = Array.from({ length: stray }, (_, k) =>
      line(put([0, 15 + k * 9]), put([6 + k, 17 + k * 9])),
    );
    return { ring: points.map(put), dangling, put, width };
  });

describe('laws of region', () => {
  it('the point is inside, and any point inside gives the same ring', () => {
    fc.assert(
      fc.property(
        shape,
        fc.array(
          fc.tuple(
            fc.double({ min: 0.02, max: 0.98, noNaN: true }),
            fc.double({ min: 0.05, max: 0.95, noNaN: true }),
          ),
          { minLength: 3, maxLength: 6 },
        ),
        ({ ring, dangling, put, width }, spots) => {
          const page: Partial<PageContent> = { box: [-100, -100, 700, 700] };
          const at = spots
            .map(([u, v]) => put([u * width, v * 59]))
            .map(([x, y]): Place => [x + 100, y + 100]);
          const lines: Line[] = [{ points: ring, as: 'ring' }, ...dangling];
          const linework = readLinework({ ...pageOf(lines), ...page });
          const index = buildRegionIndex(buildPageIndex(linework));
          const traced = at.map((point) => {
            const reading = traceRegion(index, point);
            if ('refusal' in reading) throw new Error(reading.refusal);
            expect(ringHolds(reading.region.outline, point)).toBe(true);
            return reading.region;
          });
          for (const region of traced) expect(region).toEqual(traced[0]);
          expect(Math.abs(signedArea(traced[0]?.outline ?? []))).toBeCloseTo(Math.abs(signedArea(ring)), 3);
        },
      ),
      { numRuns: 150 },
    );
  });
});
