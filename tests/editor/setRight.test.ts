// A scan set level and measured both ways: what was drawn on it goes along, and comes back by undo.
import { describe, expect, it } from 'vitest';
import { estimate } from '../../core/job/estimate';
import type { PagePoint } from '../../core/geometry/points';
import { jobOnBlankPage, startDriver, traceRing } from './driver';
import type { Driver } from './driver';

const DEGREES = 1.2;
const [COS, SIN] = [Math.cos((DEGREES * Math.PI) / 180), Math.sin((DEGREES * Math.PI) / 180)];
/** Of a rectangle of 300 × 200 points on a sheet that was scanned askew. */
const askew = (x: number, y: number): PagePoint => [200 + x * COS - y * SIN, 150 + x * SIN + y * COS];
const RING = [askew(0, 0), askew(300, 0), askew(300, 200), askew(0, 200)];

const areaOf = (driver: Driver): number =>
  estimate(driver.job()).quantities.find(({ key }) => key === 'roof.area')?.value ?? NaN;
const cornersOf = (driver: Driver): readonly PagePoint[] =>
  driver.job().roofs.r1?.outline.map((id) => driver.job().edges[id]?.at ?? [NaN, NaN]) ?? [];

function level(driver: Driver): void {
  driver.choose('levelSheet');
  driver.click(askew(0, 0), 'alt');
  driver.click(askew(300, 0), 'alt');
}
function bothWays(driver: Driver, across: string, up: string): void {
  driver.choose('bothWays');
  const [a, b, c] = cornersOf(driver);
  if (!a || !b || !c) throw new Error('no roof');
  driver.click(a, 'alt');
  driver.click(b, 'alt');
  driver.type(across);
  expect(driver.path()).toBe('bothWays.first');
  driver.click(b, 'alt');
  driver.click(c, 'alt');
  driver.type(up);
}

describe('levelling a sheet', () => {
  it('turns it by what the line was off, and the roof with it', () => {
    const driver = startDriver();
    traceRing(driver, RING);
    const before = driver.job();
    level(driver);
    expect(driver.path()).toBe('select.idle');
    expect(driver.said()?.text).toMatch(/turned by 1\.20° with the clock/);
    const page = driver.job().pages.p1;
    expect(page?.correction).toMatchObject({ stretch: 1, width: 1000, height: 800 });
    expect(page?.correction?.degrees).toBeCloseTo(-DEGREES, 9);
    const [a, b, c, d] = cornersOf(driver);
    expect((b?.[1] ?? 0) - (a?.[1] ?? 0)).toBeCloseTo(0, 9);
    expect((b?.[0] ?? 0) - (a?.[0] ?? 0)).toBeCloseTo(300, 9);
    expect((c?.[0] ?? 0) - (b?.[0] ?? 0)).toBeCloseTo(0, 9);
    expect((d?.[1] ?? 0) - (a?.[1] ?? 0)).toBeCloseTo(200, 9);
    expect(areaOf(driver)).toBeCloseTo(30 * 20, 6);
    driver.editor.undo();
    expect(driver.job()).toEqual(before);
  });
  it('goes by the nearer of level and plumb', () => {
    const driver = startDriver();
    driver.choose('levelSheet');
    driver.click(askew(0, 0), 'alt');
    driver.click(askew(0, 200), 'alt');
    expect(driver.job().pages.p1?.correction?.degrees).toBeCloseTo(-DEGREES, 9);
  });
  it('does nothing to a level line, and refuses one too short to tell', () => {
    const driver = startDriver();
    driver.choose('levelSheet');
    driver.click([100, 100], 'alt');
    driver.click([130, 101], 'alt');
    expect(driver.said()).toMatchObject({ wrong: true });
    expect(driver.path()).toBe('levelSheet.second');
    driver.click([400, 100], 'alt');
    expect(driver.said()?.text).toMatch(/level already/);
    expect(driver.job().pages.p1).not.toHaveProperty('correction');
  });
  it('keeps scale lines, checks and falls on what they were drawn on', () => {
    const driver = startDriver();
    traceRing(driver, RING);
    driver.editor.run([
      { kind: 'setRoof', roof: 'r1', fields: { fall: { downhill: 270 + DEGREES, ratio: 0.02 } } },
      { kind: 'addCheck', page: 'p1', check: { a: askew(0, 0), b: askew(300, 0), length: 30_000 } },
      {
        kind: 'placeFitting',
        fitting: { id: 'f1', roof: 'r1', kind: 'drain', at: askew(30, 40), size: 100 },
      },
    ]);
    level(driver);
    const { pages, roofs, fittings } = driver.job();
    expect(roofs.r1?.fall?.downhill).toBeCloseTo(270, 9);
    const [check] = pages.p1?.checks ?? [];
    expect((check?.b[1] ?? 1) - (check?.a[1] ?? 0)).toBeCloseTo(0, 9);
    const [corner] = cornersOf(driver);
    expect((fittings.f1?.at[0] ?? 0) - (corner?.[0] ?? 0)).toBeCloseTo(30, 9);
    expect((fittings.f1?.at[1] ?? 0) - (corner?.[1] ?? 0)).toBeCloseTo(40, 9);
  });
});

describe('what hangs on directions and places', () => {
  const laid = (driver: Driver, laying: object): string | null => {
    traceRing(driver, RING);
    const roof = driver.job().roofs.r1;
    if (!roof) throw new Error('no roof');
    driver.editor.run({ kind: 'setRoof', roof: 'r1', fields: { laying: { ...roof.laying, ...laying } } });
    return driver.editor.run({ kind: 'correctPage', page: 'p1', degrees: -DEGREES, stretch: 1 });
  };
  it('counts courses from the same side where a direction passes 0°', () => {
    const driver = startDriver();
    expect(laid(driver, { direction: 0.5, order: 'up' })).toBeNull();
    const { direction, order } = driver.job().roofs.r1?.laying ?? {};
    expect([direction, order]).toEqual([expect.closeTo(179.3, 9), 'down']);
  });
  it('keeps the order where it does not', () => {
    const driver = startDriver();
    expect(laid(driver, { direction: 90, order: 'up' })).toBeNull();
    expect(driver.job().roofs.r1?.laying).toMatchObject({ direction: expect.closeTo(88.8, 9), order: 'up' });
  });
  it('is not done where a first course set by hand would be counted from the other side', () => {
    const driver = startDriver();
    expect(laid(driver, { direction: 0.5, firstCourse: -300 })).toMatch(/other side.*first course/);
    expect(driver.job().pages.p1).not.toHaveProperty('correction');
  });
});

describe('two known lengths, across and up', () => {
  it('set lengths and areas right both ways, and tell that the sheet was stretched', () => {
    const driver = startDriver(jobOnBlankPage('scaled'));
    traceRing(driver, RING);
    level(driver);
    bothWays(driver, '30 m', '20.4 m');
    expect(driver.path()).toBe('select.idle');
    expect(driver.said()).toMatchObject({ wrong: true });
    expect(driver.said()?.text).toMatch(/2\.00 % more up it than across/);
    const page = driver.job().pages.p1;
    expect(page?.correction?.stretch).toBeCloseTo(1.02, 9);
    expect(page?.scale?.mmPerPoint).toBeCloseTo(100, 9);
    expect(page?.scale?.from).toMatchObject({
      by: 'lengths',
      across: { length: 30_000 },
      up: { length: 20_400 },
    });
    expect(areaOf(driver)).toBeCloseTo(30 * 20.4, 6);
    // One entry of the history for both.
    driver.editor.undo();
    expect(driver.job().pages.p1?.correction?.stretch).toBe(1);
    expect(areaOf(driver)).toBeCloseTo(30 * 20, 6);
  });
  it('are not warned of where paper gives as much', () => {
    const driver = startDriver();
    traceRing(driver, RING);
    level(driver);
    bothWays(driver, '30 m', '20.08 m');
    expect(driver.said()).toMatchObject({ wrong: false });
    expect(areaOf(driver)).toBeCloseTo(30 * 20.08, 6);
  });
  it('are asked for again where they run alike, or would double the sheet', () => {
    const driver = startDriver();
    traceRing(driver, RING);
    driver.choose('bothWays');
    const [a, b, c] = RING;
    if (!a || !b || !c) return;
    for (const length of ['30 m', '30.1 m']) {
      driver.click(a, 'alt');
      driver.click(b, 'alt');
      driver.type(length);
    }
    expect(driver.said()).toMatchObject({ wrong: true });
    expect(driver.path()).toBe('bothWays.first');
    driver.click(b, 'alt');
    driver.click(c, 'alt');
    driver.type('65 m');
    expect(driver.said()?.text).toMatch(/twice as much one way/);
    expect(driver.path()).toBe('bothWays.typing');
    driver.type('20 m');
    expect(driver.job().pages.p1?.scale?.from.by).toBe('lengths');
  });
});
