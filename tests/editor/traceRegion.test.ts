import { describe, expect, it } from 'vitest';
import { buildPageIndex } from '../../core/plan/pageIndex';
import { jobOnBlankPage, startDriver } from './driver';

type Place = readonly [number, number];

/** Each line a path of its own, on the driver's page of 1000 × 800 points. */
function drawn(...polylines: readonly (readonly Place[])[]) {
  const segments = polylines.flatMap((points, path) =>
    points.slice(1).map((to, k) => ({ path, line: [...(points[k] ?? to), ...to] })),
  );
  return buildPageIndex({
    width: 1000,
    height: 800,
    rotation: 0,
    segments: Float64Array.from(segments.flatMap(({ line }) => line)),
    widths: new Float32Array(segments.length).fill(0.5),
    path: Uint32Array.from(segments, ({ path }) => path),
    layer: new Uint16Array(segments.length),
    marks: new Uint8Array(segments.length),
    layers: [''],
    curves: 0,
    notes: [],
    raster: false,
    precision: 0.0001,
  });
}

const box = (x: number, y: number, w: number, h: number): Place[] => [
  [x, y],
  [x + w, y],
  [x + w, y + h],
  [x, y + h],
  [x, y],
];

describe('taking a roof from the drawing', () => {
  it('is one click, a look, and Enter: the roof with its openings', () => {
    const driver = startDriver(jobOnBlankPage(), drawn(box(100, 100, 300, 120), box(200, 140, 40, 30)));
    driver.choose('traceRegion');
    expect(driver.path()).toBe('traceRegion.idle');
    driver.click([120, 200]);
    expect(driver.path()).toBe('traceRegion.proposed');
    // 30 × 12 m; nothing is in the job yet.
    expect(driver.hint()).toMatch(/360\.0 m².*4 corners, 1 opening/);
    expect(driver.job().roofs).toEqual({});
    driver.press('Enter');
    expect(driver.path()).toBe('select.idle');
    const [roof] = Object.values(driver.job().roofs);
    expect(roof?.outline.map((id) => driver.job().edges[id]?.at)).toEqual(
      box(100, 100, 300, 120).slice(0, 4),
    );
    expect(Object.values(driver.job().openings)).toHaveLength(1);
    expect(driver.said()?.text).toMatch(/assumed a parapet, and its opening a curb/);
    driver.editor.undo();
    expect([driver.job().roofs, driver.job().openings]).toEqual([{}, {}]);
  });

  it('shows a bridged gap; a typed length widens what is bridged', () => {
    const open: Place[] = [
      [100, 200],
      [100, 100],
      [400, 100],
      [400, 220],
      [100, 220],
    ];
    const driver = startDriver(jobOnBlankPage(), drawn(open, box(600, 100, 50, 50)));
    driver.choose('traceRegion');
    driver.click([200, 150]);
    expect(driver.path()).toBe('traceRegion.idle');
    // The gap is 20 points, 2 m on the roof, and a fiftieth is added.
    expect(driver.said()).toMatchObject({
      wrong: true,
      text: expect.stringMatching(/allow wider gaps.*closes with gaps of 2.040 mm: type that/),
    });
    driver.type('2040');
    expect(driver.path()).toBe('traceRegion.proposed');
    expect(driver.marks().filter((mark) => mark.kind === 'snap')).toMatchObject([{ at: [100, 210] }]);
    driver.press('Escape');
    driver.click([620, 120]);
    // 2.5 m on the roof are 25 points.
    driver.type('2.5 m');
    driver.click([200, 150]);
    expect(driver.marks().filter((mark) => mark.kind === 'snap')).toMatchObject([{ at: [100, 210] }]);
    driver.press('Escape');
    expect([driver.path(), driver.job().roofs]).toEqual(['traceRegion.idle', {}]);
  });

  it('says through which openings between walls a shape runs, and which gap closes them', () => {
    const rooms = [box(100, 100, 300, 200), box(245, 100, 10, 80), box(245, 210, 10, 90)];
    const driver = startDriver(jobOnBlankPage(), drawn(...rooms));
    driver.choose('traceRegion');
    driver.click([150, 200]);
    // The doorway is 30 points, 3 m on the roof.
    expect(driver.hint()).toMatch(/through 1 opening between walls, marked too: a gap of 3.060 mm closes it/);
    expect(driver.marks().filter((mark) => mark.kind === 'snap')).toHaveLength(1);
    driver.type('3060');
    expect(driver.hint()).toMatch(/290\.0 m².*1 gap bridged/);
  });

  it('with Shift takes the outer boundary', () => {
    const ridge: Place[] = [
      [100, 160],
      [400, 160],
    ];
    const driver = startDriver(jobOnBlankPage(), drawn(box(100, 100, 300, 120), ridge));
    driver.choose('traceRegion');
    driver.click([200, 130]);
    expect(driver.hint()).toContain('180.0 m²');
    driver.click([200, 130], 'shift');
    expect(driver.hint()).toContain('360.0 m²');
  });

  it('inside a roof that is there takes an opening', () => {
    const driver = startDriver(jobOnBlankPage(), drawn(box(100, 100, 300, 120), box(200, 140, 40, 30)));
    driver.choose('traceRoof');
    for (const corner of box(100, 100, 300, 120).slice(0, 4)) driver.click(corner);
    driver.press('Enter');
    driver.choose('traceRegion');
    driver.click([220, 150]);
    driver.press('Enter');
    expect(Object.values(driver.job().openings)).toHaveLength(1);
    expect(Object.values(driver.job().roofs)).toHaveLength(1);
  });

  it('says why not: no scale, no lines', () => {
    const unscaled = startDriver(jobOnBlankPage('unscaled'), drawn(box(100, 100, 300, 120)));
    unscaled.choose('traceRegion');
    unscaled.click([200, 150]);
    expect(unscaled.said()?.text).toMatch(/no scale yet/);
    const blank = startDriver();
    blank.choose('traceRegion');
    blank.click([200, 150]);
    expect(blank.said()?.text).toMatch(/no lines to trace/);
  });
});

describe('what can be done with a proposal', () => {
  // Two roofs of 300 × 120 and 100 × 120 points with one line between them; the scale is 1 : 283.
  const two = () => drawn(box(100, 100, 300, 120), box(400, 100, 100, 120));

  it('a neighbour is added by a click, the line between them dropped, and Backspace takes it away again', () => {
    const driver = startDriver(jobOnBlankPage(), two());
    driver.choose('traceRegion');
    driver.click([120, 200]);
    driver.option('add');
    expect(driver.hint()).toMatch(/Click in the shape beside it/);
    driver.click([450, 150]);
    expect(driver.hint()).toMatch(/480\.0 m².*4 corners/);
    driver.press('Backspace');
    expect(driver.hint()).toMatch(/360\.0 m²/);
    driver.click([450, 150]);
    driver.press('Enter');
    const [roof] = Object.values(driver.job().roofs);
    expect(roof?.outline.map((id) => driver.job().edges[id]?.at)).toEqual(
      box(100, 100, 400, 120).slice(0, 4),
    );
    driver.editor.undo();
    expect(driver.job().roofs).toEqual({});
  });

  it('what does not touch is not added, and says so', () => {
    const driver = startDriver(jobOnBlankPage(), drawn(box(100, 100, 300, 120), box(500, 100, 100, 120)));
    driver.choose('traceRegion');
    driver.click([120, 200]);
    driver.option('add');
    driver.click([550, 150]);
    expect(driver.said()?.text).toMatch(/Nothing was added: the two shapes share no line/);
    expect(driver.hint()).toMatch(/360\.0 m²/);
  });

  it('is drawn in to the inner face of a parapet by its typed thickness', () => {
    const driver = startDriver(jobOnBlankPage(), two());
    driver.choose('traceRegion');
    driver.click([120, 200]);
    driver.option('inner');
    expect(driver.hint()).toMatch(/parapet’s thickness/);
    driver.type('500');
    // 29 × 11 m.
    expect(driver.hint()).toMatch(/319\.0 m²/);
    driver.press('Backspace');
    expect(driver.hint()).toMatch(/360\.0 m²/);
    driver.type('9 m');
    expect(driver.said()?.text).toMatch(/too short for a parapet so thick/);
  });

  it('a line’s layer is left out, and the shape traced without it', () => {
    const lines = drawn(box(100, 100, 300, 120), [
      [250, 100],
      [250, 220],
    ]);
    const layered = {
      ...lines,
      linework: {
        ...lines.linework,
        layers: ['', 'Partitions'],
        layer: Uint16Array.from(lines.linework.path, (path) => path),
      },
    };
    const driver = startDriver(jobOnBlankPage(), layered);
    driver.choose('traceRegion');
    driver.click([120, 200]);
    expect(driver.hint()).toMatch(/180\.0 m²/);
    driver.option('leaveOut');
    driver.click([250, 160]);
    expect(driver.said()?.text).toMatch(/Left out: layer “Partitions”/);
    expect(driver.hint()).toMatch(/360\.0 m²/);
  });

  it('a closed path is taken as it is drawn', () => {
    const driver = startDriver(jobOnBlankPage(), drawn(box(100, 100, 300, 120), box(200, 140, 40, 30)));
    driver.choose('traceRegion');
    driver.option('path');
    driver.click([220, 150]);
    expect(driver.hint()).toMatch(/12\.0 m².*4 corners, no openings/);
    driver.press('Escape');
    driver.option('path');
    driver.click([600, 600]);
    expect(driver.said()?.text).toMatch(/no closed path of the drawing/);
  });
});
