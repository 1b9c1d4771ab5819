// `check FILE`: what the independent verifier holds against a layout, whoever made it.
import { z } from 'zod';
import { layoutInputSchema } from './layout';
import { findingSchema, layoutResultSchema } from './layoutResult';
import type { VerbSpec } from './verb';

export const checkInputSchema = z.strictObject({
  roof: layoutInputSchema.describe('the input of layout'),
  layout: layoutResultSchema.describe('its result'),
});

export const checkVerb = {
  name: 'check',
  takes: 'FILE',
  summary: 'findings against the layout of a job file, or of { roof, layout }',
  input: [{ kind: 'job' }, { kind: 'json', schema: checkInputSchema }],
  options: {},
  output: z.strictObject({ findings: z.array(findingSchema) }),
} as const satisfies VerbSpec;
