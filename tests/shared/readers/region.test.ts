// The demo sheets against what is printed on them, and every opening against the schedule on the sheet.
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { signedArea } from '../../../core/geometry/ring';
import { readLinework } from '../../../core/plan/linework';
import { buildPageIndex } from '../../../core/plan/pageIndex';
import { buildRegionIndex, traceRegion } from '../../../core/plan/traceRegion';
import { mmPerPoint } from '../../../core/units/scales';
import { openPdf, readPage } from '../../../shared/readers/pdf';

async function indexOf(name: string) {
  const bytes = readFileSync(new URL(`../../../demo-data/${name}`, import.meta.url));
  const opened = await openPdf(new Uint8Array(bytes));
  if (!opened.ok) throw new Error(opened.failure.what);
  const page = await readPage(opened.value, 1);
  await opened.value.close();
  if (!page.ok) throw new Error(page.failure.what);
  return buildRegionIndex(buildPageIndex(readLinework(page.value)));
}

/** Openings in m², the smallest first. */
const SCHOOL_A = [1.08, 4.5, 4.5, 4.5, 6, 10, 96];
const SCHOOL_B = [1.08, 4.5, 4.5, 4.5, 4.5, 6, 10, 96];
// 2'-6" × 3'-0", 4' × 8' twice, 9' × 6' twice.
const OFFICE = [7.5, 32, 32, 54, 54].map((squareFeet) => squareFeet * 0.3048 ** 2);

describe('region on the demo sheets', () => {
  // The school: 60 × 28 + 38 × 18 m, in revision B 60 × 30 + 38 × 16. The canopy: 14 × 6 m. The office: 120' × 52' + 88' × 20'.
  it.each([
    ['school-roof-A.pdf', 100, [600, 500], 2364, SCHOOL_A],
    ['school-roof-A.pdf', 100, [1500, 1100], 84, []],
    ['school-roof-A-turned.pdf', 100, [300, 1400], 2364, SCHOOL_A],
    ['school-roof-A-wrong-note.pdf', 100, [1700, 300], 2364, SCHOOL_A],
    ['school-roof-B.pdf', 100, [1100, 600], 2408, SCHOOL_B],
    ['school-roof-B.pdf', 100, [1500, 1150], 84, []],
    ['office-roof.pdf', 96, [700, 700], 8000 * 0.3048 ** 2, OFFICE],
  ] as const)('%s at 1 : %d, from %j', async (name, ratio, at, area, openings) => {
    const reading = traceRegion(await indexOf(name), at);
    if ('refusal' in reading) throw new Error(reading.refusal);
    const { region } = reading;
    const square = (mmPerPoint(ratio) / 1000) ** 2;
    expect(Math.abs((signedArea(region.outline) * square) / area - 1)).toBeLessThan(0.005);
    const found = region.openings.map((ring) => -signedArea(ring) * square).sort((a, b) => a - b);
    expect(found).toHaveLength(openings.length);
    found.forEach((one, k) => expect(Math.abs(one / (openings[k] ?? 0) - 1)).toBeLessThan(0.005));
    expect(region.closedGaps).toEqual([]);
  });

  it('the outer boundary takes in the parapets and the canopy on the wall', async () => {
    const reading = traceRegion(await indexOf('school-roof-A.pdf'), [600, 500], { mode: 'outer' });
    if ('refusal' in reading) throw new Error(reading.refusal);
    expect(reading.region.outline).toHaveLength(10);
    expect(signedArea(reading.region.outline) * (mmPerPoint(100) / 1000) ** 2).toBeCloseTo(2505.45, 1);
  });
});
