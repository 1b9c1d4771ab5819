// Commands on the corners and edges of a ring. An inserted corner splits an edge into two of the same kind.
import type { PagePoint } from '../../geometry/points';
import { distance } from '../../geometry/ring';
import { MOST_MEASURED_MM, type Job, type JobEdge } from '../schema';
import { withFacetsFollowing } from './facets';
import { ringOf } from './roofs';
import { noSuch, refuse, withFields, without, withRecord, withRecords } from './tables';
import type { CommandHandlers } from './types';

export const ringCommands: CommandHandlers<
  'moveCorner' | 'moveRing' | 'insertCorner' | 'removeCorner' | 'setEdges'
> = {
  moveCorner: (job, { edge, at }) => {
    const record = job.edges[edge];
    if (!record) return noSuch('corner', edge);
    const moved = { ...job, edges: withRecord(job.edges, { ...record, at }) };
    const owner = ringOf(job, edge);
    return { job: owner?.kind === 'roof' ? withFacetsFollowing(moved, owner.id, record.at, at) : moved };
  },
  moveRing: (job, { edges, by }) => {
    const moved = [];
    for (const id of edges) {
      const record = job.edges[id];
      if (!record) return noSuch('corner', id);
      moved.push({ ...record, at: [record.at[0] + by[0], record.at[1] + by[1]] as const });
    }
    return { job: { ...job, edges: withRecords(job.edges, moved) } };
  },
  insertCorner: (job, { after, edge, at }) => {
    const before = job.edges[after];
    const owner = ringOf(job, after);
    if (!before || !owner) return noSuch('edge', after);
    const place = owner.ring.indexOf(after) + 1;
    const ring = [...owner.ring.slice(0, place), edge, ...owner.ring.slice(place)];
    const end = job.edges[owner.ring[place % owner.ring.length] ?? '']?.at ?? at;
    const [first, second] = splitMeasure(before, at, end);
    return {
      job: withRing(
        { ...job, edges: withRecords(job.edges, [first, { ...second, id: edge, at }]) },
        owner,
        ring,
      ),
    };
  },
  removeCorner: (job, { edge }) => {
    const owner = ringOf(job, edge);
    if (!owner) return noSuch('corner', edge);
    if (owner.ring.length <= 3)
      return refuse('Three corners are the least', `Remove the whole ${owner.kind} instead`);
    const ring = owner.ring.filter((id) => id !== edge);
    return { job: withRing({ ...job, edges: without(job.edges, [edge]) }, owner, ring) };
  },
  setEdges: (job, { edges, fields }) => {
    const changed = [];
    for (const id of edges) {
      const record = job.edges[id];
      if (!record) return noSuch('edge', id);
      changed.push(withFields(record, fields, ['clear', 'perimeter', 'measured']));
    }
    for (const [name, said] of LENGTHS) {
      const value = fields[name] ?? 0;
      if (!(value >= 0)) return refuse(`The ${said} cannot be below zero`, 'Type 0 where there is none');
    }
    if (fields.perimeter && !(fields.perimeter.width > 0))
      return refuse('A perimeter sheet has a width', 'Type more than zero, or take the rows out');
    const { from = 0, to = 0 } = fields.measured ?? {};
    if (!(Math.abs(from) <= MOST_MEASURED_MM && Math.abs(to) <= MOST_MEASURED_MM))
      return refuse(
        `An edge more than ${MOST_MEASURED_MM} mm from where it is drawn is another roof`,
        'Check the measure, or move the corner on the plan',
      );
    return { job: { ...job, edges: withRecords(job.edges, changed) } };
  },
};

/** What was measured along an edge goes on along both its halves. */
function splitMeasure(edge: JobEdge, at: PagePoint, end: PagePoint): readonly [JobEdge, JobEdge] {
  const { measured } = edge;
  if (!measured) return [edge, edge];
  const [before, after] = [distance(edge.at, at), distance(at, end)];
  const share = before + after > 0 ? before / (before + after) : 0;
  const between = measured.from + (measured.to - measured.from) * share;
  return [
    { ...edge, measured: { from: measured.from, to: between } },
    { ...edge, measured: { from: between, to: measured.to } },
  ];
}

const LENGTHS = [
  ['upstand', 'upstand'],
  ['allowance', 'allowance'],
  ['clear', 'clear distance'],
] as const;

function withRing(job: Job, owner: { kind: 'roof' | 'opening'; id: string }, ring: readonly string[]): Job {
  if (owner.kind === 'roof') {
    const roof = job.roofs[owner.id];
    return roof ? { ...job, roofs: withRecord(job.roofs, { ...roof, outline: ring }) } : job;
  }
  const opening = job.openings[owner.id];
  return opening ? { ...job, openings: withRecord(job.openings, { ...opening, ring }) } : job;
}
