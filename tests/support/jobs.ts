// A small job built the way a person builds one: command by command.
import { applyCommand } from '../../core/job/commands/applyCommand';
import type { Command } from '../../core/job/commands/types';
import { newJob } from '../../core/job/newJob';
import type { Job, JobEdge } from '../../core/job/schema';
import type { Roof } from '../../core/roof/types';

/** Applies commands in turn, or fails the test with the refusal. */
export function applyAll(job: Job, commands: readonly Command[]): Job {
  return commands.reduce((at, command) => {
    const result = applyCommand(at, command);
    if ('refusal' in result) throw new Error(`${command.kind}: ${result.refusal}`);
    return result.job;
  }, job);
}

export function edges(
  prefix: string,
  corners: readonly (readonly [number, number])[],
  fields: Partial<JobEdge> = {},
): JobEdge[] {
  return corners.map((at, i) => ({
    kind: 'parapet',
    upstand: 300,
    allowance: 0,
    ...fields,
    id: `${prefix}${i}`,
    at,
  }));
}

/** One point on the page is 100 mm on the roof: page coordinates below read as decimetres. */
export const SCALE = { mmPerPoint: 100, from: { by: 'ratio' as const, ratio: 283.46, text: '' } };

export function smallJob(): Job {
  const outline = edges('e', [
    [0, 0],
    [300, 0],
    [300, 120],
    [0, 120],
  ]);
  const curb = edges(
    'c',
    [
      [50, 50],
      [62, 50],
      [62, 74],
      [50, 74],
    ],
    { kind: 'curb' },
  );
  return applyAll(newJob({ name: 'Rope walk', date: '2026-03-02' }), [
    {
      kind: 'addPage',
      page: {
        id: 'p1',
        drawing: null,
        number: 1,
        name: 'Blank',
        width: 842,
        height: 595,
        scale: null,
        checks: [],
      },
    },
    { kind: 'setScale', page: 'p1', scale: SCALE },
    {
      kind: 'addRoof',
      roof: {
        id: 'r1',
        letter: 'A',
        name: 'Hall',
        page: 'p1',
        outline: outline.map((e) => e.id),
        fall: null,
        lines: [],
        facets: [],
        deck: null,
        laying: { direction: 0, firstCourse: null, closing: null },
      },
      edges: outline,
    },
    {
      kind: 'addOpening',
      opening: { id: 'o1', roof: 'r1', name: 'Plant', kind: 'curb', ring: curb.map((e) => e.id) },
      edges: curb,
    },
    { kind: 'placeFitting', fitting: { id: 'f1', roof: 'r1', kind: 'pipe', at: [200, 60], size: 110 } },
  ]);
}

/** A job with one given roof on a blank page, for benchmarks and laws of the whole chain. */
export function jobOfRoof(roof: Roof, laying: Job['roofs'][string]['laying']): Job {
  const page = (ring: readonly (readonly [number, number])[]) =>
    ring.map(([x, y]) => [x / SCALE.mmPerPoint, y / SCALE.mmPerPoint] as const);
  const outline = edges('e', page(roof.outline));
  const openings = roof.openings.map((o, i) => ({
    id: `o${i}`,
    sides: edges(`o${i}-`, page(o.ring), { kind: 'curb' }),
  }));
  return applyAll(newJob({ name: 'One roof', date: '2026-03-02' }), [
    {
      kind: 'addPage',
      page: {
        id: 'p1',
        drawing: null,
        number: 1,
        name: 'Blank',
        width: 842,
        height: 595,
        scale: SCALE,
        checks: [],
      },
    },
    {
      kind: 'addRoof',
      roof: {
        id: 'r1',
        letter: 'A',
        name: 'Roof',
        page: 'p1',
        outline: outline.map((e) => e.id),
        fall: null,
        lines: [],
        facets: [],
        deck: null,
        laying,
      },
      edges: outline,
    },
    ...openings.map(({ id, sides }): Command => ({
      kind: 'addOpening',
      opening: { id, roof: 'r1', name: id, kind: 'curb', ring: sides.map((e) => e.id) },
      edges: sides,
    })),
  ]);
}
