// What a verb of the command line is: its words, its options, and the schemas of what goes in and comes out.
// `lapstrake schema VERB` prints the same schemas that check at run time.
import type { z } from 'zod';

export interface VerbOption {
  /** How its value is written in the usage, such as `N`; null where the option stands alone. */
  readonly value: string | null;
  readonly summary: string;
}

export type VerbInput =
  { readonly kind: 'json'; readonly schema: z.ZodType } | { readonly kind: 'pdf' } | { readonly kind: 'job' };

export interface VerbSpec {
  readonly name: string;
  /** How the input is called in the usage. */
  readonly takes: string;
  readonly summary: string;
  readonly input: readonly VerbInput[];
  readonly options: Readonly<Record<string, VerbOption>>;
  readonly output: z.ZodType;
}
