// Real building outlines, read at run time from beside the checkout where they lie; never part of the project.
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { buildRoof } from '../../core/roof/buildRoof';
import type { RoofPoint } from '../../core/geometry/points';
import type { Roof } from '../../core/roof/types';
import { roofSpec } from './roofs';

const FILE = join('..', 'shared', 'footprints.json');

export interface Outline {
  readonly id: string;
  readonly roof: Roof;
  /** m², as the source counts it. */
  readonly area: number;
}

/** Empty where the file is not there, so that a stranger's run says so and goes on. */
export function realOutlines(): readonly Outline[] {
  if (!existsSync(FILE)) return [];
  const { polygons } = JSON.parse(readFileSync(FILE, 'utf8')) as {
    polygons: { id: string; outer: RoofPoint[]; holes: RoofPoint[][]; area_m2: number }[];
  };
  const mm = (ring: readonly RoofPoint[]) => ring.map(([x, y]): RoofPoint => [x * 1000, y * 1000]);
  return polygons.map(({ id, outer, holes, area_m2 }) => {
    const built = buildRoof(roofSpec(mm(outer), holes.map(mm)));
    if ('faults' in built) throw new Error(`${id}: ${built.faults[0]?.message}`);
    return { id, roof: built.roof, area: area_m2 };
  });
}
