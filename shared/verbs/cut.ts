// `cut CUTS.json`: lengths to rolls. Lengths in mm. What the input leaves out takes the default stated beside it.
import { z } from 'zod';
import type { VerbSpec } from './verb';

const length = z.number().positive().max(1e7);
const lengthOrNone = z.number().min(0).max(1e7);
const count = z.number().int().min(0);

/** More pieces than this are no roof. */
const MOST_COPIES = 20_000;

export const cutInputSchema = z
  .strictObject({
    rollLength: length,
    endLap: lengthOrNone.default(0).describe('where joints are allowed: each adds this length'),
    minPiece: lengthOrNone
      .default(0)
      .describe('shortest piece a run may be cut into; a run shorter than it is one piece'),
    joints: z.enum(['allowed', 'forbidden']).default('allowed').describe('forbidden: every run in one piece'),
    runs: z
      .array(
        z.strictObject({
          id: z.string().min(1),
          length,
          count: count.max(MOST_COPIES).default(1),
        }),
      )
      .max(MOST_COPIES),
  })
  .refine(({ runs }) => runs.reduce((sum, run) => sum + run.count, 0) <= MOST_COPIES, {
    path: ['runs'],
    message: `There are more than ${MOST_COPIES} runs in all`,
  });

const amount = z.number().min(0);

export const cutResultSchema = z.strictObject({
  rolls: z.array(
    z.strictObject({
      id: z.string(),
      pieces: z
        .array(
          z.strictObject({
            run: z.string(),
            copy: count.describe('which of the runs of this id, from 1'),
            part: count.describe('which of its pieces, from 1'),
            length: amount,
          }),
        )
        .describe('in the order of cutting'),
      offcut: amount,
    }),
  ),
  rollCount: count,
  lowerBound: count.describe('proved: fewer rolls cannot do'),
  joints: count,
  optimal: z.boolean().describe('rollCount equals lowerBound'),
  proof: z.strictObject({
    by: z.string(),
    prices: z
      .array(z.strictObject({ length: amount, price: amount }))
      .describe('joints forbidden: no pieces that fit a roll are worth more than 1 together'),
  }),
});

export const cutVerb = {
  name: 'cut',
  takes: 'CUTS.json',
  summary: 'lengths to rolls, with a proof of how few will do',
  input: [{ kind: 'json', schema: cutInputSchema }],
  options: {},
  output: cutResultSchema,
} as const satisfies VerbSpec;
