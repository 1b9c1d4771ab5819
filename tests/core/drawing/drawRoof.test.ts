import { describe, expect, it } from 'vitest';
import { drawRoof } from '../../../core/drawing/drawRoof';
import type { DrawableRoof } from '../../../core/drawing/drawRoof';
import type { Shape } from '../../../core/drawing/types';
import type { Roof } from '../../../core/roof/types';
import type { Sheet } from '../../../core/sheets/types';
import { layoutSpec } from '../../support/roofs';

const edge = (id: string, from: [number, number], to: [number, number], ring = 0): Roof['edges'][number] => ({
  id,
  from,
  to,
  ring,
  kind: ring === 0 ? 'parapet' : 'curb',
  upstand: 300,
  allowance: 0,
  clear: 0,
  perimeter: null,
  number: 0,
  length: Math.hypot(to[0] - from[0], to[1] - from[1]),
});

// 12 × 5 m with a skylight in the middle of course 1's first sheet, laid along x with 3 m sheets and 120 mm laps.
const roof: Roof = {
  id: 'r',
  name: 'Shed',
  outline: [
    [0, 0],
    [12000, 0],
    [12000, 5000],
    [0, 5000],
  ],
  openings: [
    {
      id: 'o',
      name: 'Skylight',
      kind: 'skylight',
      blocks: null,
      ring: [
        [5000, 1000],
        [5000, 2000],
        [7000, 2000],
        [7000, 1000],
      ],
      area: 2e6,
    },
  ],
  edges: [
    edge('south', [0, 0], [12000, 0]),
    edge('east', [12000, 0], [12000, 5000]),
    edge('north', [12000, 5000], [0, 5000]),
    edge('west', [0, 5000], [0, 0]),
    edge('o1', [5000, 1000], [5000, 2000], 1),
    edge('o2', [5000, 2000], [7000, 2000], 1),
    edge('o3', [7000, 2000], [7000, 1000], 1),
    edge('o4', [7000, 1000], [5000, 1000], 1),
  ],
  fittings: [{ id: 'f', kind: 'drain', at: [2000, 2500], size: 160 }],
  fall: { downhill: 270, ratio: 1 / 80 },
  lines: [],
  facets: [],
  deck: null,
  area: 58e6,
  perimeter: 34000,
};

const sheet = (course: number, low: number): Sheet => ({
  id: `C0${course}.1`,
  band: 'F',
  course,
  run: 1,
  part: 1,
  corners: [
    [0, low],
    [12000, low],
    [12000, low + 3000],
    [0, low + 3000],
  ],
  along: [0, 12000],
  across: [low, low + 3000],
  width: 3000,
  length: 12000,
  longEdges: ['factory', 'factory'],
  selvedge: null,
  cut: { roll: `R${course}`, start: 0, lane: 0 },
});

const drawable: DrawableRoof = {
  id: 'r',
  page: 'p',
  mmPerPoint: 35,
  roof,
  layout: {
    roof: 'r',
    spec: layoutSpec(),
    rules: { direction: 0, firstCourse: 0, sideLap: 120, downhill: 270 },
    frame: { direction: 0, cos: 1, sin: 0 },
    bands: [],
    courses: [],
    runs: [],
    sheets: [sheet(1, 0), sheet(2, 2880)],
    cutList: { rolls: [], lowerBound: 1, areaBound: 1 },
    ways: [],
    notes: [],
  },
  seams: {
    sideLaps: [
      {
        kind: 'side',
        id: 'C01.1|C02.1',
        between: ['C01.1', 'C02.1'],
        over: 'C02.1',
        overlap: 120,
        from: [0, 2940],
        to: [12000, 2940],
        length: 12000,
        course: 1,
      },
    ],
    endLaps: [],
    tJoints: [],
    terminations: [],
    targets: [],
    slits: [],
    cutEdge: 0,
  },
  fastening: {
    rows: [
      {
        id: 'row',
        along: ['C01.1|C02.1'],
        where: 'lap',
        zone: 'field',
        from: [0, 2920],
        to: [12000, 2920],
        first: 150,
        step: 300,
        count: 40,
      },
    ],
    count: 40,
  },
};

const layer = (shapes: ReturnType<typeof drawRoof>, name: string): readonly Shape[] =>
  shapes.layers.find((each) => each.name === name)?.shapes ?? [];

describe('drawRoof', () => {
  const drawing = drawRoof(drawable, {
    runs: [
      {
        id: 'w1',
        order: 1,
        roof: 'r',
        kind: 'side-lap',
        method: 'machine',
        seam: 'C01.1|C02.1',
        seams: ['C01.1|C02.1'],
        course: 1,
        after: 'C02.1',
        machine: 0,
        byHand: 0,
        setDowns: 1,
        tJoints: 0,
        from: [0, 2940],
        to: [12000, 2940],
        length: 12000,
        speed: 3,
        weldMinutes: 4,
        handMinutes: 0,
        setupMinutes: 2,
        walkMinutes: 0,
        turnMinutes: 0,
        slowMinutes: 0,
        nozzleMinutes: 0,
      },
    ],
    machineMinutes: 6,
    handMinutes: 0,
  });

  it('draws each sheet as film, so that the lap is two layers', () => {
    expect(layer(drawing, 'film').map((shape) => shape.id)).toEqual(['C01.1', 'C02.1']);
  });

  it("draws the upper sheet's edge at a lap, half the overlap from its centre line", () => {
    // The sheet above lies over: its low edge is at 2 880, the centre line at 2 940.
    expect(layer(drawing, 'laps')).toEqual([
      expect.objectContaining({ from: [0, 2880], to: [12000, 2880], id: 'C01.1|C02.1' }),
    ]);
  });

  it('draws welds by method, fasteners packed, edges and fittings by kind', () => {
    expect(layer(drawing, 'welds')).toEqual([
      expect.objectContaining({ style: 'weld-machine', id: 'C01.1|C02.1', detail: 'side-lap' }),
    ]);
    expect(layer(drawing, 'fasteners')).toEqual([
      expect.objectContaining({ count: 40, first: 150, step: 300 }),
    ]);
    expect(layer(drawing, 'roof')).toHaveLength(1 + 8 + 1);
    expect(layer(drawing, 'fittings')).toEqual([expect.objectContaining({ detail: 'drain', size: 160 })]);
  });

  it('writes a sheet name on membrane, not in the skylight, and the fall where there is room', () => {
    const labels = layer(drawing, 'labels');
    expect(labels[0]).toMatchObject({ text: 'C01.1', at: [3000, 1500], angle: 0 });
    expect(labels[2]).toMatchObject({ text: 'falls 1 : 80', style: 'fall' });
    const arrow = layer(drawing, 'roof').find((shape) => shape.style === 'fall');
    if (arrow?.kind !== 'line') throw new Error('the fall is drawn as a line');
    expect(arrow.to[1]).toBeLessThan(arrow.from[1]);
    expect(arrow.to[0]).toBeCloseTo(arrow.from[0], 9);
  });

  it('draws a roof that has no layout yet, and nothing for one that could not be built', () => {
    const bare = { ...drawable, layout: null, seams: null, fastening: null };
    expect(layer(drawRoof(bare, null), 'roof')).toHaveLength(10);
    expect(drawRoof({ ...bare, roof: null }, null).layers.flatMap((each) => each.shapes)).toEqual([]);
  });

  it('shows what the rules of the trade act on, each under the id of what it shows', () => {
    if (!drawable.roof || !drawable.seams) throw new Error('the roof of this test is laid');
    const roof = {
      ...drawable.roof,
      lines: [{ id: 'l1', kind: 'tie-in' as const, from: [0, 3000] as const, to: [9000, 3000] as const }],
      facets: [
        {
          id: 'w1',
          ring: [
            [0, 0],
            [6000, 0],
            [6000, 6000],
            [0, 6000],
          ] as const,
          downhill: 90,
          ratio: 0.02,
        },
      ],
      deck: { kind: 'steel' as const, flutes: 0, pitch: null, flange: null, rib: null },
      fittings: [{ id: 'f1', kind: 'drain' as const, at: [3000, 3000] as const, size: 160, clear: 300 }],
    };
    const seams = {
      ...drawable.seams,
      targets: [{ id: 'TS1', drain: 'f1', at: [3000, 3000] as const, side: 760, weld: 3040 }],
      slits: [
        { id: 'SL1', sheet: 'C01.1', unit: 'o1', from: [0, 0] as const, to: [0, 500] as const, length: 500 },
      ],
    };
    const shown = drawRoof({ ...drawable, roof, seams }, null);
    const trade = layer(shown, 'trade');
    expect(trade.map(({ style, id }) => `${style} ${id}`)).toEqual([
      'facet w1',
      'fall w1',
      'fall w1',
      'clear f1',
      'roof-line l1',
      'line-name l1',
      ...Array.from({ length: 4 }, (_, k) => (k < 3 ? 'flutes' : 'fall') + ` ${roof.id}.flutes`),
      'target TS1',
      'slit SL1',
    ]);
    expect(trade[1]).toMatchObject({
      from: [3000, expect.any(Number) as number],
      to: [expect.closeTo(3000, 6) as number, expect.any(Number) as number],
    });
    expect(trade[3]).toMatchObject({ size: 760 });
    // With falls of its parts the roof's one fall is drawn no more.
    expect(layer(shown, 'roof').some(({ style }) => style === 'fall')).toBe(false);
  });
});
