// Commands on roofs and their openings.
import { fasteningSchema, type Job } from '../schema';
import { noSuch, refuse, withFields, without, withRecord, withRecords } from './tables';
import type { CommandHandlers } from './types';

export const roofCommands: CommandHandlers<
  'addRoof' | 'setRoof' | 'removeRoof' | 'addOpening' | 'setOpening' | 'removeOpening'
> = {
  addRoof: (job, { roof, edges }) => {
    if (!job.pages[roof.page]) return noSuch('page', roof.page);
    if (roof.outline.length < 3)
      return refuse('A roof needs at least three corners', 'Place more corners before closing it');
    return { job: { ...job, roofs: withRecord(job.roofs, roof), edges: withRecords(job.edges, edges) } };
  },
  setRoof: (job, { roof, fields }) => {
    const record = job.roofs[roof];
    if (!record) return noSuch('roof', roof);
    const zones = fasteningSchema.optional().safeParse(fields.fastening);
    if (!zones.success)
      return refuse(
        `fastening.${zones.error.issues[0]?.path.map(String).join('.') ?? ''}: ${zones.error.issues[0]?.message ?? ''}`,
        'The old value was kept',
      );
    return { job: { ...job, roofs: withRecord(job.roofs, { ...record, ...fields }) } };
  },
  removeRoof: (job, { roof }) => {
    const record = job.roofs[roof];
    if (!record) return noSuch('roof', roof);
    const openings = Object.values(job.openings).filter((o) => o.roof === roof);
    const fittings = Object.values(job.fittings).filter((f) => f.roof === roof);
    return {
      job: {
        ...job,
        roofs: without(job.roofs, [roof]),
        openings: without(
          job.openings,
          openings.map((o) => o.id),
        ),
        fittings: without(
          job.fittings,
          fittings.map((f) => f.id),
        ),
        edges: without(job.edges, [...record.outline, ...openings.flatMap((o) => o.ring)]),
      },
    };
  },
  addOpening: (job, { opening, edges }) => {
    if (!job.roofs[opening.roof]) return noSuch('roof', opening.roof);
    if (opening.ring.length < 3)
      return refuse('An opening needs at least three corners', 'Place more corners before closing it');
    return {
      job: { ...job, openings: withRecord(job.openings, opening), edges: withRecords(job.edges, edges) },
    };
  },
  setOpening: (job, { opening, fields }) => {
    const record = job.openings[opening];
    if (!record) return noSuch('opening', opening);
    return { job: { ...job, openings: withRecord(job.openings, withFields(record, fields, ['blocks'])) } };
  },
  removeOpening: (job, { opening }) => {
    const record = job.openings[opening];
    if (!record) return noSuch('opening', opening);
    return {
      job: { ...job, openings: without(job.openings, [opening]), edges: without(job.edges, record.ring) },
    };
  },
};

/** The ring (roof outline or opening) that an edge belongs to. */
export function ringOf(
  job: Job,
  edge: string,
): { readonly kind: 'roof' | 'opening'; readonly id: string; readonly ring: readonly string[] } | null {
  for (const roof of Object.values(job.roofs))
    if (roof.outline.includes(edge)) return { kind: 'roof', id: roof.id, ring: roof.outline };
  for (const opening of Object.values(job.openings))
    if (opening.ring.includes(edge)) return { kind: 'opening', id: opening.id, ring: opening.ring };
  return null;
}
