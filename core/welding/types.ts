// Who welds what, with what, in which order, on which day, and how long it takes. Times in minutes.
import type { RoofPoint } from '../geometry/points';
import type { Finding } from '../verify/types';
import type { DayClock } from './clock';
import type { SupplyCheck } from './power';

export type WeldMethod = 'machine' | 'hand';
export type WeldKind =
  'side-lap' | 'end-lap' | 'flashing' | 'corner' | 'boot' | 't-joint' | 'target' | 'slit';

/** One continuous weld, by one machine or hand, in one go. */
export interface WeldRun {
  readonly id: string;
  /** Place in the order of work, from 1. */
  readonly order: number;
  readonly roof: string;
  readonly kind: WeldKind;
  readonly method: WeldMethod;
  /** The first seam, the edge or the fitting that is welded, and all of them along the run. */
  readonly seam: string;
  readonly seams: readonly string[];
  readonly course: number | null;
  /** The sheet after whose laying it is welded: the last laid of those that it touches. */
  readonly after: string;
  /** Place in the rates' machines, null by hand. */
  readonly machine: number | null;
  readonly from: RoofPoint;
  readonly to: RoofPoint;
  /** mm, and what of it a machine leaves to the hand at its stops; 0 for a run by hand. */
  readonly length: number;
  readonly byHand: number;
  /** How often the machine is set down, and how many T-joints it passes over without stopping. */
  readonly setDowns: number;
  readonly tJoints: number;
  /** m/min. */
  readonly speed: number;
  readonly weldMinutes: number;
  /** Finishing by hand what the machine leaves. */
  readonly handMinutes: number;
  readonly setupMinutes: number;
  readonly walkMinutes: number;
  /** Turning the machine, slowing over T-joints, cleaning the nozzle. */
  readonly turnMinutes: number;
  readonly slowMinutes: number;
  readonly nozzleMinutes: number;
}

export interface WeldPlan {
  readonly runs: readonly WeldRun[];
  readonly machineMinutes: number;
  readonly handMinutes: number;
}

export type StripReason = 'start of the day' | 'after a break' | 'change of sheet';

/** A trial weld that is due before welding goes on. */
export interface DueStrip {
  readonly number: number;
  readonly reason: StripReason;
  /** Place in the rates' machines, null for a hand gun. */
  readonly machine: number | null;
  readonly minutes: number;
  /** Minutes from midnight. */
  readonly at: number;
}

/** What is done in a day by when, minutes from midnight: all hands and machines busy. */
export interface DayStep {
  readonly what:
    | 'heating up and first strips'
    | 'sheet'
    | 'detail'
    | 'strips again'
    | 'closing for the night'
    | 'machines cool and go away';
  readonly roof: string | null;
  /** The sheet that is laid, or the run of a detail. */
  readonly sheet: string | null;
  readonly run: string | null;
  readonly from: number;
  readonly to: number;
}

/** Person-minutes of one kind of work in a day. */
export interface DayTask {
  readonly name: string;
  readonly minutes: number;
  readonly formula: string;
}

export interface SlowedBy {
  readonly name: string;
  readonly factor: number;
  readonly minutes: number;
}

/** How the open part is closed for the night; null where nothing stays open. */
export interface NightClosing {
  /** mm of lap that has a sheet on one side only. */
  readonly length: number;
  readonly roof: string;
  /** The course that is closed on, and whether all of it is laid. */
  readonly course: number;
  /** The course as its sheets' names say it. */
  readonly name: string;
  readonly whole: boolean;
  /** mm² that are cut back next morning. */
  readonly cutBack: number;
}

export interface WorkDay {
  /** Working day, from 1; a pinned course can leave days without work between. */
  readonly number: number;
  /** YYYY-MM-DD, null until a start is given. */
  readonly date: string | null;
  /** In the order of laying; `name` is the course's as its sheets' names say it, `towards` the way that the sheet is
   * unrolled, degrees counter-clockwise from +x. */
  readonly sheets: readonly {
    readonly roof: string;
    readonly sheet: string;
    readonly course: number;
    readonly name: string;
    readonly towards: number;
  }[];
  readonly runs: readonly string[];
  readonly tasks: readonly DayTask[];
  /** Person-minutes that height, crowding and weather add, in that order; they are within the tasks. */
  readonly slowed: readonly SlowedBy[];
  readonly minutes: number;
  readonly capacity: number;
  /** The same for each machine. */
  readonly machineMinutes: readonly number[];
  readonly machineCapacity: number;
  readonly strips: readonly DueStrip[];
  readonly clock: DayClock;
  readonly steps: readonly DayStep[];
  readonly night: NightClosing | null;
  /** mm of weld. */
  readonly weld: number;
  /** m² laid. */
  readonly area: number;
}

/** What a roof's share of the days' own work comes to. */
export interface RoofDays {
  readonly roof: string;
  readonly days: number;
  readonly stripMinutes: number;
  readonly strips: number;
  readonly heatMinutes: number;
  readonly waitMinutes: number;
  readonly sealMinutes: number;
  /** mm and mm². */
  readonly seal: number;
  readonly cutBack: number;
}

export interface WorkPlan {
  readonly days: readonly WorkDay[];
  readonly byRoof: readonly RoofDays[];
  readonly findings: readonly Finding[];
  /** No plan of this work takes fewer days or person-minutes, whatever its order. */
  readonly leastDays: number;
  readonly leastMinutes: number;
  readonly method: string;
  /** °C at what is planned for, null where nobody gave a humidity. */
  readonly dewPoint: number | null;
  /** The lead and the supply, as a planning check; an electrician decides. */
  readonly supply: SupplyCheck;
}
