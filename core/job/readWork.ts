// In: the job. Out: what planning the work takes of it. Promise: page points become roof millimetres; what a person has
// not decided stays open and is said so.
import { toRoofPoint } from '../plan/toRoof';
import type { WorkRules } from '../welding/orderWork';
import type { MovedPlace } from '../welding/planWork';
import type { LayingOrder } from '../welding/sequence';
import { mmPerPointOf } from './pageScale';
import type { Job, JobSystem, JobWork } from './schema';

/** All but the moves, which `readMoved` reads. `scale`: millimetres on the roof per point of the page of the roof with the access, null where there is none. */
export function readWork(
  { attachment }: JobSystem,
  rates: Job['rates'],
  work: JobWork,
  scale: number | null,
): WorkRules {
  const { start, weekdays, lost, wind, forecast, access } = work;
  return {
    rates,
    adhered: attachment === 'adhered',
    order: readOrder(work),
    orderChosen: work.order !== null && !(work.order === 'windward first' && wind === null),
    wind,
    forecast,
    calendar: { start, weekdays, lost },
    access: access ? { roof: access.roof, at: toRoofPoint(access.at, scale ?? 1) } : null,
  };
}

/** Windward first needs a wind, which `setWork` sees to; a file without one is laid as if nobody had chosen. */
function readOrder(work: Pick<JobWork, 'order' | 'wind'>): LayingOrder {
  if (work.order !== 'windward first') return work.order ?? 'low to high';
  return work.wind === null ? 'low to high' : { windward: work.wind };
}

/** The courses that a person moved; a roof without a scale is not planned, and its moves mean nothing yet. */
export function readMoved(job: Job): readonly MovedPlace[] {
  return job.work.moved.map(({ roof, at, day }) => ({
    roof,
    at: toRoofPoint(at, mmPerPointOf(job, job.roofs[roof]) ?? 1),
    day,
  }));
}
