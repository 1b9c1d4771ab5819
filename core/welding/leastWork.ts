// In: the work and the rates. Out: person-minutes and days that no plan of this work goes below. Promise: it assumes
// the fastest machine for every lap, no walking, no night closing and no waiting, so no order of work, no share of the
// machines and no moved course beats it.
import { COUNT_NOISE } from '../geometry/tolerances';
import type { Rates } from '../rates/schema';
import { machinesAtOnce, minutesBeside } from './planWelds';
import type { WeldPlan } from './types';
import { productivityOf, workedMinutes } from './weldSpeed';
import type { WorkPiece } from './workLoads';

export interface LeastWork {
  readonly days: number;
  readonly minutes: number;
}

export function leastWork(
  pieces: readonly WorkPiece[],
  plan: WeldPlan,
  rates: Rates,
  capacity: number,
): LeastWork {
  const { speeds, labour, welding } = rates;
  const { factor } = productivityOf(welding);
  const fastest = Math.max(...welding.machines.slice(0, machinesAtOnce(rates)).map((one) => one.factor));
  let persons = pieces.reduce((sum, piece) => sum + piece.total, 0);
  let machine = 0;
  let byHand = false;
  for (const run of plan.runs) {
    const spared =
      run.machine === null
        ? 0
        : run.weldMinutes * (1 - (welding.machines[run.machine]?.factor ?? 1) / fastest);
    persons -= (spared / speeds.efficiency + run.walkMinutes) * labour.perWelder * factor;
    if (run.machine === null) byHand = true;
    else
      machine +=
        workedMinutes(run.weldMinutes - spared, speeds.efficiency, minutesBeside(run) - run.walkMinutes) *
        factor;
  }
  const dayMinutes = 60 * labour.dayHours;
  const machineDays = Math.ceil(machine / dayMinutes - COUNT_NOISE);
  const eachMachineDay = speeds.perTestStrip + welding.warmUp + welding.cooling;
  const minutes = persons + machineDays * eachMachineDay + (byHand ? speeds.perTestStrip : 0);
  const days = [minutes / capacity, machine / (machinesAtOnce(rates) * dayMinutes)];
  return { minutes, days: Math.max(0, ...days.map((count) => Math.ceil(count - COUNT_NOISE))) };
}
