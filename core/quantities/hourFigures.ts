// Hours, from weld speed and from what stands beside it.
import type { WeldRun } from '../welding/types';
import { m, m2, make, say, type Measured, type MeasureRules } from './make';
import type { Quantity } from './types';

export function hourFigures(
  { roof, fastening, details, seams, welds: runs, adhered, days }: Measured,
  { rates, assumed }: MeasureRules,
): Quantity[] {
  const { speeds, labour, welding } = rates;
  const { height, crowding, weather } = welding.productivity;
  const slower = height * crowding * weather;
  /** Said one by one, and only where one is set. */
  const times = [['height', height] as const, ['crowding', crowding] as const, ['weather', weather] as const]
    .filter(([, factor]) => factor !== 1)
    .map(([name, factor]) => ` × ${factor} for ${name}`)
    .join('');
  const beside = (list: readonly WeldRun[]) =>
    list.reduce(
      (sum, run) =>
        sum + run.setupMinutes + run.walkMinutes + run.turnMinutes + run.slowMinutes + run.nozzleMinutes,
      0,
    ) / 60;
  const machineRuns = runs.filter((run) => run.method === 'machine');
  const handRuns = runs.filter((run) => run.method === 'hand');
  const finishing = machineRuns.reduce((sum, run) => sum + run.handMinutes, 0) / 60;
  const welded = (list: readonly WeldRun[]) => list.reduce((sum, run) => sum + run.weldMinutes, 0) / 60;
  const timed = (weld: number, efficiency: number, more: number) => ({
    weld,
    efficiency,
    beside: more,
    total: (weld / efficiency + more) * slower,
  });
  const machine = timed(welded(machineRuns), speeds.efficiency, beside(machineRuns));
  const hand = timed(welded(handRuns) + finishing, welding.handEfficiency, beside(handRuns));
  const weldAssumed = assumed(
    'rates.speeds.machine',
    'rates.speeds.handLap',
    'rates.speeds.handDetail',
    'rates.speeds.efficiency',
    'rates.speeds.setupPerSeam',
    'rates.speeds.walking',
    'rates.welding.handEfficiency',
    'rates.welding.turning',
    'rates.welding.slowAtTJoint',
    'rates.welding.nozzleCleaning',
    'rates.welding.handAtStop',
  );
  const weldHours = (
    key: string,
    label: string,
    time: typeof machine,
    list: readonly WeldRun[],
    of: string,
  ) =>
    make(
      key,
      label,
      time.total,
      'h',
      `${say(time.weld)} h of welding ÷ ${time.efficiency} efficiency + ${say(time.beside)} h of ${of}${times}`,
      list.map((run) => run.seam),
      weldAssumed,
    );
  const laying = m2(roof.area) * labour.layingPerM2 * slower;
  const { minutesPerM2, coats, drying } = welding.adhering;
  const bonding = adhered ? (m2(roof.area) * minutesPerM2 * coats * slower) / 60 : 0;
  const fasten = (fastening.count * labour.perFastener * slower) / 60;
  const edge = details.flashings.reduce((sum, f) => sum + m(f.length), 0);
  const flash = edge * labour.flashingPerM * slower;
  const detail =
    ((details.corners.length * labour.perCorner +
      details.boots.length * labour.perBoot +
      seams.tJoints.length * speeds.perTJoint) *
      slower) /
    60;
  const metres = m(runs.reduce((sum, run) => sum + run.length, 0));
  const probing =
    ((metres / welding.probing + (metres / welding.repairEvery) * welding.perRepair) * slower) / 60;
  const strips = (days?.stripMinutes ?? 0) / 60;
  const heating = (days?.heatMinutes ?? 0) / 60;
  const sealing = (days?.sealMinutes ?? 0) / 60;
  const waiting = (days?.waitMinutes ?? 0) / 60;
  const rest = laying + bonding + fasten + flash + detail + probing + strips + heating + waiting + sealing;
  return [
    weldHours(
      'hours.machine',
      'Machine welding',
      machine,
      machineRuns,
      'setting up, turning, walking back, T-joints and nozzles',
    ),
    weldHours('hours.hand', 'Hand welding', hand, handRuns, 'walking and nozzles'),
    make(
      'hours.laying',
      'Laying',
      laying,
      'h',
      `${say(m2(roof.area))} m² × ${labour.layingPerM2} h a m²${times}`,
      [roof.id],
      assumed('rates.labour.layingPerM2'),
    ),
    ...(adhered
      ? [
          make(
            'hours.bonding',
            'Bonding',
            bonding,
            'h',
            `${say(m2(roof.area))} m² × ${minutesPerM2} min × ${coats} coats${times}`,
            [roof.id],
            assumed('rates.welding.adhering.minutesPerM2', 'rates.welding.adhering.coats'),
          ),
        ]
      : []),
    make(
      'hours.fastening',
      'Fastening',
      fasten,
      'h',
      `${fastening.count} fasteners × ${labour.perFastener} min${times}`,
      fastening.rows.map((r) => r.id),
      assumed('rates.labour.perFastener'),
    ),
    make(
      'hours.flashing',
      'Setting flashings',
      flash,
      'h',
      `${say(edge)} m × ${labour.flashingPerM} h a metre${times}`,
      details.flashings.map((f) => f.edge),
      assumed('rates.labour.flashingPerM'),
    ),
    make(
      'hours.details',
      'Corners, boots, T-joints',
      detail,
      'h',
      `${details.corners.length} × ${labour.perCorner} + ${details.boots.length} × ${labour.perBoot} + ${seams.tJoints.length} × ${speeds.perTJoint} min${times}`,
      [...details.corners, ...details.boots, ...seams.tJoints].map((d) => d.id),
      assumed('rates.labour.perCorner', 'rates.labour.perBoot', 'rates.speeds.perTJoint'),
    ),
    make(
      'hours.probing',
      'Probing and patching',
      probing,
      'h',
      `${say(metres)} m ÷ ${welding.probing} m/min, and a repair of ${welding.perRepair} min every ${welding.repairEvery} m${times}`,
      [],
      assumed('rates.welding.probing', 'rates.welding.perRepair'),
    ),
    make(
      'hours.strips',
      'Test strips',
      strips,
      'h',
      `${say(days?.strips ?? 0, 0)} strips on ${days?.days ?? 0} day(s) × ${speeds.perTestStrip} min`,
      [],
      assumed('rates.speeds.perTestStrip'),
    ),
    make(
      'hours.heating',
      'Heating up and cooling',
      heating,
      'h',
      `${welding.warmUp} + ${welding.cooling} min a day for each machine in use`,
      [],
      assumed('rates.welding.warmUp', 'rates.welding.cooling'),
    ),
    make(
      'hours.waiting',
      'Waiting for sheets to lie',
      waiting,
      'h',
      `${welding.relaxing} min${adhered ? ` + ${coats} × ${drying} min of drying` : ''} from unrolling to welding, once a day for each of the crew, less the other work that fills it`,
      [],
      assumed('rates.welding.relaxing', ...(adhered ? ['rates.welding.adhering.drying'] : [])),
    ),
    make(
      'hours.sealing',
      'Closing for the night',
      sealing,
      'h',
      `${say(m(days?.seal ?? 0))} m ÷ ${welding.nightSeal} m/min`,
      [],
      assumed('rates.welding.nightSeal'),
    ),
    make(
      'hours.total',
      'Person-hours',
      (machine.total + hand.total) * labour.perWelder + rest,
      'h',
      `person-hours: ${say(machine.total + hand.total)} h of welding × ${labour.perWelder} people + ${say(rest)} h of the rest`,
      [],
      weldAssumed,
    ),
    make(
      'days',
      'Working days',
      days?.days ?? 0,
      'pieces',
      `the days of the weld plan on which this roof is worked on`,
      [],
      assumed('rates.labour.crew', 'rates.labour.dayHours'),
    ),
    make(
      'night.seal',
      'Night seal',
      m(days?.seal ?? 0),
      'm',
      'the open laps of every evening before the last',
      [],
      null,
    ),
    make(
      'night.cutBack',
      'Cut back in the morning',
      m2(days?.cutBack ?? 0),
      'm2',
      `the night seals × ${welding.nightCutBack} mm`,
      [],
      assumed('rates.welding.nightCutBack'),
    ),
  ];
}
