import { describe, expect, it } from 'vitest';
import { convertPeel, judgePeel, PEEL_RESULTS } from '../../../core/welding/peel';
import { stripReasons } from '../../../core/welding/strips';
import { dewPoint } from '../../../core/welding/dewPoint';

const target = { value: 45, unit: 'lbf/in' } as const;
const pounds = (value: number) => ({ value, unit: 'lbf/in' }) as const;

describe('peel', () => {
  it('converts by definition: 1 lbf/in = 4.4482216152605 N ÷ 25.4 mm = 0.1751 N/mm = 8.756 N/50 mm', () => {
    expect(convertPeel(pounds(1), 'N/mm')).toBe(4.4482216152605 / 25.4);
    expect(convertPeel(pounds(1), 'N/mm')).toBeCloseTo(0.1751, 4);
    expect(convertPeel(pounds(1), 'N/50 mm')).toBeCloseTo(8.756, 3);
    expect(convertPeel(pounds(17), 'N/50 mm')).toBeCloseTo(148.9, 1);
    expect(convertPeel({ value: 100, unit: 'N/50 mm' }, 'N/25 mm')).toBeCloseTo(50, 12);
  });
  it.each([
    [60, true],
    [45, true],
    [44.9, false],
  ])('%d lbf/in against a target of 45', (value, passes) => {
    expect(judgePeel('reinforcement bared', pounds(value), target).passes).toBe(passes);
    const metric = { value: convertPeel(pounds(value), 'N/50 mm'), unit: 'N/50 mm' } as const;
    expect(judgePeel('sheet tore beside', metric, target).passes).toBe(passes);
  });
  it('fails a clean peel however high it reads, and a weld that held in part', () => {
    expect(judgePeel('peeled clean', pounds(200), target).passes).toBe(false);
    expect(judgePeel('bared in part', pounds(200), target).passes).toBe(false);
    expect(judgePeel('peeled clean', null, target).follow).toMatch(/another strip/);
  });
  it('needs no reading: most are pulled by hand and looked at', () => {
    expect(PEEL_RESULTS.map((result) => judgePeel(result, null, target).passes)).toEqual([
      true,
      true,
      false,
      false,
    ]);
  });
});

describe('a test strip is due', () => {
  const tested = {
    date: '2026-03-02',
    membrane: 'TPO 1.5',
    machine: 'Machine 1',
    operator: 'AB',
    lead: 'L1',
    ambient: 12,
  };
  it.each([
    [{}, []],
    [{ date: '2026-03-03' }, ['start of the day']],
    [{ membrane: 'Flashing' }, ['change of membrane']],
    [{ machine: 'Machine 2' }, ['change of machine']],
    [{ operator: 'CD' }, ['change of operator']],
    [{ lead: 'L2' }, ['change of lead or supply']],
    [{ ambient: 16.9 }, []],
    [{ ambient: 17 }, ['air 5 °C warmer or colder']],
  ])('%o', (change, reasons) => expect(stripReasons(tested, { ...tested, ...change })).toEqual(reasons));
  it('at the start, where nothing was tested yet', () => {
    expect(stripReasons(null, tested)).toEqual(['start of the day']);
  });
});

describe('dew point', () => {
  // Air of 20 °C at 50 % has its dew point at 9.3 °C (psychrometric tables).
  it('20 °C and 50 %: 9.3 °C; saturated air is at its dew point', () => {
    expect(dewPoint(20, 50)).toBeCloseTo(9.3, 1);
    expect(dewPoint(12, 100)).toBeCloseTo(12, 9);
  });
});
