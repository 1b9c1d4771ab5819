// What can be asked, for a person.
import type { VerbSpec } from '../../../shared/verbs/verb';
import { helpVerb } from '../../../shared/verbs/help';
import type { VerbOutcome } from '../verbModule';
import { verbTable } from '../verbTable';
import { usageOf, type Words } from '../words';

export const spec = helpVerb;

const CLOSING = `
INPUT is a path, or - for standard input. One JSON document comes out on standard output.
Exit status: 0 done; 2 wrong usage; 3 input refused; 4 done, but a finding of severity error stands.
`;

export async function run({ input }: Words): Promise<VerbOutcome> {
  if (input !== '' && !Object.hasOwn(verbTable, input)) {
    return { usage: `there is no verb ${input}. Verbs are ${Object.keys(verbTable).join(', ')}.` };
  }
  const names = input === '' ? Object.keys(verbTable) : [input];
  const specs = await Promise.all(names.map(async (name) => (await verbTable[name]?.())?.spec));
  const parts = specs.filter((one) => one !== undefined).map(describe);
  return { ok: true, value: { document: parts.join('\n') + CLOSING, status: 0 } };
}

function describe(one: VerbSpec): string {
  const options = Object.entries(one.options).map(
    ([name, { value, summary }]) => `    ${`--${name} ${value ?? ''}`.padEnd(18)}${summary}\n`,
  );
  return `${usageOf(one).replace('Usage: ', '')}\n    ${one.summary}\n${options.join('')}`;
}
