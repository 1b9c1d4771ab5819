import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readLinework } from '../../../core/plan/linework';
import { findScale } from '../../../core/plan/scale';
import { buildPageIndex } from '../../../core/plan/pageIndex';
import { snapPoint } from '../../../core/plan/snap';
import type { Linework } from '../../../core/plan/types';
import { openPdf, readPage } from '../../../shared/readers/pdf';

const demo = (name: string) =>
  new Uint8Array(readFileSync(new URL(`../../../demo-data/${name}`, import.meta.url)));

async function lineworkOf(name: string): Promise<Linework> {
  const opened = await openPdf(demo(name));
  if (!opened.ok) throw new Error(opened.failure.what);
  const page = await readPage(opened.value, 1);
  await opened.value.close();
  if (!page.ok) throw new Error(page.failure.what);
  return readLinework(page.value);
}

const refusal = async (bytes: Uint8Array) => {
  const opened = await openPdf(bytes, { name: 'plan.pdf' });
  return opened.ok ? null : opened.failure;
};

describe('reading the demo sheets', () => {
  it('reads size, lines, notes and scale of the A1 sheet', async () => {
    const linework = await lineworkOf('school-roof-A.pdf');
    expect(linework.width).toBeCloseTo((841 * 72) / 25.4, 6);
    expect(linework.height).toBeCloseTo((594 * 72) / 25.4, 6);
    expect(linework.raster).toBe(false);
    expect(linework.layers).toContain('Dimensions');
    expect(linework.notes.map((note) => note.text)).toContain('MAIN ROOF');
    expect(findScale(linework).candidates[0]?.ratio).toBe(100);
    expect(linework.precision).toBeLessThan(0.001);
    // The roof's south-west corner stands 70 and 76 mm from the sheet's own.
    const corner = [(70 * 72) / 25.4, (76 * 72) / 25.4] as const;
    const snap = snapPoint(buildPageIndex(linework), {
      pointer: [corner[0] + 1, corner[1] + 1.2],
      radius: 3,
      placed: [],
      corners: [],
      ortho: 'free',
      last: null,
    });
    expect(snap?.kind).toBe('line end');
    expect(snap?.at[0]).toBeCloseTo(corner[0], 2);
    expect(snap?.at[1]).toBeCloseTo(corner[1], 2);
  });

  it('a sheet stored turned, in a wider media box, gives the same linework', async () => {
    const upright = await lineworkOf('school-roof-A.pdf');
    const turned = await lineworkOf('school-roof-A-turned.pdf');
    expect(turned.rotation).toBe(90);
    expect([turned.width, turned.height]).toEqual([upright.width, upright.height]);
    expect(turned.segments.length).toBe(upright.segments.length);
    let worst = 0;
    turned.segments.forEach((value, k) => {
      worst = Math.max(worst, Math.abs(value - (upright.segments[k] ?? NaN)));
    });
    expect(worst).toBeLessThan(0.001);
    expect(turned.notes.map((note) => [note.text, Math.round(note.angle)])).toEqual(
      upright.notes.map((note) => [note.text, Math.round(note.angle)]),
    );
  });

  it('knows a scan', async () => {
    const linework = await lineworkOf('school-roof-A-scan.pdf');
    expect(linework).toMatchObject({ raster: true, curves: 0 });
    expect(findScale(linework).candidates).toEqual([]);
  });

  // Every dimension string is drawn to scale; the one in the section that is not to scale is the odd one out.
  it.each([
    ['school-roof-A.pdf', 100, 26],
    ['school-roof-B.pdf', 100, 26],
    ['school-roof-A-turned.pdf', 100, 26],
    ['school-roof-A-wrong-note.pdf', 100, 26],
    ['office-roof.pdf', 96, 19],
  ])('%s: the true scale comes first, proved by all dimensions but one', async (name, ratio, count) => {
    const reading = findScale(await lineworkOf(name));
    expect(reading.candidates[0]).toMatchObject({ ratio, from: 'dimensions' });
    expect(reading.candidates.find(({ from }) => from === 'bar')?.ratio).toBe(ratio);
    expect(reading.dimensions).toBe(count);
    expect(reading.candidates[0]?.evidence).toHaveLength(count - 1);
    expect(reading.candidates[0]?.agreement).toBeCloseTo((count - 1) / count, 9);
    expect(reading.against).toHaveLength(1);
  });

  it('warns that the wrong note is wrong, and where it stands', async () => {
    const { warnings } = findScale(await lineworkOf('school-roof-A-wrong-note.pdf'));
    const wrong = warnings.filter(({ kind }) => kind === 'note-disagrees');
    expect(wrong.map(({ at }) => at !== null)).toEqual([true]);
    expect(wrong[0]?.message).toMatch(/says 1 : 50, but 25 of 26 dimensions measure 1 : 100/);
  });

  it('refuses a page that is not there and says which are', async () => {
    const opened = await openPdf(demo('office-roof.pdf'));
    if (!opened.ok) throw new Error(opened.failure.what);
    const page = await readPage(opened.value, 2);
    expect(page).toMatchObject({ ok: false, failure: { what: 'there is no page 2: it has one page' } });
    await opened.value.close();
  });
});

describe('refusing what is no plan', () => {
  const text = (words: string) => new TextEncoder().encode(words);
  it('an empty file', async () =>
    expect(await refusal(new Uint8Array())).toMatchObject({ what: 'it is empty' }));
  it('a text file named .pdf', async () =>
    expect(await refusal(text('Dear Sir, here is the plan.'))).toMatchObject({
      code: 'not-readable',
      where: 'plan.pdf',
      what: 'it is not a PDF',
    }));
  it('a header and nothing else', async () =>
    expect(await refusal(text('%PDF-1.7\nnothing'))).toMatchObject({ code: 'damaged' }));
  it('the first half of a sheet', async () => {
    const whole = demo('school-roof-A.pdf');
    const opened = await openPdf(whole.slice(0, whole.length / 2));
    const page = opened.ok ? await readPage(opened.value, 1) : opened;
    expect(page.ok).toBe(false);
  });
});
