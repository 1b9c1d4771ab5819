// What the search looks for and what it reports.
import type { FlashingPiece } from '../details/types';
import type { LayMoney } from '../price/layMoney';
import type { Closing, LapRules, LayRules, RollProduct, TradeRules } from '../sheets/types';

export interface SearchSpec {
  /** Any of these may lie in the field, or only the one named; a narrower one may close the last course. */
  readonly rolls: readonly RollProduct[];
  readonly field: string | null;
  /** Whether the last course may be slit from the field's roll. */
  readonly rip: 'allowed' | 'forbidden';
  readonly sideLap: number;
  readonly lap: LapRules;
  readonly trade: TradeRules;
  readonly money: LayMoney | null;
  /** What may come out of offcuts, where these are used; with money alone. */
  readonly flashings?: FlashingDemand | null;
  /** Kept as they are where a person pinned them. */
  readonly pinned: {
    readonly direction: number | null;
    readonly firstCourse: number | null;
    /** The only ways to close the last course; null for any. */
    readonly closings: readonly (Closing | null)[] | null;
  };
  /** Counted work: candidates scored and candidates cut in full. */
  readonly work: { readonly scored: number; readonly priced: number };
}

/** Flashings of the same membrane as the field, and the roll that they would come from otherwise. */
export interface FlashingDemand {
  readonly pieces: readonly FlashingPiece[];
  readonly roll: RollProduct;
}

/** One way of laying, before it is cut. */
export interface Candidate {
  readonly roll: RollProduct;
  readonly closing: Closing | null;
  readonly rules: Pick<LayRules, 'direction' | 'firstCourse'>;
  /** Laps that don't keep clear, courses too narrow, and valleys not in the middle of a sheet: fewer goes before
   * cheaper. */
  readonly broken: number;
  /** No layout of this candidate costs less. */
  readonly bound: number;
}

export interface Priced extends Candidate {
  /** Less what flashings out of its offcuts save. */
  readonly cost: number;
  /** What these save. */
  readonly saved: number;
  readonly rolls: number;
  readonly lowerBound: number;
  readonly joints: number;
  /** mm² of membrane bought. */
  readonly area: number;
  /** m of side lap. */
  readonly sideMetres: number;
  /** Drains that need a target sheet, by their side laps. */
  readonly targets: number;
}

export interface SearchReport {
  /** Cheapest first, at most one for each direction and roll. */
  readonly best: readonly Priced[];
  /** Cheapest found in each direction tried, for the plot; bound where it was never cut. */
  readonly byDirection: readonly {
    readonly direction: number;
    readonly cost: number;
    readonly exact: boolean;
  }[];
  readonly scored: number;
  readonly skipped: number;
  readonly priced: number;
  /** False where the counted work ran out, or a person stopped, before every candidate was settled. */
  readonly settled: boolean;
  /** Which rules the bound knows, in words; the others only make a layout dearer. */
  readonly boundKnows: string;
}
