// Fasteners by zone as an engineer gave them, worked by hand and held by the verifier, which finds zones its own way.
import { describe, expect, it } from 'vitest';
import { fastenerLength } from '../../../core/fastening/fastenerLength';
import { placeFasteners } from '../../../core/fastening/placeFasteners';
import type { FastenerRow } from '../../../core/fastening/types';
import { zonesAlong, type FasteningZones } from '../../../core/fastening/zones';
import { estimate } from '../../../core/job/estimate';
import type { Job } from '../../../core/job/schema';
import type { Roof } from '../../../core/roof/types';
import { findSeams } from '../../../core/seams/findSeams';
import { layRoof } from '../../../core/sheets/layRoof';
import { verifyLayout } from '../../../core/verify/verifyLayout';
import { seeded } from '../../support/random';
import { applyAll, smallJob } from '../../support/jobs';
import { built, generatedRoof, layoutSpec, rectangle, roofSpec } from '../../support/roofs';

function fastened(roof: Roof, zones: FasteningZones, inLap = 300, direction = 0) {
  const laid = layRoof(roof, layoutSpec({ direction }));
  if ('faults' in laid) throw new Error(laid.faults[0]?.message);
  const { layout } = laid;
  const seams = findSeams(roof, layout);
  const spacing = { inLap, atEdge: 0, zones };
  const fastening = placeFasteners(roof, layout, seams, spacing);
  const verified = (rows: readonly FastenerRow[]) =>
    verifyLayout(roof, layout, seams, { ...fastening, rows }, spacing).filter(
      ({ rule }) => rule === 'fastener-gap' || rule === 'rows-apart',
    );
  return { fastening, verified };
}

const zone = (depth: number, spacing: number, rows?: number) => ({ depth, spacing, rows });

describe('a hall of 30 × 12 m with a zone of 2 m', () => {
  const roof = built(roofSpec(rectangle(30_000, 12_000)));

  it('a row across the middle is 2 m of perimeter, 26 m of field, 2 m of perimeter', () => {
    const { fastening, verified } = fastened(roof, { perimeter: zone(2000, 150), corner: zone(2000, 100) });
    // ⌈2000 ÷ 150⌉ + 1 = 15, then ⌈26 000 ÷ 300⌉ = 87 and ⌈2000 ÷ 150⌉ = 14 more, which share their first fastener.
    const first = fastening.rows.slice(0, 3);
    expect(first.map(({ zone: name, count }) => [name, count])).toEqual([
      ['perimeter', 15],
      ['field', 87],
      ['perimeter', 14],
    ]);
    expect(first.map(({ from, to }) => [from[0], to[0]])).toEqual([
      [0, 2000],
      [2000, 28_000],
      [28_000, 30_000],
    ]);
    expect(verified(fastening.rows)).toEqual([]);
  });
  it('a row 1 m from the edge is corner, perimeter, corner', () => {
    const zones = { perimeter: zone(2000, 150), corner: zone(2500, 100) };
    expect(zonesAlong(roof, zones, [0, 1000], [30_000, 1000])).toEqual([
      { zone: 'corner', span: [0, 2500 / 30_000] },
      { zone: 'perimeter', span: [2500 / 30_000, 27_500 / 30_000] },
      { zone: 'corner', span: [27_500 / 30_000, 1] },
    ]);
  });
  it('without zones there is one row, as before', () => {
    const { fastening } = fastened(roof, {});
    expect(fastening.rows[0]).toMatchObject({ zone: 'field', first: 0, count: 101 });
  });
  it('a zone wider than the field’s own spacing does not thin anything out', () => {
    const { fastening } = fastened(roof, { perimeter: zone(2000, 600) });
    for (const { step } of fastening.rows) expect(step).toBeLessThanOrEqual(300);
  });
  it('an expansion joint is no roof edge: there is no zone along it', () => {
    const spec = roofSpec(rectangle(30_000, 12_000));
    const edges = spec.outline.edges.map((edge, k) =>
      k === 3 ? { ...edge, kind: 'expansion' as const } : edge,
    );
    const joined = built({ ...spec, outline: { ...spec.outline, edges } });
    const found = zonesAlong(
      joined,
      { perimeter: zone(2000, 150), corner: zone(2000, 100) },
      [0, 6000],
      [30_000, 6000],
    );
    expect(found.map((one) => one.zone)).toEqual(['field', 'perimeter']);
  });
  it('the verifier finds a row set as in the field where the zone asks for closer', () => {
    const { fastening, verified } = fastened(roof, { perimeter: zone(2000, 150) });
    const loose = fastening.rows.map((row, k) => (k === 0 ? { ...row, step: row.step * 2, count: 8 } : row));
    expect(verified(loose)[0]).toMatchObject({ rule: 'fastener-gap', severity: 'error' });
  });
  it('rows 2.88 m apart where the engineer asks for 1.5 m in the perimeter are told with their sheets', () => {
    const { fastening, verified } = fastened(roof, { perimeter: zone(2000, 150, 1500) });
    const [finding] = verified(fastening.rows);
    expect(finding).toMatchObject({ rule: 'rows-apart', severity: 'warning' });
    expect(finding?.message).toMatch(/rows at most 1500 mm apart.*2880 mm apart.*narrower sheets/);
    expect(fastened(roof, { perimeter: zone(2000, 150, 2880) }).verified(fastening.rows)).toEqual([]);
  });
});

describe('rows of narrower sheets along every edge', () => {
  // An L: at its inside corner a course of the field, as cut, reaches over the rows that lie there.
  const L: readonly (readonly [number, number])[] = [
    [7000, 7600],
    [67_000, 7600],
    [67_000, 35_600],
    [45_000, 35_600],
    [45_000, 53_600],
    [7000, 53_600],
  ];
  const rowed = (width: number) => {
    const spec = roofSpec(L);
    const edges = spec.outline.edges.map((edge) => ({ ...edge, perimeter: { sheets: 2, width } }));
    const roof = built({ ...spec, outline: { ...spec.outline, edges } });
    const found = fastened(roof, { perimeter: zone(2400, 200, 1400) }, 300, 90);
    return found.verified(found.fastening.rows).filter(({ rule }) => rule === 'rows-apart');
  };

  it('keep the engineer’s distance where they cover the zone, though the field reaches over them', () => {
    expect(rowed(1500)).toEqual([]);
  });
  it('do not where they are too wide themselves, or where they end before the zone does', () => {
    expect(rowed(1900)).toHaveLength(1);
    expect(rowed(1000)).toHaveLength(1);
  });
});

describe('generated roofs with zones', () => {
  it('200 of them stand before the verifier', () => {
    let corners = 0;
    for (let seed = 1; seed <= 200; seed++) {
      const luck = seeded(seed * 13);
      const roof = generatedRoof(seed, { area: 200e6 * Math.pow(8, luck.next()) });
      const zones = {
        perimeter: zone(luck.whole(5, 30) * 100, luck.whole(10, 30) * 10),
        ...(luck.next() < 0.7 ? { corner: zone(luck.whole(5, 40) * 100, luck.whole(7, 20) * 10) } : {}),
      };
      const { fastening, verified } = fastened(roof, zones);
      expect(verified(fastening.rows), `seed ${seed}`).toEqual([]);
      if (fastening.rows.some((row) => row.zone === 'corner')) corners++;
    }
    expect(corners).toBeGreaterThan(60);
  }, 60_000);
});

describe('the length of a fastener', () => {
  const steel = { kind: 'steel', flutes: null, pitch: null, flange: null, rib: null } as const;
  const offered = [80, 100, 120, 140, 160];

  it.each([
    ['steel', 120, 139, 140],
    ['wood', 120, 145, 160],
    ['concrete', 88, 120, 120],
  ] as const)('%s under %d mm needs %d mm, so %d mm', (kind, over, need, length) => {
    expect(fastenerLength({ ...steel, kind, over }, offered)).toMatchObject({ need, length });
  });
  it('is open where the deck, or what lies over it, is not given, or none is long enough', () => {
    expect(fastenerLength(null, offered)).toMatchObject({ need: null, length: null });
    expect(fastenerLength(steel, offered)).toMatchObject({ need: null, length: null });
    expect(fastenerLength({ ...steel, over: 160 }, offered)).toMatchObject({ need: 179, length: null });
  });
});

describe('a job', () => {
  const decked = (job: Job, over?: number) =>
    applyAll(job, [
      {
        kind: 'setRoof',
        roof: 'r1',
        fields: {
          deck: {
            kind: 'steel',
            flutes: 90,
            pitch: null,
            flange: null,
            rib: null,
            ...(over === undefined ? {} : { over }),
          },
          fastening: { perimeter: zone(2000, 150), corner: zone(2000, 100) },
        },
      },
    ]);
  const lines = (job: Job) =>
    estimate(job)
      .order.lines.filter(({ key }) => key.startsWith('fastener'))
      .map(({ key, description }) => [key, description]);

  it('orders, prices and counts fasteners of the length that the deck asks for', () => {
    const job = decked(smallJob(), 100);
    expect(lines(job)).toEqual([['fastener.120', 'Deck fastener, 120 mm long']]);
    const { quantities, bid, order } = estimate(job);
    const value = (key: string) => quantities.find((quantity) => quantity.key === key)?.value ?? 0;
    expect(value('fasteners.length.120')).toBe(value('fasteners.count'));
    expect(value('fasteners.perimeter')).toBeGreaterThan(20);
    expect(value('fasteners.count')).toBeGreaterThan(
      estimate(smallJob()).quantities.find(({ key }) => key === 'fasteners.count')?.value ?? 0,
    );
    expect(bid.lines.some(({ key }) => key.includes('fastener.120'))).toBe(true);
    expect(order.lines.find(({ key }) => key === 'fastener.120')?.assumed).toMatch(/fastener lengths/);
  });
  it('says on the order that a length is not given', () => {
    expect(lines(decked(smallJob()))).toEqual([['fastener', 'Deck fastener, length not given']]);
  });
});
