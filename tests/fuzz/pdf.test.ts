import { readFileSync } from 'node:fs';
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readLinework } from '../../core/plan/linework';
import { openPdf, readPage } from '../../shared/readers/pdf';

const sheet = new Uint8Array(readFileSync(new URL('../../demo-data/office-roof.pdf', import.meta.url)));

/** What a torn or scribbled-over sheet comes to: linework of finite numbers, or a refusal in words. */
async function read(bytes: Uint8Array): Promise<void> {
  const opened = await openPdf(bytes);
  if (!opened.ok) {
    expect(opened.failure.todo).not.toBe('');
    return;
  }
  const page = await readPage(opened.value, 1);
  await opened.value.close();
  if (!page.ok) {
    expect(page.failure.what).not.toBe('');
    return;
  }
  const linework = readLinework(page.value);
  expect(linework.segments.every(Number.isFinite)).toBe(true);
  expect(Number.isFinite(linework.width * linework.height)).toBe(true);
}

describe('odd PDFs neither hang nor lie', () => {
  it('cut short anywhere', async () => {
    await fc.assert(
      fc.asyncProperty(fc.integer({ min: 0, max: sheet.length }), async (end) => read(sheet.slice(0, end))),
      { seed: 71, numRuns: 40 },
    );
  });

  it('with bytes overwritten', async () => {
    const spots = fc.array(
      fc.tuple(fc.integer({ min: 8, max: sheet.length - 1 }), fc.integer({ min: 0, max: 255 })),
      { minLength: 1, maxLength: 12 },
    );
    await fc.assert(
      fc.asyncProperty(spots, async (changes) => {
        const bytes = sheet.slice();
        for (const [at, value] of changes) bytes[at] = value;
        await read(bytes);
      }),
      { seed: 72, numRuns: 40 },
    );
  });
});
