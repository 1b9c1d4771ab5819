// Machines, welding conditions, allowances and crews: what turns metres of seam into hours and days. Shipped values
// are common practice without a source unless said otherwise, and each counts as assumed until a person sets it.
import { z } from 'zod';
import { TIME_OF_DAY } from '../units/times';

const positive = z.number().positive().finite();
const notNegative = z.number().nonnegative().finite();
const factor = z.number().min(0.05).max(10);

/** Common practice, no source. */
const DRYING_MINUTES = 15;
/** Common practice, no source. */
const SHIPPED_CLOCK = {
  start: '07:00',
  breaks: [
    { at: '09:30', minutes: 15 },
    { at: '12:00', minutes: 45 },
  ],
};
/** Loose sheets: force 4, 17 mph (common practice, no source). All work: force 5, 23 mph, about 10 m/s, upsets balance
 * (UK Health and Safety Executive, frequently asked questions on work at height). */
const SHIPPED_WIND = { unroll: 7.5, stop: 10 };

const timeOfDay = z.string().regex(TIME_OF_DAY, 'write a time as hours and minutes, such as 07:30');

export const clockSchema = z.strictObject({
  start: timeOfDay,
  breaks: z.array(z.strictObject({ at: timeOfDay, minutes: positive.max(240) })).max(6),
});

export const machineSchema = z.strictObject({
  name: z.string().min(1).max(60),
  /** Times the planning speed. */
  factor,
  /** On which side of the machine, looking the way it drives, the edge that it welds lies. */
  handed: z.enum(['left', 'right']),
  /** A at the plug. */
  amps: positive.max(200),
});

export const weldingRatesSchema = z.strictObject({
  /** One row for each machine on the roof. All are in use at once, as far as there are people for them. */
  machines: z.array(machineSchema).min(1).max(12),
  /** How thickness moves the machine's speed; a thickness between two rows is read between them. */
  sheets: z.array(z.strictObject({ material: z.enum(['TPO', 'PVC']), thickness: positive, factor })).min(1),
  /** How air temperature moves it. Read between rows, and beyond the ends as at the ends. */
  ambient: z.array(z.strictObject({ celsius: z.number().min(-40).max(60), factor })).min(1),
  surfaces: z.array(z.strictObject({ name: z.string().min(1).max(60), factor })).min(1),
  /** What is planned for. */
  conditions: z.strictObject({
    celsius: z.number().min(-40).max(60),
    /** %, null where nobody has said. */
    humidity: z.number().min(1).max(100).nullable(),
    surface: z.string(),
  }),
  /** Times on all hours on the roof, 1 for none. */
  productivity: z.strictObject({ height: factor, crowding: factor, weather: factor }),
  /** A flat lap shorter than this is welded by hand, mm. */
  leastMachineLap: notNegative,
  /** What a machine leaves to the hand at each of its stops, and how far it stays from a drain and an upstand, mm. */
  handAtStop: notNegative,
  drainClear: notNegative,
  upstandClear: notNegative,
  /** Share of hand time that is really welding, 0…1. */
  handEfficiency: z.number().positive().max(1),
  /** Minutes: turning a machine for each run, slowing over each T-joint, each cleaning of a nozzle. */
  turning: notNegative,
  slowAtTJoint: notNegative,
  nozzleCleaning: notNegative,
  /** m of weld between two cleanings. */
  nozzleEvery: positive,
  /** m/min of probing, of every metre after cooling. */
  probing: positive,
  /** Patches on repairs: each so many m of weld, each so many minutes. */
  repairEvery: positive,
  perRepair: notNegative,
  /** Minutes for each machine and day: heating up, and cooling down before it is put away. */
  warmUp: notNegative,
  cooling: notNegative,
  /** Minutes that a sheet lies unrolled before it is welded; it passes while other work goes on. */
  relaxing: notNegative,
  /** When work starts and stands still; how long it lasts beside that is the labour's. */
  clock: clockSchema.default(SHIPPED_CLOCK),
  /** m/min of closing an edge for the night, and mm of it cut back next morning. */
  nightSeal: positive,
  nightCutBack: notNegative,
  crews: z.number().int().min(1).max(20),
  /** Share of the crew's hours on hand for the roof. */
  availability: z.number().min(0.1).max(1),
  /** Bonding: least air temperature in °C, how far the deck must stay above the dew point, and coats. */
  adhering: z.strictObject({
    leastCelsius: z.number().min(-20).max(40),
    aboveDewPoint: notNegative,
    coats: z.number().int().min(1).max(3),
    minutesPerM2: notNegative,
    /** Minutes that each coat dries before the next or before the sheet goes down. */
    drying: notNegative.default(DRYING_MINUTES),
  }),
  /** m/s: from here on nothing is unrolled, and from here on all work stops. */
  wind: z.strictObject({ unroll: positive.max(40), stop: positive.max(40) }).default(SHIPPED_WIND),
  /** Peel that a test strip must reach; 45 lbf/in is common practice without a source. */
  peelTarget: z.strictObject({ value: positive, unit: z.enum(['N/mm', 'N/50 mm', 'N/25 mm', 'lbf/in']) }),
  supply: z.strictObject({
    volts: positive,
    /** One way, m; section of a conductor, mm². */
    leadLength: positive,
    leadSection: positive,
    /** Greatest drop along the lead, %; what the supply or generator gives, kW, null where nobody has said. */
    mostDropPercent: positive.max(50),
    kilowatts: positive.nullable(),
    /** Whether each machine has a lead of its own or all hang on one. */
    leads: z.enum(['one each', 'one for all']).default('one each'),
  }),
});

export const SHIPPED_WELDING: z.infer<typeof weldingRatesSchema> = {
  machines: [{ name: 'Machine 1', factor: 1, handed: 'right', amps: 20 }],
  sheets: [
    { material: 'TPO', thickness: 1.2, factor: 1.15 },
    { material: 'TPO', thickness: 1.5, factor: 1 },
    { material: 'TPO', thickness: 2, factor: 0.75 },
    { material: 'PVC', thickness: 1.2, factor: 1.15 },
    { material: 'PVC', thickness: 1.5, factor: 1 },
    { material: 'PVC', thickness: 2, factor: 0.8 },
  ],
  ambient: [
    { celsius: 5, factor: 0.75 },
    { celsius: 20, factor: 1 },
    { celsius: 30, factor: 1.1 },
  ],
  surfaces: [
    { name: 'new and clean', factor: 1 },
    { name: 'cleaned after weathering', factor: 0.8 },
  ],
  conditions: { celsius: 20, humidity: null, surface: 'new and clean' },
  productivity: { height: 1, crowding: 1, weather: 1 },
  leastMachineLap: 1500,
  handAtStop: 300,
  drainClear: 300,
  upstandClear: 300,
  handEfficiency: 0.6,
  turning: 0.5,
  slowAtTJoint: 0.25,
  nozzleCleaning: 1,
  nozzleEvery: 50,
  probing: 12,
  repairEvery: 150,
  perRepair: 6,
  warmUp: 10,
  cooling: 10,
  relaxing: 20,
  clock: SHIPPED_CLOCK,
  nightSeal: 2,
  nightCutBack: 150,
  crews: 1,
  availability: 1,
  adhering: { leastCelsius: 5, aboveDewPoint: 3, coats: 2, minutesPerM2: 0.8, drying: DRYING_MINUTES },
  wind: SHIPPED_WIND,
  peelTarget: { value: 45, unit: 'lbf/in' },
  supply: {
    volts: 230,
    leadLength: 50,
    leadSection: 4,
    mostDropPercent: 5,
    kilowatts: null,
    leads: 'one each',
  },
};
