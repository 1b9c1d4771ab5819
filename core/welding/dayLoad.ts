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
  const { machineMinutes, runs, minutes } = piece;
  for (let m = 0; m < busy.length; m++) busy[m] = (busy[m] as number) + (machineMinutes[m] as number);
  load.byHand ||= runs.some(({ machine }) => machine === null);
  load.persons += piece.total;
  if (piece.sheet === null) return;
  const laying = (minutes[LAYING] as number) + (minutes[BONDING] as number);
  load.sheets++;
  load.laying += laying;
  load.longest = Math.max(load.longest, laying);
  load.fastening += minutes[FASTENING] as number;
}

const { 'Laying out': LAYING, Bonding: BONDING, Fastening: FASTENING } = TASK_INDEX;

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
  /** Strips and heating on the own clock of each machine that is used. */
  readonly eachMachine: number;
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
  let used = 0;
  let busiest = 0;
  for (const minutes of load.busy) {
    if (minutes > 0) used++;
    busiest = Math.max(busiest, minutes);
  }
  const atStart = used * speeds.perTestStrip + (load.byHand ? speeds.perTestStrip : 0);
  const lying = load.sheets > 0 ? restMinutes(rates, adhered) * peopleOf(rates) : 0;
  const filled = Math.min(lying, load.laying - load.longest + load.fastening + atStart + used * heat);
  // So many long pauses are passed before the last weld is done, each with new strips that push it further.
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
    eachMachine: each + heat,
  };
}

/** Minutes of a machine's own clock on a day: its runs, strips and heating; 0 where it is not used. */
export function machineDay(busy: number, { eachMachine }: Overhead): number {
  return busy > 0 ? busy + eachMachine : 0;
}

/** Whether some machine has more to do than the day is long. */
export function machineOverrun({ busy }: DayLoad, own: Overhead, minutes: number): boolean {
  for (const each of busy) if (machineDay(each, own) > minutes) return true;
  return false;
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
