// In: a name and a date. Out: an empty job with the shipped rates. Promise: it passes the job's own schema.
import { SHIPPED_RATES } from '../rates/shipped';
import { JOB_FORMAT, JOB_VERSION, type Job, type JobSystem } from './schema';
import { NO_WORK } from './weldingSchema';

/** Laps and limits by common practice, no source; see the specified system's own instructions. */
export const SHIPPED_SYSTEM: JobSystem = {
  material: 'TPO',
  thickness: 1.5,
  attachment: 'fastened in the lap',
  roll: 'field-3000x30',
  sideLap: 120,
  endLap: 80,
  endLapStagger: 300,
  minPiece: 1500,
  cutAllowance: 0,
  joints: 'allowed',
  minWidth: 0,
  cornerClear: 300,
  backing: 'bare',
  stripWidth: 150,
  reinforced: true,
  rulesOff: [],
  flashing: 'offcuts first',
  fastenerSpacing: 300,
};

/** `date` is YYYY-MM-DD and comes from outside: core has no clock. */
export function newJob(about: { readonly name: string; readonly date: string }): Job {
  return {
    format: JOB_FORMAT,
    version: JOB_VERSION,
    about: { name: about.name, client: '', reference: '', preparedBy: '', date: about.date },
    display: 'metric',
    drawings: {},
    pages: {},
    roofs: {},
    openings: {},
    edges: {},
    fittings: {},
    work: NO_WORK,
    issues: {},
    log: {},
    system: SHIPPED_SYSTEM,
    rates: SHIPPED_RATES,
    confirmed: [],
  };
}
