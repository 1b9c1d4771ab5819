// Hours, from weld speed and from what stands beside it.
import type { WeldRun } from '../welding/types';
import { m, m2, make, say, type Measured, type MeasureRules } from './make';
import type { Quantity } from './types';

/** How many test strips a day: at the start and after the long break (common practice, no source). */
const STRIPS_PER_DAY = 2;

export function hourFigures(
  { roof, fastening, details, seams, welds: runs }: Measured,
  { rates, assumed }: MeasureRules,
): Quantity[] {
  const { speeds, labour } = rates;
  const timed = (method: WeldRun['method']) => {
    const list = runs.filter((run) => run.method === method);
    const weld = list.reduce((sum, run) => sum + run.weldMinutes, 0) / 60;
    const beside = list.reduce((sum, run) => sum + run.setupMinutes + run.walkMinutes, 0) / 60;
    return { list, weld, beside, total: weld / speeds.efficiency + beside };
  };
  const machine = timed('machine');
  const hand = timed('hand');
  const weldAssumed = assumed(
    'rates.speeds.machine',
    'rates.speeds.handLap',
    'rates.speeds.handDetail',
    'rates.speeds.efficiency',
    'rates.speeds.setupPerSeam',
    'rates.speeds.walking',
  );
  const weldHours = (key: string, label: string, time: typeof machine) =>
    make(
      key,
      label,
      time.total,
      'h',
      `${say(time.weld)} h of welding ÷ ${speeds.efficiency} efficiency + ${say(time.beside)} h of setting up and walking back`,
      time.list.map((run) => run.seam),
      weldAssumed,
    );
  const laying = m2(roof.area) * labour.layingPerM2;
  const fasten = (fastening.count * labour.perFastener) / 60;
  const flash = details.flashings.reduce((sum, f) => sum + m(f.length), 0) * labour.flashingPerM;
  const detail =
    (details.corners.length * labour.perCorner +
      details.boots.length * labour.perBoot +
      seams.tJoints.length * speeds.perTJoint) /
    60;
  const welding = (machine.total + hand.total) * labour.perWelder;
  const onRoof = laying + fasten + flash + detail + welding;
  const days = Math.ceil(onRoof / (labour.crew * labour.dayHours));
  const strips = (days * STRIPS_PER_DAY * speeds.perTestStrip) / 60;
  return [
    weldHours('hours.machine', 'Machine welding', machine),
    weldHours('hours.hand', 'Hand welding', hand),
    make(
      'hours.laying',
      'Laying',
      laying,
      'h',
      `${say(m2(roof.area))} m² × ${labour.layingPerM2} h a m²`,
      [roof.id],
      assumed('rates.labour.layingPerM2'),
    ),
    make(
      'hours.fastening',
      'Fastening',
      fasten,
      'h',
      `${fastening.count} fasteners × ${labour.perFastener} min`,
      fastening.rows.map((r) => r.id),
      assumed('rates.labour.perFastener'),
    ),
    make(
      'hours.flashing',
      'Setting flashings',
      flash,
      'h',
      `${say(flash / (labour.flashingPerM || 1))} m × ${labour.flashingPerM} h a metre`,
      details.flashings.map((f) => f.edge),
      assumed('rates.labour.flashingPerM'),
    ),
    make(
      'hours.details',
      'Corners, boots, T-joints',
      detail,
      'h',
      `${details.corners.length} × ${labour.perCorner} + ${details.boots.length} × ${labour.perBoot} + ${seams.tJoints.length} × ${speeds.perTJoint} min`,
      [...details.corners, ...details.boots, ...seams.tJoints].map((d) => d.id),
      assumed('rates.labour.perCorner', 'rates.labour.perBoot', 'rates.speeds.perTJoint'),
    ),
    make(
      'hours.strips',
      'Test strips',
      strips,
      'h',
      `${days} day(s) × ${STRIPS_PER_DAY} strips × ${speeds.perTestStrip} min`,
      [],
      assumed('rates.speeds.perTestStrip'),
    ),
    make(
      'hours.total',
      'Person-hours',
      onRoof + strips,
      'h',
      `person-hours: ${say(machine.total + hand.total)} h of welding × ${labour.perWelder} people + ${say(laying + fasten + flash + detail + strips)} h of the rest`,
      [],
      weldAssumed,
    ),
    make(
      'days',
      'Working days',
      days,
      'pieces',
      `${say(onRoof)} h ÷ (${labour.crew} people × ${labour.dayHours} h), rounded up`,
      [],
      assumed('rates.labour.crew', 'rates.labour.dayHours'),
    ),
  ];
}
