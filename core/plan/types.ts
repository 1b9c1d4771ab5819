// What a drawing's page is once the file format is left behind: plain data that any reader can make.
import type { Correction } from './correction';
import type { PagePoint } from '../geometry/points';

/** Verbs of a packed path; each takes its points from `coords` in turn: 1, 1, 3 and 0 of them. */
export const PATH_VERBS = { move: 0, line: 1, curve: 2, close: 3 } as const;

export const PAINT = { stroke: 1, fill: 2, both: 3 } as const;

/** Paths of a page, packed. Path k owns the verbs from `firstVerb[k]` and the numbers from `firstCoord[k]` up to
 * those of path k + 1; both arrays end with one entry more than there are paths. */
export interface PackedPaths {
  readonly count: number;
  readonly verbs: Uint8Array;
  /** x, y, x, y … in the page's own user space, before its box, rotation and unit are applied. */
  readonly coords: Float64Array;
  readonly firstVerb: Uint32Array;
  readonly firstCoord: Uint32Array;
  readonly paint: Uint8Array;
  /** Line width in user space; 0 is the thinnest line there is. */
  readonly width: Float32Array;
  /** 0xRRGGBB of the stroke, or of the fill where there is no stroke. */
  readonly ink: Uint32Array;
  /** 1 where the stroke is dashed. */
  readonly dashed: Uint8Array;
  /** Index into the page's layers. */
  readonly layer: Uint16Array;
  /** Distance between neighbouring numbers at the path's largest coordinate, as they were read. */
  readonly step: Float32Array;
  /** What only painting needs. */
  readonly look?: PathLook;
  /** The rectangle that each path is cut to: its number, from 1, in `boxes`; 0 for none. Another clip counts as its
   * bounding box. */
  readonly clips?: { readonly of: Uint32Array; readonly boxes: Float64Array };
}

/** An ink that paints nothing of ours: a pattern, or a transparent one. */
export const NO_INK = 0xffffffff;

export interface PathLook {
  /** 0xRRGGBB or `NO_INK`. */
  readonly fillInk: Uint32Array;
  /** 255 is opaque. */
  readonly strokeAlpha: Uint8Array;
  readonly fillAlpha: Uint8Array;
  /** Line cap, plus 4 × line join, plus 16 where the fill is even-odd; caps and joins numbered as in PDF. */
  readonly pen: Uint8Array;
  /** Index into `dashes`, lengths in user space; the first is a solid line. */
  readonly dash: Uint16Array;
  readonly dashes: readonly (readonly number[])[];
}

/** One piece of lettering, in user space; `at` is the start of its base line. */
export interface PageText {
  readonly text: string;
  readonly at: readonly [number, number];
  readonly height: number;
  readonly width: number;
  /** Degrees counter-clockwise. */
  readonly angle: number;
}

export interface PageContent {
  /** CropBox within MediaBox, in user space: left, bottom, right, top. */
  readonly box: readonly [number, number, number, number];
  /** Degrees clockwise by which the page is turned when displayed. */
  readonly rotation: 0 | 90 | 180 | 270;
  /** Size of a user-space unit in 1/72 inch. */
  readonly userUnit: number;
  /** How a person has set the displayed page right. */
  readonly correction?: Correction;
  /** Names of the optional-content layers in use; the first is '' for what lies in none. */
  readonly layers: readonly string[];
  readonly paths: PackedPaths;
  readonly texts: readonly PageText[];
  /** Corners of each picture, in user space. */
  readonly images: readonly (readonly (readonly [number, number])[])[];
  /** Layers that are switched off in the file; what lies on them was left out. */
  readonly hiddenLayers: readonly string[];
  /** A drawing without a sheet, drawn full size: the scale at which it was laid out, and where that comes from. */
  readonly fullSize?: { readonly ratio: number; readonly text: string };
}

export interface Note {
  readonly text: string;
  readonly at: PagePoint;
  readonly height: number;
  readonly width: number;
  readonly angle: number;
}

/** Everything on a page that can be measured, in displayed-page points. */
export interface Linework {
  readonly width: number;
  readonly height: number;
  readonly rotation: 0 | 90 | 180 | 270;
  /** x1, y1, x2, y2 of each segment. */
  readonly segments: Float64Array;
  /** Per segment: its line width in points, its path (so that a polyline's pieces are known as one), its layer,
   * and 1 where it is a chord of a curve, 2 where it is dashed, 4 where it bounds a fill (added up). */
  readonly widths: Float32Array;
  readonly path: Uint32Array;
  readonly layer: Uint16Array;
  readonly marks: Uint8Array;
  readonly layers: readonly string[];
  /** How many curves were flattened into segments. */
  readonly curves: number;
  readonly notes: readonly Note[];
  /** The page is a picture: there is little or nothing to snap to. */
  readonly raster: boolean;
  /** Coarsest step of the coordinates as they were read, in points. */
  readonly precision: number;
  /** A drawing without a sheet, drawn full size: the scale at which it was laid out. */
  readonly fullSize?: { readonly ratio: number; readonly text: string };
}

export const SEGMENT_MARK = { curve: 1, dashed: 2, fill: 4 } as const;
