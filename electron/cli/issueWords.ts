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
    case 'invalid_type': {
      const received = /received (\w+)/.exec(issue.message)?.[1] ?? 'something else';
      const wanted = noun(issue.expected);
      return received === 'undefined'
        ? ['it is missing', `Give ${wanted}`]
        : [`it is ${noun(received)} where ${wanted} belongs`, `Give ${wanted}`];
    }
    case 'unrecognized_keys':
      return [
        `there is no field ${issue.keys.map((key) => `“${key}”`).join(', ')} here`,
        `Leave it out. ${SEE_SCHEMA}`,
      ];
    case 'too_small': {
      const least = `${issue.inclusive === false ? 'more than' : 'at least'} ${String(issue.minimum)}`;
      return [issue.origin === 'array' ? 'it has too few entries' : 'it is too small', `Give ${least}`];
    }
    case 'too_big': {
      const most = `${issue.inclusive === false ? 'less than' : 'at most'} ${String(issue.maximum)}`;
      return [issue.origin === 'array' ? 'it has too many entries' : 'it is too large', `Give ${most}`];
    }
    case 'invalid_value':
      return ['it is none of the values that are known', `Give ${issue.values.map(String).join(' or ')}`];
    case 'invalid_union': {
      const ways = issue.errors.flatMap(([first]) => (first ? wordsFor(first)[1].replace(/^Give /, '') : []));
      return [
        'it has none of the forms that are known',
        ways.length > 0 ? `Give ${ways.join(', or ')}` : SEE_SCHEMA,
      ];
    }
    default:
      return [lower(issue.message), SEE_SCHEMA];
  }
}

const lower = (text: string): string => text.slice(0, 1).toLowerCase() + text.slice(1);

const NOUNS: Readonly<Record<string, string>> = {
  string: 'text',
  array: 'a list',
  tuple: 'a list',
  null: 'null',
  boolean: 'true or false',
  int: 'a whole number',
};

const noun = (type: string): string => NOUNS[type] ?? `${/^[aeiou]/.test(type) ? 'an' : 'a'} ${type}`;

function pathOf(path: readonly PropertyKey[]): string {
  return path
    .map((part, k) => (typeof part === 'number' ? `[${part}]` : `${k === 0 ? '' : '.'}${String(part)}`))
    .join('');
}
