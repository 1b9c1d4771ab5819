import { describe, expect, it } from 'vitest';
import { jobOnBlankPage, L_SHAPE, startDriver, traceRing } from './driver';

const cornersOf = (driver: ReturnType<typeof startDriver>) => {
  const [roof] = Object.values(driver.job().roofs);
  return roof?.outline.map((id) => driver.job().edges[id]?.at);
};

describe('tracing a roof', () => {
  it('closes on the first corner and picks the roof', () => {
    const driver = startDriver();
    driver.choose('traceRoof');
    expect(driver.path()).toBe('traceRoof.idle');
    driver.click([100, 100]);
    expect(driver.path()).toBe('traceRoof.placingCorner');
    for (const corner of L_SHAPE.slice(1)) driver.click(corner, 'alt');
    expect(driver.path()).toBe('traceRoof.placingCorner');
    driver.click([103, 98]);
    expect(driver.path()).toBe('select.idle');
    expect(cornersOf(driver)).toEqual(L_SHAPE);
    expect(driver.editor.state.get().selection).toEqual([{ kind: 'roof', id: 'r1', roof: 'r1' }]);
    expect(driver.editor.state.get().undoLabel).toBe('Trace roof');
  });

  it('shows each side, the area and the way round while it is drawn', () => {
    const driver = startDriver();
    driver.choose('traceRoof');
    driver.click([100, 100]);
    driver.click([400, 100]);
    driver.move([400, 220], 'alt');
    const texts = driver
      .marks()
      .flatMap((mark) => (mark.kind === 'text' ? [mark.text.replace(/\u202f/g, ' ')] : []));
    expect(texts).toEqual(['30 000 mm', '12 000 mm']);
    // A right-angled triangle of 30 m × 12 m: 180 m².
    expect(driver.hint()).toContain('180.0 m²');
  });

  it('takes typed lengths in the pointer’s direction, in millimetres, metres, or feet and inches', () => {
    const driver = startDriver();
    driver.choose('traceRoof');
    driver.click([100, 100]);
    driver.move([250, 100], 'alt');
    driver.type('30000');
    driver.move([400, 150], 'alt');
    driver.type('12 m');
    driver.type('30 m < 180');
    driver.press('Enter');
    expect(cornersOf(driver)?.map((at) => at?.map((n) => Math.round(n * 1e6) / 1e6))).toEqual([
      [100, 100],
      [400, 100],
      [400, 220],
      [100, 220],
    ]);
    const imperial = startDriver();
    imperial.choose('traceRoof');
    imperial.click([0, 0]);
    imperial.move([50, 0], 'alt');
    imperial.type(`98'-5"`);
    const line = imperial.marks().find((mark) => mark.kind === 'line');
    // 98 × 304.8 + 5 × 25.4 = 29 997.4 mm
    expect(line?.kind === 'line' && line.points[1]?.[0]).toBeCloseTo(299.974, 6);
  });

  it('says what is wrong with a typed length and keeps the corners', () => {
    const driver = startDriver();
    driver.choose('traceRoof');
    driver.click([100, 100]);
    driver.move([200, 100], 'alt');
    driver.type('twelve');
    expect(driver.said()?.wrong).toBe(true);
    expect(driver.said()?.text).toContain('Write it as');
    expect(driver.path()).toBe('traceRoof.placingCorner');
  });

  it('keeps square with Shift', () => {
    const driver = startDriver();
    driver.choose('traceRoof');
    driver.click([100, 100]);
    driver.click([300, 112], 'shift');
    driver.click([310, 260], 'shift');
    const line = driver.marks().find((mark) => mark.kind === 'line');
    expect(line?.kind === 'line' && line.points.slice(0, 3)).toEqual([
      [100, 100],
      [300, 100],
      [300, 260],
    ]);
  });

  it('steps back with Escape: corner by corner, then out of the tool, then nothing', () => {
    const driver = startDriver();
    const before = driver.job();
    driver.choose('traceRoof');
    driver.click([100, 100]);
    driver.click([200, 100]);
    driver.press('Escape');
    expect(driver.path()).toBe('traceRoof.placingCorner');
    driver.press('Escape');
    expect(driver.path()).toBe('traceRoof.idle');
    driver.press('Escape');
    expect(driver.path()).toBe('select.idle');
    driver.press('Escape');
    expect(driver.path()).toBe('select.idle');
    expect(driver.job()).toBe(before);
    expect(driver.editor.state.get().undoLabel).toBeNull();
  });

  it('refuses a crossing outline and says which sides cross', () => {
    const driver = startDriver();
    driver.choose('traceRoof');
    for (const at of [
      [100, 100],
      [300, 300],
      [300, 100],
      [100, 300],
    ] as const)
      driver.click(at, 'alt');
    driver.press('Enter');
    expect(driver.path()).toBe('traceRoof.placingCorner');
    expect(driver.said()).toEqual({ text: expect.stringContaining('Side 1 crosses side 3'), wrong: true });
    expect(driver.job().roofs).toEqual({});
  });

  it('needs a scale first', () => {
    const driver = startDriver(jobOnBlankPage('unscaled'));
    driver.choose('traceRoof');
    driver.click([100, 100]);
    expect(driver.path()).toBe('traceRoof.idle');
    expect(driver.said()?.text).toContain('no scale');
  });

  it('gives a second roof the next letter and fresh ids', () => {
    const driver = startDriver();
    traceRing(driver, L_SHAPE);
    traceRing(driver, [
      [500, 100],
      [600, 100],
      [600, 200],
    ]);
    expect(Object.values(driver.job().roofs).map((roof) => [roof.id, roof.letter])).toEqual([
      ['r1', 'A'],
      ['r2', 'B'],
    ]);
    expect(Object.keys(driver.job().edges)).toHaveLength(9);
  });
});

describe('a rectangle by three points', () => {
  it('is two ends of a side and a point on the opposite one, wherever that lies', () => {
    const driver = startDriver();
    driver.choose('traceRoof');
    driver.option('rectangle');
    driver.click([100, 100], 'alt');
    driver.click([400, 100], 'alt');
    driver.click([700, 220], 'alt');
    const [roof] = Object.values(driver.job().roofs);
    expect(roof?.outline.map((id) => driver.job().edges[id]?.at)).toEqual([
      [100, 100],
      [400, 100],
      [400, 220],
      [100, 220],
    ]);
    driver.editor.undo();
    expect(driver.job().roofs).toEqual({});
  });

  it('takes typed lengths, and lies counter-clockwise on either side', () => {
    const driver = startDriver();
    driver.choose('traceRoof');
    driver.option('rectangle');
    driver.click([100, 300], 'alt');
    driver.move([200, 300], 'alt');
    driver.type('30 m');
    driver.move([200, 200], 'alt');
    driver.type('12 m');
    const [roof] = Object.values(driver.job().roofs);
    const corners = (roof?.outline ?? []).map((id) => driver.job().edges[id]?.at);
    expect(corners).toHaveLength(4);
    expect(new Set(corners.map((at) => at?.map(Math.round).join()))).toEqual(
      new Set(['100,300', '400,300', '400,180', '100,180']),
    );
  });
});

describe('an arc by three points', () => {
  it('is one step, to and back, and says how close its sides are', () => {
    const driver = startDriver();
    driver.choose('traceRoof');
    driver.click([100, 100], 'alt');
    driver.click([400, 100], 'alt');
    driver.option('arc');
    driver.click([550, 250], 'alt');
    driver.click([400, 400], 'alt');
    expect(driver.said()?.text).toMatch(/The arc stands as \d+ straight sides, none further than 0\.05 mm/);
    driver.press('Backspace');
    expect(driver.hint()).toMatch(/Click the next corner/);
    driver.option('arc');
    driver.click([550, 250], 'alt');
    driver.click([400, 400], 'alt');
    driver.click([100, 400], 'alt');
    driver.press('Enter');
    const [roof] = Object.values(driver.job().roofs);
    expect(roof?.outline.length).toBeGreaterThan(12);
  });
});
