// In: the edges of a roof's outline. Out: its sides: edges nearly in line with the same rows, which are laid as one.
import type { RoofRing } from '../geometry/points';
import type { Edge, PerimeterRows } from '../roof/types';

/** An edge, or several in line that have the same rows: they are laid as one. */
export interface Side extends Edge {
  readonly corners: RoofRing;
}

/** Edges that turn by less and leave the line by no more than this are one side, degrees and mm. */
const IN_LINE_DEG = 2;
const OFF_LINE_MM = 25;

const hasRows = ({ perimeter }: Edge) => perimeter !== null && perimeter.sheets > 0;

/** Along a step shorter than its rows are wide there is nothing to roll out. */
export const laysRows = (side: Edge) => hasRows(side) && side.length >= (side.perimeter?.width ?? 0);

const sameRows = (a: Edge, b: Edge) =>
  hasRows(a) &&
  hasRows(b) &&
  a.perimeter?.sheets === b.perimeter?.sheets &&
  a.perimeter?.width === b.perimeter?.width &&
  a.allowance === b.allowance;

export function sidesInLine(ring: readonly Edge[]): Side[] {
  const alone = (edge: Edge): Side => ({ ...edge, corners: [edge.from, edge.to] });
  // Begin where a side begins, so that none is cut in two by where the ring happens to start.
  const start = ring.findIndex(
    (edge, i) => !goesOn(alone(ring[(i + ring.length - 1) % ring.length] as Edge), edge),
  );
  const sides: Side[] = [];
  for (let i = 0; i < ring.length; i++) {
    const edge = ring[(Math.max(0, start) + i) % ring.length] as Edge;
    const last = sides[sides.length - 1];
    if (last && goesOn(last, edge)) sides[sides.length - 1] = joined(last, edge);
    else sides.push(alone(edge));
  }
  return sides;
}

function goesOn(side: Side, edge: Edge): boolean {
  if (!sameRows(side, edge) || Math.abs(turnBetween(side, edge)) > IN_LINE_DEG) return false;
  const { from, corners, length } = joined(side, edge);
  return corners.every(
    ([x, y]) =>
      Math.abs((x - from[0]) * (edge.to[1] - from[1]) - (y - from[1]) * (edge.to[0] - from[0])) <=
      OFF_LINE_MM * length,
  );
}

const joined = (side: Side, edge: Edge): Side => ({
  ...side,
  to: edge.to,
  corners: [...side.corners, edge.to],
  length: Math.hypot(edge.to[0] - side.from[0], edge.to[1] - side.from[1]),
});

/** Degrees that the outline turns left from one edge to the next. */
export function turnBetween(edge: Edge, next: Edge): number {
  const [ax, ay] = [edge.to[0] - edge.from[0], edge.to[1] - edge.from[1]];
  const [bx, by] = [next.to[0] - next.from[0], next.to[1] - next.from[1]];
  return (Math.atan2(ax * by - ay * bx, ax * bx + ay * by) * 180) / Math.PI;
}

/** How deep the rows along an edge reach, from where the membrane begins, mm. */
export const depthOf = ({ sheets, width }: PerimeterRows, sideLap: number) =>
  sheets * width - (sheets - 1) * sideLap;

/** Where the middles of the laps between the rows lie, from where the membrane begins, mm. */
export const lapMiddles = ({ sheets, width }: PerimeterRows, sideLap: number) =>
  Array.from({ length: sheets - 1 }, (_, i) => (i + 1) * (width - sideLap) + sideLap / 2);
