// A one-page PDF written by hand, for what the demo sheets do not hold: layers switched off, forms, page units.

export interface SmallPdf {
  readonly content: string;
  /** Entries of the page beside its parent, resources and content. */
  readonly page?: string;
  readonly resources?: string;
  /** Objects from number 10 on, each without its `obj` frame. */
  readonly objects?: readonly string[];
  /** Entries of the catalog beside its pages. */
  readonly catalog?: string;
}

export function smallPdf({ content, page, resources, objects = [], catalog }: SmallPdf): Uint8Array {
  const bodies = new Map<number, string>([
    [1, `<< /Type /Catalog /Pages 2 0 R ${catalog ?? ''} >>`],
    [2, '<< /Type /Pages /Kids [3 0 R] /Count 1 >>'],
    [
      3,
      `<< /Type /Page /Parent 2 0 R /Contents 4 0 R /Resources << ${resources ?? ''} >> ${page ?? '/MediaBox [0 0 600 400]'} >>`,
    ],
    [4, stream('', content)],
    ...objects.map((body, k) => [10 + k, body] as const),
  ]);
  let text = '%PDF-1.7\n';
  const places: [number, number][] = [];
  for (const [number, body] of bodies) {
    places.push([number, text.length]);
    text += `${number} 0 obj\n${body}\nendobj\n`;
  }
  const start = text.length;
  const rows = places.map(([number, place]) => `${number} 1\n${String(place).padStart(10, '0')} 00000 n \n`);
  text += `xref\n0 1\n0000000000 65535 f \n${rows.join('')}trailer\n<< /Size 40 /Root 1 0 R >>\nstartxref\n${start}\n%%EOF\n`;
  return new TextEncoder().encode(text);
}

export function stream(entries: string, content: string): string {
  return `<< ${entries} /Length ${content.length} >>\nstream\n${content}\nendstream`;
}
