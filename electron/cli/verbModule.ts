// What the file of a verb exports, so that a new verb is one file here, one schema in shared/verbs and one line
// in the table.
import type { Outcome } from '../../shared/errors/failure';
import type { VerbSpec } from '../../shared/verbs/verb';
import type { Words } from './words';

/** What a verb gives: its document, or text for a person; 3 and 4 as the contract of the command line says. */
export interface Answer {
  readonly document: unknown;
  readonly status: 0 | 3 | 4;
}

/** `usage` where an option's value makes no sense. */
export type VerbOutcome = Outcome<Answer> | { readonly usage: string };

export interface VerbModule {
  readonly spec: VerbSpec;
  run(words: Words): Promise<VerbOutcome>;
}
