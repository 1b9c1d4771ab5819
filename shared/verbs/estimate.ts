// `estimate JOB [--out DIR]`: a whole job to quantities, order, weld plan and bid. A folder gives one summary of
// the jobs in it.
import { z } from 'zod';
import type { BidLine } from '../../core/price/types';
import type { OrderLine } from '../../core/order/types';
import type { Quantity } from '../../core/quantities/types';
import { findingSchema, layoutResultSchema, place } from './layoutResult';
import type { VerbSpec } from './verb';

const unit = z.enum(['mm', 'm', 'm2', 'kg', 'h', 'min', '%', 'pieces', 'rolls', 'litres']);

const quantitySchema = z.strictObject({
  key: z.string(),
  label: z.string(),
  value: z.number(),
  unit,
  formula: z.string(),
  from: z.array(z.string()).readonly(),
  assumed: z.string().nullable(),
}) satisfies z.ZodType<Quantity>;

const orderLineSchema = z.strictObject({
  key: z.string(),
  product: z.string(),
  description: z.string(),
  need: z.number(),
  unit,
  packSize: z.number(),
  packName: z.string(),
  packs: z.number(),
  mass: z.number().nullable(),
  unitPrice: z.string(),
  from: z.array(z.string()).readonly(),
  formula: z.string(),
  assumed: z.string().nullable(),
}) satisfies z.ZodType<OrderLine>;

const bidGroup = z.enum(['material', 'labour', 'plant', 'contingency', 'overhead', 'profit', 'tax']);

const bidLineSchema = z.strictObject({
  key: z.string(),
  group: bidGroup,
  label: z.string(),
  quantity: z.string().nullable(),
  unit: z.string().nullable(),
  rate: z.string().nullable(),
  amount: z.string(),
  formula: z.string(),
  from: z.array(z.string()).readonly(),
  assumed: z.string().nullable(),
}) satisfies z.ZodType<BidLine>;

const weldRunSchema = z.strictObject({
  id: z.string(),
  order: z.number().int(),
  roof: z.string(),
  kind: z.enum(['side-lap', 'end-lap', 'flashing', 'corner', 'boot', 't-joint', 'target', 'slit']),
  method: z.enum(['machine', 'hand']),
  seam: z.string(),
  seams: z.array(z.string()).describe('all that the run goes over; seam is the first'),
  course: z.number().int().nullable(),
  after: z.string().describe('the sheet after whose laying it is welded'),
  machine: z.number().int().nullable(),
  from: place,
  to: place,
  length: z.number().describe('m'),
  byHand: z.number().describe('m of it that a machine leaves to the hand at its stops'),
  setDowns: z.number().int(),
  tJoints: z.number().int(),
  speed: z.number().describe('m/min'),
  weldMinutes: z.number(),
  handMinutes: z.number(),
  setupMinutes: z.number(),
  walkMinutes: z.number(),
  turnMinutes: z.number(),
  slowMinutes: z.number(),
  nozzleMinutes: z.number(),
});

const workDaySchema = z.strictObject({
  number: z.number().int(),
  date: z.string().nullable(),
  sheets: z.array(
    z.strictObject({
      roof: z.string(),
      sheet: z.string(),
      course: z.number().int().describe('counts through all bands of the roof'),
      name: z.string().describe('the course as its sheets are named'),
      towards: z.number().describe('degrees counter-clockwise from +x, the way it is unrolled'),
    }),
  ),
  runs: z.array(z.string()),
  tasks: z.array(z.strictObject({ name: z.string(), minutes: z.number(), formula: z.string() })),
  slowed: z
    .array(z.strictObject({ name: z.string(), factor: z.number(), minutes: z.number() }))
    .describe('person-minutes within the tasks that each factor adds'),
  minutes: z.number().describe('person-minutes'),
  capacity: z.number(),
  machineMinutes: z.array(z.number()),
  machineCapacity: z.number(),
  strips: z.array(
    z.strictObject({
      number: z.number().int(),
      reason: z.enum(['start of the day', 'after a break', 'change of sheet']),
      machine: z.number().int().nullable(),
      minutes: z.number(),
      at: z.number().describe('minutes from midnight'),
    }),
  ),
  clock: z
    .strictObject({
      start: z.number(),
      end: z.number(),
      worked: z.array(z.tuple([z.number(), z.number()])),
      pauses: z.array(z.strictObject({ from: z.number(), to: z.number(), why: z.string() })),
    })
    .describe('minutes from midnight'),
  steps: z
    .array(
      z.strictObject({
        what: z.string(),
        roof: z.string().nullable(),
        sheet: z.string().nullable(),
        run: z.string().nullable(),
        from: z.number(),
        to: z.number(),
      }),
    )
    .describe('what is done by when if nobody stands idle, minutes from midnight'),
  night: z
    .strictObject({
      length: z.number().describe('m of lap to be closed for the night'),
      roof: z.string(),
      course: z.number().int(),
      name: z.string(),
      whole: z.boolean(),
      cutBack: z.number().describe('m² cut back next morning'),
    })
    .nullable(),
  weld: z.number().describe('m'),
  area: z.number().describe('m² laid'),
});

const estimateSchema = z.strictObject({
  roofs: z.array(
    z.strictObject({
      id: z.string(),
      letter: z.string(),
      name: z.string(),
      area: z.number().describe('m²'),
      perimeter: z.number().describe('mm'),
      layout: layoutResultSchema,
      quantities: z.array(quantitySchema).readonly(),
    }),
  ),
  quantities: z.array(quantitySchema).readonly(),
  order: z.strictObject({
    lines: z.array(orderLineSchema).readonly(),
    mass: z.number().describe('kg of everything whose mass is known'),
    pallets: z.number().int(),
  }),
  weldPlan: z.strictObject({
    runs: z.array(weldRunSchema),
    machineMinutes: z.number(),
    handMinutes: z.number(),
    days: z.array(workDaySchema),
    leastDays: z.number().int().describe('no plan of this work takes fewer'),
    leastMinutes: z.number().describe('no plan of this work takes fewer person-minutes'),
    method: z.string(),
  }),
  bid: z.strictObject({
    currency: z.string(),
    lines: z.array(bidLineSchema).readonly(),
    subtotals: z.array(z.strictObject({ group: bidGroup, amount: z.string() })).readonly(),
    total: z.string(),
    perSquareMetre: z.string(),
  }),
  findings: z.array(findingSchema),
  files: z.array(z.string()).optional().describe('what --out wrote'),
});

const summarySchema = z.strictObject({
  jobs: z.array(
    z.union([
      z.strictObject({
        file: z.string(),
        name: z.string(),
        currency: z.string(),
        total: z.string(),
        rolls: z.number().int(),
        findings: z.strictObject({
          error: z.number().int(),
          warning: z.number().int(),
          advice: z.number().int(),
        }),
      }),
      z.strictObject({ file: z.string(), refusal: z.string() }),
    ]),
  ),
});

export type EstimateDocument = z.infer<typeof estimateSchema>;
export type SummaryDocument = z.infer<typeof summarySchema>;

export const estimateVerb = {
  name: 'estimate',
  takes: 'JOB',
  summary: 'a job file, or every job of a folder, to quantities, order, weld plan and bid',
  input: [{ kind: 'job' }],
  options: { out: { value: 'DIR', summary: 'write the documents of the three people there' } },
  output: z.union([estimateSchema, summarySchema]),
} as const satisfies VerbSpec;
