// `layout ROOF.json`: one roof outline to sheets, laps and rolls. Lengths mm, angles degrees counter-clockwise
// from +x. What the input leaves out takes the default stated beside it.
import { z } from 'zod';
import { layoutResultSchema } from './layoutResult';
import type { VerbSpec } from './verb';

/** Coordinates beyond this are no roof: 1 000 km. */
const coordinate = z.number().min(-1e9).max(1e9);
const ring = z
  .array(z.tuple([coordinate, coordinate]))
  .min(3)
  .max(100_000);
const length = z.number().positive().max(1e7);
const amount = z.number().min(0).max(1e12);
const lengthOrNone = z.number().min(0).max(1e7);
const turn = z.number().min(-360).max(360);

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
  endJoint: z.literal('lap').default('lap'),
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
      }),
    )
    .max(100_000)
    .default([])
    .describe('edge k runs from corner k of the outline to the next'),
});

export const layoutVerb = {
  name: 'layout',
  takes: 'ROOF.json',
  summary: 'a roof outline to sheets, laps, T-joints and rolls',
  input: [{ kind: 'json', schema: layoutInputSchema }],
  options: {},
  output: layoutResultSchema,
} as const satisfies VerbSpec;
