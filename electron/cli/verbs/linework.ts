// What a page of a plan is made of.
import { describeLinework } from '../../../core/plan/linework';
import { lineworkVerb } from '../../../shared/verbs/linework';
import { readPlanPage } from '../readPlanPage';
import type { VerbOutcome } from '../verbModule';
import type { Words } from '../words';

export const spec = lineworkVerb;

export async function run(words: Words): Promise<VerbOutcome> {
  const read = await readPlanPage(words);
  if ('usage' in read || !read.ok) return read;
  const document = describeLinework(read.value, { segments: words.options.segments ? 'listed' : 'counted' });
  return { ok: true, value: { document, status: 0 } };
}
