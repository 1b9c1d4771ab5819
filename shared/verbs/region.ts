// `region PLAN.pdf --page N --at X,Y`: the closed shape around a point, from the page's own lines.
import { z } from 'zod';
import type { VerbSpec } from './verb';

const point = z.tuple([z.number(), z.number()]);
const ring = z.array(point);

export const regionOutput = z.strictObject({
  outline: ring.describe('counter-clockwise, in 1/72 inch on the page as displayed, y up'),
  openings: z.array(ring).describe('clockwise; what stands as an island inside'),
  closedGaps: z
    .array(z.strictObject({ from: point, to: point }))
    .describe('where the lines do not meet and were joined: look at each'),
  openGaps: z
    .array(z.strictObject({ from: point, to: point }))
    .describe(
      'openings between ends of walls that the shape runs through: a gap as wide as they are closes them',
    ),
  smallMarks: z.number().int().describe('closed marks inside that were too small to be openings'),
  closedBy: z
    .enum(['drawn lines', 'all lines'])
    .describe('all lines: it closes only where dashed, dimension and grid lines count too'),
  area: z.number().describe('of the outline less the openings, in square units of the page'),
});

export const regionVerb = {
  name: 'region',
  takes: 'PLAN.pdf|PLAN.dxf',
  summary: 'the closed shape around a point of a plan',
  input: [{ kind: 'pdf' }],
  options: {
    at: { value: 'X,Y', summary: 'the point, in 1/72 inch from the lower left of the page as displayed' },
    page: { value: 'N', summary: 'the page, from 1 (default 1)' },
    gap: { value: 'G', summary: 'the widest gap that is bridged, in the same units (default 2)' },
    outer: { value: null, summary: 'the outer boundary of the whole drawn part around the point' },
    without: { value: 'LAYERS', summary: 'layers that do not count, by name, with commas between' },
    password: { value: 'TEXT', summary: 'opens a locked PDF' },
    seconds: { value: 'S', summary: 'longest time to read the file (default 9)' },
  },
  output: regionOutput,
} as const satisfies VerbSpec;
