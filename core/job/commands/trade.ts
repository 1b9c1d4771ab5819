// Commands on what the rules of the trade rest on: lines, facets, and the end laps that a person pins.
import type { PagePoint } from '../../geometry/points';
import type { Job, JobRoof } from '../schema';
import { withMarksMoved, withWorkMoved } from './marks';
import { noSuch, refuse, withRecord } from './tables';
import type { CommandHandlers, CommandResult } from './types';

export const tradeCommands: CommandHandlers<
  'addLine' | 'setLine' | 'removeLine' | 'setFacets' | 'pinEndLap' | 'unpinEndLap' | 'moveMarks'
> = {
  addLine: (job, { roof, line }) =>
    onRoof(job, roof, (record) =>
      line.from[0] === line.to[0] && line.from[1] === line.to[1]
        ? refuse('A line needs two places', 'Click its end somewhere else')
        : { ...record, lines: [...record.lines.filter(({ id }) => id !== line.id), line] },
    ),
  setLine: (job, { roof, line, fields }) =>
    onRoof(job, roof, (record) =>
      record.lines.some(({ id }) => id === line)
        ? { ...record, lines: record.lines.map((one) => (one.id === line ? { ...one, ...fields } : one)) }
        : noSuch('line', line),
    ),
  removeLine: (job, { roof, line }) =>
    onRoof(job, roof, (record) =>
      record.lines.some(({ id }) => id === line)
        ? { ...record, lines: record.lines.filter(({ id }) => id !== line) }
        : noSuch('line', line),
    ),
  setFacets: (job, { roof, facets }) =>
    onRoof(job, roof, (record) =>
      facets.some(({ ring }) => ring.length < 3)
        ? refuse('A facet needs at least three corners', 'Place more corners before closing it')
        : { ...record, facets },
    ),
  pinEndLap: (job, { roof, at, instead }) =>
    onRoof(job, roof, (record) => {
      const pins = record.laying.pins ?? [];
      const next =
        instead === null ? [...pins, at] : pins.map((pin, k): PagePoint => (k === instead ? at : pin));
      return { ...record, laying: { ...record.laying, pins: next } };
    }),
  unpinEndLap: (job, { roof, index }) =>
    onRoof(job, roof, (record) => {
      const { pins = [], ...rest } = record.laying;
      if (pins[index] === undefined) return noSuch('pinned end lap', String(index + 1));
      const left = pins.filter((_pin, k) => k !== index);
      return { ...record, laying: left.length === 0 ? rest : { ...rest, pins: left } };
    }),
  moveMarks: (job, { roof, by }) => {
    const shifted = ([x, y]: PagePoint): PagePoint => [x + by[0], y + by[1]];
    const moved = onRoof(job, roof, (record) => withMarksMoved(record, shifted));
    if ('refusal' in moved) return moved;
    return { job: { ...moved.job, work: withWorkMoved(job.work, (id) => id === roof, shifted) } };
  },
};

function onRoof(job: Job, id: string, change: (record: JobRoof) => JobRoof | CommandResult): CommandResult {
  const record = job.roofs[id];
  if (!record) return noSuch('roof', id);
  const next = change(record);
  return 'refusal' in next || 'job' in next ? next : { job: { ...job, roofs: withRecord(job.roofs, next) } };
}
