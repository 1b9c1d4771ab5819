// A figure that explains itself.
export type QuantityUnit = 'mm' | 'm' | 'm2' | 'kg' | 'h' | 'min' | '%' | 'pieces' | 'rolls' | 'litres';

export interface Quantity {
  /** Stable key such as `weld.side` or `rolls.field`. */
  readonly key: string;
  readonly label: string;
  readonly value: number;
  readonly unit: QuantityUnit;
  /** The sum in words, with its numbers. */
  readonly formula: string;
  /** Ids of the objects it came from, to be lit on the plan. */
  readonly from: readonly string[];
  /** What was assumed, or null where everything was given. */
  readonly assumed: string | null;
}

export type Quantities = readonly Quantity[];
