// Stretches on a line: what is left of some without others, and how long they are in all.
import type { Span } from './points';

/** Stretches that only touch take nothing from each other. */
export function withoutSpans(spans: readonly Span[], taken: readonly Span[]): Span[] {
  return taken.reduce<Span[]>(
    (left, [from, to]) =>
      left.flatMap(([a, b]): Span[] => {
        const parts: Span[] = [
          [a, Math.min(b, from)],
          [Math.max(a, to), b],
        ];
        return parts.filter(([low, high]) => high > low);
      }),
    [...spans],
  );
}

export const lengthOfSpans = (spans: readonly Span[]): number =>
  spans.reduce((sum, [from, to]) => sum + to - from, 0);
