// In: the pieces of work of one day and its clock. Out: what is done when: proving, each sheet and detail, breaks, the
// new strips after them, closing. Promise: times say by when a step is done if all hands and machines are busy; they
// never run back, and a day that holds its work ends within its hours.
import type { Rates } from '../rates/schema';
import { clockAt, NOISE_MIN, type DayClock } from './clock';
import { overheadOf, peopleOf, type DayLoad } from './dayLoad';
import type { DayStep } from './types';
import type { WorkPiece } from './workLoads';

export interface StepsOf {
  readonly pieces: readonly WorkPiece[];
  readonly load: DayLoad;
  readonly clock: DayClock;
  readonly rates: Rates;
  readonly adhered: boolean;
  /** Person-minutes of closing for the night. */
  readonly seal: number;
}

export function daySteps({ pieces, load, clock, rates, adhered, seal }: StepsOf): readonly DayStep[] {
  const { speeds, welding } = rates;
  const people = peopleOf(rates);
  const own = overheadOf(load, rates, adhered, clock.longAfter);
  const used = welding.machines.map((_, m) => m).filter((m) => (load.busy[m] ?? 0) > 0);
  const machines = welding.machines.map(() => 0);
  const steps: DayStep[] = [];
  let hands = 0;
  let done = 0;
  let passed = 0;
  const by = () => Math.max(done, hands, ...used.map((m) => machines[m] ?? 0));
  const put = (step: Pick<DayStep, 'what' | 'roof' | 'sheet' | 'run'>) => {
    const until = by();
    steps.push({ ...step, from: clockAt(clock, done, 'begins'), to: clockAt(clock, until, 'ends') });
    done = until;
  };
  const none = { roof: null, sheet: null, run: null };
  const busy = (persons: number, each: number) => {
    hands += persons / people;
    for (const m of used) machines[m] = (machines[m] ?? 0) + each;
  };

  busy(
    used.length * (welding.warmUp + speeds.perTestStrip) + (load.byHand ? speeds.perTestStrip : 0),
    welding.warmUp + speeds.perTestStrip,
  );
  if (used.length > 0 || load.byHand) put({ what: 'heating up and first strips', ...none });
  let waiting = own.waiting;
  for (const piece of pieces) {
    hands += piece.total / people;
    piece.machineMinutes.forEach((minutes, m) => (machines[m] = (machines[m] ?? 0) + minutes));
    if (piece.sheet !== null) {
      hands += waiting / people;
      waiting = 0;
    }
    // A long pause on the way: the machines are proved again before they go on.
    const again = [];
    for (let next = clock.longAfter[passed]; next !== undefined && by() > next + NOISE_MIN;) {
      busy(used.length * speeds.perTestStrip, speeds.perTestStrip);
      again.push(next);
      next = clock.longAfter[++passed];
    }
    put({
      what: piece.sheet === null ? 'detail' : 'sheet',
      roof: piece.roof,
      sheet: piece.sheet?.id ?? null,
      run: piece.sheet === null ? (piece.runs[0]?.id ?? null) : null,
    });
    if (used.length > 0)
      for (const after of again) {
        const from = clockAt(clock, after, 'begins');
        const to = Math.min(from + speeds.perTestStrip, clockAt(clock, done, 'ends'));
        steps.push({ what: 'strips again', ...none, from, to });
      }
  }
  if (seal > 0) {
    hands += seal / people;
    put({ what: 'closing for the night', ...none });
  }
  if (used.length > 0) {
    busy(used.length * welding.cooling, welding.cooling);
    put({ what: 'machines cool and go away', ...none });
  }
  return steps.sort((a, b) => a.from - b.from);
}
