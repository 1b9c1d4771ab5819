// In: the pieces of work of one day. Out: what the day itself asks for beside them: test strips, heating up and
// cooling, and waiting where sheets lie and dry and no other work fills the time. Promise: leaving out the day's first
// pieces never makes the rest longer, which is what filling days in order rests on.
import type { Rates } from '../rates/schema';
import { NOISE_MIN } from './clock';
import { TASK_INDEX, type WorkPiece } from './workLoads';

export interface DayLoad {
  /** Each machine's own minutes. */
  readonly busy: Float64Array;
  byHand: boolean;
  /** Person-minutes of all pieces. */
  persons: number;
  sheets: number;
  /** Person-minutes of laying and bonding, and of the sheet that takes most of them. */
  laying: number;
  longest: number;
  fastening: number;
}

export function emptyLoad({ welding }: Rates): DayLoad {
  return {
    busy: new Float64Array(welding.machines.length),
    byHand: false,
    persons: 0,
    sheets: 0,
    laying: 0,
    longest: 0,
    fastening: 0,
  };
}

export function addPiece(load: DayLoad, piece: WorkPiece): void {
  const { busy } = load;
  piece.machineMinutes.forEach((minutes, m) => (busy[m] = (busy[m] ?? 0) + minutes));
  load.byHand ||= piece.runs.some((run) => run.machine === null);
  load.persons += piece.total;
  if (piece.sheet === null) return;
  const laying = (piece.minutes[TASK_INDEX['Laying out']] ?? 0) + (piece.minutes[TASK_INDEX['Bonding']] ?? 0);
  load.sheets++;
  load.laying += laying;
  load.longest = Math.max(load.longest, laying);
  load.fastening += piece.minutes[TASK_INDEX['Fastening']] ?? 0;
}

export interface Overhead {
  /** Person-minutes of all of it. */
  readonly persons: number;
  readonly strips: number;
  readonly heat: number;
  readonly waiting: number;
  /** What of the waiting other work fills, in person-minutes. */
  readonly filled: number;
  /** Long pauses after which machines are proved again. */
  readonly passed: number;
  /** Strips and heating on each machine's own clock. */
  readonly machine: readonly number[];
}

/** The crew waits as long as a sheet lies before its first weld, less what else there is to do meanwhile: laying the
 * day's other sheets (the longest counts as the one that is waited for), fastening, the first strips, heating up. */
export function overheadOf(
  load: DayLoad,
  rates: Rates,
  adhered: boolean,
  longAfter: readonly number[],
): Overhead {
  const { welding, speeds } = rates;
  const heat = welding.warmUp + welding.cooling;
  const used = load.busy.reduce((count, minutes) => count + (minutes > 0 ? 1 : 0), 0);
  const atStart = used * speeds.perTestStrip + (load.byHand ? speeds.perTestStrip : 0);
  const lying = load.sheets > 0 ? restMinutes(rates, adhered) * peopleOf(rates) : 0;
  const filled = Math.min(lying, load.laying - load.longest + load.fastening + atStart + used * heat);
  // So many long pauses are passed before the last weld is done, each with new strips that push it further.
  let busiest = 0;
  for (const minutes of load.busy) busiest = Math.max(busiest, minutes);
  const doneAfter = (again: number) =>
    Math.max(
      (load.persons + lying - filled + atStart + used * (welding.warmUp + again * speeds.perTestStrip)) /
        peopleOf(rates),
      used === 0 ? 0 : busiest + welding.warmUp + (1 + again) * speeds.perTestStrip,
    );
  let passed = 0;
  while (passed < longAfter.length && doneAfter(passed) > (longAfter[passed] as number) + NOISE_MIN) passed++;
  const each = (1 + passed) * speeds.perTestStrip;
  const strips = atStart + used * passed * speeds.perTestStrip;
  return {
    persons: strips + used * heat + lying - filled,
    strips,
    heat: used * heat,
    waiting: lying - filled,
    filled,
    passed: used === 0 ? 0 : passed,
    machine: Array.from(load.busy, (minutes) => (minutes > 0 ? each + heat : 0)),
  };
}

/** Minutes from unrolling a sheet to welding it: it relaxes, and where it is bonded each coat dries. */
export function restMinutes({ welding }: Rates, adhered: boolean): number {
  const { coats, drying } = welding.adhering;
  return welding.relaxing + (adhered ? coats * drying : 0);
}

export function peopleOf({ labour, welding }: Rates): number {
  return labour.crew * welding.crews * welding.availability;
}

/** Person-minutes of closing so many mm of lap for the night. */
export function sealMinutes(open: number, { welding }: Rates): number {
  return open / 1000 / welding.nightSeal;
}
