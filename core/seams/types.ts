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
  /** The lower of the two courses. */
  readonly course: number;
}

export interface EndLap extends Lap {
  readonly kind: 'end';
  readonly course: number;
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
}
