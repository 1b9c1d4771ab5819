// What each stage wears in the rail: its figure, and the one thing that makes the figure trustworthy.
import { mmPerPointAt } from '../../core/job/pageScale';
import { checkLength } from '../../core/plan/scale';
import { formatMoney, formatQuantity } from '../../core/units/figures';
import { formatNumber } from '../../core/units/numbers';
import { formatScale, ratioOf } from '../../core/units/scales';
import type { Estimate } from '../../core/job/result';
import type { Job, JobPage } from '../../core/job/schema';
import type { Stage } from '../document/view';

export interface Headline {
  readonly figure: string;
  readonly reason: string;
  /** The figure leaves something out that the job holds. */
  readonly wrong?: boolean;
}

export const STAGE_NAMES: Readonly<Record<Stage, string>> = {
  plan: 'Plan',
  roof: 'Roof',
  sheets: 'Sheets',
  welds: 'Welds',
  order: 'Order',
  bid: 'Bid',
};

const NONE: Headline = { figure: '—', reason: '' };

export function headlineOf(
  stage: Stage,
  job: Job,
  page: JobPage | null,
  estimate: Estimate | null,
): Headline {
  if (stage === 'plan') return planHeadline(job, page);
  const headline = figureOf(stage, job, estimate);
  const left = estimate?.roofs.filter((roof) => roof.faults.length > 0 && roof.id in job.roofs) ?? [];
  if (left.length === 0) return headline;
  const names = left.map((roof) => roof.name).join(', ');
  return { figure: headline.figure, reason: `without ${names}`, wrong: true };
}

function figureOf(stage: Exclude<Stage, 'plan'>, job: Job, estimate: Estimate | null): Headline {
  if (!estimate || Object.keys(job.roofs).length === 0)
    return stage === 'roof' ? { figure: '—', reason: 'no roof traced yet' } : NONE;
  const figure = (key: string): string | null => {
    const quantity = estimate.quantities.find((q) => q.key === key);
    return quantity ? formatQuantity(quantity.value, quantity.unit, job.display) : null;
  };
  const value = (key: string): number => estimate.quantities.find((q) => q.key === key)?.value ?? 0;
  switch (stage) {
    case 'roof':
      return { figure: figure('roof.area') ?? '—', reason: `${figure('roof.edges') ?? '—'} of edge` };
    case 'sheets':
      return {
        figure: figure('rolls.field') ?? '—',
        reason: figure('rolls.bound') ? `least possible ${formatNumber(value('rolls.bound'))}` : '',
      };
    case 'welds':
      return {
        figure: figure('weld.total') ?? '—',
        reason: figure('hours.machine') ? `${figure('hours.machine')} by machine` : '',
      };
    case 'order': {
      const { pallets, mass } = estimate.order;
      return {
        figure: `${formatNumber(pallets)} ${pallets === 1 ? 'pallet' : 'pallets'}`,
        reason: formatQuantity(mass, 'kg', job.display),
      };
    }
    case 'bid':
      return {
        figure: formatMoney(estimate.bid.total),
        reason: `${estimate.bid.currency}, ${formatMoney(estimate.bid.perSquareMetre)} per m²`,
      };
  }
}

function planHeadline(job: Job, page: JobPage | null): Headline {
  if (!page) return { figure: '—', reason: 'no drawing yet' };
  const { scale, checks, regions = [] } = page;
  const main = scale ?? regions[0]?.scale;
  if (!main) return { figure: 'no scale', reason: page.name };
  const figure = formatScale(ratioOf(main.mmPerPoint), job.display);
  const others = regions.filter((region) => region.scale.mmPerPoint !== main.mmPerPoint).length;
  const elsewhere = others === 0 ? '' : `, ${others} region${others === 1 ? '' : 's'}`;
  if (checks.length === 0) return { figure, reason: `not checked yet${elsewhere}` };
  const worst = Math.max(
    ...checks.map((check) => {
      const mmPerPoint = mmPerPointAt(page, check.a);
      return mmPerPoint === null ? 0 : Math.abs(checkLength({ ...check, mmPerPoint }).percent);
    }),
  );
  const lengths = checks.length === 1 ? 'one length' : `${checks.length} lengths`;
  return {
    figure,
    reason: worst < 0.05 ? `agrees with ${lengths}` : `${lengths}, at most ${worst.toFixed(1)} % off`,
  };
}
