// In: a roof and its layout. Out: where a sheet is set down and where a point lies, measured from a corner of the roof
// that is really there, along the courses and square to them. Promise: the corner taken is the nearest one.
import type { RoofPoint } from '../geometry/points';
import type { Roof } from '../roof/types';
import type { Frame, Sheet } from '../sheets/types';

/** A corner of the outline under the name that maps and lists call it by: the roof's letter and its number. */
export interface NamedCorner {
  readonly name: string;
  readonly at: RoofPoint;
  /** The edge that starts here. */
  readonly edge: string;
}

/** mm from the corner along the courses, and square to them towards higher courses. */
export interface SetOut {
  readonly corner: NamedCorner;
  readonly along: number;
  readonly across: number;
}

export function namedCorners(roof: Roof, letter: string): NamedCorner[] {
  return roof.edges
    .filter((edge) => edge.ring === 0)
    .map((edge, k) => ({ name: `${letter}${k + 1}`, at: edge.from, edge: edge.id }));
}

export function setOutFrom(corners: readonly NamedCorner[], frame: Frame, at: RoofPoint): SetOut {
  const from = corners.map((corner) => {
    const [x, y] = [at[0] - corner.at[0], at[1] - corner.at[1]];
    return { corner, along: x * frame.cos + y * frame.sin, across: y * frame.cos - x * frame.sin };
  });
  const far = ({ along, across }: SetOut) => Math.abs(along) + Math.abs(across);
  return from.reduce((best, one) => (far(one) < far(best) ? one : best));
}

/** The corner of the sheet that goes down first: at the end where unrolling starts, on the side of the lower course. */
export function setDownPoint({ corners }: Pick<Sheet, 'corners'>, towards: number): RoofPoint {
  const [a, b] = corners as readonly [RoofPoint, RoofPoint];
  const turn = (towards * Math.PI) / 180;
  const forward = (b[0] - a[0]) * Math.cos(turn) + (b[1] - a[1]) * Math.sin(turn) >= 0;
  return forward ? a : b;
}

/** A direction in words for who holds the plan the right way up. */
export function planHeading(degrees: number): string {
  const names = [
    'right',
    'up and right',
    'up',
    'up and left',
    'left',
    'down and left',
    'down',
    'down and right',
  ];
  return names[((Math.round(degrees / 45) % 8) + 8) % 8] as string;
}
