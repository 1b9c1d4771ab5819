// `scale PLAN.pdf --page N`: every scale that the page states or implies, best first.
import { z } from 'zod';
import type { VerbSpec } from './verb';

const point = z.tuple([z.number(), z.number()]);

const evidence = z.strictObject({
  text: z.string(),
  at: point,
  measured: z.number().describe('on the page, in 1/72 inch; 1 for a note, which states what one of them is'),
  stated: z.number().describe('mm'),
  line: z.tuple([point, point]).optional().describe('what was measured; absent from a note'),
});

export const scaleOutput = z.strictObject({
  candidates: z.array(
    z.strictObject({
      ratio: z.number().describe('N of 1:N'),
      from: z.enum(['note', 'dimensions', 'bar']),
      evidence: z.array(evidence),
      agreement: z
        .number()
        .min(0)
        .max(1)
        .describe("share of the page's readable dimensions that the ratio explains within 1 %"),
    }),
  ),
  dimensions: z.number().int().describe('how many dimensions could be read'),
  against: z.array(evidence).describe('dimensions that the best candidate does not explain'),
  regions: z
    .array(
      z.strictObject({
        ratio: z.number().describe('N of 1:N'),
        from: z.enum(['note', 'dimensions']),
        low: point.describe('lower left corner of the part'),
        high: point.describe('upper right corner of the part'),
        evidence: z.array(evidence),
      }),
    )
    .describe('parts of the page that are drawn at another scale than the best candidate'),
  warnings: z.array(z.strictObject({ kind: z.string(), message: z.string(), at: point.nullable() })),
  raster: z.boolean().describe('the page is a picture: measure two points of known distance instead'),
});

export const scaleVerb = {
  name: 'scale',
  takes: 'PLAN.pdf|PLAN.dxf',
  summary: 'every scale that one page of a plan states or implies, best first',
  input: [{ kind: 'pdf' }],
  options: {
    page: { value: 'N', summary: 'the page, from 1 (default 1)' },
    password: { value: 'TEXT', summary: 'opens a locked PDF' },
    seconds: { value: 'S', summary: 'longest time to read the file (default 9)' },
  },
  output: scaleOutput,
} as const satisfies VerbSpec;
