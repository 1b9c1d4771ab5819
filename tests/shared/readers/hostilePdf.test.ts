import { describe, expect, it } from 'vitest';
import { openPdf, readPage } from '../../../shared/readers/pdf';
import { smallPdf, stream } from './smallPdf';

describe('a page of forms within forms', () => {
  it('is given up before it unfolds, and says why', async () => {
    // Ten times ten, nine deep: a thousand million lines from two kilobytes.
    const form = (k: number) =>
      stream(
        `/Type /XObject /Subtype /Form /BBox [0 0 600 600] /Resources << /XObject << /F ${11 + k} 0 R >> >>`,
        k === 8 ? '0 0 m 9 9 l S' : '/F Do '.repeat(10),
      );
    const opened = await openPdf(
      smallPdf({
        content: '/F Do '.repeat(10),
        resources: '/XObject << /F 10 0 R >>',
        objects: Array.from({ length: 9 }, (_, k) => form(k)),
      }),
    );
    if (!opened.ok) throw new Error(opened.failure.what);
    const page = await readPage(opened.value, 1, { where: 'bomb.pdf' });
    expect(page).toMatchObject({ ok: false, failure: { code: 'too-large', where: 'bomb.pdf, page 1' } });
    void opened.value.close();
  }, 30_000);
});
