// In: the work in the order of laying, the crew's hours, a calendar and what a person moved. Out: days. Promise:
// every sheet and run is in exactly one day, no day is over its hours (or a finding says which piece of work alone
// is), a day ends within a course only where no day holds the whole of it, and every day opens with its test strips.
import type { Rates } from '../rates/schema';
import { workingDates, type Calendar } from './calendar';
import { dayClock, NOISE_MIN, type DayClock } from './clock';
import { acrossCourses, hoursLost, movedTooEarly, tooLong, type ShortDay } from './dayFindings';
import { addPiece, emptyLoad, type DayLoad, overheadOf, peopleOf, restMinutes, sealMinutes } from './dayLoad';
import { daySteps } from './daySteps';
import { ASTRIDE, courseName } from './sequence';
import { roofShares } from './roofShares';
import { dueStrips } from './strips';
import type { Finding } from '../verify/types';
import type { DayTask, RoofDays, SlowedBy, WorkDay } from './types';
import { crewHours, productivityOf } from './weldSpeed';
import { TASKS, type WorkPiece } from './workLoads';

/** A course that a person moved: its pieces of work wait for this day. */
export interface MovedCourse {
  readonly roof: string;
  readonly course: number;
  /** As its sheets' names say it. */
  readonly name: string;
  readonly day: number;
}

export interface DayRules {
  readonly rates: Rates;
  readonly adhered: boolean;
  readonly calendar: Calendar;
  readonly moved: readonly MovedCourse[];
  /** Where the wind comes from on a working day, in degrees; null where nobody has said. */
  readonly windOn: (day: number) => number | null;
  /** What a working day holds, by its number. */
  readonly clockOn: (day: number) => DayClock;
}

export interface DayPlan {
  readonly days: readonly WorkDay[];
  readonly byRoof: readonly RoofDays[];
  readonly findings: readonly Finding[];
  /** Person-minutes of a day that loses no hours. */
  readonly capacity: number;
}

/** Days are filled as far as they go, in the order of laying. For a given order no plan that ends its days on the
 * same places has fewer: by any evening this one is at least as far. */
export function planDays(pieces: readonly WorkPiece[], rules: DayRules): DayPlan {
  const { closed, short, startedOn, findings, capacity } = fillDays(pieces, rules);
  const dates = workingDates(rules.calendar, closed.at(-1)?.number ?? 0);
  const days = closed.map(({ number: n, pieces: own, stays }) =>
    makeDay(own, {
      number: n,
      date: dates[n - 1] ?? null,
      stays,
      clock: rules.clockOn(n),
      rates: rules.rates,
      adhered: rules.adhered,
      wind: rules.windOn(n),
    }),
  );
  const [firstPiece] = pieces;
  return {
    days,
    byRoof: roofShares(closed, days),
    findings: [
      ...findings,
      ...acrossCourses(days),
      ...(firstPiece ? short.map((day) => hoursLost(firstPiece.roof, day)) : []),
      ...movedTooEarly(rules.moved, startedOn),
    ],
    capacity,
  };
}

/** On which day the work ends, and nothing else of the plan. */
export function lastDayOf(pieces: readonly WorkPiece[], rules: DayRules): number {
  return fillDays(pieces, rules).closed.at(-1)?.number ?? 0;
}

interface FilledDays {
  readonly closed: readonly {
    readonly number: number;
    readonly pieces: readonly WorkPiece[];
    /** Whether work is left for another day. */
    readonly stays: boolean;
  }[];
  readonly short: readonly ShortDay[];
  readonly startedOn: ReadonlyMap<string, number>;
  readonly findings: readonly Finding[];
  readonly capacity: number;
}

function fillDays(pieces: readonly WorkPiece[], rules: DayRules): FilledDays {
  const { labour, welding } = rules.rates;
  const capacity = 60 * crewHours(labour.crew * welding.crews, 1, labour.dayHours, welding.availability);
  const waits = new Map(rules.moved.map(({ roof, course, day }) => [`${roof}/${course}`, day]));
  const waitOf = (piece: WorkPiece | undefined) => (piece ? (waits.get(keyOf(piece)) ?? 1) : 1);
  const reach = {
    waitOf,
    oversized: coursesOverADay(pieces, rules, capacity),
    rates: rules.rates,
    adhered: rules.adhered,
  };
  const findings: Finding[] = [];
  const closed: { number: number; pieces: readonly WorkPiece[]; stays: boolean }[] = [];
  const startedOn = new Map<string, number>();
  const short: ShortDay[] = [];
  let number = 1;
  let start = 0;
  while (start < pieces.length) {
    number = Math.max(number, waitOf(pieces[start]));
    const clock = rules.clockOn(number);
    const end = farthestEnd(pieces, start, { ...reach, number, clock });
    // A day that loses hours and holds nothing whole is passed over: what does not fit it fits the next.
    if (end === start && shorter(clock, rules.rates)) {
      short.push({ number, clock, passed: true });
      number++;
      continue;
    }
    if (shorter(clock, rules.rates)) short.push({ number, clock, passed: false });
    const day = pieces.slice(start, Math.max(end, start + 1));
    if (end === start) findings.push(tooLong(day[0] as WorkPiece, number, capacity));
    for (const piece of day) if (!startedOn.has(keyOf(piece))) startedOn.set(keyOf(piece), number);
    closed.push({ number, pieces: day, stays: start + day.length < pieces.length });
    start += day.length;
    number++;
  }
  return { closed, short, startedOn, findings, capacity };
}

const keyOf = ({ roof, course }: WorkPiece) => `${roof}/${course}`;

interface Reach {
  readonly number: number;
  readonly waitOf: (piece: WorkPiece | undefined) => number;
  /** Courses that no day holds: within these a day may end. */
  readonly oversized: ReadonlySet<string>;
  readonly clock: DayClock;
  readonly rates: Rates;
  readonly adhered: boolean;
}

const shorter = ({ minutes }: DayClock, { labour }: Rates) => minutes < 60 * labour.dayHours - NOISE_MIN;

/** One past the last piece of the fullest day that starts here: on a whole course if any such end fits. */
function farthestEnd(pieces: readonly WorkPiece[], start: number, reach: Reach): number {
  const { clock, rates, adhered } = reach;
  const capacity = peopleOf(rates) * clock.minutes;
  const load = emptyLoad(rates);
  let whole = start;
  let part = start;
  for (let k = start; k < pieces.length; k++) {
    const piece = pieces[k] as WorkPiece;
    if (k > start && reach.waitOf(piece) > reach.number) break;
    addPiece(load, piece);
    if (load.persons > capacity) break;
    const own = overheadOf(load, rates, adhered, clock.longAfter);
    if (load.busy.some((minutes, m) => minutes + (own.machine[m] ?? 0) > clock.minutes)) break;
    const seal = k + 1 < pieces.length ? sealMinutes(piece.open, rates) : 0;
    if (load.persons + own.persons + seal > capacity) continue;
    part = k + 1;
    if (piece.closesCourse || reach.oversized.has(keyOf(piece))) whole = k + 1;
  }
  if (whole > start) return whole;
  // A course that another day holds whole is not begun on a day that loses hours.
  const begun = pieces[start];
  return begun && shorter(clock, rates) && !reach.oversized.has(keyOf(begun)) ? start : part;
}

function coursesOverADay(
  pieces: readonly WorkPiece[],
  { rates, adhered }: DayRules,
  capacity: number,
): ReadonlySet<string> {
  const clock = dayClock(rates, [], adhered);
  const courses = new Map<string, { readonly load: DayLoad; open: number }>();
  for (const piece of pieces) {
    if (!piece.sheet) continue;
    const course = courses.get(keyOf(piece)) ?? { load: emptyLoad(rates), open: 0 };
    courses.set(keyOf(piece), course);
    addPiece(course.load, piece);
    course.open = piece.open;
  }
  const over = new Set<string>();
  for (const [key, { load, open }] of courses) {
    // Some detail of the day is welded by hand, and its gun is proved as well.
    const own = overheadOf({ ...load, byHand: true }, rates, adhered, clock.longAfter);
    const full = load.busy.some((minutes, m) => minutes + (own.machine[m] ?? 0) > 60 * rates.labour.dayHours);
    if (full || load.persons + own.persons + sealMinutes(open, rates) > capacity) over.add(key);
  }
  return over;
}

interface DayFrame {
  readonly number: number;
  readonly date: string | null;
  readonly stays: boolean;
  readonly clock: DayClock;
  readonly rates: Rates;
  readonly adhered: boolean;
  readonly wind: number | null;
}

function makeDay(pieces: readonly WorkPiece[], frame: DayFrame): WorkDay {
  const { rates, adhered, clock } = frame;
  const runs = pieces.flatMap((piece) => piece.runs);
  const load = emptyLoad(rates);
  for (const piece of pieces) addPiece(load, piece);
  const { busy } = load;
  const own = overheadOf(load, rates, adhered, clock.longAfter);
  const last = pieces.at(-1) as WorkPiece;
  const open = frame.stays ? last.open : 0;
  const lastSheet = pieces.filter((piece) => piece.sheet !== null).at(-1) ?? last;
  const metres = (mm: number) => (mm / 1000).toFixed(1);
  const tasks: DayTask[] = TASKS.map((name, at) => ({
    name,
    minutes: pieces.reduce((sum, piece) => sum + (piece.minutes[at] ?? 0), 0),
    formula: 'person-minutes of the sheets and runs of this day',
  }));
  const worked = tasks.reduce((sum, task) => sum + task.minutes, 0);
  const seal = sealMinutes(open, rates);
  tasks.push(
    {
      name: 'Test strips',
      minutes: own.strips,
      formula: `${Math.round(own.strips / (rates.speeds.perTestStrip || 1))} × ${rates.speeds.perTestStrip} min`,
    },
    {
      name: 'Heating up and cooling',
      minutes: own.heat,
      formula: `${rates.welding.warmUp} + ${rates.welding.cooling} min for each machine in use`,
    },
    {
      name: 'Waiting for sheets to lie',
      minutes: own.waiting,
      formula: `${restMinutes(rates, adhered)} min × ${peopleOf(rates)} people, less ${own.filled.toFixed(0)} person-minutes of other work meanwhile`,
    },
    {
      name: 'Closing for the night',
      minutes: seal,
      formula: `${metres(open)} m ÷ ${rates.welding.nightSeal} m/min`,
    },
  );
  return {
    number: frame.number,
    date: frame.date,
    sheets: pieces.flatMap(({ roof, sheet, course, unroll }) =>
      sheet && unroll
        ? [{ roof, sheet: sheet.id, course, name: courseName(sheet), towards: headingOf(unroll, frame.wind) }]
        : [],
    ),
    runs: runs.map((run) => run.id),
    tasks: tasks.filter((task) => task.minutes > 0),
    slowed: slowedBy(worked, rates),
    minutes: tasks.reduce((sum, task) => sum + task.minutes, 0),
    capacity: peopleOf(rates) * clock.minutes,
    machineMinutes: Array.from(busy, (minutes, m) => minutes + (own.machine[m] ?? 0)),
    machineCapacity: clock.minutes,
    strips: dueStrips(busy, runs, rates, { clock, passed: own.passed }),
    clock,
    steps: daySteps({ pieces, load, clock, rates, adhered, seal }),
    night:
      open > 0
        ? {
            length: open,
            roof: last.roof,
            course: lastSheet.course,
            name: lastSheet.sheet ? courseName(lastSheet.sheet) : '',
            whole: last.closesCourse,
            cutBack: open * rates.welding.nightCutBack,
          }
        : null,
    weld: runs.reduce((sum, run) => sum + run.length, 0),
    area: pieces.reduce((sum, piece) => sum + piece.area, 0),
  };
}

/** A sheet alone in its run may go either way: from the end where the wind comes from, so that it gets under nothing. */
function headingOf({ towards, alone }: NonNullable<WorkPiece['unroll']>, wind: number | null): number {
  const into = wind !== null && Math.cos(((towards - wind) * Math.PI) / 180) > ASTRIDE;
  return alone && into ? (towards + 180) % 360 : towards;
}

/** What each factor adds on top of those before it: together exactly what the day is longer by. */
function slowedBy(worked: number, { welding }: Rates): SlowedBy[] {
  const { factor: all, parts } = productivityOf(welding);
  let minutes = worked / all;
  return parts.map(({ name, factor }) => {
    const added = minutes * (factor - 1);
    minutes *= factor;
    return { name, factor, minutes: added };
  });
}
