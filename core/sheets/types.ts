// The nouns of laying: rules, courses, runs, sheets, rolls.
import type { RoofPoint, Span } from '../geometry/points';

/** A roll on offer: width and length in mm, cost in the job's currency as a plain number (for comparing only). */
export interface RollProduct {
  readonly id: string;
  readonly width: number;
  readonly length: number;
  readonly cost: number;
}

/** How sheets may lie. Lengths in mm, angles in degrees counter-clockwise from +x. */
export interface LayRules {
  readonly direction: number;
  /** Low edge of course 1 against the lowest point of the grown outline, in (−cover width, 0]. */
  readonly firstCourse: number;
  readonly sideLap: number;
  /** Which way water runs, or null where no fall is given: then the higher course lies over. */
  readonly downhill: number | null;
}

export interface LapRules {
  readonly endLap: number;
  readonly endLapStagger: number;
  readonly minPiece: number;
  readonly joints: 'allowed' | 'forbidden';
  /** Added to every run at each end. */
  readonly cutAllowance: number;
}

/** How the last course is closed where less than a whole sheet is needed there: with a narrower roll, or with
 * lanes slit from the roll that lies everywhere else. */
export type Closing =
  { readonly kind: 'narrow'; readonly roll: RollProduct } | { readonly kind: 'rip'; readonly lanes: number };

/** What a layout needs beside the roof itself. */
export interface LayoutSpec {
  readonly roll: RollProduct;
  /** null: the last course is a whole sheet like the others. */
  readonly closing: Closing | null;
  readonly sideLap: number;
  readonly lap: LapRules;
  /** Degrees in [0, 180), or 'auto' for the better of the longest edge's direction and its perpendicular. */
  readonly direction: number | 'auto';
  readonly firstCourse: number | null;
  /** Put before every id where a job has several roofs, such as `B-`; else empty. */
  readonly prefix: string;
}

/** Turns roof millimetres into the layout's frame (u along, v across) and back. */
export interface Frame {
  readonly direction: number;
  readonly cos: number;
  readonly sin: number;
}

/** One row of membrane: it covers v from `low` to `low + width` in the frame. Courses count from 1. */
export interface Course {
  readonly band: string;
  readonly index: number;
  readonly low: number;
  readonly width: number;
  /** Overlap with the next course up, mm; 0 for the last. */
  readonly lapAbove: number;
  /** Id of the roll product it is cut from, and how many lanes that roll is slit into for it. */
  readonly roll: string;
  readonly lanes: number;
}

/** The stretch of a course over the roof, before it is cut into pieces: u from, u to. */
export interface Run {
  readonly course: number;
  readonly span: Span;
}

/** Where a piece lies on its roll: `start` mm along it, `lane` mm across it. */
export interface Cut {
  readonly roll: string;
  readonly start: number;
  readonly lane: number;
}

export interface Sheet {
  readonly id: string;
  readonly band: string;
  readonly course: number;
  /** Number of the run within its course, and of the piece within the course, both from 1. */
  readonly run: number;
  readonly part: number;
  /** The piece as cut, before it is trimmed to the roof; four corners counter-clockwise on the roof. */
  readonly corners: readonly RoofPoint[];
  readonly along: Span;
  readonly across: Span;
  readonly width: number;
  readonly length: number;
  readonly longEdges: readonly ['factory' | 'cut', 'factory' | 'cut'];
  readonly cut: Cut;
}

export interface RollCut {
  readonly id: string;
  readonly product: string;
  /** In the order of cutting. */
  readonly pieces: readonly {
    readonly sheet: string;
    readonly start: number;
    readonly length: number;
    readonly lane: number;
  }[];
  /** mm of full-width roll left over. */
  readonly offcut: number;
}

/** One way of cutting the same runs: fewer rolls take more joints. */
export interface CutWay {
  readonly rolls: number;
  readonly joints: number;
}

export interface CutList {
  readonly rolls: readonly RollCut[];
  /** Proof: these runs cannot be cut from fewer rolls under these rules. */
  readonly lowerBound: number;
  /** The weaker proof for any layout whatever: roof area with the least laps over the area of a roll. */
  readonly areaBound: number;
}

/** Courses, runs, sheets and cuts of one roof in one direction. */
export interface Layout {
  readonly roof: string;
  /** What was asked for. */
  readonly spec: LayoutSpec;
  readonly rules: LayRules;
  readonly frame: Frame;
  readonly courses: readonly Course[];
  readonly runs: readonly Run[];
  readonly sheets: readonly Sheet[];
  readonly cutList: CutList;
  /** The plain way of cutting these runs and the one with the fewest rolls found, where they differ. */
  readonly ways: readonly CutWay[];
  /** What the step decided for itself, to be said on screen and on paper. */
  readonly notes: readonly string[];
}

/** Why no layout can be made: which input, what is wrong, what to do. */
export interface LayoutFault {
  readonly where: string;
  readonly message: string;
}
