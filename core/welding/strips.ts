// In: what is welded in a day, or what changes between two entries of the log. Out: the test strips that are due.
// Promise: no machine welds its first seam of a day, or its first after a long break, without one.
import type { Rates } from '../rates/schema';
import { clockAt, type DayClock } from './clock';
import type { DueStrip, WeldRun } from './types';

/** Each machine in use at the start and after each long pause that work goes on after; the hand gun once, where it
 * meets another sheet than the machine. In the order of the day. */
export function dueStrips(
  busy: ArrayLike<number>,
  runs: readonly WeldRun[],
  rates: Rates,
  { clock, passed }: { readonly clock: DayClock; readonly passed: number },
): DueStrip[] {
  const { welding, speeds } = rates;
  const strips: Omit<DueStrip, 'number'>[] = [];
  const add = (reason: DueStrip['reason'], machine: number | null, at: number) =>
    strips.push({ reason, machine, minutes: speeds.perTestStrip, at });
  const first = clockAt(clock, 0, 'begins');
  const used = welding.machines.map((_, k) => k).filter((k) => (busy[k] ?? 0) > 0);
  for (const machine of used) add('start of the day', machine, first + welding.warmUp);
  if (runs.some((run) => run.machine === null))
    add(runs.some((run) => run.kind === 'flashing') ? 'change of sheet' : 'start of the day', null, first);
  for (const after of clock.longAfter.slice(0, passed))
    for (const machine of used) add('after a break', machine, clockAt(clock, after, 'begins'));
  return strips.sort((a, b) => a.at - b.at).map((strip, k) => ({ number: k + 1, ...strip }));
}

/** What stood at a weld: anything here that changes asks for a new strip. */
export interface WeldCircumstances {
  readonly date: string;
  readonly membrane: string;
  readonly machine: string;
  readonly operator: string;
  readonly lead: string;
  /** °C, null where nobody measured. */
  readonly ambient: number | null;
}

/** Air that much warmer or colder asks for a new strip, °C: 5–10 (common practice, no source). */
export const AMBIENT_CHANGE = 5;

/** Why a strip is due between what was last tested and what is to be welded now; empty where none is. */
export function stripReasons(tested: WeldCircumstances | null, now: WeldCircumstances): string[] {
  if (tested === null || tested.date !== now.date) return ['start of the day'];
  const reasons: string[] = [];
  if (tested.membrane !== now.membrane) reasons.push('change of membrane');
  if (tested.machine !== now.machine) reasons.push('change of machine');
  if (tested.operator !== now.operator) reasons.push('change of operator');
  if (tested.lead !== now.lead) reasons.push('change of lead or supply');
  if (
    tested.ambient !== null &&
    now.ambient !== null &&
    Math.abs(tested.ambient - now.ambient) >= AMBIENT_CHANGE
  )
    reasons.push(`air ${Math.abs(tested.ambient - now.ambient).toFixed(0)} °C warmer or colder`);
  return reasons;
}
