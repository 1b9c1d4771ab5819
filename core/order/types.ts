// What is bought, in whole packs.
import type { QuantityUnit } from '../quantities/types';

export interface OrderLine {
  readonly key: string;
  readonly product: string;
  readonly description: string;
  /** Measured need in the product's own unit, and what one pack holds. */
  readonly need: number;
  readonly unit: QuantityUnit;
  readonly packSize: number;
  readonly packName: string;
  readonly packs: number;
  /** kg, null where the product's mass is not known. */
  readonly mass: number | null;
  readonly unitPrice: string;
  readonly from: readonly string[];
  readonly formula: string;
  /** What was assumed, or null. */
  readonly assumed: string | null;
}

export interface Order {
  readonly lines: readonly OrderLine[];
  /** kg of everything whose mass is known. */
  readonly mass: number;
  readonly pallets: number;
}
