// PDFs made to hang, to fill the memory or to lie, written object by object.
import { deflateSync } from 'node:zlib';

export interface HostilePdf {
  readonly what: string;
  readonly bytes: Uint8Array;
  /** What the refusal has to speak of; null where the file may also be read, as long as that ends. */
  readonly refusal: RegExp | null;
}

export function hostilePdfs(): readonly HostilePdf[] {
  const bombed = deflated(Buffer.alloc(300_000_000, ' '), 2);
  return [
    { what: 'text named .pdf', bytes: Buffer.from('This is no drawing.\n'), refusal: /it is not a PDF/ },
    { what: 'an empty file', bytes: new Uint8Array(0), refusal: /it is empty/ },
    { what: 'a PDF cut in half', bytes: half(page('0 0 m 9 9 l S')), refusal: null },
    { what: 'a header and nothing more', bytes: Buffer.from('%PDF-1.7\n'), refusal: /cannot be read/ },
    { what: 'random bytes behind a header', bytes: noise(), refusal: /cannot be read/ },
    { what: 'a page of no size', bytes: page('', '/MediaBox [0 0 0 0]'), refusal: null },
    {
      what: 'a page of kilometres',
      bytes: page('', '/MediaBox [0 0 9999999 9999999]'),
      refusal: /larger than any PDF page/,
    },
    { what: 'a page tree that is its own child', bytes: endlessTree(), refusal: null },
    { what: 'a form that draws itself', bytes: selfDrawing(), refusal: null },
    { what: 'arrays in arrays in arrays', bytes: page(`${'['.repeat(400_000)} TJ`), refusal: null },
    {
      what: 'a million saved states',
      bytes: page('q '.repeat(1_000_000)),
      refusal: /saves its drawing state more than 5000 times/,
    },
    { what: 'no pages', bytes: noPages(), refusal: /it has no pages/ },
    { what: 'a stream that unpacks to 300 MB of nothing', bytes: streamPage(bombed), refusal: null },
    {
      what: 'ten million lines from a small file',
      bytes: streamPage(deflated(Buffer.from('0 0 m 9 9 l S\n'.repeat(10_000_000)), 1)),
      refusal: /more than 1000000 lines and fills|more than \d+ s|more memory/,
    },
    { what: 'a picture of ten gigapixels', bytes: hugePicture(), refusal: null },
  ];
}

interface Stream {
  readonly bytes: Uint8Array;
  readonly filter: string;
}

function deflated(bytes: Uint8Array, times: number): Stream {
  let packed = bytes;
  for (let k = 0; k < times; k++) packed = deflateSync(packed);
  return { bytes: packed, filter: `[${'/FlateDecode '.repeat(times)}]` };
}

function page(content: string, box = '/MediaBox [0 0 842 595]'): Uint8Array {
  return streamPage({ bytes: Buffer.from(content, 'latin1'), filter: '[]' }, box);
}

function streamPage(content: Stream, box = '/MediaBox [0 0 842 595]', more = ''): Uint8Array {
  return pdf([
    '<< /Type /Catalog /Pages 2 0 R >>',
    '<< /Type /Pages /Kids [3 0 R] /Count 1 >>',
    `<< /Type /Page /Parent 2 0 R ${box} /Contents 4 0 R ${more} >>`,
    stream('', content),
  ]);
}

function noPages(): Uint8Array {
  return pdf(['<< /Type /Catalog /Pages 2 0 R >>', '<< /Type /Pages /Kids [] /Count 0 >>']);
}

function endlessTree(): Uint8Array {
  return pdf(['<< /Type /Catalog /Pages 2 0 R >>', '<< /Type /Pages /Kids [2 0 R 2 0 R] /Count 4 >>']);
}

function selfDrawing(): Uint8Array {
  const plain = (text: string): Stream => ({ bytes: Buffer.from(text), filter: '[]' });
  const resources = '/Resources << /XObject << /F 5 0 R >> >>';
  return pdf([
    '<< /Type /Catalog /Pages 2 0 R >>',
    '<< /Type /Pages /Kids [3 0 R] /Count 1 >>',
    `<< /Type /Page /Parent 2 0 R /MediaBox [0 0 842 595] /Contents 4 0 R ${resources} >>`,
    stream('', plain('/F Do')),
    stream(`/Type /XObject /Subtype /Form /BBox [0 0 842 595] ${resources}`, plain('/F Do /F Do')),
  ]);
}

function hugePicture(): Uint8Array {
  const resources = '/Resources << /XObject << /I 5 0 R >> >>';
  return pdf([
    '<< /Type /Catalog /Pages 2 0 R >>',
    '<< /Type /Pages /Kids [3 0 R] /Count 1 >>',
    `<< /Type /Page /Parent 2 0 R /MediaBox [0 0 842 595] /Contents 4 0 R ${resources} >>`,
    stream('', { bytes: Buffer.from('842 0 0 595 0 0 cm /I Do'), filter: '[]' }),
    stream(
      '/Type /XObject /Subtype /Image /Width 100000 /Height 100000 /ColorSpace /DeviceGray /BitsPerComponent 8',
      deflated(Buffer.alloc(1_000_000), 1),
    ),
  ]);
}

const stream = (dictionary: string, { bytes, filter }: Stream): Buffer =>
  Buffer.concat([
    Buffer.from(`<< ${dictionary} /Filter ${filter} /Length ${bytes.byteLength} >>\nstream\n`),
    bytes,
    Buffer.from('\nendstream'),
  ]);

function pdf(objects: readonly (string | Buffer)[]): Uint8Array {
  const parts: Buffer[] = [Buffer.from('%PDF-1.7\n')];
  const offsets: number[] = [];
  let at = parts[0]?.byteLength ?? 0;
  const write = (part: Buffer): void => {
    parts.push(part);
    at += part.byteLength;
  };
  for (const [k, object] of objects.entries()) {
    offsets.push(at);
    write(Buffer.concat([Buffer.from(`${k + 1} 0 obj\n`), Buffer.from(object), Buffer.from('\nendobj\n')]));
  }
  const start = at;
  const rows = offsets.map((offset) => `${String(offset).padStart(10, '0')} 00000 n \n`).join('');
  write(Buffer.from(`xref\n0 ${objects.length + 1}\n0000000000 65535 f \n${rows}`));
  write(Buffer.from(`trailer\n<< /Size ${objects.length + 1} /Root 1 0 R >>\nstartxref\n${start}\n%%EOF\n`));
  return Buffer.concat(parts);
}

const half = (bytes: Uint8Array): Uint8Array => bytes.slice(0, bytes.byteLength / 2);

/** Always the same noise: a linear congruential generator (Numerical Recipes' constants). */
function noise(): Uint8Array {
  let state = 20_260_101;
  const bytes = Buffer.alloc(100_000);
  for (let k = 0; k < bytes.length; k++) {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    bytes[k] = state >>> 24;
  }
  return Buffer.concat([Buffer.from('%PDF-1.4\n'), bytes]);
}
