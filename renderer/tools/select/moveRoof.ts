// A roof moves with everything on it; a line moves by itself.
import type { Command } from '../../../core/job/commands/types';
import type { PagePoint } from '../../../core/geometry/points';
import type { Job } from '../../../core/job/schema';

export function moveRoof(job: Job, id: string, by: PagePoint): readonly Command[] {
  const roof = job.roofs[id];
  if (!roof) return [];
  const openings = Object.values(job.openings).filter((one) => one.roof === id);
  const fittings = Object.values(job.fittings).filter((one) => one.roof === id);
  return [
    { kind: 'moveRing', edges: [...roof.outline, ...openings.flatMap((one) => one.ring)], by },
    { kind: 'moveMarks', roof: id, by },
    ...fittings.map((one): Command => ({
      kind: 'setFitting',
      fitting: one.id,
      fields: { at: [one.at[0] + by[0], one.at[1] + by[1]] },
    })),
  ];
}

export function moveLine(job: Job, id: string, by: PagePoint): readonly Command[] {
  const roof = Object.values(job.roofs).find(({ lines }) => lines.some((line) => line.id === id));
  const line = roof?.lines.find((one) => one.id === id);
  if (!roof || !line) return [];
  const shifted = ([x, y]: PagePoint): PagePoint => [x + by[0], y + by[1]];
  return [
    {
      kind: 'setLine',
      roof: roof.id,
      line: id,
      fields: { from: shifted(line.from), to: shifted(line.to) },
    },
  ];
}
