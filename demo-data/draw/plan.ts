// What a demo plan holds: roofs in millimetres, and how its sheet is set out.
import type { EdgeKind, FittingKind, OpeningKind } from '../../core/roof/types';
import type { Place } from './ink';

export interface PlanOpening {
  readonly mark: string;
  readonly name: string;
  readonly kind: OpeningKind;
  readonly upstand: number;
  readonly ring: readonly Place[];
}

export interface PlanFitting {
  readonly mark: string;
  readonly kind: FittingKind;
  readonly at: Place;
  readonly size: number;
}

export interface PlanRoof {
  readonly name: string;
  readonly level: string;
  /** Counter-clockwise; edge k runs from corner k. */
  readonly outline: readonly Place[];
  readonly edges: readonly {
    readonly kind: EdgeKind;
    readonly upstand: number;
    readonly allowance: number;
  }[];
  readonly openings: readonly PlanOpening[];
  readonly fittings: readonly PlanFitting[];
  readonly fall: { readonly downhill: number; readonly ratio: number; readonly text: string };
  readonly arrows: readonly (readonly [Place, Place])[];
  /** Ridge lines of saddles, dashed. */
  readonly saddles: readonly (readonly Place[])[];
  /** Places along a gutter at y = 0 where its outlets are. */
  readonly outlets: readonly number[];
}

/** A string of dimensions beside the building: stops along x or y, on a line that lies at `at`. */
export interface DimensionString {
  readonly along: 'x' | 'y';
  readonly at: number;
  readonly stops: readonly number[];
  /** Where the extension lines begin. */
  readonly from: number;
}

export interface PlanSheet {
  /** Paper in mm. */
  readonly paper: readonly [number, number];
  readonly ratio: number;
  /** Where the building's origin stands on the paper, mm. */
  readonly origin: Place;
  readonly display: 'metric' | 'imperial';
  readonly project: readonly string[];
  readonly practice: readonly string[];
  readonly title: string;
  readonly number: string;
  readonly revision: string;
  readonly date: string;
  /** As printed; on one sheet wrong on purpose. */
  readonly scaleNote: string;
  readonly scaleBar: { readonly step: number; readonly labels: readonly string[] };
  readonly roofs: readonly PlanRoof[];
  readonly gridX: readonly (readonly [string, number])[];
  readonly gridY: readonly (readonly [string, number])[];
  readonly gridReach: { readonly low: Place; readonly high: Place };
  readonly strings: readonly DimensionString[];
  readonly notes: readonly string[];
  readonly revisions: readonly (readonly [string, string, string])[];
  /** Low and high corners of what a revision changed. */
  readonly clouds: readonly (readonly [Place, Place])[];
  readonly northAt: Place;
  readonly titleAt: Place;
  /** Depth of a parapet's top, mm on the building. */
  readonly parapet: number;
  /** Height of a parapet, as written in its section. */
  readonly upstandNote: string;
  /** How far the field sheet hangs over the gutter's edge, likewise. */
  readonly overhangNote: string;
}
