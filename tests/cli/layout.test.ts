import { rm } from 'node:fs/promises';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { call, freshFolder, REFUSAL, written } from './call';

interface Layout {
  readonly direction: number;
  readonly sheets: readonly {
    readonly id: string;
    readonly band: string;
    readonly course: number;
    readonly corners: readonly (readonly [number, number])[];
    readonly width: number;
    readonly length: number;
  }[];
  readonly sideLaps: readonly { readonly between: readonly string[]; readonly over: string }[];
  readonly endLaps: readonly {
    readonly from: readonly [number, number];
    readonly overlap: number;
    readonly length: number;
    readonly welds?: number;
  }[];
  readonly weld: { readonly endLap: number };
  readonly rolls: { readonly count: number };
  readonly area: { readonly roof: number };
  readonly findings: readonly { readonly rule: string; readonly severity: string }[];
}

const rectangle = (width: number, depth: number): number[][] => [
  [0, 0],
  [width, 0],
  [width, depth],
  [0, depth],
];

const plain = {
  outline: rectangle(30_000, 12_000),
  sheet: { width: 3000, length: 30_000 },
  sideLap: 120,
  endLap: 80,
  endLapStagger: 300,
  minPiece: 1500,
  direction: 0,
};

let folder = '';
beforeAll(async () => {
  folder = await freshFolder();
});
afterAll(() => rm(folder, { recursive: true, force: true }));

const lay = async (roof: unknown) => call(['layout', await written(folder, 'roof.json', roof)]);
const laid = async (roof: unknown): Promise<Layout> => JSON.parse((await lay(roof)).out) as Layout;

describe('layout', () => {
  // 12 000 needs 1 + ⌈(12 000 − 3000) / 2880⌉ = 5 courses; 4 laps × 30 m = 120 m; each course is one roll.
  test('30 m × 12 m: 5 courses, 120 m of side lap, no end lap, 5 rolls', async () => {
    const result = await laid(plain);
    expect(result.weld).toEqual({ sideLap: 120, endLap: 0, target: 0, slit: 0, total: 120 });
    expect([result.sheets.length, result.endLaps.length, result.rolls.count]).toEqual([5, 0, 5]);
    expect(result.area.roof).toBe(360);
  });

  // Runs of 30.2 m need one joint each: 30 200 + 80 = 28 780 + 1500; laps count over the roof only, 30 m each, and
  // the end laps 12 m less the side laps they share: see the hand-worked case beside the layout's own tests.
  test('the same with 100 mm all round: 5 end laps, 28.78 m + 1.50 m, 6 rolls', async () => {
    const result = await laid({ ...plain, edgeAllowance: 100 });
    expect([result.endLaps.length, result.rolls.count]).toEqual([5, 6]);
    expect(new Set(result.sheets.map(({ length }) => length))).toEqual(new Set([28_780, 1500]));
  });

  // 10 courses of 2100 with laps of 120 cover 2100 + 9 × 1980 = 19 920 mm of 20 000.
  test('20 m × 30 m in 2.10 m sheets along the short side: 16 courses; along the long side 11 where 10 fall 80 mm short', async () => {
    const roof = {
      ...plain,
      outline: rectangle(30_000, 20_000),
      sheet: { width: 2100, length: 20_000 },
      endLap: 100,
    };
    const courses = (await laid(roof)).sheets.map(({ id }) => id.split('.')[0]);
    expect(new Set(courses).size).toBe(11);
  });

  test('reads standard input, and gives the same bytes twice', async () => {
    const text = JSON.stringify(plain);
    const [first, second] = [await call(['layout', '-'], text), await call(['layout', '-'], text)];
    expect(first.status).toBe(0);
    expect(first.error).toBe('');
    expect(second.out).toBe(first.out);
  });

  test('no sheet crosses a tie-in, and rows lie along the edge that asks for them', async () => {
    const { sheets, findings } = await laid({
      ...plain,
      direction: 0,
      lines: [{ kind: 'tie-in', from: [10_000, 0], to: [10_000, 12_000] }],
      edges: [{ edge: 0, perimeterSheets: 2, perimeterWidth: 1500 }],
    });
    expect(findings.map(({ rule }) => rule)).toEqual([]);
    expect(new Set(sheets.map(({ band }) => band))).toEqual(new Set(['F', 'F2', 'E0', 'E0b']));
    for (const { id, corners } of sheets) {
      const xs = corners.map(([x]) => x);
      expect(Math.max(...xs) <= 10_000.5 || Math.min(...xs) >= 9999.5, id).toBe(true);
    }
    const rows = sheets.filter(({ band }) => band === 'E0');
    expect(rows.map(({ course, width }) => [course, width])).toEqual([
      [1, 1500],
      [2, 1500],
    ]);
  });

  test('flutes, strips, a drain and a least width are obeyed', async () => {
    const result = await laid({
      ...plain,
      direction: 'auto',
      flutes: 0,
      endJoint: 'strip',
      stripWidth: 150,
      sheet: { width: 3000, length: 10_000 },
      minWidth: 1000,
      drains: [{ at: [2940, 6000] }],
    });
    expect(result.direction).toBe(90);
    expect(result.endLaps.every((lap) => lap.overlap === 0 && lap.welds === 2)).toBe(true);
    const across = result.endLaps.reduce((sum, lap) => sum + lap.length, 0);
    expect(result.weld.endLap).toBeCloseTo(2 * across, 9);
    expect(result.findings.filter(({ severity }) => severity === 'error')).toEqual([]);
  });

  test('an end lap that a person puts down stays, or it is said that it cannot', async () => {
    const given = { ...plain, direction: 0, pins: { endLaps: [[12_000, 1500]] } };
    const kept = await laid(given);
    expect(kept.endLaps.map(({ from }) => from[0])).toContain(12_000);
    expect(kept.findings).toEqual([]);
    const lost = await laid({ ...given, pins: { endLaps: [[500, 1500]] } });
    expect(lost.findings.map(({ rule }) => rule)).toEqual(['pin-not-kept']);
  });

  test('the order of the courses is the one asked for, and laps that then face the water are told', async () => {
    const given = { ...plain, direction: 0, downhill: 270 };
    const overs = ({ sideLaps }: Layout) =>
      sideLaps.map(({ over, between: [low] }) => (over === low ? 'lower' : 'upper'));
    const asTheWaterAsks = await laid(given);
    expect(new Set(overs(asTheWaterAsks))).toEqual(new Set(['upper']));
    const up = await laid({ ...given, pins: { order: 'up' } });
    expect(up.sideLaps).toEqual(asTheWaterAsks.sideLaps);
    const down = await laid({ ...given, pins: { order: 'down' } });
    expect(new Set(overs(down))).toEqual(new Set(['lower']));
    expect(new Set(down.findings.map(({ rule }) => rule))).toEqual(new Set(['lap-faces-water']));
  });

  test.each<[string, unknown, RegExp]>([
    ['an edge that is not there', { ...plain, edges: [{ edge: 9, clear: 300 }] }, /Edge 9/],
    ['a unit without a place', { ...plain, units: [{ blocks: 'tall' }] }, /units/],
    ['strips without a width', { ...plain, endJoint: 'strip' }, /stripWidth/],
    [
      'rows wider than any roll',
      { ...plain, edges: [{ edge: 0, perimeterSheets: 1, perimeterWidth: 4000 }] },
      /edge 0/,
    ],
    [
      'an outline that crosses itself',
      {
        ...plain,
        outline: [
          [0, 0],
          [9000, 9000],
          [9000, 0],
          [0, 9000],
        ],
      },
      /cross/i,
    ],
    [
      'an outline of two corners',
      {
        ...plain,
        outline: [
          [0, 0],
          [9000, 0],
        ],
      },
      /outline/,
    ],
    [
      'an outline without area',
      {
        ...plain,
        outline: [
          [0, 0],
          [9000, 0],
          [18_000, 0],
        ],
      },
      /roof\.json/,
    ],
    [
      'an opening outside',
      {
        ...plain,
        openings: [
          [
            [40_000, 0],
            [41_000, 0],
            [41_000, 900],
          ],
        ],
      },
      /opening 0/,
    ],
    ['a lap wider than the sheet', { ...plain, sideLap: 3000 }, /sideLap/],
    ['a roll shorter than the shortest piece', { ...plain, minPiece: 40_000 }, /minPiece/],
    ['a lap of nothing', { ...plain, sideLap: 0 }, /sideLap/],
    ['a width below zero', { ...plain, sheet: { width: -3, length: 9 } }, /sheet\.width/],
    ['text for a number', { ...plain, endLap: '80' }, /endLap/],
    ['a field that is missing', { ...plain, endLap: undefined }, /endLap/],
    ['a field that nobody knows', { ...plain, sidelap: 120 }, /sidelap/],
    ['a direction of 180', { ...plain, direction: 180 }, /direction/],
    [
      'a run longer than a roll without joints',
      { ...plain, outline: rectangle(31_000, 9000), joints: 'forbidden' },
      /roll/,
    ],
    [
      'a corner at infinity',
      {
        ...plain,
        outline: [
          [0, 0],
          [1e300, 0],
          [0, 9],
        ],
      },
      /outline\[1\]\[0\]/,
    ],
    ['a list', [], /roof\.json/],
    ['no JSON', '{"outline": [', /not JSON/],
    ['no text', new Uint8Array([0xff, 0xfe, 0x00]), /UTF-8/],
  ])('refuses %s', async (_what, roof, speaksOf) => {
    const { status, out, error } = await lay(roof);
    expect(error).toMatch(REFUSAL);
    expect(error).toMatch(speaksOf);
    expect([status, out]).toEqual([3, '']);
  });
});

describe('check', () => {
  test('holds nothing against what layout made', async () => {
    const layout = await laid({ ...plain, edgeAllowance: 100 });
    const { status, out } = await call(
      ['check', '-'],
      JSON.stringify({ roof: { ...plain, edgeAllowance: 100 }, layout }),
    );
    expect(JSON.parse(out)).toEqual({ findings: [] });
    expect(status).toBe(0);
  });

  test('finds a planted fault, and says so by its status', async () => {
    const layout = await laid(plain);
    const sheets = layout.sheets.slice(0, -1);
    const { status, out } = await call(
      ['check', '-'],
      JSON.stringify({ roof: plain, layout: { ...layout, sheets } }),
    );
    const { findings } = JSON.parse(out) as { findings: readonly { severity: string }[] };
    expect(findings.some(({ severity }) => severity === 'error')).toBe(true);
    expect(status).toBe(4);
  });

  test('refuses what is neither a job nor a layout', async () => {
    const { status, error } = await call(['check', '-'], '{"roof": 1}');
    expect([status, REFUSAL.test(error)]).toEqual([3, true]);
  });
});
