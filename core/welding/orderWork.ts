// In: laid roofs, their weld runs, rates and calendar. Out: the work in the order of laying, the days it fills, and what
// else stays as it is however a person moves courses from day to day. Promise: every sheet and run is in exactly one
// piece; a move is planned from here without looking at roofs and seams again.
import type { RoofPoint } from '../geometry/points';
import type { Calendar } from './calendar';
import { dayClock, type DayClock } from './clock';
import { leastWork, type LeastWork } from './leastWork';
import { planDays, type DayPlan, type DayRules } from './planDays';
import { machinesAtOnce } from './planWelds';
import { checkSupply, type SupplyCheck } from './power';
import { laidOrder } from './touched';
import type { WeldPlan } from './types';
import { windOn, type Weather } from './weatherFindings';
import { workPieces, type LoadRules, type OrderedInput, type WorkInput, type WorkPiece } from './workLoads';

export interface WorkRules extends LoadRules, Weather {
  readonly calendar: Calendar;
  /** Where people and rolls come up. */
  readonly access: { readonly roof: string; readonly at: RoofPoint } | null;
  /** Whether a person has chosen the order of laying. */
  readonly orderChosen: boolean;
}

export interface OrderedWork {
  readonly inputs: readonly OrderedInput[];
  readonly rules: WorkRules;
  readonly pieces: readonly WorkPiece[];
  readonly dayRules: DayRules;
  /** The days with nothing moved. */
  readonly unmoved: DayPlan;
  readonly least: LeastWork;
  readonly supply: SupplyCheck;
}

export function orderWork(given: readonly WorkInput[], plan: WeldPlan, rules: WorkRules): OrderedWork {
  const inputs = given.map((input) => ({
    input,
    laid: laidOrder(input.layout, input.seams, rules.order),
  }));
  const pieces = workPieces(inputs, plan, rules);
  const { rates, adhered, calendar } = rules;
  const dayRules = {
    rates,
    adhered,
    calendar,
    windOn: windOn(rules),
    clockOn: clockOn(rules, 'laying'),
    detailsOn: clockOn(rules, 'details'),
  };
  const unmoved = planDays(pieces, dayRules);
  return {
    inputs,
    rules,
    pieces,
    dayRules,
    unmoved,
    least: leastWork(pieces, plan, rates, unmoved.capacity),
    supply: checkSupply(rates.welding, machinesAtOnce(rates)),
  };
}

/** Every day has the same clock but those whose hours are forecast. */
function clockOn(
  { rates, adhered, forecast }: WorkRules,
  work: 'laying' | 'details',
): (day: number) => DayClock {
  const usual = dayClock(rates, [], adhered);
  const own = new Map(
    forecast
      .filter(({ hours }) => hours.length > 0)
      .map(({ day, hours }) => [day, dayClock(rates, hours, adhered, work)] as const),
  );
  return (day) => own.get(day) ?? usual;
}
