// A drawing of hundreds of thousands of strokes as a PDF, written by hand from a seed: each stroke a path of its own, as
// many programs write them.
import { deflateSync } from 'node:zlib';

export const HEAVY_PAGE = { width: 2384, height: 1684 } as const;

/** Corners of the roof on it, in points. */
export const HEAVY_ROOF = [
  [200, 200],
  [2100, 200],
  [2100, 1000],
  [1300, 1000],
  [1300, 1500],
  [200, 1500],
] as const;

export function heavyPdf(strokes: number): Uint8Array {
  const random = randomFrom(1);
  const marks = [
    '2 w',
    `${HEAVY_ROOF.map(([x, y], k) => `${x} ${y} ${k === 0 ? 'm' : 'l'}`).join(' ')} h S`,
    '0.3 w',
  ];
  // Hatching in rows, and strokes of furniture between them.
  for (let k = 0; k < strokes - HEAVY_ROOF.length; k++) {
    const hatch = k % 5 !== 0;
    const turn = random() * 7;
    const x = hatch ? 20 + (k % 1880) : 20 + random() * 2300;
    const y = hatch ? 20 + Math.floor(k / 1880) * 10 : 20 + random() * 1600;
    const [dx, dy] = hatch ? [6, 6] : [3 * Math.cos(turn), 3 * Math.sin(turn)];
    marks.push(`${x.toFixed(2)} ${y.toFixed(2)} m ${(x + dx).toFixed(2)} ${(y + dy).toFixed(2)} l S`);
  }
  for (let k = 0; k < 60; k++)
    marks.push(
      `BT /F1 ${k === 0 ? 24 : 8} Tf 300 ${60 + 24 * k} Td (${k === 0 ? 'SCALE 1:1000' : `Note ${k}`}) Tj ET`,
    );
  return asPdf(deflateSync(Buffer.from(marks.join('\n'), 'latin1')));
}

function asPdf(content: Uint8Array): Uint8Array {
  const objects = [
    Buffer.from('<</Type/Catalog/Pages 2 0 R>>'),
    Buffer.from('<</Type/Pages/Kids[3 0 R]/Count 1>>'),
    Buffer.from(
      `<</Type/Page/Parent 2 0 R/MediaBox[0 0 ${HEAVY_PAGE.width} ${HEAVY_PAGE.height}]/Contents 4 0 R/Resources<</Font<</F1 5 0 R>>>>>>`,
    ),
    Buffer.concat([
      Buffer.from(`<</Length ${content.length}/Filter/FlateDecode>>\nstream\n`),
      content,
      Buffer.from('\nendstream'),
    ]),
    Buffer.from('<</Type/Font/Subtype/Type1/BaseFont/Helvetica>>'),
  ];
  const parts: Uint8Array[] = [Buffer.from('%PDF-1.7\n')];
  const places: number[] = [];
  let length = 9;
  const add = (bytes: Uint8Array): void => {
    parts.push(bytes);
    length += bytes.length;
  };
  objects.forEach((object, k) => {
    places.push(length);
    add(Buffer.concat([Buffer.from(`${k + 1} 0 obj\n`), object, Buffer.from('\nendobj\n')]));
  });
  const table = places.map((place) => `${String(place).padStart(10, '0')} 00000 n \n`).join('');
  add(
    Buffer.from(
      `xref\n0 ${objects.length + 1}\n0000000000 65535 f \n${table}trailer<</Size ${objects.length + 1}/Root 1 0 R>>\nstartxref\n${length}\n%%EOF`,
    ),
  );
  return Buffer.concat(parts);
}

/** Numerical Recipes' linear congruential generator. */
export function randomFrom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 4294967296;
  };
}
