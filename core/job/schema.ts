// The job document: what a person decided, in flat tables by id. Everything else is computed from it.
import { z } from 'zod';
import { ratesSchema, type DeepReadonly } from '../rates/schema';
import { EDGE_KINDS, FITTING_KINDS, LINE_KINDS, OPENING_KINDS } from '../roof/types';
import { TRADE_RULES } from '../sheets/types';
import { issueSchema, logEntrySchema, NO_WORK, workSchema } from './weldingSchema';

export const JOB_FORMAT = 'lapjob';
export const JOB_VERSION = 2;

const id = z.string().regex(/^[A-Za-z0-9_-]{1,64}$/);
const finite = z.number().finite();
const positive = z.number().positive().finite();
const pagePoint = z.tuple([finite, finite]);
/** mm between the drawing and the roof; more is another roof. */
export const MOST_MEASURED_MM = 2_000;
const offset = z.number().min(-MOST_MEASURED_MM).max(MOST_MEASURED_MM);
const degrees = z.number().min(0).lt(360);

const knownLength = z.strictObject({ a: pagePoint, b: pagePoint, length: positive });

export const scaleSchema = z.strictObject({
  /** Millimetres on the roof per point (1/72 inch) on the displayed page. */
  mmPerPoint: positive,
  from: z.discriminatedUnion('by', [
    z.strictObject({ by: z.literal('ratio'), ratio: positive, text: z.string() }),
    z.strictObject({ by: z.literal('length'), a: pagePoint, b: pagePoint, length: positive }),
    /** Across and up the page, which was then stretched so that one figure holds both ways. */
    z.strictObject({ by: z.literal('lengths'), across: knownLength, up: knownLength }),
  ]),
});

export const lengthCheckSchema = knownLength;

export const drawingSchema = z.strictObject({
  id,
  name: z.string(),
  kind: z.enum(['pdf', 'dxf']),
  /** Hex SHA-256 of the file; it lies in the container as drawings/<sha256>.<kind>. */
  sha256: z.string().regex(/^[0-9a-f]{64}$/),
  bytes: z.number().int().nonnegative(),
  pageCount: z.number().int().positive(),
});

/** A part of a page with a scale of its own, by its lower left and upper right corner on the displayed page. */
export const scaleRegionSchema = z
  .strictObject({ id, low: pagePoint, high: pagePoint, scale: scaleSchema })
  .refine(({ low, high }) => high[0] > low[0] && high[1] > low[1], 'a region has a width and a height');

export const pageSchema = z.strictObject({
  id,
  /** null: a blank sheet. */
  drawing: id.nullable(),
  /** From 1. */
  number: z.number().int().positive(),
  name: z.string(),
  width: positive,
  height: positive,
  scale: scaleSchema.nullable(),
  checks: z.array(lengthCheckSchema),
  /** The page is shown turned (degrees counter-clockwise) and stretched up, so that a scan lies level and measures the
   * same both ways; `width` and `height` above are the corrected page's, these are the sheet's as it comes. Everything
   * that is kept in points of the page lies on the corrected one. */
  correction: z
    .strictObject({
      degrees: z.number().min(-360).max(360),
      stretch: z.number().min(0.25).max(4),
      width: positive,
      height: positive,
    })
    .optional(),
  /** Where another scale holds than the page's. */
  regions: z.array(scaleRegionSchema).max(100).optional(),
});

/** A side of a ring; `at` is the corner where it starts, in points of the displayed page. */
export const edgeSchema = z.strictObject({
  id,
  at: pagePoint,
  kind: z.enum(EDGE_KINDS),
  upstand: z.number().min(0).max(20_000),
  allowance: z.number().min(0).max(5_000),
  /** No side lap nearer than this to the edge where it runs along the courses, mm. */
  clear: z.number().min(0).max(5_000).optional(),
  /** Rows of narrower sheets along the edge; width in mm. */
  perimeter: z
    .strictObject({ sheets: z.number().int().min(1).max(50), width: positive.max(20_000) })
    .optional(),
  /** How much further out than drawn the roof was measured to reach, at the edge's start and end; below zero: less. */
  measured: z.strictObject({ from: offset, to: offset }).optional(),
});

/** Why no sheet can be dropped over what stands in it. */
const blocks = z.enum(['tall', 'live']).optional();

export const fallSchema = z.strictObject({
  downhill: degrees,
  ratio: z.number().positive().max(1).nullable(),
});

/** An expansion joint, tie-in or phase line, which no sheet crosses, or a valley. */
export const roofLineSchema = z.strictObject({
  id,
  kind: z.enum(LINE_KINDS),
  from: pagePoint,
  to: pagePoint,
});

/** A plane of the roof with its own fall. */
export const facetSchema = z.strictObject({
  id,
  ring: z.array(pagePoint).min(3),
  ...fallSchema.shape,
});

export const deckSchema = z.strictObject({
  kind: z.enum(['steel', 'concrete', 'wood']),
  /** Direction of a steel deck's flutes, and its ribs in mm; null where not given. */
  flutes: z.number().min(0).lt(180).nullable(),
  pitch: positive.nullable(),
  flange: positive.nullable(),
  rib: pagePoint.nullable(),
  /** Insulation and boards over it at their thickest, mm. */
  over: z.number().min(0).max(2_000).optional(),
});

/** A zone as an engineer gave it: how far in from the edge, between fasteners, and at most between rows, mm. */
export const fasteningZoneSchema = z.strictObject({
  depth: positive.max(200_000),
  spacing: positive.max(5_000),
  rows: positive.max(20_000).optional(),
});

/** What no engineer has given is left out: the one spacing then holds there too. */
export const fasteningSchema = z.strictObject({
  perimeter: fasteningZoneSchema.optional(),
  corner: fasteningZoneSchema.optional(),
});

export const roofSchema = z.strictObject({
  id,
  /** Said aloud before the ids of its sheets where a job has several roofs. */
  letter: z.string().regex(/^[A-Z]{1,2}$/),
  name: z.string(),
  page: id,
  outline: z.array(id).min(3),
  fall: fallSchema.nullable(),
  lines: z.array(roofLineSchema).default([]),
  facets: z.array(facetSchema).default([]),
  deck: deckSchema.nullable().default(null),
  fastening: fasteningSchema.optional(),
  laying: z.strictObject({
    direction: z.union([z.literal('auto'), z.number().min(0).lt(180)]),
    /** mm, null for the step's own choice. */
    firstCourse: finite.nullable(),
    /** How the last course is closed: null for a whole sheet, a narrower roll of the rates, or slit lanes. */
    closing: z
      .discriminatedUnion('kind', [
        z.strictObject({ kind: z.literal('narrow'), roll: z.string() }),
        z.strictObject({ kind: z.literal('rip'), lanes: z.number().int().min(2).max(12) }),
      ])
      .nullable(),
    /** Where a person wants end laps. */
    pins: z.array(pagePoint).optional(),
    /** Which end of the courses is laid first; where it is left out the water decides. */
    order: z.enum(['up', 'down']).optional(),
    /** What was chosen above and a search is to keep. */
    keep: z.array(z.enum(['direction', 'firstCourse', 'closing'])).optional(),
  }),
});

export const openingSchema = z.strictObject({
  id,
  roof: id,
  name: z.string(),
  kind: z.enum(OPENING_KINDS),
  blocks,
  ring: z.array(id).min(3),
});

export const fittingSchema = z.strictObject({
  id,
  roof: id,
  kind: z.enum(FITTING_KINDS),
  at: pagePoint,
  size: z.number().min(0).max(5_000),
  /** Drains: no lap nearer to the bowl, mm. */
  clear: z.number().min(0).max(5_000).optional(),
  blocks,
});

/** The membrane system: which roll, how it is held, and its laps. mm. */
export const systemSchema = z.strictObject({
  material: z.enum(['TPO', 'PVC']),
  thickness: positive,
  attachment: z.enum(['fastened in the lap', 'adhered']),
  /** Id of one of the rates' rolls. */
  roll: z.string(),
  sideLap: positive,
  endLap: positive,
  endLapStagger: z.number().nonnegative().finite(),
  minPiece: z.number().nonnegative().finite(),
  cutAllowance: z.number().nonnegative().finite(),
  joints: z.enum(['allowed', 'forbidden']),
  /** Least width of a course over the roof, and how far end laps keep off the corners of openings; 0 for none. */
  minWidth: z.number().nonnegative().finite().default(0),
  cornerClear: z.number().nonnegative().finite().default(0),
  /** Fleece-backed sheets butt at their ends under a welded strip so wide. */
  backing: z.enum(['bare', 'fleece']).default('bare'),
  stripWidth: positive.default(150),
  /** A cut edge that shows is sealed. */
  reinforced: z.boolean().default(true),
  /** Rules of the trade that this job switches off. */
  rulesOff: z.array(z.enum(TRADE_RULES)).default([]),
  /** Whether offcuts of the field sheet become flashings: only where both are the same membrane. */
  flashing: z.enum(['offcuts first', 'rolls only']),
  /** Between fasteners along a side lap. */
  fastenerSpacing: positive,
});

const table = <T extends z.ZodType>(record: T) => z.record(id, record);

export const jobSchema = z.strictObject({
  format: z.literal(JOB_FORMAT),
  version: z.literal(JOB_VERSION),
  about: z.strictObject({
    name: z.string().min(1).max(200),
    client: z.string().max(200),
    reference: z.string().max(100),
    preparedBy: z.string().max(100),
    /** YYYY-MM-DD; what every document prints, so that the same job gives the same bytes. */
    date: z.string().regex(/^\d{4}-\d{2}-\d{2}$/),
  }),
  display: z.enum(['metric', 'imperial']),
  drawings: table(drawingSchema),
  pages: table(pageSchema),
  roofs: table(roofSchema),
  openings: table(openingSchema),
  edges: table(edgeSchema),
  fittings: table(fittingSchema),
  work: workSchema.default(NO_WORK),
  issues: table(issueSchema).default({}),
  log: table(logEntrySchema).default({}),
  system: systemSchema,
  rates: ratesSchema,
  /** Dotted paths of the figures in `system` and `rates` that a person set; all others are shipped values
   * and are marked as assumed wherever they act. */
  confirmed: z.array(z.string()),
});

export type Job = DeepReadonly<z.infer<typeof jobSchema>>;
export type JobPage = DeepReadonly<z.infer<typeof pageSchema>>;
export type JobRoof = DeepReadonly<z.infer<typeof roofSchema>>;
export type JobOpening = DeepReadonly<z.infer<typeof openingSchema>>;
export type JobLine = DeepReadonly<z.infer<typeof roofLineSchema>>;
export type JobFacet = DeepReadonly<z.infer<typeof facetSchema>>;
export type JobDeck = DeepReadonly<z.infer<typeof deckSchema>>;
export type JobFastening = DeepReadonly<z.infer<typeof fasteningSchema>>;
export type JobEdge = DeepReadonly<z.infer<typeof edgeSchema>>;
export type JobFitting = DeepReadonly<z.infer<typeof fittingSchema>>;
export type JobDrawing = DeepReadonly<z.infer<typeof drawingSchema>>;
export type JobScale = DeepReadonly<z.infer<typeof scaleSchema>>;
export type JobSystem = DeepReadonly<z.infer<typeof systemSchema>>;
export type ScaleRegion = DeepReadonly<z.infer<typeof scaleRegionSchema>>;
export type LengthCheck = DeepReadonly<z.infer<typeof lengthCheckSchema>>;
export type JobWork = DeepReadonly<z.infer<typeof workSchema>>;
export type DayForecast = JobWork['forecast'][number];
export type JobIssue = DeepReadonly<z.infer<typeof issueSchema>>;
export type LogEntry = DeepReadonly<z.infer<typeof logEntrySchema>>;
