// What the job holds of the crew's work: the plan's calendar and moves, issued layouts, and the weld log.
import { z } from 'zod';
import { TIME_OF_DAY } from '../units/times';
import { PEEL_RESULTS, PEEL_UNITS } from '../welding/peel';

const id = z.string().regex(/^[A-Za-z0-9_-]{1,64}$/);
const finite = z.number().finite();
const place = z.tuple([finite, finite]);
const date = z.string().regex(/^\d{4}-\d{2}-\d{2}$/, 'write a date as year-month-day, such as 2026-03-02');
const words = z.string().max(200);

/** Degrees counter-clockwise from the plan's right, where the wind comes from. */
const windFrom = z.number().min(0).lt(360);

/** m/s, °C, %; null for what nobody has said. */
const air = {
  speed: z.number().min(0).max(80).nullable(),
  celsius: z.number().min(-40).max(60).nullable(),
  humidity: z.number().min(1).max(100).nullable(),
};

/** What is forecast for a working day. */
const forecastSchema = z.strictObject({
  day: z.number().int().min(1).max(2000),
  from: windFrom.nullable(),
  ...air,
  /** The same from a time of the day on, until the next. */
  hours: z
    .array(
      z.strictObject({
        at: z.string().regex(TIME_OF_DAY, 'write a time as hours and minutes, such as 07:30'),
        ...air,
      }),
    )
    .max(48)
    .default([]),
});

export const workSchema = z.strictObject({
  /** First working day; null until a person says. */
  start: date.nullable(),
  /** 1 Monday … 7 Sunday. */
  weekdays: z.array(z.number().int().min(1).max(7)).min(1).max(7),
  lost: z.array(date).max(400),
  /** Where people and rolls come up, in points of the roof's page. */
  access: z.strictObject({ roof: id, at: place }).nullable(),
  /** null until a person chooses; laying then goes from low to high. */
  order: z.enum(['low to high', 'high to low', 'windward first']).nullable(),
  /** The wind of the site, for every day without a forecast of its own; null until a person says. */
  wind: windFrom.nullable().default(null),
  forecast: z
    .array(forecastSchema)
    .max(400)
    .refine((days) => new Set(days.map(({ day }) => day)).size === days.length, 'one forecast for each day')
    .default([]),
  /** Courses moved to another day: a place on the roof's page and the day. */
  moved: z.array(z.strictObject({ roof: id, at: place, day: z.number().int().min(1).max(2000) })).max(2000),
});

export const NO_WORK: z.infer<typeof workSchema> = {
  start: null,
  weekdays: [1, 2, 3, 4, 5],
  lost: [],
  access: null,
  order: null,
  wind: null,
  forecast: [],
  moved: [],
};

/** A layout as it was issued, roof by roof; lengths and places in mm on the roof. */
export const issueSchema = z.strictObject({
  id,
  number: z.number().int().positive(),
  date,
  note: words,
  roofs: z.array(
    z.strictObject({
      roof: id,
      letter: z.string(),
      name: z.string(),
      sheets: z.array(
        z.strictObject({
          id: z.string(),
          course: z.number().int(),
          roll: z.string(),
          length: finite,
          day: z.number().int(),
          corners: z.array(place).length(4),
        }),
      ),
      seams: z.array(
        z.strictObject({
          id: z.string(),
          kind: z.enum(['side-lap', 'end-lap']),
          run: z.string(),
          /** The run's place in the order of work. */
          order: z.number().int(),
          method: z.enum(['machine', 'hand']),
          day: z.number().int(),
          between: z.tuple([z.string(), z.string()]),
          from: place,
          to: place,
          length: finite,
        }),
      ),
    }),
  ),
});

export const LOG_KINDS = ['laid', 'welded', 'probed', 'strip', 'cut-out', 'repaired'] as const;

/** One thing that was done or found. Points at issue, id and place together, never at an id alone. */
export const logEntrySchema = z.strictObject({
  id,
  /** Place in the order of writing, from 1. */
  number: z.number().int().positive(),
  kind: z.enum(LOG_KINDS),
  issue: z.number().int().positive(),
  date,
  /** null for a test strip on scrap. */
  roof: id.nullable(),
  /** The seam's id in that issue, or the sheet's for `laid`. */
  on: z.string().nullable(),
  /** mm on the roof. */
  at: place.nullable(),
  machine: words,
  operator: words,
  membrane: words,
  lead: words,
  /** m/min, °C at the nozzle, °C of the air. */
  speed: z.number().positive().max(50).nullable(),
  temperature: z.number().min(0).max(800).nullable(),
  ambient: z.number().min(-40).max(60).nullable(),
  /** Only for strips and cut-outs. */
  result: z.enum(PEEL_RESULTS).nullable(),
  reading: z
    .strictObject({ value: z.number().nonnegative().max(100_000), unit: z.enum(PEEL_UNITS) })
    .nullable(),
  target: z.strictObject({ value: z.number().positive().max(100_000), unit: z.enum(PEEL_UNITS) }),
  note: words,
});
