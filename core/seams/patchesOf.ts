// In: a roof's seams. Out: the patches that they ask for, each cut in one piece from the flashings' membrane.
import type { Patch } from '../sheets/patchOffcuts';
import type { Seams } from './types';

/** Width of the strip welded over a slit, mm (common practice, no source). */
const SLIT_STRIP_MM = 200;

export function patchesOf({ targets, slits }: Pick<Seams, 'targets' | 'slits'>): readonly Patch[] {
  return [
    ...targets.map(({ id, drain, side }): Patch => ({
      id,
      kind: 'target',
      on: drain,
      length: side,
      width: side,
    })),
    ...slits.map(({ id, sheet, length }): Patch => ({
      id,
      kind: 'slit',
      on: sheet,
      length,
      width: SLIT_STRIP_MM,
    })),
  ];
}
