// Commands on fittings.
import { withFacetsFollowing } from './facets';
import { noSuch, withFields, without, withRecord } from './tables';
import type { CommandHandlers } from './types';

export const fittingCommands: CommandHandlers<'placeFitting' | 'setFitting' | 'removeFitting'> = {
  placeFitting: (job, { fitting }) => {
    if (!job.roofs[fitting.roof]) return noSuch('roof', fitting.roof);
    return { job: { ...job, fittings: withRecord(job.fittings, fitting) } };
  },
  setFitting: (job, { fitting, fields }) => {
    const record = job.fittings[fitting];
    if (!record) return noSuch('fitting', fitting);
    const next = withFields(record, fields, ['clear', 'blocks']);
    const moved = { ...job, fittings: withRecord(job.fittings, next) };
    return {
      job: record.kind === 'drain' ? withFacetsFollowing(moved, record.roof, record.at, next.at) : moved,
    };
  },
  removeFitting: (job, { fitting }) => {
    if (!job.fittings[fitting]) return noSuch('fitting', fitting);
    return { job: { ...job, fittings: without(job.fittings, [fitting]) } };
  },
};
