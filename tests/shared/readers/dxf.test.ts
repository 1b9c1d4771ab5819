import { describe, expect, it } from 'vitest';
import { signedArea } from '../../../core/geometry/ring';
import { readLinework } from '../../../core/plan/linework';
import { buildPageIndex } from '../../../core/plan/pageIndex';
import { findScale } from '../../../core/plan/scale';
import { buildRegionIndex, traceRegion } from '../../../core/plan/traceRegion';
import { mmPerPoint } from '../../../core/units/scales';
import { readDxf } from '../../../shared/readers/dxf';
import { looksLikeDxf } from '../../../shared/readers/looksLikeDxf';

type Group = readonly [code: number, value: string | number];

const entity = (type: string, ...groups: readonly Group[]): Group[] => [[0, type], [8, 'ROOF'], ...groups];

/** A drawing of groups, in the order that the format asks for. */
function dxf(
  entities: readonly Group[][],
  {
    unit = 4,
    blocks = [] as readonly Group[][],
    layers = [] as readonly Group[][],
  }: { unit?: number | null; blocks?: readonly Group[][]; layers?: readonly Group[][] } = {},
): Uint8Array {
  const groups: Group[] = [
    [0, 'SECTION'],
    [2, 'HEADER'],
    ...(unit === null
      ? []
      : ([
          [9, '$INSUNITS'],
          [70, unit],
        ] as Group[])),
    [0, 'ENDSEC'],
    [0, 'SECTION'],
    [2, 'TABLES'],
    [0, 'TABLE'],
    [2, 'LAYER'],
    [70, layers.length],
    ...layers.flat(),
    [0, 'ENDTAB'],
    [0, 'ENDSEC'],
    [0, 'SECTION'],
    [2, 'BLOCKS'],
    ...blocks.flat(),
    [0, 'ENDSEC'],
    [0, 'SECTION'],
    [2, 'ENTITIES'],
    ...entities.flat(),
    [0, 'ENDSEC'],
    [0, 'EOF'],
  ];
  return new TextEncoder().encode(groups.map(([code, value]) => `${code}\n${value}\n`).join(''));
}

const polyline = (
  points: readonly (readonly [x: number, y: number, bulge?: number])[],
  closed = true,
): Group[] =>
  entity(
    'LWPOLYLINE',
    [90, points.length],
    [70, closed ? 1 : 0],
    ...points.flatMap(([x, y, bulge]): Group[] => [
      [10, x],
      [20, y],
      ...(bulge === undefined ? [] : ([[42, bulge]] as Group[])),
    ]),
  );

/** 30 × 12 m, far from the origin. */
const ROOF = polyline([
  [500_000, 200_000],
  [530_000, 200_000],
  [530_000, 212_000],
  [500_000, 212_000],
]);

function read(bytes: Uint8Array) {
  expect(looksLikeDxf(bytes)).toBe(true);
  const content = readDxf(bytes, 'plan.dxf');
  if (!content.ok) throw new Error(content.failure.what);
  return { content: content.value, linework: readLinework(content.value) };
}

function areaAt(bytes: Uint8Array, share: readonly [number, number]) {
  const { linework } = read(bytes);
  const at = [share[0] * linework.width, share[1] * linework.height] as const;
  const reading = traceRegion(buildRegionIndex(buildPageIndex(linework)), at);
  if ('refusal' in reading) throw new Error(reading.refusal);
  const ratio = linework.fullSize?.ratio ?? 0;
  const square = (mmPerPoint(ratio) / 1000) ** 2;
  return {
    ratio,
    outline: signedArea(reading.region.outline) * square,
    openings: reading.region.openings.map((ring) => -signedArea(ring) * square),
  };
}

describe('a DXF drawing', () => {
  it('is laid out at the usual scale at which it fits, and says so', () => {
    const { linework } = read(dxf([ROOF]));
    expect(linework.fullSize).toEqual({
      ratio: 50,
      text: 'drawn full size in millimetres; laid out at 1:50',
    });
    expect(findScale(linework).candidates).toMatchObject([{ ratio: 50, from: 'note' }]);
    expect(areaAt(dxf([ROOF]), [0.5, 0.5])).toMatchObject({ ratio: 50, outline: expect.closeTo(360, 6) });
  });

  it('takes the unit from the header, and says where it names none', () => {
    const feet = polyline([
      [0, 0],
      [100, 0],
      [100, 40],
      [0, 40],
    ]);
    expect(areaAt(dxf([feet], { unit: 2 }), [0.5, 0.5]).outline).toBeCloseTo(4000 * 0.3048 ** 2, 6);
    expect(read(dxf([ROOF], { unit: null })).linework.fullSize?.text).toMatch(
      /millimetres, which is assumed/,
    );
  });

  it('has bulges as arcs: a square with a half circle on one side', () => {
    // 10 × 10 m and a half circle of 5 m: 100 + 12.5 π, its chords within 1/20 mm on paper.
    const bowed = polyline([
      [0, 0],
      [10_000, 0, 1],
      [10_000, 10_000],
      [0, 10_000],
    ]);
    const { outline } = areaAt(dxf([bowed]), [0.3, 0.5]);
    expect(Math.abs(outline / (100 + 12.5 * Math.PI) - 1)).toBeLessThan(0.002);
  });

  it('unfolds inserts, turned, scaled, in rows: each an opening', () => {
    const block: Group[] = [
      ...([
        [0, 'BLOCK'],
        [8, '0'],
        [2, 'LIGHT'],
        [70, 0],
        [10, 0],
        [20, 0],
      ] as Group[]),
      ...polyline([
        [0, 0],
        [1000, 0],
        [1000, 2000],
        [0, 2000],
      ]),
      ...([
        [0, 'ENDBLK'],
        [8, '0'],
      ] as Group[]),
    ];
    const at = (x: number, y: number, ...more: Group[]): Group[] =>
      entity('INSERT', [2, 'LIGHT'], [10, x], [20, y], ...more);
    const bytes = dxf(
      [
        ROOF,
        at(505_000, 203_000),
        at(512_000, 203_000, [41, 2], [42, 1], [50, 90]),
        at(516_000, 207_000, [70, 3], [44, 3000]),
      ],
      { blocks: [block] },
    );
    const { openings } = areaAt(bytes, [0.06, 0.9]);
    expect(openings.map((one) => Math.round(one * 100) / 100).sort()).toEqual([2, 2, 2, 2, 4]);
  });

  it('has circles, arcs, lines and texts, with size and direction', () => {
    const { content, linework } = read(
      dxf([
        ROOF,
        entity('CIRCLE', [10, 505_000], [20, 205_000], [40, 500]),
        entity('ARC', [10, 515_000], [20, 205_000], [40, 1000], [50, 0], [51, 90]),
        entity('LINE', [10, 500_000], [20, 206_000], [11, 530_000], [21, 206_000]),
        entity('TEXT', [10, 510_000], [20, 208_000], [40, 250], [50, 90], [1, 'FALL 1:80 %%d']),
        entity(
          'MTEXT',
          [10, 520_000],
          [20, 208_000],
          [40, 250],
          [71, 1],
          [1, '{\\fArial|b0;MAIN ROOF}\\PLevel +7.850'],
        ),
      ]),
    );
    expect(content.paths.count).toBe(4);
    expect(linework.curves).toBe(10);
    expect(linework.notes.map(({ text, angle }) => [text, Math.round(angle)])).toEqual([
      ['FALL 1:80 °', 90],
      ['MAIN ROOF', 0],
      ['Level +7.850', 0],
    ]);
    // 250 mm at 1:50 are 5 mm.
    expect(linework.notes[0]?.height).toBeCloseTo((5 / 25.4) * 72, 6);
  });

  it('leaves out layers that are off, and names them', () => {
    const off: Group[] = [
      [0, 'LAYER'],
      [2, 'FURNITURE'],
      [70, 0],
      [62, -7],
      [6, 'CONTINUOUS'],
    ];
    const desk: Group[] = [
      [0, 'LINE'],
      [8, 'FURNITURE'],
      [10, 500_000],
      [20, 200_000],
      [11, 530_000],
      [21, 212_000],
    ];
    const { content } = read(dxf([ROOF, desk], { layers: [off] }));
    expect([content.paths.count, content.hiddenLayers]).toEqual([1, ['FURNITURE']]);
  });

  it.each([
    [
      'cut short',
      new TextEncoder().encode('0\nSECTION\n2\nENTITIES\n0\nLINE\n8'),
      /cannot be read|without a drawing|is empty/,
    ],
    ['empty', dxf([]), /model space is empty/],
    ['binary', new TextEncoder().encode('AutoCAD Binary DXF\r\n\u001a\0'), /binary form/],
  ])('%s is refused in words', (_what, bytes, why) => {
    const content = readDxf(bytes, 'plan.dxf');
    expect(content.ok ? '' : content.failure.what).toMatch(why);
  });

  it('that inserts itself ends', () => {
    const block: Group[] = [
      ...([
        [0, 'BLOCK'],
        [8, '0'],
        [2, 'SELF'],
        [70, 0],
        [10, 0],
        [20, 0],
      ] as Group[]),
      ...entity('INSERT', [2, 'SELF'], [10, 0], [20, 0]),
      ...entity('LINE', [10, 0], [20, 0], [11, 100], [21, 0]),
      ...([
        [0, 'ENDBLK'],
        [8, '0'],
      ] as Group[]),
    ];
    const { content } = read(dxf([entity('INSERT', [2, 'SELF'], [10, 0], [20, 0])], { blocks: [block] }));
    expect(content.paths.count).toBeLessThan(40);
  });
});
