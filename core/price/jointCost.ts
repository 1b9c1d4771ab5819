// In: rates, a roll and the end lap. Out: what an end lap costs, as a plain number for comparing layouts. Promise:
// for choosing only; nothing of it reaches a bid line.
import type { Rates } from '../rates/schema';
import type { RollProduct } from '../sheets/types';

/** An end lap costs its weld and set-up by the people at it, two T-joints with their patches, and its membrane. */
export function jointCost(rates: Rates, roll: RollProduct, endLap: number, patches: boolean): number {
  const { speeds, labour, packs } = rates;
  const hourly = Number(labour.wage) * (1 + labour.burdenPercent / 100);
  const weld = roll.width / 1000 / speeds.machine / speeds.efficiency + speeds.setupPerSeam;
  const hours = (weld * labour.perWelder + 2 * speeds.perTJoint) / 60;
  const patch = patches ? (2 * Number(packs.tJointPatch.price)) / packs.tJointPatch.packSize : 0;
  return hours * hourly + patch + (roll.cost * endLap) / roll.length;
}
