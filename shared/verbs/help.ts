// `help [VERB]`: what can be asked, as text for a person.
import { z } from 'zod';
import type { VerbSpec } from './verb';

export const helpVerb = {
  name: 'help',
  takes: '[VERB]',
  summary: 'what can be asked',
  input: [],
  options: {},
  output: z.string(),
} as const satisfies VerbSpec;
