// What a roof is once it has been checked: the noun that every later step takes.
import type { RoofPoint, RoofRing } from '../geometry/points';

export const EDGE_KINDS = [
  'parapet',
  'eave',
  'gutter',
  'wall',
  'curb',
  'expansion',
  'tie-in',
  'phase',
] as const;
/** A wall is a wall abutment; a curb is the side of an opening that stands up. */
export type EdgeKind = (typeof EDGE_KINDS)[number];

export const OPENING_KINDS = ['courtyard', 'skylight', 'hatch', 'curb'] as const;
export type OpeningKind = (typeof OPENING_KINDS)[number];

export const FITTING_KINDS = ['pipe', 'drain', 'scupper', 'post', 'anchor'] as const;
export type FittingKind = (typeof FITTING_KINDS)[number];

/** What is said of a side: upstand is the height of the vertical face, allowance how far the field sheet
 * runs past the edge (turn-up or overhang); both in mm. */
export interface EdgeSpec {
  readonly id: string;
  readonly kind: EdgeKind;
  readonly upstand: number;
  readonly allowance: number;
  /** No side lap nearer than this to an edge that runs along the courses, mm: a machine has no room there. */
  readonly clear?: number;
  /** Rows of narrower sheets laid along the edge before the field. */
  readonly perimeter?: PerimeterRows | null;
  /** Said aloud in the ids of its perimeter sheets; its place in the ring where left out. */
  readonly number?: number;
}

export interface PerimeterRows {
  readonly sheets: number;
  /** Width of each, mm. */
  readonly width: number;
}

/** One ring as given: corner k is where edge k starts. Any orientation. */
export interface RingSpec {
  readonly corners: RoofRing;
  readonly edges: readonly EdgeSpec[];
}

export interface OpeningSpec extends RingSpec {
  readonly id: string;
  readonly name: string;
  readonly kind: OpeningKind;
  /** A unit too tall to lift a sheet over, or one that may not be touched while it runs. */
  readonly blocks?: Blocks;
}

/** Why a sheet cannot be dropped over what stands in it; null where it can. */
export type Blocks = 'tall' | 'live' | null;

/** A point item; size is the diameter of a pipe, post or drain bowl, or the width of a scupper, in mm. */
export interface Fitting {
  readonly id: string;
  readonly kind: FittingKind;
  readonly at: RoofPoint;
  readonly size: number;
  /** Drains: no lap nearer to the bowl than this, mm. */
  readonly clear?: number;
  readonly blocks?: Blocks;
}

export const LINE_KINDS = ['expansion', 'tie-in', 'phase', 'valley'] as const;
export type LineKind = (typeof LINE_KINDS)[number];

/** A line on the roof. No sheet crosses an expansion joint, a tie-in or a phase line; no side lap runs along a
 * valley and no end lap lies in it. */
export interface RoofLine {
  readonly id: string;
  readonly kind: LineKind;
  readonly from: RoofPoint;
  readonly to: RoofPoint;
}

/** A plane of the roof with its own fall; where none lies the roof's one fall holds. */
export interface Facet extends Fall {
  readonly id: string;
  readonly ring: RoofRing;
}

/** The deck under the roof; angles in degrees, pitch and flange in mm. */
export interface Deck {
  readonly kind: 'steel' | 'concrete' | 'wood';
  /** Direction of the flutes; null where not given. */
  readonly flutes: number | null;
  /** From rib to rib, and the width of a top flange; null where not given. */
  readonly pitch: number | null;
  readonly flange: number | null;
  /** A place on the middle of some top flange, so that all of them are known; null where not given. */
  readonly rib: RoofPoint | null;
  /** What lies over the deck where fasteners go through, at its thickest, mm; left out where not given. */
  readonly over?: number | undefined;
}

/** Which way the roof falls: the direction water runs, degrees counter-clockwise from +x, and rise over run. */
export interface Fall {
  readonly downhill: number;
  readonly ratio: number | null;
}

/** What `buildRoof` takes. */
export interface RoofSpec {
  readonly id: string;
  readonly name: string;
  readonly outline: RingSpec;
  readonly openings: readonly OpeningSpec[];
  readonly fittings: readonly Fitting[];
  readonly fall: Fall | null;
  readonly lines?: readonly RoofLine[];
  readonly facets?: readonly Facet[];
  readonly deck?: Deck | null;
}

export interface Edge extends EdgeSpec {
  readonly clear: number;
  readonly perimeter: PerimeterRows | null;
  readonly number: number;
  readonly from: RoofPoint;
  readonly to: RoofPoint;
  /** mm, in plan. */
  readonly length: number;
  /** 0 for the outline, 1… for the openings in order. */
  readonly ring: number;
}

export interface Opening {
  readonly id: string;
  readonly name: string;
  readonly kind: OpeningKind;
  readonly blocks: Blocks;
  /** Clockwise. */
  readonly ring: RoofRing;
  /** mm². */
  readonly area: number;
}

export interface Roof {
  readonly id: string;
  readonly name: string;
  /** Counter-clockwise. */
  readonly outline: RoofRing;
  readonly openings: readonly Opening[];
  /** Edges of the outline, then of each opening, in ring order. */
  readonly edges: readonly Edge[];
  readonly fittings: readonly Fitting[];
  readonly fall: Fall | null;
  readonly lines: readonly RoofLine[];
  readonly facets: readonly Facet[];
  readonly deck: Deck | null;
  /** Outline less openings, mm². */
  readonly area: number;
  /** Length of the outline, mm. */
  readonly perimeter: number;
}

/** Why a roof cannot be built: what, where, and what to do. */
export interface RoofFault {
  readonly rule:
    | 'too-few-corners'
    | 'no-area'
    | 'self-crossing'
    | 'opening-outside'
    | 'openings-overlap'
    | 'not-finite'
    | 'fitting-outside'
    | 'line-outside'
    | 'too-large';
  readonly where: string;
  readonly at: RoofPoint | null;
  readonly message: string;
}
