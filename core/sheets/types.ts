// The nouns of laying: rules, courses, runs, sheets, rolls.
import type { RoofPoint, RoofRing, Span } from '../geometry/points';

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

/** The rules of the trade that decide where a lap may lie, as the job sets them; mm. */
export interface TradeRules {
  /** Least width of a course over the roof; 0 for none. */
  readonly minWidth: number;
  /** No end lap nearer to the corner of an opening; 0 for none. */
  readonly cornerClear: number;
  /** Width of the strip welded over butted ends; null where ends lap. Such a sheet is fleece-backed: it has one bare
   * long edge to weld on, its selvedge. */
  readonly strip: number | null;
  /** A reinforced sheet's cut edge wicks: it goes under, or is sealed. */
  readonly reinforced: boolean;
  /** Whether sheets are fastened in their laps, so that courses run across the flutes of a steel deck. */
  readonly inLap: boolean;
  /** Rules that the job's specification switches off. */
  readonly off: readonly TradeRule[];
  /** Where a person wants an end lap, on the roof. */
  readonly pins: readonly RoofPoint[];
  /** Which end of the courses is laid first, where a person says so; null: as the water asks. */
  readonly order: CourseOrder | null;
}

/** `up`: course 1 is laid first and each next one over it; `down`: the last one first. */
export type CourseOrder = 'up' | 'down';

export const TRADE_RULES = [
  'sheds-water',
  'valley-clear',
  'drain-clear',
  'edge-clear',
  'corner-clear',
  'least-width',
  'across-flutes',
  'cut-edge-under',
  'dropped-over',
] as const;
export type TradeRule = (typeof TRADE_RULES)[number];

/** A part of the roof that is laid in one piece: the field, a part of it behind an expansion joint, or the rows of
 * sheets along an edge. Ids: `F`, `F2` … and `E3` for the side with number 3. */
export interface Band {
  readonly id: string;
  /** The rows along an edge, the sheet across a bend between two of those, or what they leave. */
  readonly kind: 'field' | 'edge' | 'bend';
  /** Which part of the roof, cut along expansion joints, tie-ins and phase lines. */
  readonly part: number;
  readonly frame: Frame;
  /** What its sheets cover, laps onto other bands included. */
  readonly cover: readonly RoofRing[];
  /** The share of the roof that its laps are counted on: the bands' grounds meet at the centres of the laps between. */
  readonly ground: readonly RoofRing[];
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
  /** Every roll on offer: rows along edges take one that is as wide as they are. */
  readonly rolls: readonly RollProduct[];
  readonly sideLap: number;
  readonly lap: LapRules;
  readonly trade: TradeRules;
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

/** One row of membrane: it covers v from `low` to `low + width` in its band's frame. */
export interface Course {
  readonly band: string;
  /** Counts through all bands and skips one between them, so that courses whose indices follow on each other are
   * neighbours. */
  readonly index: number;
  /** Within its band, from 1. */
  readonly number: number;
  readonly low: number;
  readonly width: number;
  /** Overlap with the next course up, mm; 0 for the last. */
  readonly lapAbove: number;
  /** Whether the next course up lies over this one, and so is laid after it. */
  readonly nextOver: boolean;
  /** Id of the roll product it is cut from, and how many lanes that roll is slit into for it. */
  readonly roll: string;
  readonly lanes: number;
  /** It is slit from a wider roll. */
  readonly slit?: true;
}

/** The stretch of a course over the roof, before it is cut into pieces: u from, u to. */
export interface Run {
  /** Index of its course. */
  readonly course: number;
  readonly span: Span;
  /** It goes on from the run before by an end lap that a person put there. */
  readonly continues?: true;
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
  /** The long edges, low and high. */
  readonly longEdges: readonly ['factory' | 'cut', 'factory' | 'cut'];
  /** The long edge that is left bare for welding on, of a fleece-backed sheet. */
  readonly selvedge: 'low' | 'high' | null;
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
  /** The field's. */
  readonly frame: Frame;
  readonly bands: readonly Band[];
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
