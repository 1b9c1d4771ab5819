// In: the pieces of work of one day and its clock. Out: what is done when: proving, each sheet and detail, breaks, the
// new strips after them, closing. Promise: times say by when a step is done if all hands and machines are busy; they
// never run back, and a day that holds its work ends within its hours.
import type { Rates } from '../rates/schema';
import { clockAt, NOISE_MIN, type DayClock } from './clock';
import { peopleOf, type DayLoad, type Overhead } from './dayLoad';
import type { DayStep } from './types';
import type { WorkPiece } from './workLoads';

export interface StepsOf {
  readonly pieces: readonly WorkPiece[];
  readonly load: DayLoad;
  readonly own: Overhead;
  readonly clock: DayClock;
  readonly rates: Rates;
  /** Person-minutes of closing for the night. */
  readonly seal: number;
}

export function daySteps({ pieces, load, own, clock, rates, seal }: StepsOf): readonly DayStep[] {
  const { speeds, welding } = rates;
  const people = peopleOf(rates);
  const used = welding.machines.map((_, m) => m).filter((m) => (load.busy[m] ?? 0) > 0);
  const machines = welding.machines.map(() => 0);
  const steps: DayStep[] = [];
  let hands = 0;
  let done = 0;
  let passed = 0;
  const by = () => {
    let until = Math.max(done, hands);
    for (const m of used) until = Math.max(until, machines[m] as number);
    return until;
  };
  const put = (
    what: DayStep['what'],
    roof: string | null = null,
    sheet: string | null = null,
    run: string | null = null,
  ) => {
    const until = by();
    const [from, to] = [clockAt(clock, done, 'begins'), clockAt(clock, until, 'ends')];
    steps.push({ what, roof, sheet, run, from, to });
    done = until;
  };
  const busy = (persons: number, each: number) => {
    hands += persons / people;
    for (const m of used) machines[m] = (machines[m] ?? 0) + each;
  };

  busy(
    used.length * (welding.warmUp + speeds.perTestStrip) + (load.byHand ? speeds.perTestStrip : 0),
    welding.warmUp + speeds.perTestStrip,
  );
  if (used.length > 0 || load.byHand) put('heating up and first strips');
  let waiting = own.waiting;
  for (const piece of pieces) {
    hands += piece.total / people;
    for (const m of used) machines[m] = (machines[m] as number) + (piece.machineMinutes[m] as number);
    if (piece.sheet !== null) {
      hands += waiting / people;
      waiting = 0;
    }
    // A long pause on the way: the machines are proved again before they go on.
    const again: number[] = [];
    for (let next = clock.longAfter[passed]; next !== undefined && by() > next + NOISE_MIN;) {
      busy(used.length * speeds.perTestStrip, speeds.perTestStrip);
      again.push(next);
      next = clock.longAfter[++passed];
    }
    if (piece.sheet === null) put('detail', piece.roof, null, piece.runs[0]?.id ?? null);
    else put('sheet', piece.roof, piece.sheet.id);
    if (used.length > 0)
      for (const after of again) {
        const from = clockAt(clock, after, 'begins');
        const to = Math.min(from + speeds.perTestStrip, clockAt(clock, done, 'ends'));
        steps.push({ what: 'strips again', roof: null, sheet: null, run: null, from, to });
      }
  }
  if (seal > 0) {
    hands += seal / people;
    put('closing for the night');
  }
  if (used.length > 0) {
    busy(used.length * welding.cooling, welding.cooling);
    put('machines cool and go away');
  }
  return steps.sort((a, b) => a.from - b.from);
}
