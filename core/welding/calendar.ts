// In: a start, the weekdays worked and the days lost. Out: the date of each working day. Promise: dates are counted,
// never read from a clock; a lost day moves everything after it.

export interface Calendar {
  /** YYYY-MM-DD; null where nobody has said when work starts. */
  readonly start: string | null;
  /** 1 Monday … 7 Sunday. */
  readonly weekdays: readonly number[];
  readonly lost: readonly string[];
}

/** The dates of working days 1 … `count`; all null without a start. */
export function workingDates({ start, weekdays, lost }: Calendar, count: number): readonly (string | null)[] {
  const dates: (string | null)[] = [];
  const works = weekdays.filter((day) => day >= 1 && day <= 7);
  if (start === null || works.length === 0) return Array.from({ length: count }, () => null);
  const gone = new Set(lost);
  for (let day = dayNumber(start); dates.length < count; day++) {
    const date = dateOf(day);
    if (works.includes(weekdayOf(day)) && !gone.has(date)) dates.push(date);
  }
  return dates;
}

/** Days since 1970-01-01 (H. Hinnant's days_from_civil, public domain). */
export function dayNumber(date: string): number {
  const [y = 1970, month = 1, day = 1] = date.split('-').map(Number);
  const year = month <= 2 ? y - 1 : y;
  const era = Math.floor(year / 400);
  const ofEra = year - era * 400;
  const ofYear = Math.floor((153 * (month + (month > 2 ? -3 : 9)) + 2) / 5) + day - 1;
  return era * 146097 + ofEra * 365 + Math.floor(ofEra / 4) - Math.floor(ofEra / 100) + ofYear - 719468;
}

export function dateOf(number: number): string {
  const z = number + 719468;
  const era = Math.floor(z / 146097);
  const ofEra = z - era * 146097;
  const year = Math.floor(
    (ofEra - Math.floor(ofEra / 1460) + Math.floor(ofEra / 36524) - Math.floor(ofEra / 146096)) / 365,
  );
  const ofYear = ofEra - (365 * year + Math.floor(year / 4) - Math.floor(year / 100));
  const m = Math.floor((5 * ofYear + 2) / 153);
  const day = ofYear - Math.floor((153 * m + 2) / 5) + 1;
  const month = m < 10 ? m + 3 : m - 9;
  const two = (value: number) => String(value).padStart(2, '0');
  return `${String(year + era * 400 + (month <= 2 ? 1 : 0)).padStart(4, '0')}-${two(month)}-${two(day)}`;
}

/** 1970-01-01 was a Thursday. */
function weekdayOf(number: number): number {
  return ((((number + 3) % 7) + 7) % 7) + 1;
}
