// Reading a page of 300,000 segments: the drawn part of a roof under hatching and small strokes, made from a seed.
import { buildPageIndex } from '../../core/plan/pageIndex';
import type { PageIndex } from '../../core/plan/pageIndex';
import { readLinework } from '../../core/plan/linework';
import { findScale } from '../../core/plan/scale';
import { snapPoint } from '../../core/plan/snap';
import { buildRegionIndex, traceRegion } from '../../core/plan/traceRegion';
import { PATH_VERBS, PAINT } from '../../core/plan/types';
import type { PageContent } from '../../core/plan/types';
import { HEAVY_ROOF, randomFrom } from './heavyPdf';
import { ms, timeByTurns } from './measure';
import type { Row } from './measure';

export function benchReading(quick: boolean): Row[] {
  const segments = quick ? 30_000 : 300_000;
  const content = heavyPage(segments);
  const rounds = quick ? 3 : 5;
  const linework = readLinework(content);
  const page = buildPageIndex(linework);
  const region = buildRegionIndex(page);
  const random = randomFrom(7);
  const pointers = Array.from({ length: 1000 }, () => [random() * 2384, random() * 1684] as const);
  const hatched = buildPageIndex(readLinework(longStrokes()));
  const snapAll = (on: PageIndex) => () =>
    pointers.map((pointer) =>
      snapPoint(on, { pointer, radius: 3, placed: [], corners: [], ortho: 'free', last: null }),
    );
  const [read, index, sort, shape, outer, scale, snap, overlapping] = timeByTurns(
    [
      () => readLinework(content),
      () => buildPageIndex(linework),
      () => buildRegionIndex(page),
      () => traceRegion(region, [700, 1100]),
      () => traceRegion(region, [700, 1100], { mode: 'outer' }),
      () => findScale(linework, page),
      snapAll(page),
      snapAll(hatched),
    ],
    rounds,
  );
  if (!read || !index || !sort || !shape || !outer || !scale || !snap || !overlapping)
    throw new Error('no timings');
  const count = linework.widths.length;
  return [
    { name: `linework of ${count} segments`, figure: ms(read) },
    { name: 'its box index', figure: ms(index) },
    { name: 'its strokes sorted for tracing', figure: ms(sort) },
    {
      name: 'region, the roof with 40 openings',
      figure: ms(shape),
      ratio: { value: sort.median / shape.median, atLeast: 1, against: 'faster than sorting the page' },
    },
    { name: 'region, outer', figure: ms(outer) },
    { name: 'scale', figure: ms(scale) },
    { name: 'snap, a thousand pointers', figure: `${ms(snap)}: ${snap.median.toFixed(1)} µs each` },
    {
      name: 'snap among long strokes that cross',
      figure: `${ms(overlapping)}: ${overlapping.median.toFixed(1)} µs each`,
    },
  ];
}

/** Two hatches across the whole sheet, a stroke a point. */
function longStrokes(): PageContent {
  const lines = Array.from({ length: 6000 }, (_, k) => {
    const x = Math.floor(k / 2);
    return k % 2 === 1 ? [x - 1500, 0, x + 184, 1684] : [x + 1500, 0, x - 184, 1684];
  });
  return pageOf({
    verbs: lines.flatMap(() => [PATH_VERBS.move, PATH_VERBS.line]),
    coords: lines.flat(),
    firstVerb: [...lines.map((_, k) => 2 * k), 2 * lines.length],
    firstCoord: [...lines.map((_, k) => 4 * k), 4 * lines.length],
  });
}

function heavyPage(segments: number): PageContent {
  const random = randomFrom(1);
  const verbs: number[] = [];
  const coords: number[] = [];
  const firstVerb = [0];
  const firstCoord = [0];
  const path = (points: readonly (readonly [number, number])[], closes: boolean): void => {
    points.forEach(([x, y], k) => {
      verbs.push(k === 0 ? PATH_VERBS.move : PATH_VERBS.line);
      coords.push(x, y);
    });
    if (closes) verbs.push(PATH_VERBS.close);
    firstVerb.push(verbs.length);
    firstCoord.push(coords.length);
  };
  path(HEAVY_ROOF, true);
  let count = HEAVY_ROOF.length;
  for (let k = 0; k < 40; k++, count += 4) {
    const x = 260 + (k % 10) * 100;
    const y = 260 + Math.floor(k / 10) * 170;
    path(
      [
        [x, y],
        [x + 40, y],
        [x + 40, y + 40],
        [x, y + 40],
      ],
      true,
    );
  }
  // Hatching in rows, and strokes of furniture and lettering between them.
  for (let k = 0; count < segments; k++, count++) {
    const hatch = k % 5 !== 0;
    const x = hatch ? 20 + (k % 1880) : 20 + random() * 2300;
    const y = hatch ? 20 + Math.floor(k / 1880) * 10 : 20 + random() * 1600;
    const turn = random() * 7;
    path([[x, y], hatch ? [x + 6, y + 6] : [x + 3 * Math.cos(turn), y + 3 * Math.sin(turn)]], false);
  }
  return pageOf({ verbs, coords, firstVerb, firstCoord });
}

function pageOf(packed: {
  readonly verbs: readonly number[];
  readonly coords: readonly number[];
  readonly firstVerb: readonly number[];
  readonly firstCoord: readonly number[];
}): PageContent {
  const { verbs, coords, firstVerb, firstCoord } = packed;
  const paths = firstVerb.length - 1;
  return {
    box: [0, 0, 2384, 1684],
    rotation: 0,
    userUnit: 1,
    layers: [''],
    hiddenLayers: [],
    texts: [],
    images: [],
    paths: {
      count: paths,
      verbs: Uint8Array.from(verbs),
      coords: Float64Array.from(coords),
      firstVerb: Uint32Array.from(firstVerb),
      firstCoord: Uint32Array.from(firstCoord),
      paint: new Uint8Array(paths).fill(PAINT.stroke),
      width: new Float32Array(paths).fill(0.3),
      ink: new Uint32Array(paths),
      dashed: new Uint8Array(paths),
      layer: new Uint16Array(paths),
      step: new Float32Array(paths).fill(0.0001),
    },
  };
}
