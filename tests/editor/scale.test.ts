import { describe, expect, it } from 'vitest';
import { jobOnBlankPage, startDriver } from './driver';

describe('setting the scale by two points and a length', () => {
  it('walks first, second, typing, and sets millimetres per point', () => {
    const driver = startDriver(jobOnBlankPage('unscaled'));
    driver.choose('setScale');
    expect(driver.path()).toBe('setScale.first');
    driver.click([100, 100]);
    expect(driver.path()).toBe('setScale.second');
    driver.click([400, 100]);
    expect(driver.path()).toBe('setScale.typing');
    driver.type('10.5 m');
    expect(driver.path()).toBe('select.idle');
    expect(driver.job().pages.p1?.scale).toEqual({
      mmPerPoint: 35,
      from: { by: 'length', a: [100, 100], b: [400, 100], length: 10_500 },
    });
  });

  it('refuses zero and nonsense, and keeps the two points', () => {
    const driver = startDriver(jobOnBlankPage('unscaled'));
    driver.choose('setScale');
    driver.click([100, 100]);
    driver.click([400, 100]);
    for (const text of ['0', '-3 m', 'long']) {
      driver.type(text);
      expect(driver.said()?.wrong).toBe(true);
      expect(driver.path()).toBe('setScale.typing');
    }
    expect(driver.job().pages.p1?.scale).toBeNull();
    driver.press('Escape');
    expect(driver.path()).toBe('setScale.second');
    driver.press('Escape');
    expect(driver.path()).toBe('setScale.first');
    driver.press('Escape');
    expect(driver.path()).toBe('select.idle');
  });

  it('says how far a second length is off, in millimetres and per cent', () => {
    const driver = startDriver();
    driver.choose('checkLength');
    driver.click([100, 100]);
    driver.click([100, 400]);
    driver.type('29.7 m');
    // 300 points × 100 mm = 30 000 mm; 300 mm too long; 300 ÷ 29 700 = 1.01 %.
    expect(driver.said()?.text.replace(/\u202f/g, ' ')).toBe(
      'It measures 30 000 mm: 300 mm too long, 1.01 % off.',
    );
    expect(driver.job().pages.p1?.checks).toEqual([{ a: [100, 100], b: [100, 400], length: 29_700 }]);
  });
});
