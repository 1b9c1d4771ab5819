// In: the job. Out: what `planWork` takes of it. Promise: page points become roof millimetres; what a person has not
// decided stays open and is said so.
import type { PagePoint } from '../geometry/points';
import { toRoofPoint } from '../plan/toRoof';
import type { WorkRules } from '../welding/planWork';
import type { LayingOrder } from '../welding/sequence';
import { mmPerPointOf } from './pageScale';
import type { Job } from './schema';

/** Windward first needs a wind, which `setWork` sees to; a file without one is laid as if nobody had chosen. */
export function readOrder({ work }: Pick<Job, 'work'>): LayingOrder {
  if (work.order !== 'windward first') return work.order ?? 'low to high';
  return work.wind === null ? 'low to high' : { windward: work.wind };
}

export function readWork(
  job: Pick<Job, 'work' | 'rates' | 'system' | 'roofs' | 'pages' | 'edges'>,
): WorkRules {
  const { work, rates, system } = job;
  const onRoof = (roof: string, at: PagePoint) => toRoofPoint(at, mmPerPointOf(job, job.roofs[roof]) ?? 1);
  return {
    rates,
    adhered: system.attachment === 'adhered',
    order: readOrder(job),
    orderChosen: work.order !== null && !(work.order === 'windward first' && work.wind === null),
    wind: work.wind,
    forecast: work.forecast,
    calendar: work,
    moved: work.moved.map(({ roof, at, day }) => ({ roof, at: onRoof(roof, at), day })),
    access: work.access ? { roof: work.access.roof, at: onRoof(work.access.roof, work.access.at) } : null,
  };
}
