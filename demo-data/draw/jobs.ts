// The jobs already done on the demo sheets, made from the same coordinates as the drawings, by the same commands
// that a person gives in the window.
import { createHash } from 'node:crypto';
import { applyCommand } from '../../core/job/commands/applyCommand';
import type { Command } from '../../core/job/commands/types';
import { packJob } from '../../core/job/container';
import { newJob } from '../../core/job/newJob';
import type { Job, JobEdge } from '../../core/job/schema';
import { formatScale, MM_PER_POINT, mmPerPoint } from '../../core/units/scales';
import type { Place } from './ink';
import type { PlanRoof, PlanSheet } from './plan';

export interface DemoJob {
  readonly sheet: PlanSheet;
  /** What a person calls the job; the drawing's file and its bytes. */
  readonly name: string;
  readonly client: string;
  readonly file: string;
  readonly pdf: Uint8Array;
}

/** A .lapjob with every roof of the sheet traced, its scale set and checked on the longest dimension. */
export function packDemoJob(demo: DemoJob): Uint8Array {
  const { sheet, pdf } = demo;
  const sha256 = createHash('sha256').update(pdf).digest('hex');
  const started = newJob({ name: demo.name, date: sheet.date });
  const job = [
    ...openingCommands(demo, sha256),
    ...sheet.roofs.flatMap((roof, k) => roofCommands(sheet, roof, k)),
  ].reduce(given, started);
  return packJob(job, new Map([[sha256, pdf]]));
}

function given(job: Job, command: Command): Job {
  const result = applyCommand(job, command);
  if ('refusal' in result) throw new Error(`${command.kind}: ${result.refusal}`);
  return result.job;
}

const PAGE = 'page-1';

function openingCommands({ sheet, client, file, pdf }: DemoJob, sha256: string): Command[] {
  const [width, height] = sheet.paper.map((mm) => mm / MM_PER_POINT) as [number, number];
  const scale = {
    mmPerPoint: mmPerPoint(sheet.ratio),
    from: { by: 'ratio', ratio: sheet.ratio, text: formatScale(sheet.ratio, sheet.display) },
  } as const;
  const longest = Math.max(...sheet.gridX.map(([, x]) => x));
  return [
    {
      kind: 'setAbout',
      fields: { client, reference: sheet.number, preparedBy: 'Estimating (invented)' },
    },
    { kind: 'setDisplay', display: sheet.display },
    {
      kind: 'addDrawing',
      drawing: { id: 'drawing-1', name: file, kind: 'pdf', sha256, bytes: pdf.length, pageCount: 1 },
      pages: [
        {
          id: PAGE,
          drawing: 'drawing-1',
          number: 1,
          name: `${sheet.number} rev ${sheet.revision}`,
          width,
          height,
          scale: null,
          checks: [],
        },
      ],
    },
    { kind: 'setScale', page: PAGE, scale },
    {
      kind: 'addCheck',
      page: PAGE,
      check: { a: onPage(sheet, [0, 0]), b: onPage(sheet, [longest, 0]), length: longest },
    },
  ];
}

function roofCommands(sheet: PlanSheet, roof: PlanRoof, k: number): Command[] {
  const letter = String.fromCharCode(65 + k);
  const id = `roof-${letter}`;
  const edges = roof.outline.map((corner, n): JobEdge => ({
    id: `${letter}-edge-${n + 1}`,
    at: onPage(sheet, corner),
    kind: roof.edges[n]?.kind ?? 'eave',
    upstand: roof.edges[n]?.upstand ?? 0,
    allowance: roof.edges[n]?.allowance ?? 0,
  }));
  return [
    {
      kind: 'addRoof',
      roof: {
        id,
        letter,
        name: roof.name,
        page: PAGE,
        outline: edges.map((edge) => edge.id),
        fall: { downhill: roof.fall.downhill, ratio: roof.fall.ratio },
        lines: [],
        facets: [],
        deck: null,
        laying: { direction: 'auto', firstCourse: null, closing: null },
      },
      edges,
    },
    ...roof.openings.map((opening): Command => {
      const sides = opening.ring.map((corner, n): JobEdge => ({
        id: `${letter}-${opening.mark}-${n + 1}`,
        at: onPage(sheet, corner),
        kind: opening.kind === 'courtyard' ? 'parapet' : 'curb',
        upstand: opening.upstand,
        allowance: 0,
      }));
      return {
        kind: 'addOpening',
        opening: {
          id: `${letter}-${opening.mark}`,
          roof: id,
          name: opening.name,
          kind: opening.kind,
          ring: sides.map((side) => side.id),
        },
        edges: sides,
      };
    }),
    ...roof.fittings.map((fitting): Command => ({
      kind: 'placeFitting',
      fitting: {
        id: `${letter}-${fitting.mark}`,
        roof: id,
        kind: fitting.kind,
        at: onPage(sheet, fitting.at),
        size: fitting.size,
      },
    })),
  ];
}

/** From millimetres on the building to points of the displayed page. */
function onPage(sheet: PlanSheet, [x, y]: Place): readonly [number, number] {
  const point = (mm: number) => Math.round((mm / MM_PER_POINT) * 1000) / 1000;
  return [point(sheet.origin[0] + x / sheet.ratio), point(sheet.origin[1] + y / sheet.ratio)];
}
