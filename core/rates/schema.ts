// Products, packs, prices and speeds: the one schema, from which the types, the checks and the JSON Schema come.
import { z } from 'zod';
import { SHIPPED_FASTENER_LENGTHS } from './fastenerLengths';
import { SHIPPED_NIGHT_SEAL } from './nightSeal';
import { SHIPPED_WELDING, weldingRatesSchema } from './welding';

/** Money as a decimal string, so that no rate ever passes through a binary fraction. */
export const moneySchema = z
  .string()
  .regex(/^-?\d{1,12}(\.\d{1,6})?$/, 'write money as digits with a point, such as 148.50');

const positive = z.number().positive().finite();
const notNegative = z.number().nonnegative().finite();
const percent = z.number().min(0).max(100);

export const rollProductSchema = z.strictObject({
  id: z.string().min(1),
  name: z.string(),
  /** mm */
  width: positive,
  length: positive,
  price: moneySchema,
  /** kg/m² */
  massPerM2: positive,
});

/** Something bought in packs: one pack holds `packSize` units and weighs `packMass` kg (null: not known). */
export const packProductSchema = z.strictObject({
  name: z.string(),
  packName: z.string(),
  packSize: positive,
  price: moneySchema,
  packMass: positive.nullable(),
});

export const ratesSchema = z.strictObject({
  currency: z.strictObject({
    code: z.string().regex(/^[A-Z]{3}$/),
    minorDigits: z.number().int().min(0).max(3),
  }),
  rolls: z.array(rollProductSchema).min(1),
  /** Unreinforced or field sheet for upstands, as a roll. */
  flashingRoll: rollProductSchema,
  packs: z.strictObject({
    fastener: packProductSchema,
    plate: packProductSchema,
    adhesive: packProductSchema,
    tJointPatch: packProductSchema,
    cornerPiece: packProductSchema,
    pipeBoot: packProductSchema,
    drainInsert: packProductSchema,
    sealant: packProductSchema,
    nightSeal: packProductSchema.default(SHIPPED_NIGHT_SEAL),
  }),
  speeds: z.strictObject({
    /** m/min of machine weld, of hand weld along a straight lap, and of hand weld at details. */
    machine: positive,
    handLap: positive,
    handDetail: positive,
    /** Share of machine and hand time that is really welding, 0…1. */
    efficiency: z.number().positive().max(1),
    /** Minutes to set a machine on a seam; m/min of walking back; minutes for each T-joint and test strip. */
    setupPerSeam: notNegative,
    walking: positive,
    perTJoint: notNegative,
    perTestStrip: notNegative,
  }),
  welding: weldingRatesSchema.default(SHIPPED_WELDING),
  labour: z.strictObject({
    crew: z.number().int().min(1).max(50),
    /** People at one weld: who welds and who lays out and rolls down beside. */
    perWelder: z.number().int().min(1).max(10),
    wage: moneySchema,
    burdenPercent: percent,
    /** h/m² of laying the field, min per fastener, h/m of flashing, min per corner and per boot. */
    layingPerM2: notNegative,
    perFastener: notNegative,
    flashingPerM: notNegative,
    perCorner: notNegative,
    perBoot: notNegative,
    /** Hours of one working day. */
    dayHours: z.number().positive().max(24),
  }),
  plant: z.array(z.strictObject({ name: z.string(), per: z.enum(['day', 'job']), price: moneySchema })),
  sparePercent: z.strictObject({ fasteners: percent, flashing: percent }),
  /** Plates and fasteners along the roof's own edges, mm between; 0 for none. */
  edgeFastenerSpacing: notNegative,
  /** Lengths that fasteners are sold in, mm. */
  fastenerLengths: z.array(positive.max(1_000)).min(1).default(SHIPPED_FASTENER_LENGTHS),
  /** m² per litre. */
  adhesiveCoverage: positive,
  palletMass: positive,
  /** Getting rid of a square metre of waste. */
  disposalPerM2: moneySchema,
  contingencyPercent: percent,
  overheadPercent: percent,
  profit: z.strictObject({ percent: z.number().min(0).lt(100), as: z.enum(['markup', 'margin']) }),
  taxPercent: percent,
});

/** What a schema reads is never edited. */
export type DeepReadonly<T> = T extends [infer A, infer B]
  ? readonly [A, B]
  : T extends (infer U)[]
    ? readonly DeepReadonly<U>[]
    : T extends object
      ? { readonly [K in keyof T]: DeepReadonly<T[K]> }
      : T;

export type Rates = DeepReadonly<z.infer<typeof ratesSchema>>;
export type RollRate = DeepReadonly<z.infer<typeof rollProductSchema>>;
export type PackProduct = DeepReadonly<z.infer<typeof packProductSchema>>;
