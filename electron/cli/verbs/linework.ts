// What a page of a plan is made of.
import { describeLinework } from '../../../core/plan/linework';
import { lineworkVerb } from '../../../shared/verbs/linework';
import { nameOf, readInput } from '../input';
import { readPlan } from '../readPlan';
import type { VerbOutcome } from '../verbModule';
import { countIn, type Words } from '../words';

export const spec = lineworkVerb;

/** A hostile file is refused within ten seconds, the start of the two processes included. */
const DEFAULT_SECONDS = 9;

export async function run(words: Words): Promise<VerbOutcome> {
  const page = countIn(words, 'page', 1);
  if (typeof page === 'object') return page;
  const seconds = countIn(words, 'seconds', DEFAULT_SECONDS);
  if (typeof seconds === 'object') return seconds;
  const bytes = await readInput(words.input);
  if (!bytes.ok) return bytes;
  const read = await readPlan({ bytes: bytes.value, page, name: nameOf(words.input) }, seconds);
  if (!read.ok) return read;
  const document = describeLinework(read.value, { segments: words.options.segments ? 'listed' : 'counted' });
  return { ok: true, value: { document, status: 0 } };
}
