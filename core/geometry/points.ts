// Points and rings, tagged by the space they live in, so that a page point cannot pass for a roof point.
// Orientation, once for the whole project: y up; an outline runs counter-clockwise, an opening clockwise;
// left of the direction of travel is inside.

declare const space: unique symbol;

/** A pair [x, y]. The tag is for the compiler only; a plain pair may become either, never one the other. */
export type PointIn<Space extends string> = readonly [x: number, y: number] & { readonly [space]?: Space };

/** Displayed page: origin at the lower left, y up, units of 1/72 inch. */
export type PagePoint = PointIn<'page'>;
/** On the roof: millimetres, x right, y up. */
export type RoofPoint = PointIn<'roof'>;
/** In a layout's own frame: u along the courses, v across them, millimetres. */
export type FramePoint = PointIn<'frame'>;

export type Ring<P> = readonly P[];
export type PageRing = Ring<PagePoint>;
export type RoofRing = Ring<RoofPoint>;

/** A stretch [from, to] on a line, from ≤ to. */
export type Span = readonly [from: number, to: number];
