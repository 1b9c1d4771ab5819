import { describe, expect, it } from 'vitest';
import { sheetName } from '../../../core/plan/sheetName';
import type { Note } from '../../../core/plan/types';

const sheet = { width: 2384, height: 1684 };
const note = (text: string, x: number, y: number, height = 8, angle = 0): Note => ({
  text,
  at: [x, y],
  height,
  width: text.length * height * 0.5,
  angle,
});

describe('the name of a sheet', () => {
  it('is the number and title under their labels in the title block', () => {
    const notes = [
      note('DRAWING', 2004, 130, 5.7),
      note('Roof plan', 2004, 112, 11.9),
      note('SCALE', 2004, 85, 5.7),
      note('1:100 @ A1', 2004, 70),
      note('SHEET', 2004, 53, 5.7),
      note('GS-A-120', 2004, 36, 14),
      note('REVISION', 2259, 53, 5.7),
      note('A', 2259, 36, 14),
    ];
    expect(sheetName({ ...sheet, notes })).toBe('GS-A-120 Roof plan');
  });

  it('is read beside a label too, and turned with the block', () => {
    expect(sheetName({ ...sheet, notes: [note('Sheet no.:', 2000, 40), note('A-101', 2060, 40)] })).toBe(
      'A-101',
    );
    // Lettering that runs upward: below the label is to its right on the page.
    const turned = [note('SHEET', 2200, 100, 6, 90), note('R-07', 2215, 100, 12, 90)];
    expect(sheetName({ ...sheet, notes: turned })).toBe('R-07');
  });

  it('without labels is the largest that looks like a number in the corner', () => {
    const notes = [note('A-201', 2300, 60, 24), note('D-14', 2100, 200, 9), note('A1', 2200, 30, 30)];
    expect(sheetName({ ...sheet, notes })).toBe('A-201');
  });

  it('is none where the sheet gives none', () => {
    const notes = [note('MAIN ROOF', 600, 800, 20), note('2026-03-16', 2100, 60), note('12 000', 2100, 1200)];
    expect(sheetName({ ...sheet, notes })).toBeNull();
  });
});
