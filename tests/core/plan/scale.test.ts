import { describe, expect, it } from 'vitest';
import { checkLength, findScale, scaleFromLength } from '../../../core/plan/scale';
import { toPageSpace, toRoofSpace } from '../../../core/plan/toRoof';
import { mmPerPoint } from '../../../core/units/scales';
import { readLinework } from '../../../core/plan/linework';
import type { Note } from '../../../core/plan/types';
import { noteOf, pageOf } from './content';

const read = (...notes: readonly Note[]) => findScale(readLinework({ ...pageOf([]), texts: notes }));
const ratios = (...notes: readonly Note[]) => read(...notes).candidates.map((c) => c.ratio);

describe('scale notes', () => {
  it('are read, and falls left alone', () => {
    expect(ratios(noteOf('SCALE 1:100 @ A1'), noteOf('FALL 1:80'), noteOf('1 : 50', [300, 300]))).toEqual([
      100,
    ]);
  });
  it('are read in feet and inches', () => {
    expect(ratios(noteOf(`SCALE: 1/8" = 1'-0"`), noteOf(`SLOPE 1/4" / FT`, [0, 50]))).toEqual([96]);
    expect(ratios(noteOf('1″ = 20′'))).toEqual([240]);
    expect(ratios(noteOf(`1 1/2" = 1'-0"`))).toEqual([8]);
  });
  it.each([
    // As they are written on sheets; common practice, no source.
    ['SCALE: 1/8 inch = 1 foot', 96],
    ['1/4" : 1\'-0"', 48],
    ['SCALE: 1 IN. = 20 FT.', 240],
    ['SCALE 1:1.000', 1000],
    ['Scale 1:1,250', 1250],
    ['ECH 1/50', 50],
    ['Éch. 1:50', 50],
    ['Esc. 1:75', 75],
    ['M 1∶200', 200],
    ['S C A L E 1 : 2 0 0', 200],
  ])('are read as %s', (text, ratio) => {
    expect(ratios(noteOf(text))[0]).toBeCloseTo(ratio, 9);
  });
  it('that name another sheet beside their own are read by their own', () => {
    const on = (box: readonly [number, number, number, number]) =>
      findScale(readLinework({ ...pageOf([], { box }), texts: [noteOf('Scale: 1:50 (1:100 at A3)')] }));
    expect(on([0, 0, 2383.94, 1683.78]).candidates.map(({ ratio }) => ratio)).toEqual([50]);
    expect(on([0, 0, 1190.55, 841.89]).candidates.map(({ ratio }) => ratio)).toEqual([100]);
  });
  it('are read where the word stands beside a bare ratio', () => {
    expect(ratios(noteOf('Scale', [0, 20], 5), noteOf('1 : 200', [0, 8], 10))).toEqual([200]);
    expect(ratios(noteOf('Scale', [0, 500], 5), noteOf('1 : 200', [0, 8], 10))).toEqual([]);
  });
  it('are read in other languages, and below a drawing’s title', () => {
    expect(ratios(noteOf('Maßstab 1:100'))).toEqual([100]);
    expect(ratios(noteOf('M 1:50'))).toEqual([50]);
    expect(ratios(noteOf('Échelle 1/200'))).toEqual([200]);
    expect(ratios(noteOf('ROOF PLAN 1:100'), noteOf('FALL 1:100', [0, 200]))).toEqual([100]);
    expect(ratios(noteOf('1:100'), noteOf('RAMP PLAN 1:20', [0, 100]))).toEqual([]);
  });
  it('that name a scale for each of two sheets are read by the one that the page is', () => {
    const on = (box: readonly [number, number, number, number]) =>
      findScale(readLinework({ ...pageOf([], { box }), texts: [noteOf('SCALE 1:50 @ A1 / 1:100 @ A3')] }));
    expect(on([0, 0, 1190.55, 841.89]).candidates[0]?.ratio).toBe(100);
    expect(on([0, 0, 2383.94, 1683.78]).candidates[0]?.ratio).toBe(50);
    expect(on([0, 0, 1190.55, 841.89]).warnings.map(({ kind }) => kind)).toEqual(['nothing-to-prove-it']);
  });
  it('come most plainly said first, each stating what one point is', () => {
    const { candidates } = read(noteOf('1:20 @ A1', [90, 0]), noteOf('Scale 1:100', [5, 60]));
    expect(candidates).toEqual([
      {
        ratio: 100,
        from: 'note',
        agreement: 0,
        evidence: [{ text: 'Scale 1:100', at: [5, 60], measured: 1, stated: mmPerPoint(100) }],
      },
      {
        ratio: 20,
        from: 'note',
        agreement: 0,
        evidence: [{ text: '1:20 @ A1', at: [90, 0], measured: 1, stated: mmPerPoint(20) }],
      },
    ]);
  });
  it('that say not to scale, or hold for another sheet, are warned of', () => {
    const nts = read(noteOf('DETAIL 4  N.T.S.', [7, 9]));
    expect(nts.warnings).toMatchObject([{ kind: 'not-to-scale', at: [7, 9] }]);
    // 600 × 400 points is no A1; an A3 page is half of one.
    const half = findScale(
      readLinework({
        ...pageOf([], { box: [0, 0, 1190.55, 841.89] }),
        texts: [noteOf('SCALE 1:100 @ A1')],
      }),
    );
    expect(half.warnings.find(({ kind }) => kind === 'sheet-size')?.message).toMatch(/1 : 200$/);
    // ISO 216: a side of A1 is twice that of A3. What is written comes last, since it does not hold here.
    expect(half.candidates.map(({ ratio, from }) => [ratio, from])).toEqual([
      [200, 'note'],
      [100, 'note'],
    ]);
    expect(half.warnings.some(({ kind }) => kind === 'nothing-to-prove-it')).toBe(true);
  });
});

describe('a page that gives no scale', () => {
  const wall = {
    points: [
      [100, 100],
      [400, 100],
      [400, 300],
    ] as const,
  };
  it.each([
    ['lines, and lettering drawn with lines', pageOf([wall]), /Nothing on this page is text.*two points/],
    [
      'text that is no scale',
      { ...pageOf([wall]), texts: [noteOf('ROOF')] },
      /No scale is written.*two points/,
    ],
    [
      'a picture',
      pageOf([], {
        images: [
          [
            [0, 0],
            [600, 0],
            [600, 400],
            [0, 400],
          ],
        ],
      }),
      /is a picture.*two points/,
    ],
  ])('of %s, says so and what to do', (_what, content, message) => {
    const { candidates, warnings } = findScale(readLinework(content));
    expect(candidates).toEqual([]);
    expect(warnings).toMatchObject([{ kind: 'nothing-to-read', message: expect.stringMatching(message) }]);
  });
});

/** A string of dimensions along x or up y: extension lines, strokes across, the figure above the middle. */
function stringOf(
  stops: readonly number[],
  figure: (length: number) => string,
  { at = 100, upright = false, ends = 'strokes' as 'strokes' | 'arrows' } = {},
) {
  const place = (s: number, t: number): readonly [number, number] => (upright ? [at - t, s] : [s, at + t]);
  const lines: { points: (readonly [number, number])[] }[] = [];
  const texts: Note[] = [];
  stops.forEach((stop, k) => {
    lines.push({ points: [place(stop, -30), place(stop, 5)] });
    if (ends === 'strokes') lines.push({ points: [place(stop - 3, -3), place(stop + 3, 3)] });
    const next = stops[k + 1];
    if (next === undefined) return;
    lines.push({ points: [place(stop, 0), place(next, 0)] });
    if (ends === 'arrows')
      for (const [tip, back] of [
        [stop, 8],
        [next, -8],
      ] as const)
        lines.push({ points: [place(tip + back, 2), place(tip, 0), place(tip + back, -2)] });
    const text = figure(next - stop);
    const width = text.length * 5;
    const from = place((stop + next) / 2 - width / 2, 3);
    texts.push({ text, at: from, height: 10, width, angle: upright ? 90 : 0 });
  });
  return { lines, texts };
}

function readStrings(...strings: readonly ReturnType<typeof stringOf>[]) {
  const texts = strings.flatMap((string) => string.texts);
  return findScale(readLinework({ ...pageOf(strings.flatMap((string) => string.lines)), texts }));
}

/** At 1:100 a point is 35.277… mm. */
const at100 = (length: number): string => String(Math.round(mmPerPoint(100) * length));

describe('dimensions', () => {
  it.each(['strokes', 'arrows'] as const)('with %s prove the scale, both ways up', (ends) => {
    const reading = readStrings(
      stringOf([50, 200, 410], at100, { ends }),
      stringOf([150, 260, 380], at100, { at: 40, upright: true, ends }),
    );
    expect(reading.candidates).toMatchObject([{ ratio: 100, from: 'dimensions', agreement: 1 }]);
    expect(reading.candidates[0]?.evidence).toHaveLength(4);
    expect(reading.candidates[0]?.evidence[0]?.measured).toBeCloseTo(150, 6);
  });
  it('are read where level figures break upright lines', () => {
    const lines: { points: (readonly [number, number])[] }[] = [];
    const texts: Note[] = [];
    // At 1/4" = 1'-0" a foot is 18 points.
    let y = 40;
    for (const feet of [10, 6, 4]) {
      const top = y + 18 * feet;
      const middle = (y + top) / 2;
      lines.push(
        {
          points: [
            [300, y],
            [300, middle - 5],
          ],
        },
        {
          points: [
            [300, middle + 5],
            [300, top],
          ],
        },
      );
      for (const [tip, back] of [
        [y, 5],
        [top, -5],
      ] as const) {
        lines.push({
          points: [
            [298.8, tip + back],
            [300, tip],
            [301.2, tip + back],
          ],
        });
        lines.push({
          points: [
            [270, tip],
            [303, tip],
          ],
        });
      }
      texts.push({ text: `${feet}'-0"`, at: [290, middle - 2], height: 6, width: 20, angle: 0 });
      y = top;
    }
    const reading = findScale(readLinework({ ...pageOf(lines), texts }));
    expect(reading.candidates).toMatchObject([{ ratio: 48, from: 'dimensions', agreement: 1 }]);
    expect(reading.candidates[0]?.evidence).toHaveLength(3);
  });
  it('are read in metres, and in feet and inches', () => {
    const metres = stringOf([50, 200, 410, 560], (n) => `${((mmPerPoint(50) * n) / 1000).toFixed(2)}`);
    expect(readStrings(metres).candidates[0]?.ratio).toBe(50);
    // At 1/4" = 1'-0" a foot is 18 points.
    const feet = stringOf(
      [36, 216, 405, 540],
      (n) => `${Math.floor(n / 18)}'-${Math.round((n % 18) / 1.5)}"`,
    );
    expect(readStrings(feet).candidates[0]).toMatchObject({ ratio: 48, agreement: 1 });
  });
  it('tell a page that was stretched', () => {
    const up = stringOf([100, 205, 310], (n) => at100(n / 1.05), { at: 40, upright: true });
    const { warnings } = readStrings(stringOf([50, 200, 410, 560], at100), up);
    expect(warnings.map(({ kind }) => kind)).toContain('axes-differ');
  });
  it('tell a detail at another scale', () => {
    const detail = stringOf([50, 150, 260, 380], (n) => String(Math.round(mmPerPoint(20) * n)), { at: 300 });
    const reading = readStrings(stringOf([50, 200, 310, 430, 560], at100), detail);
    expect(reading.candidates.map(({ ratio }) => ratio)).toEqual([100, 20]);
    expect(reading.warnings.map(({ kind }) => kind)).toEqual(['several-scales', 'unit-assumed']);
    expect(reading.regions).toMatchObject([{ ratio: 20, from: 'dimensions' }]);
    const [region] = reading.regions;
    expect(region?.evidence.map(({ measured }) => measured)).toEqual(
      [100, 110, 120].map((n) => expect.closeTo(n, 6)),
    );
    // Its part runs from the extension lines at 270 to the strokes at 305, and takes nothing of the string at 100.
    expect(region?.low[0]).toBeLessThan(50);
    expect(region?.low[1]).toBeGreaterThan(240);
    expect(region?.low[1]).toBeLessThan(270);
    expect(region?.high[0]).toBeGreaterThan(380);
    expect(region?.high[1]).toBeGreaterThan(305);
  });
  it('of two details on one sheet are told apart by where they lie, whichever way the sheet is turned', () => {
    const at20 = (n: number): string => String(Math.round(mmPerPoint(20) * n));
    const detail = stringOf([420, 470, 560], at20, { at: 300 });
    const plan = stringOf([50, 150, 210, 330], at100);
    const lines = [...plan.lines, ...detail.lines];
    const texts = [...plan.texts, ...detail.texts];
    for (const rotation of [0, 90, 180, 270] as const) {
      const reading = findScale(readLinework({ ...pageOf(lines, { rotation }), texts }));
      expect(reading.candidates[0]?.ratio).toBe(100);
      expect(reading.regions).toMatchObject([{ ratio: 20 }]);
    }
  });
  it('of a detail do not outvote the plan, though they are more and its note stands below it', () => {
    const at20 = (n: number): string => String(Math.round(mmPerPoint(20) * n));
    const plan = [
      stringOf([50, 250, 380], at100, { at: 60 }),
      stringOf([100, 190, 350], at100, { at: 40, upright: true }),
    ];
    const detail = [
      stringOf([450, 470, 500, 540, 580], at20, { at: 250 }),
      stringOf([290, 320, 360], at20, { at: 430, upright: true }),
    ];
    const strings = [...plan, ...detail];
    const texts = [
      ...strings.flatMap((string) => string.texts),
      noteOf('DETAIL 1 SCALE 1:20', [450, 205], 6),
    ];
    // What the detail shows joins its two strings.
    const shows = {
      points: [
        [430, 290],
        [450, 250],
      ] as const,
    };
    const lines = [...strings.flatMap((string) => string.lines), shows];
    const reading = findScale(readLinework({ ...pageOf(lines), texts }));
    expect(reading.candidates[0]).toMatchObject({ ratio: 100, from: 'dimensions' });
    expect(reading.regions).toMatchObject([{ ratio: 20, from: 'dimensions' }]);
  });
  it('that one part of the sheet contradicts by itself make no region', () => {
    // A typing error on the sheet: 150 points at 1:100 are 5 292 mm.
    const wrong = stringOf([50, 200, 310, 430, 560], (n) => (n === 150 ? '2646' : at100(n)));
    expect(readStrings(wrong).regions).toEqual([]);
  });
});

describe('notes below their drawings', () => {
  const detail = (x: number): { points: (readonly [number, number])[] }[] =>
    Array.from({ length: 14 }, (_, k) => ({
      points: [
        [x + 5 * k, 220],
        [x + 40, 225 + 5 * k],
      ],
    }));
  const plan = stringOf([50, 150, 210, 330], at100);
  const withDetail = (
    note: Note,
    lines: readonly { readonly points: readonly (readonly [number, number])[] }[] = detail(450),
  ) =>
    findScale(
      readLinework({
        ...pageOf([...plan.lines, ...lines]),
        texts: [...plan.texts, noteOf('Scale 1:100', [60, 30]), note],
      }),
    );
  it('give the detail its scale though it has no dimension', () => {
    const reading = withDetail(noteOf('DETAIL 3  SCALE 1:10', [455, 205], 6));
    expect(reading.candidates[0]?.ratio).toBe(100);
    expect(reading.regions).toMatchObject([
      { ratio: 10, from: 'note', evidence: [{ text: 'DETAIL 3  SCALE 1:10' }] },
    ]);
    expect(reading.warnings.map(({ kind }) => kind)).not.toContain('note-disagrees');
    expect(reading.warnings.find(({ kind }) => kind === 'several-scales')?.message).toMatch(
      /1 : 10, by its own note, and not at 1 : 100/,
    );
  });
  it('make no region of a title block, whose lettering stands among few lines', () => {
    const block = [0, 1, 2, 3].map((k) => ({
      points: [
        [450, 200 + 25 * k],
        [590, 200 + 25 * k],
      ] as const,
    }));
    const sides = [450, 590].map((x) => ({
      points: [
        [x, 200],
        [x, 275],
      ] as const,
    }));
    const reading = withDetail(noteOf('SCALE 1:50', [455, 205], 6), [...block, ...sides]);
    expect(reading.regions).toEqual([]);
    expect(reading.warnings.map(({ kind }) => kind)).toContain('note-disagrees');
  });
  it('are no marks, levels, or figures in a table', () => {
    const table = [0, 1, 2].map((k) => ({
      points: [
        [50, 100 - 20 * k],
        [150, 100 - 20 * k],
      ] as const,
    }));
    const rules = [50, 150].map((x) => ({
      points: [
        [x, 20],
        [x, 130],
      ] as const,
    }));
    const texts = ['1200', '+7.850', 'V1'].map((text, k) => ({
      ...noteOf(text, [85, 103 - 20 * k]),
      width: 30,
    }));
    expect(findScale(readLinework({ ...pageOf([...table, ...rules]), texts })).dimensions).toBe(0);
  });
  it('of a drawing scaled as a whole give the reading scaled', () => {
    const string = stringOf([50, 200, 410], at100);
    for (const k of [0.3, 1.7]) {
      const lines = string.lines.map(({ points }) => ({
        points: points.map(([x, y]) => [x * k, y * k] as const),
      }));
      const texts = string.texts.map(({ at, height, width, ...note }) => ({
        ...note,
        at: [at[0] * k, at[1] * k] as const,
        height: height * k,
        width: width * k,
      }));
      const [best] = findScale(readLinework({ ...pageOf(lines), texts })).candidates;
      expect((best?.ratio ?? 0) * k).toBeCloseTo(100, 0);
      expect(best?.agreement).toBe(1);
    }
  });
});

describe('checking and converting', () => {
  it('says how far a scale is off on a known length', () => {
    // 283.465 pt at 1:100 is 10 000 mm; the drawing says 10 100.
    const off = checkLength({ mmPerPoint: mmPerPoint(100), a: [0, 0], b: [283.4645669, 0], length: 10_100 });
    expect(off.measured).toBeCloseTo(10_000, 3);
    expect(off.offBy).toBeCloseTo(-100, 3);
    expect(off.percent).toBeCloseTo(-0.990099, 5);
  });
  it('takes the scale from two points and a length, and gives the length back', () => {
    const scale = scaleFromLength([10, 10], [40, 50], 5000);
    expect(scale).toBe(100);
    expect(scaleFromLength([1, 1], [1, 1], 5000)).toBeNull();
  });
  it('goes to the roof and back within one grid step', () => {
    const ring = [
      [124.882, 399.769],
      [484.287, 399.769],
      [484.287, 195.93],
    ] as const;
    const scale = mmPerPoint(100);
    const back = toPageSpace(toRoofSpace(ring, scale), scale);
    back.forEach((point, k) => {
      expect(Math.abs(point[0] - (ring[k]?.[0] ?? 0)) * scale).toBeLessThanOrEqual(0.1);
      expect(Math.abs(point[1] - (ring[k]?.[1] ?? 0)) * scale).toBeLessThanOrEqual(0.1);
    });
  });
});
