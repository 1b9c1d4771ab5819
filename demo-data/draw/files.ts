// Every file of the demo data, by name.
import { packDemoJob } from './jobs';
import { officeSheet } from './office';
import { writePdfSheet } from './pdfSheet';
import { drawRoofPlan } from './roofPlan';
import { writeScan } from './scan';
import { schoolSheet } from './sheets';

export async function drawDemoFiles(): Promise<ReadonlyMap<string, Uint8Array>> {
  const first = schoolSheet('A');
  const revised = schoolSheet('B');
  const office = officeSheet();
  const drawn = drawRoofPlan(first);
  const wrong = drawRoofPlan(schoolSheet('A', '1:50 @ A1'));
  const schoolPdf = await writePdfSheet(drawn, { title: 'GS-A-120 rev A', date: first.date });
  const officePdf = await writePdfSheet(drawRoofPlan(office), { title: 'A-151', date: office.date });
  return new Map([
    ['school-roof-A.pdf', schoolPdf],
    [
      'school-roof-B.pdf',
      await writePdfSheet(drawRoofPlan(revised), { title: 'GS-A-120 rev B', date: revised.date }),
    ],
    [
      'school-roof-A-turned.pdf',
      await writePdfSheet(drawn, {
        title: 'GS-A-120 rev A, turned',
        date: first.date,
        stored: 'turned by 90',
      }),
    ],
    [
      'school-roof-A-scan.pdf',
      await writeScan(drawn, { title: 'GS-A-120 rev A, scanned', date: first.date }),
    ],
    [
      'school-roof-A-wrong-note.pdf',
      await writePdfSheet(wrong, { title: 'GS-A-120 rev A, wrong scale note', date: first.date }),
    ],
    ['office-roof.pdf', officePdf],
    [
      'school.lapjob',
      packDemoJob({
        sheet: first,
        name: 'Gannet Slip School of Boatbuilding',
        client: 'Gannet Slip Trust (invented)',
        file: 'school-roof-A.pdf',
        pdf: schoolPdf,
      }),
    ],
    [
      'office.lapjob',
      packDemoJob({
        sheet: office,
        name: 'Pilot Row Harbor Office',
        client: 'Pilot Row Port (invented)',
        file: 'office-roof.pdf',
        pdf: officePdf,
      }),
    ],
  ]);
}
