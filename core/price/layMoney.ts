// In: rates. Out: what laying costs, as plain numbers for comparing layouts. Promise: for choosing only; nothing of it
// reaches a bid line.
import { LEAST_MACHINE_LAP_MM } from '../rates/practice';
import type { Rates } from '../rates/schema';

export interface LayMoney {
  /** A metre of flat weld by machine, and by hand where the lap is short, by the people at it. */
  readonly weldPerM: number;
  readonly handWeldPerM: number;
  /** Set-up and T-joint treatment of one end lap, beside its metres. */
  readonly perJoint: number;
  /** Getting rid of a square metre that is bought and not laid. */
  readonly disposalPerM2: number;
}

export function layMoney({ speeds, labour, packs, disposalPerM2 }: Rates, patches: boolean): LayMoney {
  const hourly = Number(labour.wage) * (1 + labour.burdenPercent / 100);
  const perMinute = (hourly * labour.perWelder) / 60;
  const patch = patches ? (2 * Number(packs.tJointPatch.price)) / packs.tJointPatch.packSize : 0;
  return {
    weldPerM: perMinute / speeds.machine / speeds.efficiency,
    handWeldPerM: perMinute / speeds.handLap / speeds.efficiency,
    perJoint: perMinute * speeds.setupPerSeam + (2 * speeds.perTJoint * hourly) / 60 + patch,
    disposalPerM2: Number(disposalPerM2),
  };
}

/** What an end lap across a whole sheet costs: its metres of weld and what comes with it. */
export function jointCost(money: LayMoney, width: number): number {
  const perM = width >= LEAST_MACHINE_LAP_MM ? money.weldPerM : money.handWeldPerM;
  return money.perJoint + (width / 1000) * perM;
}
