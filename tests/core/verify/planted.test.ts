// Each rule has a sound layout broken in just that way; the verifier must name the breach.
import { describe, expect, it } from 'vitest';
import { findSeams } from '../../../core/seams/findSeams';
import { layRoof } from '../../../core/sheets/layRoof';
import type { Sheet } from '../../../core/sheets/types';
import { rulesOf, type Verified } from '../../../core/verify/evidence';
import { verify } from '../../../core/verify/verifyLayout';
import { built, layoutSpec, rectangle, roofSpec } from '../../support/roofs';

// 40 × 9 m from 3 × 30 m rolls: four courses of two pieces each, so every kind of lap is there.
const roof = built({
  ...roofSpec(rectangle(40_000, 9000)),
  fittings: [{ id: 'drain', kind: 'drain', at: [20_000, 7000], size: 200 }],
  fall: { downhill: 270, ratio: 0.02 },
});
const spec = layoutSpec();

function sound(): Verified {
  const laid = layRoof(roof, spec);
  if ('faults' in laid) throw new Error(laid.faults[0]?.message);
  const seams = findSeams(roof, laid.layout);
  return {
    roof,
    direction: 0,
    sheets: laid.layout.sheets,
    seams,
    rows: [
      {
        id: 'row',
        along: ['x'],
        where: 'lap',
        zone: 'field',
        from: [0, 0],
        to: [3000, 0],
        first: 0,
        step: 300,
        count: 11,
      },
    ],
    rules: rulesOf(spec),
    spacing: { inLap: 300, atEdge: 300 },
  };
}

const rules = (given: Verified) => new Set(verify(given).map((finding) => finding.rule));
const change = (given: Verified, id: string, edit: (sheet: Sheet) => Sheet): Verified => ({
  ...given,
  sheets: given.sheets.map((sheet) => (sheet.id === id ? edit(sheet as Sheet) : sheet)),
});
const shifted = (sheet: Sheet, du: number, dv: number): Sheet => ({
  ...sheet,
  corners: sheet.corners.map(([x, y]) => [x + du, y + dv] as const),
});
/** A sheet with its high end moved. */
const stretched = (sheet: Sheet, by: number): Sheet => ({
  ...sheet,
  length: sheet.length + by,
  corners: sheet.corners.map(([x, y], i) =>
    i === 1 || i === 2 ? ([x + by, y] as const) : ([x, y] as const),
  ),
});
const first = (given: Verified) => given.sheets.find((sheet) => sheet.id === 'C01.1') as Sheet;

describe('the verifier', () => {
  it('holds nothing against the sound layout', () => {
    expect(verify(sound()).map((f) => f.message)).toEqual([]);
  });

  const planted: readonly (readonly [rule: string, broken: (given: Verified) => Verified])[] = [
    ['uncovered', (g) => ({ ...g, sheets: g.sheets.filter((s) => s.id !== 'C02.1') })],
    ['uncovered', (g) => change(g, 'C01.2', (s) => stretched(s, -50))],
    [
      'not-square',
      (g) =>
        change(g, 'C01.1', (s) => ({ ...s, corners: [[s.corners[0]?.[0] ?? 0, 40], ...s.corners.slice(1)] })),
    ],
    ['not-square', (g) => change(g, 'C01.1', (s) => ({ ...s, length: s.length + 100 }))],
    [
      'short-side-lap',
      (g) =>
        change(
          change(g, 'C01.1', (s) => shifted(s, 0, -20)),
          'C01.2',
          (s) => shifted(s, 0, -20),
        ),
    ],
    ['wide-lap', (g) => change(g, 'C01.1', (s) => shifted(s, 0, 30))],
    ['short-end-lap', (g) => change(g, 'C01.2', (s) => shifted(s, 30, 0))],
    [
      'end-lap-stagger',
      (g) => ({ ...g, rules: { ...rulesOf(spec), lap: { ...spec.lap, endLapStagger: 20_000 } } }),
    ],
    [
      'four-sheets',
      (g) => {
        // Course 2 cut where course 1 is: two end laps on one side lap.
        const [a, b] = g.sheets.filter((s) => s.course === 1) as [Sheet, Sheet];
        const lift = (s: Sheet, id: string): Sheet => ({ ...shifted(s, 0, 2880), id, course: 2 });
        return {
          ...g,
          sheets: [...g.sheets.filter((s) => s.course !== 2), lift(a, 'C02.1'), lift(b, 'C02.2')],
        };
      },
    ],
    ['short-piece', (g) => ({ ...g, rules: { ...rulesOf(spec), lap: { ...spec.lap, minPiece: 25_000 } } })],
    ['too-long', (g) => ({ ...g, rules: { ...rulesOf(spec), products: [{ ...spec.roll, length: 8000 }] } })],
    ['too-long', (g) => ({ ...g, rules: { ...rulesOf(spec), products: [{ ...spec.roll, width: 2900 }] } })],
    [
      'roll-overlap',
      (g) => ({ ...g, sheets: g.sheets.map((s) => ({ ...s, cut: { ...s.cut, roll: 'R1', start: 0 } })) }),
    ],
    ['seam-metres', (g) => ({ ...g, seams: { ...g.seams, sideLaps: g.seams.sideLaps.slice(1) } })],
    ['seam-metres', (g) => ({ ...g, seams: { ...g.seams, sideLaps: [] } })],
    [
      'seam-sheets',
      (g) => ({
        ...g,
        seams: {
          ...g.seams,
          sideLaps: g.seams.sideLaps.map((lap) => ({ ...lap, between: ['C99.1', lap.between[1]] as const })),
        },
      }),
    ],
    [
      'seam-sheets',
      (g) => ({
        ...g,
        seams: {
          ...g.seams,
          endLaps: g.seams.endLaps.map((lap) => ({ ...lap, between: ['C99.1', lap.between[1]] as const })),
        },
      }),
    ],
    [
      'lap-faces-water',
      (g) => ({
        ...g,
        seams: { ...g.seams, sideLaps: g.seams.sideLaps.map((lap) => ({ ...lap, over: lap.between[0] })) },
      }),
    ],
    [
      'lap-faces-water',
      (g) => ({
        ...g,
        roof: { ...roof, fall: { downhill: 0, ratio: 0.02 } },
        seams: { ...g.seams, endLaps: g.seams.endLaps.map((lap) => ({ ...lap, over: lap.between[1] })) },
      }),
    ],
    [
      'lap-near-drain',
      (g) => ({
        ...g,
        roof: { ...roof, fittings: [{ id: 'drain', kind: 'drain', at: [20_000, 5820], size: 200 }] },
      }),
    ],
    ['fastener-gap', (g) => ({ ...g, spacing: { inLap: 250, atEdge: 300 } })],
    ['fastener-gap', (g) => ({ ...g, rows: g.rows.map((row) => ({ ...row, count: 9 })) })],
  ];
  it.each(planted)('catches %s', (rule, broken) => {
    expect(first(sound()).length).toBeGreaterThan(0);
    expect(rules(broken(sound()))).toContain(rule);
  });

  it('puts the worst first', () => {
    const given = {
      ...sound(),
      sheets: sound().sheets.filter((s) => s.id !== 'C02.1'),
      roof: {
        ...roof,
        fall: { downhill: 90, ratio: 0.02 },
      },
    };
    const order = verify(given).map((f) => ['error', 'warning', 'advice'].indexOf(f.severity));
    expect(order).toEqual([...order].sort());
    expect(new Set(order).size).toBeGreaterThan(1);
  });
});
