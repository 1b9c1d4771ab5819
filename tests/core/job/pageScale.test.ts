// One page, several scales: which one holds where, and what a roof is measured by.
import { describe, expect, it } from 'vitest';
import { applyCommand } from '../../../core/job/commands/applyCommand';
import type { Command } from '../../../core/job/commands/types';
import { estimate } from '../../../core/job/estimate';
import { mmPerPointAt, mmPerPointOf, newlyStraddling, roofScale } from '../../../core/job/pageScale';
import type { Job, JobScale, ScaleRegion } from '../../../core/job/schema';
import { applyAll, edges, smallJob } from '../../support/jobs';

const HALF: JobScale = { mmPerPoint: 50, from: { by: 'ratio', ratio: 141.7, text: '' } };
const DETAIL: ScaleRegion = { id: 's1', low: [400, 0], high: [800, 300], scale: HALF };
const withDetail: Command = { kind: 'setRegion', page: 'p1', region: DETAIL };

const roofAt = (id: string, letter: string, x: number, page = 'p1'): Command => {
  const sides = edges(id, [
    [x, 10],
    [x + 200, 10],
    [x + 200, 110],
    [x, 110],
  ]);
  return {
    kind: 'addRoof',
    roof: {
      id,
      letter,
      name: `Roof ${letter}`,
      page,
      outline: sides.map((side) => side.id),
      fall: null,
      lines: [],
      facets: [],
      deck: null,
      laying: { direction: 0, firstCourse: null, closing: null },
    },
    edges: sides,
  };
};
const areaOf = (job: Job, roof: string): number =>
  estimate(job).byRoof[roof]?.find(({ key }) => key === 'roof.area')?.value ?? NaN;

describe('a region with a scale of its own', () => {
  const job = applyAll(smallJob(), [withDetail, roofAt('r2', 'B', 500)]);
  it('holds within its border and nowhere else', () => {
    const page = job.pages.p1;
    expect(
      [
        [399, 10],
        [400, 10],
        [600, 300],
        [600, 301],
      ].map((at) => mmPerPointAt(page, [at[0] ?? 0, at[1] ?? 0])),
    ).toEqual([100, 50, 50, 100]);
  });
  it('gives the roof traced in it its area', () => {
    // 200 × 100 points: 20 × 10 m at 100 mm a point, 10 × 5 m at 50.
    expect(areaOf(job, 'r2')).toBe(50);
    expect(areaOf(applyAll(smallJob(), [roofAt('r2', 'B', 500)]), 'r2')).toBe(200);
    // The other roof, 30 × 12 m less a curb of 1.2 × 2.4 m, is measured by the page's scale as before.
    expect(areaOf(job, 'r1')).toBeCloseTo(360 - 1.2 * 2.4, 9);
  });
  it('does not take in a roof that it lies partly under: the roof is missing loudly, with the reason', () => {
    const astride = applyAll(smallJob(), [roofAt('r2', 'B', 300), withDetail]);
    expect(roofScale(astride, astride.roofs.r2 as Job['roofs'][string])).toMatchObject({
      straddles: { id: 's1' },
    });
    expect(mmPerPointOf(astride, astride.roofs.r2)).toBeNull();
    const found = estimate(astride).findings.find(({ roof }) => roof === 'r2');
    expect(found).toMatchObject({ severity: 'error' });
    expect(found?.message).toMatch(
      /“Roof B” is not in the figures: .*partly in a region.*draw the region round all of it/,
    );
  });
  it('is crossed by a side whose corners both lie outside', () => {
    const across = applyAll(smallJob(), [
      { ...withDetail, region: { ...DETAIL, low: [320, -50], high: [340, 400] } } as Command,
      roofAt('r2', 'B', 300),
    ]);
    expect(roofScale(across, across.roofs.r2 as Job['roofs'][string])).toHaveProperty('straddles');
  });
  it('may lie within a roof without touching its sides, as an inset does', () => {
    const inset = applyAll(smallJob(), [
      { ...withDetail, region: { ...DETAIL, low: [100, 20], high: [140, 40] } } as Command,
    ]);
    expect(mmPerPointOf(inset, inset.roofs.r1)).toBe(100);
  });
  it('tells which change would put a roof astride', () => {
    const moved = applyAll(job, [{ kind: 'moveCorner', edge: 'r20', at: [390, 10] }]);
    expect(newlyStraddling(job, moved)).toMatch(/“Roof B” lies partly in a region/);
    expect(newlyStraddling(moved, moved)).toBeNull();
    // Moved wholly out of it, the roof takes the page's scale.
    const out = applyAll(job, [{ kind: 'moveRing', edges: ['r20', 'r21', 'r22', 'r23'], by: [0, 400] }]);
    expect(newlyStraddling(job, out)).toBeNull();
    expect(areaOf(out, 'r2')).toBe(200);
  });
  it('is changed, and taken out again', () => {
    const wider = applyAll(job, [
      {
        kind: 'setRegion',
        page: 'p1',
        region: { ...DETAIL, high: [820, 300], scale: { ...HALF, mmPerPoint: 20 } },
      },
    ]);
    expect(wider.pages.p1?.regions).toHaveLength(1);
    expect(areaOf(wider, 'r2')).toBe(8);
    const gone = applyAll(wider, [{ kind: 'removeRegion', page: 'p1', region: 's1' }]);
    expect(gone.pages.p1).not.toHaveProperty('regions');
    expect(areaOf(gone, 'r2')).toBe(200);
  });
  const refused: readonly (readonly [command: Command, says: RegExp])[] = [
    [
      { ...withDetail, region: { ...DETAIL, id: 's2', low: [700, 200], high: [830, 400] } } as Command,
      /share ground/,
    ],
    [{ ...withDetail, region: { ...DETAIL, high: [400, 300] } } as Command, /width and a height/],
    [
      { ...withDetail, region: { ...DETAIL, scale: { ...HALF, mmPerPoint: 0 } } } as Command,
      /comes to nothing/,
    ],
    [{ kind: 'removeRegion', page: 'p1', region: 's9' }, /no region “s9”/],
  ];
  it.each(refused)('%o is refused in words', (command, says) => {
    const result = applyCommand(job, command);
    expect('refusal' in result ? result.refusal : null).toMatch(says);
  });
});

describe('roofs on two pages of different scales', () => {
  it('are each measured by their own page', () => {
    const page = { id: 'p2', drawing: null, number: 1, name: 'Annex', width: 842, height: 595, checks: [] };
    const job = applyAll(smallJob(), [
      { kind: 'addPage', page: { ...page, scale: { ...HALF, mmPerPoint: 20 } } },
      roofAt('r2', 'B', 500, 'p2'),
    ]);
    // 200 × 100 points at 20 mm a point: 4 × 2 m.
    expect([areaOf(job, 'r1'), areaOf(job, 'r2')]).toEqual([expect.closeTo(357.12, 9), 8]);
    const whole = estimate(job).quantities.find(({ key }) => key === 'roof.area')?.value;
    expect(whole).toBeCloseTo(365.12, 9);
  });
});
