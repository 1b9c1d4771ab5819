// Where on its page a picked thing stands, so that what is chosen in a list can be brought into sight.
import type { PagePoint } from '../../core/geometry/points';
import type { Job } from '../../core/job/schema';
import type { Shape } from '../../core/drawing/types';
import type { Picked } from '../document/picked';
import type { Results } from '../document/results';
import { edgeEnds } from '../document/rings';

export interface Spot {
  readonly page: string;
  readonly at: PagePoint;
}

export function locate(one: Picked, job: Job, { drawings, estimate }: Results): Spot | null {
  const page = one.roof === null ? undefined : job.roofs[one.roof]?.page;
  if (page === undefined) return null;
  const middle = (points: readonly (readonly [number, number])[], unit: number): Spot | null => {
    if (points.length === 0) return null;
    const sum = points.reduce<[number, number]>((s, p) => [s[0] + p[0], s[1] + p[1]], [0, 0]);
    return { page, at: [sum[0] / points.length / unit, sum[1] / points.length / unit] };
  };
  const cornersOf = (ids: readonly string[]) =>
    ids.flatMap((id): PagePoint[] => {
      const at = job.edges[id]?.at;
      return at ? [at] : [];
    });
  if (one.kind === 'roof') return middle(cornersOf(job.roofs[one.id]?.outline ?? []), 1);
  if (one.kind === 'opening') return middle(cornersOf(job.openings[one.id]?.ring ?? []), 1);
  if (one.kind === 'edge') return middle(edgeEnds(job, one.id)?.map((end) => end.at) ?? [], 1);
  if (one.kind === 'corner') return middle(cornersOf([one.id]), 1);
  const line = job.roofs[one.roof ?? '']?.lines.find(({ id }) => id === one.id);
  if (one.kind === 'line') return line ? middle([line.from, line.to], 1) : null;
  const fitting = job.fittings[one.id];
  if (one.kind === 'fitting') return fitting ? { page, at: fitting.at } : null;
  const drawing = drawings.find((candidate) => candidate.roof === one.roof);
  const run = estimate?.weldPlan.runs.find((candidate) => candidate.id === one.id);
  const id = run?.seam ?? one.id;
  const shape = drawing?.layers
    .flatMap((layer) => layer.shapes)
    .find((s) => s.id === id && s.kind !== 'text');
  return drawing && shape ? middle(pointsOf(shape), drawing.mmPerPoint) : null;
}

function pointsOf(shape: Shape): readonly (readonly [number, number])[] {
  if (shape.kind === 'area') return shape.rings[0] ?? [];
  return shape.kind === 'line' || shape.kind === 'row' ? [shape.from, shape.to] : [shape.at];
}
