// In: the deck, what lies over it where fasteners go through, and the lengths on offer. Out: the length to order, with
// its sum in words. Promise: what nobody has said stays open; a length is never taken from what is not known.
import type { Deck } from '../roof/types';

/** Least grip, mm: past the deck's underside in steel, into wood and into concrete (common practice, no source: ¾ in,
 * 1 in, 1¼ in). A pull-out test on the roof and the maker's approval come first. */
export const LEAST_GRIP_MM: Readonly<Record<Deck['kind'], number>> = { steel: 19, wood: 25, concrete: 32 };

export interface FastenerLength {
  /** mm, as they are sold; null where it is not known or none is long enough. */
  readonly length: number | null;
  /** The least that would do, mm; null where it is not known. */
  readonly need: number | null;
  readonly formula: string;
}

export function fastenerLength(deck: Deck | null, onOffer: readonly number[]): FastenerLength {
  if (deck === null)
    return { length: null, need: null, formula: 'The deck is not given: choose it on the Roof stage.' };
  if (deck.over === undefined)
    return {
      length: null,
      need: null,
      formula: `What lies over the ${deck.kind} deck is not given: type its thickness on the Roof stage.`,
    };
  const grip = LEAST_GRIP_MM[deck.kind];
  const need = deck.over + grip;
  const length = [...onOffer].sort((a, b) => a - b).find((one) => one >= need) ?? null;
  const sum = `${deck.over} mm over the deck + ${grip} mm of grip in ${deck.kind} = ${need} mm`;
  return {
    length,
    need,
    formula:
      length === null ? `${sum}, and none on offer is so long` : `${sum}, the next on offer is ${length} mm`,
  };
}
