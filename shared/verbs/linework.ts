// `linework PLAN.pdf --page N`: what a page of a plan is made of, in displayed-page points, y up.
import { z } from 'zod';
import type { VerbSpec } from './verb';

const point = z.tuple([z.number(), z.number()]);

export const lineworkOutput = z.strictObject({
  page: z.strictObject({ width: z.number(), height: z.number(), rotation: z.number().int() }),
  segments: z
    .union([z.number().int(), z.array(z.tuple([z.number(), z.number(), z.number(), z.number()]))])
    .describe('how many; with --segments x1, y1, x2, y2 of each'),
  segmentCount: z.number().int(),
  curves: z.number().int().describe('how many curves were flattened into segments'),
  texts: z.array(z.strictObject({ text: z.string(), at: point, height: z.number(), angle: z.number() })),
  raster: z.boolean().describe('the page is a picture: there is little or nothing to measure by'),
  precision: z.number().describe('coarsest step of the coordinates as they were read, points'),
});

export const lineworkVerb = {
  name: 'linework',
  takes: 'PLAN.pdf|PLAN.dxf',
  summary: 'the lines and texts of one page of a plan',
  input: [{ kind: 'pdf' }],
  options: {
    page: { value: 'N', summary: 'the page, from 1 (default 1)' },
    segments: { value: null, summary: 'list the segments instead of counting them' },
    password: { value: 'TEXT', summary: 'opens a locked PDF' },
    seconds: { value: 'S', summary: 'longest time to read the file (default 9)' },
  },
  output: lineworkOutput,
} as const satisfies VerbSpec;
