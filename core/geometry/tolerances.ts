// Every tolerance of the project, named after what it decides. Millimetres unless the name says otherwise.

/** The grid of all boolean operations and of every cut: tenths of a millimetre. */
export const GRID_MM = 0.1;
/** Points nearer than half a grid step are one point. */
export const SAME_POINT_MM = 0.05;
/** Below this a stretch in the frame is noise from turning the roof, not membrane. */
export const NOISE_MM = 0.0005;
/** Strips are drawn in by this, so that a side along a border is not taken for area inside; above the noise of
 * turning a roof, and so small that even a side almost along the border ends where it should. */
export const BORDER_MM = 0.00001;
/** A remainder below this is nothing when counting courses. */
export const COUNT_NOISE = 0.000001;
/** Directions nearer than this are one direction. */
export const SAME_DIRECTION_DEG = 0.0001;
/** Below this sine two edges run in line. */
export const IN_LINE_SINE = 0.000001;
/** Coordinates beyond this leave clipper's fast range at a tenth of a millimetre. */
export const FARTHEST_MM = 4_700_000;
