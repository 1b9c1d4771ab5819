// In: days as they are filled. Out: what stands against them in words. Promise: one finding a roof, however many
// evenings.
import type { Finding } from '../verify/types';
import type { MovedCourse } from './planDays';
import { timeOf } from '../units/times';
import type { DayClock } from './clock';
import type { WorkDay } from './types';
import type { WorkPiece } from './workLoads';

export function tooLong(piece: WorkPiece, day: number, capacity: number): Finding {
  const what = piece.sheet?.id ?? piece.runs[0]?.seam ?? '';
  const hours = (minutes: number) => (minutes / 60).toFixed(1);
  return {
    rule: 'work-over-a-day',
    severity: 'error',
    roof: piece.roof,
    at: piece.runs[0]?.from ?? null,
    ids: [what],
    message: `${what} with its welds takes ${hours(piece.total)} person-hours, and with test strips, heating up and closing it does not fit day ${day} of ${hours(capacity)}. Give the day more people, machines or hours, or cut shorter sheets.`,
    source: 'only what can be closed the same day is opened (common practice, no source)',
  };
}

/** A working day that loses hours to the weather, and what became of it: it is passed over where what is left of it
 * holds nothing whole, and given to details where only laying stops. */
export interface ShortDay {
  readonly number: number;
  readonly clock: DayClock;
  readonly became: 'short' | 'passed' | 'details';
}

const BECAME: Readonly<Record<ShortDay['became'], (hours: string) => string>> = {
  short: (hours) => `${hours} h are planned; details may be welded meanwhile where the site allows it`,
  passed: () =>
    'What is left holds no whole course, so nothing is planned for it; details may be welded meanwhile where the site allows it',
  details: () => 'Nothing is laid on it, and its hours go to details that are ready',
};

export function hoursLost(roof: string, { number, clock, became }: ShortDay): Finding {
  const stops = clock.pauses.filter(({ why }) => why !== 'break');
  const said = stops.map(({ from, to, why }) => `${timeOf(from)} to ${timeOf(to)}, ${why}`).join('; ');
  return {
    rule: 'hours-lost',
    severity: 'warning',
    roof,
    at: null,
    ids: [],
    message: `Day ${number} loses hours by its forecast: ${said}. ${BECAME[became]((clock.minutes / 60).toFixed(1))}. The site's own limits come first.`,
    source: 'stop speeds, least temperature and dew point as the rates give them',
  };
}

export function acrossCourses(days: readonly WorkDay[]): Finding[] {
  const byRoof = new Map<string, WorkDay[]>();
  for (const day of days)
    if (day.night && !day.night.whole)
      byRoof.set(day.night.roof, [...(byRoof.get(day.night.roof) ?? []), day]);
  return [...byRoof].map(([roof, evenings]) => ({
    rule: 'closed-across-a-course',
    severity: 'advice',
    roof,
    at: null,
    ids: evenings.map((day) => day.sheets.at(-1)?.sheet ?? ''),
    message: `${evenings.length} evening(s) end within a course (day ${listed(evenings)}): such a course takes more than a day, so the night's closing crosses it at an end lap. More people or a second machine would close it whole.`,
    source: 'a day is closed on a side lap (common practice, no source)',
  }));
}

export function movedTooEarly(
  moved: readonly MovedCourse[],
  startedOn: ReadonlyMap<string, number>,
): Finding[] {
  return moved.flatMap(({ roof, course, name, day }) => {
    const really = startedOn.get(`${roof}/${course}`);
    if (really === undefined || really <= day) return [];
    return [
      {
        rule: 'moved-too-early',
        severity: 'warning' as const,
        roof,
        at: null,
        ids: [],
        message: `Course ${name} cannot be laid on day ${day}: the courses under it and the hours before it fill the days up to ${really - 1}. It stays on day ${really}. Move it later, or give the days more people or hours.`,
        source: 'the lower course first, and no day over its hours',
      },
    ];
  });
}

/** Numbers of days, the middle of a long list left out. */
export function listed(days: readonly Pick<WorkDay, 'number'>[]): string {
  const numbers = days.map((day) => day.number);
  return numbers.length <= 3 ? numbers.join(', ') : `${numbers[0]}, ${numbers[1]} … ${numbers.at(-1)}`;
}
