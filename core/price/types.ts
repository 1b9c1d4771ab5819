// Money as decimal strings with the currency's minor digits; the arithmetic behind them is decimal.
export type BidGroup = 'material' | 'labour' | 'plant' | 'contingency' | 'overhead' | 'profit' | 'tax';

export interface BidLine {
  readonly key: string;
  readonly group: BidGroup;
  readonly label: string;
  /** Amount, unit and rate as written in the formula; null for a percentage line. */
  readonly quantity: string | null;
  readonly unit: string | null;
  readonly rate: string | null;
  readonly amount: string;
  readonly formula: string;
  readonly from: readonly string[];
  /** What was assumed, or null. */
  readonly assumed: string | null;
}

export interface Bid {
  readonly currency: string;
  readonly lines: readonly BidLine[];
  readonly subtotals: readonly { readonly group: BidGroup; readonly amount: string }[];
  readonly total: string;
  /** Total over the roof area, per m². */
  readonly perSquareMetre: string;
}
