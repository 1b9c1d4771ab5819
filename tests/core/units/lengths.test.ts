import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatArea, formatLength, formatMetres, parseLength } from '../../../core/units/lengths';
import type { Display } from '../../../core/units/lengths';
import { formatMoney, formatQuantity } from '../../../core/units/figures';

const mm = (text: string, display: Display) => {
  const parsed = parseLength(text, display);
  if ('fault' in parsed) throw new Error(parsed.fault);
  return parsed.mm;
};
const fault = (text: string, display: Display) => {
  const parsed = parseLength(text, display);
  return 'fault' in parsed ? parsed.fault : `read as ${parsed.mm} mm`;
};

describe('parseLength', () => {
  it.each([
    ['3810', 3810],
    ['3 810', 3810],
    ['3.81 m', 3810],
    ['3,81 m', 3810],
    ['381 cm', 3810],
    ['3810mm', 3810],
    ['0', 0],
    // 12 ft × 304.8 + 6.5 in × 25.4 = 3657.6 + 165.1
    [`12'-6 1/2"`, 3822.7],
    ['12′-6½″', 3822.7],
    ['12 ft 6.5 in', 3822.7],
    ["12'", 3657.6],
    ["12'6", 3810],
    ['6 1/2"', 165.1],
  ])('reads %s in metric display', (text, expected) => expect(mm(text, 'metric')).toBe(expected));

  it.each([
    ['12', 3657.6],
    ['12.5', 3810],
    ['12-6 1/2', 3822.7],
    ['12-6', 3810],
    ['12\' 6.5"', 3822.7],
    ['12ft 6in', 3810],
    ['6 1/2"', 165.1],
    ['3.81 m', 3810],
  ])('reads %s in imperial display', (text, expected) => expect(mm(text, 'imperial')).toBe(expected));

  it('refuses what can be read two ways, and says both readings', () => {
    expect(fault('3,810', 'metric')).toBe('3,810 can be read two ways. Write 3810 or 3.810.');
    expect(fault('12 1/2', 'imperial')).toBe(`12 1/2 can be feet or inches. Write 12 1/2" or 12 1/2'.`);
  });

  it.each(['', 'abc', '-3', `5' 14"`, `12.5' 3"`, '3/0"', "'", 'm', '1e9', '99999999999', '3 m 4', '12-6'])(
    'refuses “%s” and says what to write',
    (text) => expect(fault(text, 'metric')).toMatch(/Write|write/),
  );
});

describe('writing lengths', () => {
  it('writes feet and inches to the sixteenth', () => {
    expect(formatLength(3822.7, 'imperial')).toBe(`12'-6 1/2"`);
    expect(formatLength(304.7, 'imperial')).toBe(`1'-0"`);
    expect(formatLength(12.7, 'imperial')).toBe('1/2"');
    expect(formatLength(0, 'imperial')).toBe('0"');
  });
  it('sets thousands apart with a narrow space', () => {
    expect(formatArea(3168e6, 'metric')).toBe('3\u202f168 m²');
    expect(formatLength(78_000, 'metric')).toBe('78\u202f000 mm');
    expect(formatMetres(999.96, 'metric')).toBe('1\u202f000 m');
    expect(formatMetres(151.4, 'metric')).toBe('151.4 m');
    expect(formatMoney('148310.40')).toBe('148\u202f310.40');
    expect(formatMoney('-0.05')).toBe('\u22120.05');
  });
  it('names one roll and many', () => {
    expect(formatQuantity(1, 'rolls', 'metric')).toBe('1 roll');
    expect(formatQuantity(41, 'rolls', 'metric')).toBe('41 rolls');
  });
  it('reads back what it wrote', () => {
    for (let sixteenths = 0; sixteenths < 1000; sixteenths += 7) {
      const length = (sixteenths / 16) * 25.4;
      expect(mm(formatLength(length, 'imperial'), 'imperial')).toBeCloseTo(length, 6);
      expect(mm(formatLength(sixteenths, 'metric'), 'metric')).toBe(sixteenths);
    }
  });
});

describe('whatever is typed', () => {
  it('gives a finite length or a fault in words, and never throws', () => {
    const keys = fc.array(fc.constantFrom(...`0123456789.,'"-/ mcftin½′″=`), { maxLength: 14 });
    fc.assert(
      fc.property(keys, fc.constantFrom('metric' as const, 'imperial' as const), (typed, display) => {
        const parsed = parseLength(typed.join(''), display);
        if ('fault' in parsed) expect(parsed.fault.length).toBeGreaterThan(10);
        else expect(parsed.mm >= 0 && parsed.mm <= 1e8).toBe(true);
      }),
      { seed: 5, numRuns: 20_000 },
    );
  });
});
