// Who welds what, with what, in which order, and how long it takes.
import type { RoofPoint } from '../geometry/points';

export type WeldMethod = 'machine' | 'hand';
export type WeldKind = 'side-lap' | 'end-lap' | 'flashing' | 'corner' | 'boot' | 't-joint';

/** One continuous weld, by one machine or hand, in one go. Times in minutes. */
export interface WeldRun {
  readonly id: string;
  /** Place in the order of work, from 1. */
  readonly order: number;
  readonly roof: string;
  readonly kind: WeldKind;
  readonly method: WeldMethod;
  /** The seam, edge or fitting that is welded. */
  readonly seam: string;
  readonly course: number | null;
  readonly from: RoofPoint;
  readonly to: RoofPoint;
  /** mm. */
  readonly length: number;
  /** m/min. */
  readonly speed: number;
  readonly weldMinutes: number;
  readonly setupMinutes: number;
  readonly walkMinutes: number;
}

export interface WeldPlan {
  readonly runs: readonly WeldRun[];
  readonly machineMinutes: number;
  readonly handMinutes: number;
}
