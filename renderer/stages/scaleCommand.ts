// The command that sets a page's scale to what the sheet itself shows.
import type { Command } from '../../core/job/commands/types';
import { sourceOf } from '../../core/plan/scale';
import type { ScaleCandidate } from '../../core/plan/scale';
import { formatScale, mmPerPoint } from '../../core/units/scales';

export function scaleCommand(page: string, says: ScaleCandidate): Command {
  const text = `${formatScale(says.ratio)}, by ${sourceOf(says)}`;
  return {
    kind: 'setScale',
    page,
    scale: { mmPerPoint: mmPerPoint(says.ratio), from: { by: 'ratio', ratio: says.ratio, text } },
  };
}
