// What the search looks for and what it reports.
import type { LapRules, LayRules, RollProduct } from '../sheets/types';

/** What laying costs, as plain numbers for comparing layouts; nothing of it reaches a bid line. */
export interface LayMoney {
  /** A metre of flat weld by machine, and by hand. */
  readonly weldPerM: number;
  readonly handWeldPerM: number;
  /** Set-up and T-joint treatment of one end lap, beside its metres. */
  readonly perJoint: number;
  /** Getting rid of a square metre that is bought and not laid. */
  readonly disposalPerM2: number;
}

export interface SearchSpec {
  readonly rolls: readonly RollProduct[];
  readonly sideLap: number;
  readonly lap: LapRules;
  readonly money: LayMoney | null;
  /** Kept as they are where a person pinned them. */
  readonly pinned: { readonly direction: number | null; readonly firstCourse: number | null };
  /** Which way water runs, degrees, or null. */
  readonly downhill: number | null;
  /** Counted work: candidates scored and candidates cut in full. */
  readonly work: { readonly scored: number; readonly priced: number };
}

/** One way of laying, before it is cut. */
export interface Candidate {
  readonly roll: RollProduct;
  readonly rules: Pick<LayRules, 'direction' | 'firstCourse'>;
  /** No layout of this candidate costs less. */
  readonly bound: number;
}

export interface Priced extends Candidate {
  readonly cost: number;
  readonly rolls: number;
  readonly lowerBound: number;
  readonly joints: number;
  /** m of side lap and of end lap. */
  readonly sideMetres: number;
  readonly endMetres: number;
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
}
