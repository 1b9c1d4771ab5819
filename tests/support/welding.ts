// Roofs laid and planned for the welding tests, and rates with every allowance taken out.
import { listDetails } from '../../core/details/listDetails';
import { placeFasteners } from '../../core/fastening/placeFasteners';
import type { Rates } from '../../core/rates/schema';
import { SHIPPED_RATES } from '../../core/rates/shipped';
import type { Roof } from '../../core/roof/types';
import { findSeams } from '../../core/seams/findSeams';
import { layRoof } from '../../core/sheets/layRoof';
import type { LayoutSpec } from '../../core/sheets/types';
import { planWelds, type WeldRules } from '../../core/welding/planWelds';
import { orderWork, type WorkRules } from '../../core/welding/orderWork';
import { planWork, type MovedPlace } from '../../core/welding/planWork';
import type { WeldPlan, WorkPlan } from '../../core/welding/types';
import type { WorkInput } from '../../core/welding/workLoads';
import { layoutSpec } from './roofs';

type Welding = Partial<Rates['welding']>;
type Speeds = Partial<Rates['speeds']>;

/** Length ÷ speed and nothing else: 3 m/min by machine, walking at 50 m/min. */
export function bareRates(speeds: Speeds = {}, welding: Welding = {}): Rates {
  return {
    ...SHIPPED_RATES,
    speeds: { ...SHIPPED_RATES.speeds, machine: 3, setupPerSeam: 0, walking: 50, ...speeds },
    welding: {
      ...SHIPPED_RATES.welding,
      handAtStop: 0,
      turning: 0,
      slowAtTJoint: 0,
      nozzleCleaning: 0,
      ...welding,
    },
  };
}

export function weldRules(rates: Rates, changes: Partial<WeldRules> = {}): WeldRules {
  return {
    rates,
    sheet: { material: 'TPO', thickness: 1.5 },
    patches: false,
    order: 'low to high',
    ...changes,
  };
}

/** Weekdays from an open start, low to high, nothing forecast. */
export function workRules(rates: Rates, changes: Partial<WorkRules> = {}): WorkRules {
  return {
    rates,
    adhered: false,
    order: 'low to high',
    orderChosen: true,
    calendar: { start: null, weekdays: [1, 2, 3, 4, 5], lost: [] },
    access: null,
    wind: null,
    forecast: [],
    ...changes,
  };
}

export function workInput(roof: Roof, spec: LayoutSpec = layoutSpec()): WorkInput {
  const laid = layRoof(roof, spec);
  if ('faults' in laid) throw new Error(laid.faults[0]?.message);
  const { layout } = laid;
  const seams = findSeams(roof, layout);
  const details = listDetails(roof, SHIPPED_RATES.flashingRoll.length);
  const fastening = placeFasteners(roof, layout, seams, { inLap: 300, atEdge: 300 });
  return { roof, layout, seams, details, fastening };
}

export function planOf(
  inputs: readonly WorkInput[],
  plan: WeldPlan,
  rules: WorkRules,
  moved: readonly MovedPlace[] = [],
): WorkPlan {
  return planWork(orderWork(inputs, plan, rules), moved);
}

export function welded(roof: Roof, rules: WeldRules, spec?: LayoutSpec): WeldPlan {
  return planWelds([workInput(roof, spec)], rules);
}
