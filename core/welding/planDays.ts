// In: the work in the order of laying, the crew's hours, a calendar and what a person moved. Out: days. Promise:
// every sheet and run is in exactly one day, no day is over its hours (or a finding says which piece of work alone
// is), a day ends within a course only where no day holds the whole of it, and every day opens with its test strips.
import type { Rates } from '../rates/schema';
import { workingDates, type Calendar } from './calendar';
import { dayClock, NOISE_MIN, type DayClock } from './clock';
import { acrossCourses, hoursLost, movedTooEarly, tooLong, type ShortDay } from './dayFindings';
import {
  addPiece,
  emptyLoad,
  machineDay,
  machineOverrun,
  overheadOf,
  peopleOf,
  restMinutes,
  sealMinutes,
  type DayLoad,
} from './dayLoad';
import { daySteps } from './daySteps';
import { ASTRIDE, courseName } from './sequence';
import { roofShares } from './roofShares';
import { dueStrips } from './strips';
import type { Finding } from '../verify/types';
import type { DayTask, RoofDays, SlowedBy, WeldRun, WorkDay } from './types';
import { crewHours, productivityOf } from './weldSpeed';
import { courseKey, TASKS, type WorkPiece } from './workLoads';

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
  /** Where the wind comes from on a working day, in degrees; null where nobody has said. */
  readonly windOn: (day: number) => number | null;
  /** What a working day holds, by its number; and what it holds if nothing is laid on it. */
  readonly clockOn: (day: number) => DayClock;
  readonly detailsOn: (day: number) => DayClock;
}

export interface DayPlan {
  readonly days: readonly WorkDay[];
  readonly byRoof: readonly RoofDays[];
  readonly findings: readonly Finding[];
  /** Person-minutes of a day that loses no hours. */
  readonly capacity: number;
  readonly filled: FilledDays;
}

/** Days are filled as far as they go, in the order of laying. For a given order no plan that ends its days on the
 * same places has fewer: by any evening this one is at least as far. `unmoved` is the plan of the same pieces under
 * the same rules with nothing moved, where it is at hand: its days before the first course that waits are taken over. */
export function planDays(
  pieces: readonly WorkPiece[],
  rules: DayRules,
  moved: readonly MovedCourse[] = [],
  unmoved: DayPlan | null = null,
): DayPlan {
  const filled = fillDays(pieces, rules, moved, unmoved?.filled ?? null);
  const { closed, short, startedOn, capacity } = filled;
  const dates = workingDates(rules.calendar, closed.at(-1)?.number ?? 0);
  const days = closed.map((day, k) => {
    const { number, pieces: own, stays, clock } = day;
    if (unmoved !== null && unmoved.filled.closed[k] === day) return unmoved.days[k] as WorkDay;
    return makeDay(own, {
      number,
      date: dates[number - 1] ?? null,
      stays,
      clock,
      rates: rules.rates,
      adhered: rules.adhered,
      wind: rules.windOn(number),
    });
  });
  const [firstPiece] = pieces;
  return {
    days,
    byRoof: roofShares(closed, days),
    findings: [
      ...closed.flatMap(({ over }) => over ?? []),
      ...acrossCourses(days),
      ...(firstPiece ? short.map((day) => hoursLost(firstPiece.roof, day)) : []),
      ...movedTooEarly(moved, startedOn),
    ],
    capacity,
    filled,
  };
}

interface FilledDay {
  readonly number: number;
  readonly clock: DayClock;
  readonly pieces: readonly WorkPiece[];
  /** Whether work is left for another day. */
  readonly stays: boolean;
  /** Where its one piece of work is longer than the day. */
  readonly over: Finding | null;
}

interface FilledDays {
  readonly closed: readonly FilledDay[];
  readonly short: readonly ShortDay[];
  /** On which day each course that was moved is begun. */
  readonly startedOn: ReadonlyMap<string, number>;
  readonly capacity: number;
  /** Courses that no day holds: within these a day may end. */
  readonly oversized: ReadonlySet<string>;
}

function fillDays(
  pieces: readonly WorkPiece[],
  rules: DayRules,
  moved: readonly MovedCourse[],
  unmoved: FilledDays | null,
): FilledDays {
  const { labour, welding } = rules.rates;
  const capacity = 60 * crewHours(labour.crew * welding.crews, 1, labour.dayHours, welding.availability);
  const waits = new Map(moved.map((course) => [courseKey(course), course.day]));
  const waitOf = (piece: WorkPiece | undefined) =>
    piece && waits.size > 0 ? (waits.get(piece.key) ?? 1) : 1;
  const oversized = unmoved?.oversized ?? coursesOverADay(pieces, rules, capacity);
  const reach = { waitOf, oversized, rates: rules.rates, adhered: rules.adhered };
  const closed = unmoved ? beforeFirstWait(unmoved.closed, waitOf) : [];
  let start = closed.reduce((sum, day) => sum + day.pieces.length, 0);
  let number = (closed.at(-1)?.number ?? 0) + 1;
  const short = (unmoved?.short ?? []).filter((day) => day.number < number);
  while (start < pieces.length) {
    number = Math.max(number, waitOf(pieces[start]));
    const laying = { ...reach, number, clock: rules.clockOn(number), details: false };
    const details = { ...laying, clock: rules.detailsOn(number), details: true };
    const far = farthestEnd(pieces, start, laying);
    // Where a day loses hours to laying only, it may get farther with nothing but details.
    const farther = details.clock.minutes > laying.clock.minutes ? farthestEnd(pieces, start, details) : far;
    const [end, clock] = farther > far ? [farther, details.clock] : [far, laying.clock];
    if (farther > far) short.push({ number, clock: laying.clock, became: 'details' });
    // A day that loses hours and holds nothing whole is passed over: what does not fit it fits the next.
    if (end === start && shorter(clock, rules.rates)) {
      short.push({ number, clock, became: 'passed' });
      number++;
      continue;
    }
    if (farther === far && shorter(clock, rules.rates)) short.push({ number, clock, became: 'short' });
    const day = pieces.slice(start, Math.max(end, start + 1));
    const over = end === start ? tooLong(day[0] as WorkPiece, number, capacity) : null;
    closed.push({ number, clock, pieces: day, stays: start + day.length < pieces.length, over });
    start += day.length;
    number++;
  }
  const startedOn = new Map<string, number>();
  if (waits.size > 0)
    for (const { number: on, pieces: own } of closed)
      for (const { key } of own) if (waits.has(key) && !startedOn.has(key)) startedOn.set(key, on);
  return { closed, short, startedOn, capacity, oversized };
}

/** Days none of whose work waits beyond the day after the one before it: whatever comes later, they are filled as they
 * are, for a course that waits only ends a day sooner. */
function beforeFirstWait(days: readonly FilledDay[], waitOf: (piece: WorkPiece) => number): FilledDay[] {
  let next = 1;
  const first = days.findIndex(({ number, pieces }) => {
    const waits = pieces.some((piece) => waitOf(piece) > next);
    next = number + 1;
    return waits;
  });
  return days.slice(0, first < 0 ? days.length : first);
}

interface Reach {
  readonly number: number;
  readonly waitOf: (piece: WorkPiece | undefined) => number;
  readonly oversized: ReadonlySet<string>;
  readonly clock: DayClock;
  /** Nothing is laid on this day. */
  readonly details: boolean;
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
    if (reach.details && piece.sheet !== null) break;
    addPiece(load, piece);
    if (load.persons > capacity) break;
    const own = overheadOf(load, rates, adhered, clock.longAfter);
    if (machineOverrun(load, own, clock.minutes)) break;
    const seal = k + 1 < pieces.length ? sealMinutes(piece.open, rates) : 0;
    if (load.persons + own.persons + seal > capacity) continue;
    part = k + 1;
    if (piece.closesCourse || reach.oversized.has(piece.key)) whole = k + 1;
  }
  if (whole > start) return whole;
  // A course that another day holds whole is not begun on a day that loses hours.
  const begun = pieces[start];
  return begun && shorter(clock, rates) && !reach.oversized.has(begun.key) ? start : part;
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
    const course = courses.get(piece.key) ?? { load: emptyLoad(rates), open: 0 };
    courses.set(piece.key, course);
    addPiece(course.load, piece);
    course.open = piece.open;
  }
  const over = new Set<string>();
  for (const [key, { load, open }] of courses) {
    // Some detail of the day is welded by hand, and its gun is proved as well.
    const own = overheadOf({ ...load, byHand: true }, rates, adhered, clock.longAfter);
    const full = machineOverrun(load, own, 60 * rates.labour.dayHours);
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
  const runs: WeldRun[] = [];
  const load = emptyLoad(rates);
  const minutes = TASKS.map(() => 0);
  let area = 0;
  let lastSheet = pieces.at(-1) as WorkPiece;
  for (const piece of pieces) {
    addPiece(load, piece);
    runs.push(...piece.runs);
    for (let at = 0; at < minutes.length; at++)
      minutes[at] = (minutes[at] as number) + (piece.minutes[at] as number);
    area += piece.area;
    if (piece.sheet !== null) lastSheet = piece;
  }
  const { busy } = load;
  const own = overheadOf(load, rates, adhered, clock.longAfter);
  const last = pieces.at(-1) as WorkPiece;
  const open = frame.stays ? last.open : 0;
  const metres = (mm: number) => (mm / 1000).toFixed(1);
  const tasks: DayTask[] = TASKS.map((name, at) => ({
    name,
    minutes: minutes[at] as number,
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
    machineMinutes: Array.from(busy, (each) => machineDay(each, own)),
    machineCapacity: clock.minutes,
    strips: dueStrips(busy, runs, rates, { clock, passed: own.passed }),
    clock,
    steps: daySteps({ pieces, load, own, clock, rates, seal }),
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
    area,
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
