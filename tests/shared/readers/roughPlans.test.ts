// Rough plans on awkward pages: outlines, rooms and scales as they were drawn.
import { describe, expect, it } from 'vitest';
import { signedArea } from '../../../core/geometry/ring';
import { readLinework } from '../../../core/plan/linework';
import { buildPageIndex } from '../../../core/plan/pageIndex';
import { findScale } from '../../../core/plan/scale';
import { buildRegionIndex, traceRegion } from '../../../core/plan/traceRegion';
import type { RegionIndex } from '../../../core/plan/traceRegion';
import { mmPerPoint } from '../../../core/units/scales';
import { openPdf, readPage } from '../../../shared/readers/pdf';
import { roughPdf } from '../../support/roughPlan';
import type { RoughPage, RoughPen, Spot } from '../../support/roughPlan';
import { drawFloor, drawRoof, FLOOR, ROOF } from '../../support/roughPlans';
import type { RoughOptions, RoughShape } from '../../support/roughPlans';

const inMillimetres = (mm: number): string => String(Math.round(mm));
const inMetres = (mm: number): string => (mm / 1000).toFixed(2);
/** To the quarter of an inch, as 12'-6 1/2". */
function inFeet(mm: number): string {
  const quarters = Math.round((mm / 25.4) * 4);
  const inches = Math.floor((quarters % 48) / 4);
  const fraction = ['', ' 1/4', ' 1/2', ' 3/4'][quarters % 4] ?? '';
  return `${Math.floor(quarters / 48)}'-${inches}${fraction}"`;
}

const ORIGIN: Spot = [200, 260];
const A3: RoughPage = { width: 1190, height: 842 };
const LARGE: RoughPage = { width: 1684, height: 1190 };
const PAGES = {
  upright: {},
  'turned by 90, cropped': { rotation: 90, crop: [-40, 60] },
  'turned by 180, in units of 1/36 inch': { rotation: 180, crop: [15, 7], userUnit: 2 },
  'turned by 270, cropped': { rotation: 270, crop: [120, -300] },
} satisfies Record<string, Partial<RoughPage>>;

async function read(page: RoughPage, draw: (pen: RoughPen) => void): Promise<RegionIndex> {
  const opened = await openPdf(roughPdf(page, draw));
  if (!opened.ok) throw new Error(opened.failure.what);
  const content = await readPage(opened.value, 1);
  await opened.value.close();
  if (!content.ok) throw new Error(content.failure.what);
  return buildRegionIndex(buildPageIndex(readLinework(content.value)));
}

function expectShape(index: RegionIndex, shape: RoughShape, ratio: number, mode: 'shape' | 'outer'): void {
  const mm = mmPerPoint(ratio);
  const at = [ORIGIN[0] + shape.at[0] / mm, ORIGIN[1] + shape.at[1] / mm] as const;
  const reading = traceRegion(index, at, { mode });
  if ('refusal' in reading) throw new Error(`${shape.name}: ${reading.refusal}`);
  const { outline, openings } = reading.region;
  const area = signedArea(outline) * (mm / 1000) ** 2;
  expect(Math.abs(area / shape.area - 1), `${shape.name}: ${area} for ${shape.area} m²`).toBeLessThan(0.005);
  if (shape.openings !== undefined) expect(openings, shape.name).toHaveLength(shape.openings);
}

function withFrame({ width, height }: RoughPage, pen: RoughPen): void {
  pen.width(1);
  pen.box([28, 28], [width - 28, height - 28]);
  pen.line([width - 200, 28], [width - 200, height - 28]);
  for (let k = 1; k < 8; k++) pen.line([width - 200, 28 + 20 * k], [width - 28, 28 + 20 * k]);
}

type Way = Partial<RoughOptions> & Pick<RoughOptions, 'say'> & { readonly ratio: number };
const WAYS: readonly (readonly [name: string, way: Way])[] = [
  ['millimetres, strokes', { ratio: 100, say: inMillimetres, ends: 'strokes' }],
  [
    'feet and inches, arrows, lines past their corners',
    { ratio: 96, say: inFeet, ends: 'arrows', overshoot: 0.6 },
  ],
  ['metres, dots, corners that do not meet', { ratio: 100, say: inMetres, ends: 'dots', overshoot: -0.5 }],
  [
    'figures that break their lines, extensions on the building, solid grid lines',
    { ratio: 120, say: inFeet, ends: 'arrows', breaks: true, extensions: 'touching', grid: 'solid' },
  ],
  ['no lettering that can be read', { ratio: 100, say: inMillimetres, lettering: 'none', ends: 'arrows' }],
];

describe.each(Object.entries(PAGES))('on a page %s', (_page, frame) => {
  it.each(WAYS)('the floor plan with %s', async (_way, { ratio, ...way }) => {
    const page = { ...A3, ...frame };
    const index = await read(page, (pen) => {
      withFrame(page, pen);
      drawFloor(pen, { ...way, mmPerPoint: mmPerPoint(ratio), origin: ORIGIN });
    });
    expectShape(index, FLOOR.outer, ratio, 'outer');
    if (way.grid !== 'solid') for (const room of FLOOR.rooms) expectShape(index, room, ratio, 'shape');
    expectScale(index, ratio, way.lettering);
  });
  it.each(WAYS)('the roof plan with %s', async (_way, { ratio, ...way }) => {
    const page = { ...LARGE, ...frame };
    const index = await read(page, (pen) => {
      withFrame(page, pen);
      drawRoof(pen, { ...way, mmPerPoint: mmPerPoint(ratio), origin: ORIGIN });
    });
    expectShape(index, ROOF.outer, ratio, 'outer');
    if (way.grid !== 'solid') expectShape(index, ROOF.inner, ratio, 'shape');
    expectScale(index, ratio, way.lettering);
  });
});

function expectScale({ page }: RegionIndex, ratio: number, lettering?: 'text' | 'none'): void {
  const reading = findScale(page.linework, page);
  if (lettering === 'none') return expect(reading.candidates).toEqual([]);
  expect(reading.candidates[0]?.ratio).toBeCloseTo(ratio, 6);
  expect(reading.candidates[0]?.agreement).toBe(1);
  expect(reading.regions).toEqual([]);
}
