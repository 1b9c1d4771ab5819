// `layout ROOF.json`: one roof outline to sheets, laps and rolls. Lengths mm, angles degrees counter-clockwise
// from +x. What the input leaves out takes the default stated beside it.
import { z } from 'zod';
import type { LineKind } from '../../core/roof/types';
import type { TradeRule } from '../../core/sheets/types';
import { layoutResultSchema } from './layoutResult';
import type { VerbSpec } from './verb';

/** Coordinates beyond this are no roof: 1 000 km. */
const coordinate = z.number().min(-1e9).max(1e9);
const point = z.tuple([coordinate, coordinate]);
const ring = z.array(point).min(3).max(100_000);
const length = z.number().positive().max(1e7);
const amount = z.number().min(0).max(1e12);
const lengthOrNone = z.number().min(0).max(1e7);
const turn = z.number().min(-360).max(360);

const LINE_KINDS = ['expansion', 'tie-in', 'phase', 'valley'] as const satisfies readonly LineKind[];
const TRADE_RULES = [
  'sheds-water',
  'valley-clear',
  'drain-clear',
  'edge-clear',
  'corner-clear',
  'least-width',
  'across-flutes',
  'cut-edge-under',
  'dropped-over',
] as const satisfies readonly TradeRule[];

export const layoutInputSchema = z.strictObject({
  outline: ring.describe('corners in turn, either way round'),
  openings: z.array(ring).max(10_000).default([]).describe('where the field sheet stops inside the outline'),
  sheet: z.strictObject({ width: length, length }).optional().describe('the roll; or `sheets`'),
  sheets: z
    .array(z.strictObject({ id: z.string().min(1), width: length, length, cost: amount.optional() }))
    .min(1)
    .max(20)
    .optional()
    .describe('rolls to choose among; a narrower one may close the last course'),
  rates: z
    .strictObject({
      rollCost: amount.optional().describe('where `sheet` is given'),
      weldPerM: amount,
      handWeldPerM: amount.optional(),
      jointCost: amount.describe('set-up and patches of one end lap, beside its metres'),
    })
    .optional()
    .describe('with these money decides; without, rolls, then joints, then weld metres'),
  sideLap: length,
  endLap: length,
  endLapStagger: lengthOrNone.default(0).describe('least distance between end laps in neighbouring courses'),
  minPiece: lengthOrNone.default(0).describe('shortest piece that may be cut'),
  edgeAllowance: lengthOrNone.default(0).describe('the outline is grown by it'),
  openingAllowance: lengthOrNone.default(0),
  cutAllowance: lengthOrNone.default(0).describe('added to every run at each end'),
  joints: z.enum(['allowed', 'forbidden']).default('allowed'),
  rip: z
    .enum(['allowed', 'forbidden'])
    .default('forbidden')
    .describe('allowed: the last course may be slit from the roll in lanes'),
  endJoint: z
    .enum(['lap', 'strip'])
    .default('lap')
    .describe('strip: fleece-backed pieces butt under a welded strip, which counts two welds'),
  stripWidth: length.optional().describe('where `endJoint` is `strip`'),
  minWidth: lengthOrNone.default(0).describe('least width of a course over the roof'),
  cornerClear: lengthOrNone.default(0).describe('no end lap nearer to the corner of an opening'),
  reinforced: z.boolean().default(false).describe('a cut edge that shows is counted for sealing'),
  direction: z
    .union([z.literal('auto'), z.number().min(0).lt(180)])
    .default('auto')
    .describe('auto: searched for the cheapest'),
  firstCourse: z.number().min(-1e7).max(0).optional(),
  downhill: turn.optional().describe('the direction water runs: the sheet upslope lies over'),
  edges: z
    .array(
      z.strictObject({
        edge: z.number().int().min(0),
        kind: z
          .enum(['parapet', 'eave', 'gutter', 'wall', 'curb', 'expansion', 'tie-in', 'phase'])
          .optional(),
        allowance: lengthOrNone.optional(),
        clear: lengthOrNone.optional().describe('no side lap nearer to an edge that runs along the courses'),
        perimeterSheets: z.number().int().min(0).max(50).optional(),
        perimeterWidth: length.optional(),
      }),
    )
    .max(100_000)
    .default([])
    .describe('edge k runs from corner k of the outline to the next'),
  falls: z
    .array(z.strictObject({ outline: ring, downhill: turn, ratio: z.number().positive().max(1).optional() }))
    .max(10_000)
    .default([])
    .describe('planes of the roof with their own fall; elsewhere `downhill` holds'),
  lines: z
    .array(z.strictObject({ kind: z.enum(LINE_KINDS), from: point, to: point }))
    .max(10_000)
    .default([])
    .describe('no sheet crosses an expansion joint, a tie-in or a phase line; no lap along or in a valley'),
  drains: z
    .array(z.strictObject({ at: point, clear: lengthOrNone.optional(), size: lengthOrNone.optional() }))
    .max(10_000)
    .default([])
    .describe('no lap within the clear distance (300 where left out), or else a target sheet'),
  units: z
    .array(
      z.strictObject({
        opening: z.number().int().min(0).optional(),
        at: point.optional(),
        size: lengthOrNone.optional(),
        blocks: z.enum(['tall', 'live']),
      }),
    )
    .max(10_000)
    .default([])
    .describe('what no sheet can be dropped over: an opening by its number, or a place and a diameter'),
  flutes: turn.optional().describe('direction of the flutes of a steel deck that sheets are fastened to'),
  pins: z
    .strictObject({
      endLaps: z.array(point).max(10_000).optional().describe('where a person wants an end lap'),
      order: z
        .enum(['up', 'down'])
        .optional()
        .describe('up: course 1 is laid first and the next over it; down: the last first'),
    })
    .optional()
    .describe('a direction and a first course are pinned by giving them'),
  off: z.array(z.enum(TRADE_RULES)).default([]).describe('rules that are switched off'),
});

export const layoutVerb = {
  name: 'layout',
  takes: 'ROOF.json',
  summary: 'a roof outline to sheets, laps, T-joints and rolls',
  input: [{ kind: 'json', schema: layoutInputSchema }],
  options: {},
  output: layoutResultSchema,
} as const satisfies VerbSpec;
