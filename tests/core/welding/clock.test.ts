// The clock of a working day, worked by hand: hours, breaks, hours that the weather takes, and what is done by when.
import { describe, expect, it } from 'vitest';
import type { Rates } from '../../../core/rates/schema';
import { SHIPPED_RATES } from '../../../core/rates/shipped';
import { timeOf } from '../../../core/units/times';
import { clockAt, dayClock, type HourForecast } from '../../../core/welding/clock';
import { planWelds } from '../../../core/welding/planWelds';
import type { Forecast } from '../../../core/welding/weatherFindings';
import { built, rectangle, roofSpec } from '../../support/roofs';
import { planOf, weldRules, workInput, workRules } from '../../support/welding';

const at = (time: string, fields: Partial<HourForecast>): HourForecast => ({
  at: time,
  speed: null,
  celsius: null,
  humidity: null,
  ...fields,
});
const told = (hours: readonly HourForecast[], adhered = false, rates: Rates = SHIPPED_RATES) => {
  const clock = dayClock(rates, hours, adhered);
  return {
    worked: clock.worked.map((span) => span.map(timeOf).join(' to ')),
    ends: timeOf(clock.end),
    hours: clock.minutes / 60,
    pauses: clock.pauses.filter(({ why }) => why !== 'break').map(({ why }) => why),
    longAfter: clock.longAfter,
  };
};

describe('eight hours from seven, a quarter at half past nine and three quarters at noon', () => {
  it('end at four; only the longer break asks for a new strip, after 4 h 45 min of work', () => {
    expect(told([])).toEqual({
      worked: ['07:00 to 09:30', '09:45 to 12:00', '12:45 to 16:00'],
      ends: '16:00',
      hours: 8,
      pauses: [],
      longAfter: [285],
    });
  });
  it('an hour and a half of wind from two on is lost, and asks for strips as a long break does', () => {
    expect(told([at('14:00', { speed: 12 }), at('15:30', { speed: 4 })])).toEqual({
      worked: ['07:00 to 09:30', '09:45 to 12:00', '12:45 to 14:00', '15:30 to 16:00'],
      ends: '16:00',
      hours: 6.5,
      pauses: ['wind stops all work'],
      longAfter: [285, 360],
    });
  });
  it('dew in the morning stops bonding until nine, and nothing where sheets are not bonded', () => {
    // 6 °C at 95 % has its dew point at 5.3 °C, nearer than the 3 °C asked for; 12 °C at 60 % has it at 4.5 °C.
    const morning = [at('06:00', { celsius: 6, humidity: 95 }), at('09:00', { celsius: 12, humidity: 60 })];
    expect(told(morning, true)).toMatchObject({
      worked: ['09:00 to 09:30', '09:45 to 12:00', '12:45 to 16:00'],
      hours: 6,
      pauses: ['dew point too near'],
      longAfter: [165],
    });
    expect(told(morning)).toMatchObject({ hours: 8, pauses: [] });
  });
  it('a whole day of storm holds nothing', () => {
    expect(told([at('00:00', { speed: 20 })])).toMatchObject({ worked: [], hours: 0 });
  });
  it('a break outside the hours is none, and the clock runs on past its end for a day that is too long', () => {
    const short = { ...SHIPPED_RATES, labour: { ...SHIPPED_RATES.labour, dayHours: 2 } };
    expect(told([], false, short)).toMatchObject({ worked: ['07:00 to 09:00'] });
    expect(timeOf(clockAt(dayClock(short, [], false), 180, 'ends'))).toBe('10:00');
  });
});

describe('a shed of 30 × 8.5 m, three sheets', () => {
  const input = workInput(built(roofSpec(rectangle(30_000, 8500), [], { kind: 'eave', upstand: 0 })));
  const plan = planWelds([input], weldRules(SHIPPED_RATES));
  const planned = (forecast: readonly Forecast[] = [], rates: Rates = SHIPPED_RATES) =>
    planOf([input], plan, workRules(rates, { forecast }));
  const steps = (work: ReturnType<typeof planned>, day = 0) =>
    work.days[day]?.steps.map(({ what, from, to }) => `${timeOf(from)} ${timeOf(to)} ${what}`);

  it('the machine is hot and proved 22 min after the start, and the day runs to its end in order', () => {
    const work = planned();
    expect(steps(work)?.[0]).toBe('07:00 07:22 heating up and first strips');
    expect(work.days[0]?.strips.map(({ at: time, reason }) => [timeOf(time), reason])).toEqual([
      ['07:10', 'start of the day'],
    ]);
    const last = work.days[0]?.steps.at(-1);
    expect(last?.what).toBe('machines cool and go away');
    // All hands busy: the person-minutes of the day over four people, or the machine's own, with breaks on top.
    const day = work.days[0];
    const minutes = Math.max((day?.minutes ?? 0) / 4, day?.machineMinutes[0] ?? 0);
    expect(last?.to).toBeCloseTo(
      clockAt(day?.clock ?? dayClock(SHIPPED_RATES, [], false), minutes, 'ends'),
      6,
    );
  });
  it('work that is done before noon asks for no strip after noon; with half the crew it goes on and does', () => {
    const reasons = (work: ReturnType<typeof planned>) => work.days[0]?.strips.map(({ reason }) => reason);
    expect(reasons(planned())).toEqual(['start of the day']);
    const two = { ...SHIPPED_RATES, labour: { ...SHIPPED_RATES.labour, crew: 2 } };
    const slow = planned([], two);
    expect(reasons(slow)).toEqual(['start of the day', 'after a break']);
    expect(slow.days[0]?.strips.map(({ at: time }) => timeOf(time))).toEqual(['07:10', '12:45']);
    expect(steps(slow)).toContain('12:45 12:57 strips again');
  });
  it('a day of storm is passed over and said, and the work is done on the next', () => {
    const storm = {
      day: 1,
      from: null,
      speed: null,
      celsius: null,
      humidity: null,
      hours: [at('00:00', { speed: 20 })],
    };
    const work = planned([storm]);
    expect(work.days.map(({ number }) => number)).toEqual([2]);
    expect(work.findings.find(({ rule }) => rule === 'hours-lost')?.message).toMatch(
      /Day 1 loses hours.*07:00 to 16:00, wind stops all work.*nothing is planned for it/,
    );
  });
});

describe('a shed with parapets, whose flashings take days after its last sheet', () => {
  const input = workInput(built(roofSpec(rectangle(30_000, 8500))));
  const rates = { ...SHIPPED_RATES, labour: { ...SHIPPED_RATES.labour, crew: 2 } };
  const plan = planWelds([input], weldRules(rates));
  const windy = (day: number, speed: number): Forecast => ({
    day,
    from: null,
    speed: null,
    celsius: null,
    humidity: null,
    hours: [at('00:00', { speed })],
  });
  const planned = (forecast: readonly Forecast[]) => planOf([input], plan, workRules(rates, { forecast }));
  const calm = planned([]);
  const last = calm.days.at(-1);
  const said = (work: typeof calm) => work.findings.find(({ rule }) => rule === 'hours-lost')?.message ?? '';

  it('has such days', () => {
    expect(calm.days.length).toBeGreaterThan(1);
    expect(last?.sheets).toEqual([]);
  });
  it('they are worked in wind that stops unrolling, and that is said', () => {
    const work = planned([windy(last?.number ?? 0, 8)]);
    expect(work.days).toEqual(calm.days);
    expect(said(work)).toMatch(/wind stops unrolling\. Nothing is laid on it, and its hours go to details/);
  });
  it('wind that stops all work puts them off', () => {
    const work = planned([windy(last?.number ?? 0, 12)]);
    expect(work.days.at(-1)?.number).toBe((last?.number ?? 0) + 1);
    expect(said(work)).toMatch(/wind stops all work\. What is left holds no whole course/);
  });
  it('a day that would begin with a sheet is passed over in wind that stops unrolling', () => {
    const work = planned([windy(1, 8)]);
    expect(work.days[0]?.number).toBe(2);
  });
});
