// In: when the crew starts and breaks, how long it works, and hours of the forecast. Out: the clock of one working day.
// Promise: work never stands in a break or in hours that are stopped, and the day is never longer than its hours.
import type { Span } from '../geometry/points';
import { lengthOfSpans, withoutSpans } from '../geometry/spans';
import type { Rates } from '../rates/schema';
import { minutesOf, timeOf } from '../units/times';
import { dewPoint } from './dewPoint';
import type { WorkDay } from './types';

/** What is forecast from a time of the day on, until the next one; null for what nobody has said. */
export interface HourForecast {
  readonly at: string;
  readonly speed: number | null;
  readonly celsius: number | null;
  readonly humidity: number | null;
}

export type StopReason =
  'wind stops all work' | 'wind stops unrolling' | 'too cold to bond' | 'dew point too near';

/** Minutes from midnight. */
export interface Pause {
  readonly from: number;
  readonly to: number;
  readonly why: 'break' | StopReason;
}

export interface DayClock {
  readonly start: number;
  /** When the last working minute is over. */
  readonly end: number;
  /** Stretches that are worked, in order, minutes from midnight; and what lies between them. */
  readonly worked: readonly Span[];
  readonly pauses: readonly Pause[];
  /** Working minutes in all, and how many lie before each pause that is long enough to ask for a new test strip. */
  readonly minutes: number;
  readonly longAfter: readonly number[];
}

/** A pause as long as this lets machines cool and weather change, minutes (common practice, no source). */
export const LONG_PAUSE_MIN = 30;

/** `work`: hours that stop only laying (wind that stops unrolling, air that stops bonding) are lost to laying; details
 * go on in them. */
export function dayClock(
  rates: Rates,
  hours: readonly HourForecast[],
  adhered: boolean,
  work: 'laying' | 'details' = 'laying',
): DayClock {
  const planned = plannedStretches(rates);
  const start = planned[0]?.[0] ?? 0;
  const end = planned.at(-1)?.[1] ?? start;
  const stops = stoppedHours(rates, hours, adhered).flatMap((stop) => {
    if (work === 'details' && stop.why !== 'wind stops all work') return [];
    const [from, to] = [Math.max(start, stop.from), Math.min(end, stop.to)];
    return to > from ? [{ ...stop, from, to }] : [];
  });
  const worked = withoutSpans(
    planned,
    stops.map(({ from, to }) => [from, to]),
  );
  const breaks = planned
    .slice(1)
    .map(([from], k): Pause => ({ from: planned[k]?.[1] ?? from, to: from, why: 'break' }));
  return {
    start,
    end,
    worked,
    pauses: [...breaks, ...stops].sort((a, b) => a.from - b.from),
    minutes: lengthOfSpans(worked),
    longAfter: longGaps(worked),
  };
}

/** The time of the day after so many working minutes; beyond the last it goes on counting. Where a pause begins just
 * then, `begins` is after it and `ends` before it. */
export function clockAt({ worked, start }: DayClock, minutes: number, what: 'begins' | 'ends'): number {
  let left = minutes;
  for (const [from, to] of worked) {
    const length = to - from;
    if (left < length || (what === 'ends' && left <= length + NOISE_MIN))
      return from + Math.min(left, length);
    left -= length;
  }
  return (worked.at(-1)?.[1] ?? start) + left;
}

/** When the last of a day's work is done, if nobody and no machine stands idle. */
export function endOf({ clock, steps }: Pick<WorkDay, 'clock' | 'steps'>): number {
  return Math.max(clock.start, ...steps.map(({ to }) => to));
}

/** What the times of a day are, wherever they stand. */
export const EARLIEST =
  'Times are the earliest: the hours of the whole crew, nobody and no machine idle; the crew lead says who does what.';

/** “07:00 to 15:20”. */
export const hoursOf = (day: Pick<WorkDay, 'clock' | 'steps'>): string =>
  `${timeOf(day.clock.start)} to ${timeOf(endOf(day))}`;

/** Minutes below this are arithmetic. */
export const NOISE_MIN = 1e-6;

/** The hours of the day with its breaks in between; a break that falls outside them is no break. */
function plannedStretches({ labour, welding }: Rates): Span[] {
  const stretches: Span[] = [];
  let at = minutesOf(welding.clock.start);
  let left = 60 * labour.dayHours;
  for (const pause of [...welding.clock.breaks].sort((a, b) => minutesOf(a.at) - minutesOf(b.at))) {
    const from = minutesOf(pause.at);
    if (from <= at || from - at >= left) continue;
    stretches.push([at, from]);
    left -= from - at;
    at = from + pause.minutes;
  }
  return [...stretches, [at, at + left]];
}

function stoppedHours({ welding }: Rates, hours: readonly HourForecast[], adhered: boolean): Pause[] {
  const sorted = [...hours].sort((a, b) => minutesOf(a.at) - minutesOf(b.at));
  const pauses: { from: number; to: number; why: StopReason }[] = [];
  sorted.forEach((hour, k) => {
    const why = whyStopped(welding, hour, adhered);
    if (why === null) return;
    const next = sorted[k + 1];
    const [from, to] = [minutesOf(hour.at), next ? minutesOf(next.at) : MIDNIGHT_MIN];
    const last = pauses.at(-1);
    if (last?.why === why && last.to === from) last.to = to;
    else pauses.push({ from, to, why });
  });
  return pauses;
}

const MIDNIGHT_MIN = 24 * 60;

function whyStopped(
  { wind, adhering }: Rates['welding'],
  { speed, celsius, humidity }: HourForecast,
  adhered: boolean,
): StopReason | null {
  if (speed !== null && speed >= wind.stop) return 'wind stops all work';
  if (speed !== null && speed >= wind.unroll) return 'wind stops unrolling';
  if (!adhered || celsius === null) return null;
  if (celsius < adhering.leastCelsius) return 'too cold to bond';
  if (humidity === null) return null;
  return celsius - dewPoint(celsius, humidity) < adhering.aboveDewPoint ? 'dew point too near' : null;
}

/** Working minutes before each gap between stretches, and before the first, that is long enough. */
function longGaps(worked: readonly Span[]): number[] {
  const after: number[] = [];
  let done = 0;
  worked.forEach(([from, to], k) => {
    const before = worked[k - 1];
    if (before && from - before[1] >= LONG_PAUSE_MIN) after.push(done);
    done += to - from;
  });
  return after;
}
