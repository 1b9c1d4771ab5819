// Every scale that a page of a plan states or implies, best first.
import { findScale } from '../../../core/plan/scale';
import { scaleVerb } from '../../../shared/verbs/scale';
import { readPlanPage } from '../readPlanPage';
import type { VerbOutcome } from '../verbModule';
import type { Words } from '../words';

export const spec = scaleVerb;

export async function run(words: Words): Promise<VerbOutcome> {
  const read = await readPlanPage(words);
  if ('usage' in read || !read.ok) return read;
  const document = { ...findScale(read.value), raster: read.value.raster };
  return { ok: true, value: { document, status: 0 } };
}
