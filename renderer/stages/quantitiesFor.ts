// Which figures stand in which stage's ledger, in reading order, and the short reason beside each.
import { formatQuantity } from '../../core/units/figures';
import { formatLength } from '../../core/units/lengths';
import type { Estimate } from '../../core/job/result';
import type { Job } from '../../core/job/schema';
import type { Quantity } from '../../core/quantities/types';

const SHEET_KEYS = [
  'rolls.field',
  'rolls.bound',
  'sheets.count',
  'weld.side',
  'weld.end',
  'count.tJoints',
  'fasteners.count',
  'fasteners.perimeter',
  'fasteners.corner',
  'area.bought',
  'area.lap',
  'area.trimmed',
  'area.offcut',
  'area.reused',
  'waste.percent',
];

const WELD_KEYS = [
  'weld.total',
  'weld.machine',
  'weld.hand',
  'weld.side',
  'weld.end',
  'weld.upstand',
  'weld.detail',
  'hours.machine',
  'hours.hand',
  'hours.probing',
  'hours.strips',
  'night.seal',
  'night.cutBack',
  'hours.total',
  'days',
];

const ROOF_KEYS = [
  'roof.area',
  'roof.perimeter',
  'roof.edges',
  'flashing.length',
  'flashing.reused',
  'corners.inside',
  'corners.outside',
  'boots.pipe',
  'boots.drain',
];

const KEYS = { roof: ROOF_KEYS, sheets: SHEET_KEYS, welds: WELD_KEYS } as const;

export function quantitiesFor(
  stage: keyof typeof KEYS,
  quantities: readonly Quantity[],
): readonly Quantity[] {
  return KEYS[stage].flatMap((key) => quantities.find((quantity) => quantity.key === key) ?? []);
}

/** What stands beside a figure: the count behind a length, the share behind an area. */
export function reasonsFor(job: Job, estimate: Estimate): Readonly<Record<string, string>> {
  const value = (key: string): number => estimate.quantities.find((q) => q.key === key)?.value ?? 0;
  const share = (key: string): string =>
    value('area.bought') > 0
      ? `${((100 * value(key)) / value('area.bought')).toFixed(1)} % of what is bought`
      : '';
  const roll = job.rates.rolls.find((one) => one.id === job.system.roll);
  const size = roll
    ? `${formatLength(roll.width, job.display)} × ${formatLength(roll.length, job.display)}`
    : '';
  const spare = value('rolls.field') - value('rolls.bound');
  return {
    'rolls.field': size,
    'rolls.bound': spare === 0 ? 'reached' : `${formatQuantity(spare, 'rolls', job.display)} above it`,
    'weld.end': `${value('count.endLaps')} laps`,
    'area.lap': share('area.lap'),
    'area.trimmed': 'beyond edges, in openings',
    'area.offcut': share('area.offcut'),
    'waste.percent': 'offcuts and trimmings',
    'fasteners.count': job.system.attachment === 'adhered' ? 'at edges' : 'in laps and at edges',
    'hours.total': 'with laying and fastening',
    days: `${job.rates.labour.crew} people, ${job.rates.labour.dayHours} h a day`,
  };
}
