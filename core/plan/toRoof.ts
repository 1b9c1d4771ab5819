// Page points to roof millimetres and back, on the project's grid. Promise: there and back within one grid step.
import type { PagePoint, PageRing, RoofPoint, RoofRing } from '../geometry/points';

/** Roof coordinates keep tenths of a millimetre, the grid of all boolean operations. */
const GRID_PER_MM = 10;

export function toRoofSpace(ring: PageRing, mmPerPoint: number): RoofRing {
  return ring.map((point) => toRoofPoint(point, mmPerPoint));
}

export function toPageSpace(ring: RoofRing, mmPerPoint: number): PageRing {
  return ring.map((point) => toPagePoint(point, mmPerPoint));
}

export function toRoofPoint(point: PagePoint, mmPerPoint: number): RoofPoint {
  return [onGrid(point[0] * mmPerPoint), onGrid(point[1] * mmPerPoint)];
}

export function toPagePoint(point: RoofPoint, mmPerPoint: number): PagePoint {
  return [point[0] / mmPerPoint, point[1] / mmPerPoint];
}

function onGrid(mm: number): number {
  return Math.round(mm * GRID_PER_MM) / GRID_PER_MM;
}
