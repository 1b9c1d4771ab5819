// The first thing a schema holds against a document, as a refusal: which field, what is wrong, what to do.
import type { z } from 'zod';
import { failed, type Outcome } from '../../shared/errors/failure';

export function faultIn(where: string, error: z.ZodError): Outcome<never> {
  const issue = deepest(error.issues);
  const path = pathOf(issue?.path ?? []);
  const place = path === '' ? where : `${where}: ${path}`;
  const [what, todo] = issue ? wordsFor(issue) : ['it does not have the agreed form', SEE_SCHEMA];
  return failed('out-of-range', place, what, todo);
}

type Issue = z.core.$ZodIssue;

const SEE_SCHEMA = 'See lapstrake schema VERB for the form';

/** Of the ways into a union, the one that got furthest tells most. */
function deepest(issues: readonly Issue[]): Issue | undefined {
  const [first] = issues;
  if (first?.code !== 'invalid_union') return first;
  const inner = first.errors
    .map((branch) => deepest(branch))
    .filter((issue) => issue !== undefined)
    .sort((a, b) => b.path.length - a.path.length)[0];
  return inner && inner.path.length > 0 ? { ...inner, path: [...first.path, ...inner.path] } : first;
}

function wordsFor(issue: Issue): readonly [string, string] {
  switch (issue.code) {
    case 'invalid_type':
      return issue.input === undefined && !/received/.test(issue.message)
        ? ['it is missing', `Give ${article(issue.expected)}`]
        : [`${lower(issue.message)}`, `Give ${article(issue.expected)}`];
    case 'unrecognized_keys':
      return [
        `there is no field ${issue.keys.map((key) => `“${key}”`).join(', ')} here`,
        `Leave it out. ${SEE_SCHEMA}`,
      ];
    case 'too_small':
      return [
        `it is too small`,
        `Give ${issue.inclusive === false ? 'more than' : 'at least'} ${String(issue.minimum)}`,
      ];
    case 'too_big':
      return [
        `it is too large`,
        `Give ${issue.inclusive === false ? 'less than' : 'at most'} ${String(issue.maximum)}`,
      ];
    case 'invalid_value':
      return ['it is none of the values that are known', `Give ${issue.values.map(String).join(' or ')}`];
    default:
      return [lower(issue.message), SEE_SCHEMA];
  }
}

const lower = (text: string): string => text.slice(0, 1).toLowerCase() + text.slice(1);

const article = (noun: string): string => `${/^[aeiou]/.test(noun) ? 'an' : 'a'} ${noun}`;

function pathOf(path: readonly PropertyKey[]): string {
  return path
    .map((part, k) => (typeof part === 'number' ? `[${part}]` : `${k === 0 ? '' : '.'}${String(part)}`))
    .join('');
}
