// A region of another scale drawn, taken up again, measured in, and kept from cutting a roof in two.
import { describe, expect, it } from 'vitest';
import { jobOnBlankPage, startDriver, traceRing } from './driver';
import type { Driver } from './driver';

const draw = (driver: Driver, scale: string): void => {
  driver.choose('scaleRegion');
  driver.click([500, 100]);
  driver.click([900, 400]);
  driver.type(scale);
};
const regionsOf = (driver: Driver) => driver.job().pages.p1?.regions ?? [];
const SQUARE = [
  [520, 120],
  [620, 120],
  [620, 220],
  [520, 220],
] as const;

describe('drawing a region', () => {
  it('walks two corners and a typed scale, and is one step of undo', () => {
    const driver = startDriver();
    driver.choose('scaleRegion');
    expect(driver.path()).toBe('scaleRegion.first');
    driver.click([900, 400]);
    expect(driver.path()).toBe('scaleRegion.second');
    driver.click([500, 100]);
    expect(driver.path()).toBe('scaleRegion.typing');
    driver.type('one to twenty');
    expect(driver.said()).toMatchObject({ wrong: true });
    driver.type('1:20');
    expect(driver.path()).toBe('select.idle');
    expect(regionsOf(driver)).toMatchObject([
      {
        id: 's1',
        low: [500, 100],
        high: [900, 400],
        scale: { from: { by: 'ratio', ratio: 20, text: '1:20' } },
      },
    ]);
    driver.editor.undo();
    expect(regionsOf(driver)).toEqual([]);
  });
  it('goes back a step at a time', () => {
    const driver = startDriver();
    driver.choose('scaleRegion');
    driver.click([500, 100]);
    driver.click([900, 400]);
    driver.press('Backspace');
    expect(driver.path()).toBe('scaleRegion.second');
    driver.press('Escape');
    expect(driver.path()).toBe('scaleRegion.first');
    driver.press('Escape');
    expect(driver.path()).toBe('select.idle');
    expect(regionsOf(driver)).toEqual([]);
  });
  it('takes the page’s scale at Enter, to be measured; without one it asks', () => {
    const driver = startDriver();
    driver.choose('scaleRegion');
    driver.click([500, 100]);
    driver.click([900, 400]);
    driver.press('Enter');
    driver.choose('setScale');
    driver.click([520, 120], 'alt');
    driver.click([720, 120], 'alt');
    driver.type('4 m');
    expect(regionsOf(driver)[0]?.scale.mmPerPoint).toBe(20);
    expect(driver.job().pages.p1?.scale?.mmPerPoint).toBe(100);
    const unscaled = startDriver(jobOnBlankPage('unscaled'));
    unscaled.choose('scaleRegion');
    unscaled.click([500, 100]);
    unscaled.click([900, 400]);
    unscaled.press('Enter');
    expect(unscaled.said()).toMatchObject({ wrong: true });
    expect(unscaled.path()).toBe('scaleRegion.typing');
  });
  it('moves a corner that is taken up, and keeps the scale', () => {
    const driver = startDriver();
    draw(driver, '1:20');
    driver.choose('scaleRegion');
    driver.click([903, 402]);
    expect(driver.path()).toBe('scaleRegion.second');
    driver.click([800, 300]);
    expect(regionsOf(driver)).toMatchObject([
      { id: 's1', low: [500, 100], high: [800, 300], scale: { from: { ratio: 20 } } },
    ]);
  });
  it('is refused over another one, and nothing drawn is lost', () => {
    const driver = startDriver();
    draw(driver, '1:20');
    driver.choose('scaleRegion');
    driver.click([400, 50]);
    driver.click([600, 200]);
    driver.type('1:10');
    expect(driver.said()?.text).toMatch(/share ground/);
    expect(driver.path()).toBe('scaleRegion.typing');
    expect(regionsOf(driver)).toHaveLength(1);
  });
});

describe('measuring where several scales hold', () => {
  it('goes by the scale under the hand', () => {
    const driver = startDriver();
    draw(driver, '1:283.4645669');
    driver.choose('setScale');
    driver.click([520, 120], 'alt');
    driver.click([720, 120], 'alt');
    driver.type('4 m');
    driver.choose('measure');
    driver.click([100, 100], 'alt');
    driver.click([200, 100], 'alt');
    expect(driver.said()?.text.replace(/\u202f/g, ' ')).toBe('Measured 10 000 mm.');
    driver.click([600, 300], 'alt');
    driver.click([700, 300], 'alt');
    expect(driver.said()?.text.replace(/\u202f/g, ' ')).toBe('Measured 2 000 mm.');
  });
  it.each(['measure', 'checkLength', 'setScale'] as const)(
    '%s refuses a length that leaves the region',
    (tool) => {
      const driver = startDriver();
      draw(driver, '1:20');
      driver.choose(tool);
      driver.click([600, 300], 'alt');
      driver.click([200, 300], 'alt');
      expect(driver.said()).toMatchObject({ wrong: true });
      expect(driver.said()?.text).toMatch(/one side of its border/);
    },
  );
  it('types a side by the scale of the region', () => {
    const driver = startDriver();
    draw(driver, '1:20');
    const mmPerPoint = regionsOf(driver)[0]?.scale.mmPerPoint ?? NaN;
    driver.choose('traceRoof');
    driver.click([520, 120], 'alt');
    driver.move([600, 120], 'alt');
    driver.type('1 m');
    driver.click([700, 300], 'alt');
    driver.press('Enter');
    const [a, b] = driver.job().roofs.r1?.outline.map((id) => driver.job().edges[id]?.at[0] ?? NaN) ?? [];
    expect((b ?? NaN) - (a ?? NaN)).toBeCloseTo(1000 / mmPerPoint, 9);
  });
});

describe('a roof at the border of a region', () => {
  it('is not closed over it: the corners stay, and can be set right', () => {
    const driver = startDriver();
    draw(driver, '1:20');
    driver.choose('traceRoof');
    for (const at of [
      [400, 150],
      [600, 150],
      [600, 300],
      [400, 300],
    ] as const)
      driver.click(at, 'alt');
    driver.press('Enter');
    expect(driver.said()?.text).toMatch(/“Roof A” lies partly in a region/);
    expect(driver.path()).toBe('traceRoof.placingCorner');
    expect(driver.job().roofs).toEqual({});
  });
  it('is not dragged out of it by a corner', () => {
    const driver = startDriver();
    draw(driver, '1:20');
    traceRing(driver, SQUARE);
    driver.press('Escape');
    driver.down([520, 120]);
    driver.move([480, 120], 'alt');
    expect(driver.said()?.text).toMatch(/partly in a region/);
    driver.up([480, 120]);
    expect(driver.job().edges.e1?.at).toEqual([520, 120]);
  });
  it('stays whole where a region is drawn over half of it', () => {
    const driver = startDriver();
    traceRing(driver, SQUARE);
    driver.choose('scaleRegion');
    driver.click([570, 100]);
    driver.click([900, 400]);
    driver.type('1:20');
    expect(driver.said()?.text).toMatch(/partly in a region/);
    expect(regionsOf(driver)).toEqual([]);
  });
});
