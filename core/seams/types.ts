// Where sheets meet each other and where they end.
import type { RoofPoint } from '../geometry/points';

interface Lap {
  readonly id: string;
  readonly between: readonly [string, string];
  readonly over: string;
  /** mm. */
  readonly overlap: number;
  /** Centre line of the lap, from end to end. */
  readonly from: RoofPoint;
  readonly to: RoofPoint;
  /** mm of it that has roof under it. */
  readonly length: number;
}

export interface SideLap extends Lap {
  readonly kind: 'side';
  /** Index of the lower of the two courses; of a lap between bands, that of the row that the other band ends on. */
  readonly course: number;
  /** The lap of a band onto the rows along an edge, which the other's courses may meet at any angle. */
  readonly betweenBands?: true;
}

export interface EndLap extends Lap {
  readonly kind: 'end';
  readonly course: number;
  /** Welds along it: two where ends butt under a strip. */
  readonly welds: 1 | 2;
}

/** A welded sheet over a drain that no layout kept clear of laps. */
export interface TargetSheet {
  readonly id: string;
  readonly drain: string;
  readonly at: RoofPoint;
  /** Length of its sides, and of the weld round it, mm. */
  readonly side: number;
  readonly weld: number;
}

/** A cut from a sheet's edge to what it could not be dropped over, with the strip welded over it. */
export interface Slit {
  readonly id: string;
  readonly sheet: string;
  /** The opening or fitting. */
  readonly unit: string;
  readonly from: RoofPoint;
  readonly to: RoofPoint;
  /** mm; its strip takes two welds of it. */
  readonly length: number;
}

/** Three layers where an end lap meets a side lap. */
export interface TJoint {
  readonly id: string;
  readonly at: RoofPoint;
  readonly endLap: string;
  readonly sideLap: string;
}

/** The line where the field sheet ends at an edge of the roof. */
export interface Termination {
  readonly id: string;
  readonly edge: string;
  readonly from: RoofPoint;
  readonly to: RoofPoint;
  /** mm. */
  readonly length: number;
}

export interface Seams {
  readonly sideLaps: readonly SideLap[];
  readonly endLaps: readonly EndLap[];
  readonly tJoints: readonly TJoint[];
  readonly terminations: readonly Termination[];
  readonly targets: readonly TargetSheet[];
  readonly slits: readonly Slit[];
  /** mm of cut edge of a reinforced sheet that shows, to be sealed; 0 where the sheet is not reinforced. */
  readonly cutEdge: number;
}
