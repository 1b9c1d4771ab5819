// The JSON Schema of a verb's input and output, from the schemas that check at run time.
import { z } from 'zod';
import { schemaVerb } from '../../../shared/verbs/schema';
import type { VerbInput } from '../../../shared/verbs/verb';
import { schemaTable } from '../schemaTable';
import type { VerbOutcome } from '../verbModule';
import type { Words } from '../words';

export const spec = schemaVerb;

export async function run({ input: name }: Words): Promise<VerbOutcome> {
  const load = Object.hasOwn(schemaTable, name) ? schemaTable[name] : undefined;
  if (!load) return { usage: `there is no verb ${name}. Verbs are ${Object.keys(schemaTable).join(', ')}.` };
  const { input, output } = await load();
  const inputs = await Promise.all(input.map(schemaOf));
  const document = {
    verb: name,
    input: inputs.length === 1 ? inputs[0] : { anyOf: inputs },
    output: z.toJSONSchema(output, { io: 'output' }),
  };
  return { ok: true, value: { document: `${JSON.stringify(document, null, 2)}\n`, status: 0 } };
}

async function schemaOf(input: VerbInput): Promise<unknown> {
  switch (input.kind) {
    case 'json':
      return z.toJSONSchema(input.schema, { io: 'input' });
    case 'pdf':
      return { type: 'string', contentMediaType: 'application/pdf', description: 'a PDF file' };
    case 'job': {
      const { jobSchema } = await import('../../../core/job/schema');
      return {
        type: 'string',
        contentMediaType: 'application/zip',
        description: 'a .lapjob file: a ZIP with job.json and drawings/<sha256>.pdf or .dxf',
        contentSchema: z.toJSONSchema(jobSchema, { io: 'input' }),
      };
    }
  }
}
