// Facets hang on the corners and drains that they were drawn from.
import type { PagePoint } from '../../geometry/points';
import { downFromSide } from '../../roof/water';
import type { Job, JobRoof } from '../schema';
import { withRecord } from './tables';

/** The facets of a roof after a corner or a drain went from one place to another. Where one fell square to its side it
 * still does. */
export function withFacetsFollowing(job: Job, roof: string, from: PagePoint, to: PagePoint): Job {
  const record = job.roofs[roof];
  if (!record?.facets.some(({ ring }) => ring.some((at) => isAt(at, from)))) return job;
  const facets = record.facets.map((facet) => following(facet, from, to));
  return { ...job, roofs: withRecord(job.roofs, { ...record, facets }) };
}

type Facet = JobRoof['facets'][number];

function following(facet: Facet, from: PagePoint, to: PagePoint): Facet {
  if (!facet.ring.some((at) => isAt(at, from))) return facet;
  const ring = facet.ring.map((at) => (isAt(at, from) ? to : at));
  const square = Math.abs(facet.downhill - downOf(facet.ring)) < SQUARE_DEG;
  return { ...facet, ring, downhill: square ? downOf(ring) : facet.downhill };
}

function downOf([from, to]: readonly PagePoint[]): number {
  return from && to ? downFromSide(from, to) : NaN;
}

const SQUARE_DEG = 1e-6;

/** Of a point; what lies there was put there. */
const isAt = (a: PagePoint, b: PagePoint) => Math.hypot(a[0] - b[0], a[1] - b[1]) < 1e-6;
