// The crossing from measured to counted.

/** A need that is above a whole pack by less than this is arithmetic and not need (reference: ⌈x − 1e−9⌉). */
const PACK_NOISE = 1e-9;

/** Whole packs for a need in the same unit as the pack; never down. */
export function roundUpToPack(need: number, packSize: number): number {
  return Math.max(0, Math.ceil(need / packSize - PACK_NOISE));
}
