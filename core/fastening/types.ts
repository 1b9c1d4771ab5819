// Fasteners as rows: {line, first, step, count} says where each one stands without listing them.
import type { RoofPoint } from '../geometry/points';
import type { ZoneName } from './zones';

export interface FastenerRow {
  readonly id: string;
  /** The laps or the edge that the row belongs to. */
  readonly along: readonly string[];
  readonly where: 'lap' | 'edge';
  readonly zone: ZoneName;
  readonly from: RoofPoint;
  readonly to: RoofPoint;
  /** Distance of the first fastener from `from`, and the step to the next, mm. */
  readonly first: number;
  readonly step: number;
  readonly count: number;
}

export interface Fastening {
  readonly rows: readonly FastenerRow[];
  readonly count: number;
}
