// Plain PDFs of several sheets, each with a box to trace and its number in a title block; locked where a password is
// given.
import { PDFDocument, StandardFonts } from '@cantoo/pdf-lib';

export async function pagesPdf(count: number, password?: string): Promise<Uint8Array> {
  const pdf = await PDFDocument.create();
  const font = await pdf.embedFont(StandardFonts.Helvetica);
  for (let number = 1; number <= count; number++) {
    const page = pdf.addPage([800, 600]);
    page.drawRectangle({ x: 100, y: 150, width: 300, height: 200 + 10 * number, borderWidth: 1 });
    page.drawText('SHEET NO', { x: 700, y: 60, size: 6, font });
    page.drawText(`A-10${number}`, { x: 700, y: 44, size: 12, font });
  }
  if (password !== undefined) pdf.encrypt({ userPassword: password, ownerPassword: `${password}, owner` });
  return pdf.save();
}
