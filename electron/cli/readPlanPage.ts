// What the verbs on a plan have in common: the options for page and time, and the page read in its own process.
import type { Linework } from '../../core/plan/types';
import type { Outcome } from '../../shared/errors/failure';
import { nameOf, readInput } from './input';
import { readPlan } from './readPlan';
import { countIn } from './words';
import type { Words } from './words';

/** A hostile file is refused within ten seconds, the start of the two processes included. */
const DEFAULT_SECONDS = 9;

export async function readPlanPage(words: Words): Promise<Outcome<Linework> | { readonly usage: string }> {
  const page = countIn(words, 'page', 1);
  if (typeof page === 'object') return page;
  const seconds = countIn(words, 'seconds', DEFAULT_SECONDS);
  if (typeof seconds === 'object') return seconds;
  const { password } = words.options;
  const bytes = await readInput(words.input);
  if (!bytes.ok) return bytes;
  const plan = { bytes: bytes.value, page, name: nameOf(words.input) };
  return readPlan(typeof password === 'string' ? { ...plan, password } : plan, seconds);
}
