import { PDFDocument } from '@cantoo/pdf-lib';
import { describe, expect, it } from 'vitest';
import { readLinework } from '../../../core/plan/linework';
import { openPdf, readPage } from '../../../shared/readers/pdf';

async function locked(): Promise<Uint8Array> {
  const pdf = await PDFDocument.create();
  pdf.addPage([400, 300]).drawLine({ start: { x: 10, y: 20 }, end: { x: 310, y: 20 }, thickness: 1 });
  pdf.encrypt({ userPassword: 'gannet', ownerPassword: 'cormorant' });
  return pdf.save();
}

describe('a PDF locked with a password', () => {
  it('asks for it, says when it is wrong, and reads like any other when it is right', async () => {
    const bytes = await locked();
    expect(await openPdf(bytes)).toMatchObject({
      ok: false,
      failure: { code: 'not-allowed', what: 'it is locked with a password' },
    });
    expect(await openPdf(bytes, { password: 'puffin' })).toMatchObject({
      ok: false,
      failure: { code: 'not-allowed', what: 'the password does not open it' },
    });
    const opened = await openPdf(bytes, { password: 'gannet' });
    if (!opened.ok) throw new Error(opened.failure.what);
    const page = await readPage(opened.value, 1);
    await opened.value.close();
    if (!page.ok) throw new Error(page.failure.what);
    expect([...readLinework(page.value).segments]).toEqual([10, 20, 310, 20]);
  });
});
