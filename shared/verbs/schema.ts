// `schema VERB`: the JSON Schema of a verb's input and output.
import { z } from 'zod';
import type { VerbSpec } from './verb';

const jsonSchema = z.record(z.string(), z.json());

export const schemaVerb = {
  name: 'schema',
  takes: 'VERB',
  summary: 'the JSON Schema of what a verb takes and gives',
  input: [],
  options: {},
  output: z.strictObject({ verb: z.string(), input: jsonSchema, output: jsonSchema }),
} as const satisfies VerbSpec;
