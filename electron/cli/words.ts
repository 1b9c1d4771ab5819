// The words after the verb: one input, and options as `--name value`, `--name=value`, or `--name` alone.
import type { VerbSpec } from '../../shared/verbs/verb';

export interface Words {
  /** A path, or `-` for standard input; '' where the verb takes nothing. */
  readonly input: string;
  readonly options: Readonly<Record<string, string | true>>;
}

export function readWords(spec: VerbSpec, given: readonly string[]): Words | { readonly fault: string } {
  const inputs: string[] = [];
  const options: Record<string, string | true> = {};
  for (let k = 0; k < given.length; k++) {
    const word = given[k] ?? '';
    if (!word.startsWith('--') || word === '--') {
      if (word.startsWith('-') && word !== '-')
        return { fault: `${word} is not an option here. ${usageOf(spec)}` };
      inputs.push(word);
      continue;
    }
    const [name = '', ...after] = word.slice(2).split('=');
    const option = Object.hasOwn(spec.options, name) ? spec.options[name] : undefined;
    if (!option) return { fault: `there is no option --${name}. ${usageOf(spec)}` };
    if (name in options) return { fault: `--${name} is given twice. Give it once.` };
    if (option.value === null) {
      if (after.length > 0) return { fault: `--${name} takes no value. ${usageOf(spec)}` };
      options[name] = true;
      continue;
    }
    // `--at -5,3` is a value too; what begins with two dashes is the next option.
    const value = after.length > 0 ? after.join('=') : given[k + 1];
    if (value === undefined || value === '' || (after.length === 0 && value.startsWith('--')))
      return { fault: `--${name} wants a value. Write --${name} ${option.value}.` };
    if (after.length === 0) k++;
    options[name] = value;
  }
  return inputAmong(spec, inputs, options);
}

export function usageOf(spec: VerbSpec): string {
  const options = Object.entries(spec.options).map(([name, { value }]) =>
    value === null ? `[--${name}]` : `[--${name} ${value}]`,
  );
  return `Usage: ${['lapstrake', spec.name, spec.takes, ...options].filter(Boolean).join(' ')}`;
}

/** A whole number from 1 among the options, the default where it is left out, or what is wrong with it. */
export function countIn(words: Words, name: string, unless: number): number | { readonly usage: string } {
  const value = words.options[name];
  if (value === undefined) return unless;
  const count = Number(value);
  return typeof value === 'string' && /^\d{1,9}$/.test(value) && count >= 1
    ? count
    : {
        usage: `--${name} wants a whole number from 1, not “${String(value)}”. Write for example --${name} ${unless}.`,
      };
}

function inputAmong(
  spec: VerbSpec,
  inputs: readonly string[],
  options: Words['options'],
): Words | { readonly fault: string } {
  const optional = spec.takes.startsWith('[') || spec.takes === '';
  const [input = '', more] = inputs;
  if (more !== undefined || (spec.takes === '' && input !== ''))
    return { fault: `“${more ?? input}” is one input too many. ${usageOf(spec)}` };
  if (input === '' && !optional)
    return { fault: `it wants ${spec.takes}, or - for standard input. ${usageOf(spec)}` };
  return { input, options };
}
