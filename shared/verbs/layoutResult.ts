// The result of `layout`, which `check` takes back and `estimate` gives for each roof. Lengths mm, areas m², weld
// lengths m; the outline's own coordinates.
import { z } from 'zod';

export const place = z.tuple([z.number(), z.number()]);

const sheet = z.strictObject({
  id: z.string(),
  band: z.string(),
  course: z.number().int(),
  corners: z.array(place).length(4),
  width: z.number(),
  length: z.number(),
  cut: z.strictObject({ roll: z.string(), start: z.number(), lane: z.number() }),
  longEdges: z.tuple([z.enum(['factory', 'cut']), z.enum(['factory', 'cut'])]),
  selvedge: z.enum(['low', 'high']).optional().describe('the bare long edge of a fleece-backed sheet'),
  roll: z.string(),
});

const lap = z.strictObject({
  id: z.string(),
  between: z.tuple([z.string(), z.string()]),
  over: z.string(),
  overlap: z.number(),
  from: place,
  to: place,
  length: z.number().describe('m'),
  welds: z.number().int().optional().describe('2 under the strip over butted ends'),
});

export const findingSchema = z.strictObject({
  rule: z.string(),
  severity: z.enum(['error', 'warning', 'advice']),
  roof: z.string(),
  at: place.nullable(),
  ids: z.array(z.string()),
  message: z.string(),
  source: z.string(),
});

export const layoutResultSchema = z.strictObject({
  direction: z.number(),
  firstCourse: z.number(),
  precision: z.number(),
  sheets: z.array(sheet),
  sideLaps: z.array(lap),
  endLaps: z.array(lap),
  tJoints: z.array(z.strictObject({ id: z.string(), at: place })),
  weld: z
    .strictObject({
      sideLap: z.number(),
      endLap: z.number(),
      target: z.number().default(0),
      slit: z.number().default(0),
      total: z.number(),
    })
    .describe('m'),
  targets: z
    .array(z.strictObject({ id: z.string(), drain: z.string(), at: place, side: z.number() }))
    .default([])
    .describe('welded sheets over drains that laps come too near to'),
  slits: z
    .array(
      z.strictObject({
        id: z.string(),
        sheet: z.string(),
        unit: z.string(),
        from: place,
        to: place,
        length: z.number().describe('m'),
      }),
    )
    .default([])
    .describe('cuts to what a sheet cannot be dropped over, each under a strip with two welds'),
  cutEdge: z.number().default(0).describe('m of cut edge that shows and is sealed'),
  area: z
    .strictObject({
      roof: z.number(),
      membraneCut: z.number(),
      membraneBought: z.number(),
      lap: z.number(),
      offcut: z.number(),
    })
    .describe('m²'),
  rolls: z.strictObject({
    count: z.number().int(),
    lowerBound: z.number().int(),
    areaBound: z.number().int(),
  }),
  ways: z
    .array(z.strictObject({ rolls: z.number().int(), joints: z.number().int(), cost: z.number().nullable() }))
    .describe('the plain way of cutting and the one with the fewest rolls found, where they differ'),
  findings: z.array(findingSchema),
});
