import { describe, expect, it } from 'vitest';
import { readLinework } from '../../../core/plan/linework';
import type { Linework, PageContent } from '../../../core/plan/types';
import { SEGMENT_MARK } from '../../../core/plan/types';
import { openPdf, readPage } from '../../../shared/readers/pdf';
import { smallPdf, stream } from './smallPdf';
import type { SmallPdf } from './smallPdf';

async function contentOf(parts: SmallPdf): Promise<PageContent> {
  const opened = await openPdf(smallPdf(parts));
  if (!opened.ok) throw new Error(opened.failure.what);
  const page = await readPage(opened.value, 1);
  await opened.value.close();
  if (!page.ok) throw new Error(page.failure.what);
  return page.value;
}

const lineworkOf = async (parts: SmallPdf): Promise<Linework> => readLinework(await contentOf(parts));
const rounded = (values: Iterable<number>) => [...values].map((value) => Math.round(value * 1000) / 1000);

describe('reading operators', () => {
  it('applies transforms inside save and restore, to widths too', async () => {
    const linework = await lineworkOf({
      content: 'q 2 0 0 2 10 20 cm 3 w 0 0 m 50 0 l S Q 0 0 m 0 40 l S',
    });
    expect(rounded(linework.segments)).toEqual([10, 20, 110, 20, 0, 0, 0, 40]);
    expect(rounded(linework.widths)).toEqual([6, 1]);
  });

  it('draws a form where it is put, group or not', async () => {
    const form = (group: string) =>
      stream(`/Type /XObject /Subtype /Form /BBox [0 0 9 9] /Matrix [1 0 0 1 5 0] ${group}`, '0 0 m 9 0 l S');
    const linework = await lineworkOf({
      content: 'q 1 0 0 1 100 0 cm /A Do Q q 1 0 0 1 200 0 cm /B Do Q 0 0 m 1 0 l S',
      resources: '/XObject << /A 10 0 R /B 11 0 R >>',
      objects: [form(''), form('/Group << /S /Transparency >>')],
    });
    expect(rounded(linework.segments)).toEqual([105, 0, 114, 0, 205, 0, 214, 0, 0, 0, 1, 0]);
  });

  it('takes crop box, page unit and rotation together', async () => {
    // Crop 200 × 100 at (50, 50), units of two points, turned by 90°: shown 200 × 400 points.
    const linework = await lineworkOf({
      content: '50 50 m 150 50 l S',
      page: '/MediaBox [0 0 600 400] /CropBox [50 50 250 150] /UserUnit 2 /Rotate 90',
    });
    expect([linework.width, linework.height]).toEqual([200, 400]);
    expect(rounded(linework.segments)).toEqual([0, 400, 0, 200]);
  });

  it('marks curves, dashes and fills, and leaves out what is only a clip', async () => {
    const linework = await lineworkOf({
      content: '[4 2] 0 d 0 0 m 9 0 l S [] 0 d 0 0 m 0 50 50 50 50 0 c S 0 0 10 10 re f 0 0 300 300 re W n',
    });
    const marks = [...linework.marks];
    expect(marks[0]).toBe(SEGMENT_MARK.dashed);
    expect(marks.slice(1, -4).every((mark) => mark === SEGMENT_MARK.curve)).toBe(true);
    expect(marks.slice(-4)).toEqual(Array(4).fill(SEGMENT_MARK.fill));
    expect(linework.curves).toBe(1);
  });

  it('leaves out a layer that is switched off, and names it', async () => {
    const content = await contentOf({
      content: '/OC /On BDC 0 0 m 9 0 l S EMC /OC /Off BDC 0 5 m 9 5 l S EMC 0 7 m 9 7 l S',
      resources: '/Properties << /On 10 0 R /Off 11 0 R >>',
      objects: ['<< /Type /OCG /Name (Walls) >>', '<< /Type /OCG /Name (Furniture) >>'],
      catalog: '/OCProperties << /OCGs [10 0 R 11 0 R] /D << /OFF [11 0 R] >> >>',
    });
    expect(content.layers).toEqual(['', 'Walls']);
    expect(content.hiddenLayers).toEqual(['Furniture']);
    const linework = readLinework(content);
    expect(rounded(linework.segments)).toEqual([0, 0, 9, 0, 0, 7, 9, 7]);
    expect([...linework.layer]).toEqual([1, 0]);
  });

  it('says how coarse coordinates far from the origin are', async () => {
    // Between 2^23 and 2^24 neighbouring 32-bit numbers are 1 apart.
    const linework = await lineworkOf({
      content: '9000000 0 m 9000000.4 10 l S',
      page: '/MediaBox [8999900 0 9000500 400]',
    });
    expect(linework.precision).toBe(1);
  });

  it('cuts lines to their clip, which restore takes off again, and leaves out what it hides', async () => {
    const linework = await lineworkOf({
      content: 'q 10 10 100 50 re W n 0 20 m 200 20 l S 0 200 m 50 200 l S Q 0 30 m 200 30 l S',
    });
    const [x1 = NaN, , x2 = NaN] = linework.segments;
    // A line along the clip's edge still shows, so the cut is a twentieth of a point generous.
    expect(x1).toBeCloseTo(10 - 0.05, 6);
    expect(x2).toBeCloseTo(110 + 0.05, 6);
    expect(rounded(linework.segments.slice(4))).toEqual([0, 30, 200, 30]);
  });

  it('keeps what painting needs: inks, dashes, opacity, caps and the even-odd rule', async () => {
    const { paths } = await contentOf({
      content: '/G gs 1 0 0 RG 0 0 1 rg [6 3] 0 d 1 J 0 0 9 9 re B* [] 0 d 0 0 m 9 9 l S',
      resources: '/ExtGState << /G << /ca 0.5 /CA 0.25 >> >>',
    });
    const { look } = paths;
    expect([...paths.ink]).toEqual([0xff0000, 0xff0000]);
    expect([look?.fillInk[0], look?.fillAlpha[0], look?.strokeAlpha[0]]).toEqual([0x0000ff, 128, 64]);
    expect(look?.pen[0]).toBe(1 + 16);
    expect([...(look?.dash ?? [])].map((dash) => look?.dashes[dash])).toEqual([[6, 3], []]);
  });

  it('hands operators on while they are read, and tells the paths before the lettering', async () => {
    const opened = await openPdf(
      smallPdf({
        content: '0 0 m 50 0 l S BT /F1 12 Tf (Roof) Tj ET',
        resources: '/Font << /F1 << /Type /Font /Subtype /Type1 /BaseFont /Helvetica >> >>',
      }),
    );
    if (!opened.ok) throw new Error(opened.failure.what);
    const told: string[] = [];
    const page = await readPage(opened.value, 1, {
      onProgress: (operators) => told.push(operators > 0 ? 'progress' : 'nothing'),
      onPaths: (content, more) => {
        told.push(`${content.paths.count} path, ${content.texts.length} texts, ${more}`);
      },
    });
    await opened.value.close();
    expect(told).toEqual(['progress', '1 path, 0 texts, more']);
    expect(page.ok && page.value.texts.map(({ text }) => text)).toEqual(['Roof']);
  });
});
