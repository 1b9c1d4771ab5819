import { describe, expect, it } from 'vitest';
import { readDimensionText } from '../../../core/plan/dimensionText';

describe('the text of a dimension', () => {
  const feet: readonly (readonly [text: string, mm: number])[] = [
    [`12'-6 1/2"`, 3822.7],
    [`12' - 6½"`, 3822.7],
    [`12'-6-1/2"`, 3822.7],
    [`12’-6”`, 3810],
    [`12'`, 3657.6],
    [`12'-6" V.I.F.`, 3810],
    [`VIF 12'-6"`, 3810],
    [`HOLD 12'-6" +/-`, 3810],
    [`(±) 12'-6"`, 3810],
    [`12'-6" F.O.S.`, 3810],
    [`CLR. 12'-6"`, 3810],
    [`12'-6" [3810]`, 3810],
    [`5 EQ @ 6'-0" = 30'-0"`, 9144],
    ['2.71 m REF', 2710],
    ['1200mm c/c', 1200],
    ['~12.5m', 12_500],
  ];
  it.each(feet)('%s is %d mm', (text, mm) => {
    expect(readDimensionText(text)).toEqual({ kind: 'stated', mm: expect.closeTo(mm, 6) as number });
  });
  const bare: readonly (readonly [text: string, kind: 'whole' | 'decimal', value: number])[] = [
    ['12 500', 'whole', 12_500],
    ['12,500', 'whole', 12_500],
    ['(12500)', 'whole', 12_500],
    [`3810 [12'-6"]`, 'whole', 3810],
    ['3810 (VIF) ', 'whole', 3810],
    ['6000 = 5 x 1200', 'whole', 6000],
    ['5 @ 1200 = 6000', 'whole', 6000],
    ['12,50', 'decimal', 12.5],
    ['ca. 12.50', 'decimal', 12.5],
    [`12'500`, 'whole', 12_500],
    // Raised figures are millimetres: 3.625 m, and 24.5 cm.
    ['3,62⁵', 'decimal', 3.625],
    ['24⁵', 'whole', 24.5],
  ];
  it.each(bare)('%s is the bare %s %d', (text, kind, value) => {
    expect(readDimensionText(text)).toEqual({ kind, value });
  });
  it.each(['R 2500', 'Ø100', 'h=2500', '+12.50', '12.50 m²', '1:80', 'EQ.', 'TYP', '9', `A 12'-6"`, ''])(
    '%s is none',
    (text) => {
      expect(readDimensionText(text)).toBeNull();
    },
  );
});
