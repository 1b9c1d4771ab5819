// How it is said that a figure rests on shipped values: one sentence, however many values and steps it rests on.

const SHIPPED = 'as shipped (common practice, no source): ';

/** The sentence for some values by their words, or null for none. */
export function sayAssumed(words: readonly string[]): string | null {
  return words.length === 0 ? null : SHIPPED + [...new Set(words)].join(', ');
}

/** Two such sentences as one. */
export function joinAssumed(first: string | null, second: string | null): string | null {
  return sayAssumed(
    [first, second].flatMap((text) => (text === null ? [] : text.slice(SHIPPED.length).split(', '))),
  );
}
