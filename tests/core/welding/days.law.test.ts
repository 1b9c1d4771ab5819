// The plan of work over generated jobs, held by a checker that shares no code with the planner.
import { describe, expect, it } from 'vitest';
import type { Rates } from '../../../core/rates/schema';
import { SHIPPED_RATES } from '../../../core/rates/shipped';
import { orderWork, type WorkRules } from '../../../core/welding/orderWork';
import { planDays } from '../../../core/welding/planDays';
import { planWelds } from '../../../core/welding/planWelds';
import type { MovedPlace } from '../../../core/welding/planWork';
import { faultsOfWork } from '../../support/checkWork';
import { DEEP } from '../../support/deep';
import { seeded, type Luck } from '../../support/random';
import { built, generatedRoof, layoutSpec, rectangle, roofSpec } from '../../support/roofs';
import { planOf, weldRules, workInput, workRules } from '../../support/welding';

const WEEK = { start: '2026-03-02', weekdays: [1, 2, 3, 4, 5], lost: ['2026-03-04'] };

function rules(rates: Rates, changes: Partial<WorkRules> = {}): WorkRules {
  return workRules(rates, { orderChosen: false, calendar: WEEK, ...changes });
}

/** Crews from two people with one machine to twelve with three, on short and long days. */
function ratesBy(seed: number): Rates {
  const luck = seeded(seed);
  const machine = (k: number) => ({
    name: `Machine ${k}`,
    factor: luck.between(0.7, 1.2),
    handed: luck.next() < 0.5 ? ('left' as const) : ('right' as const),
    amps: 20,
  });
  return {
    ...SHIPPED_RATES,
    labour: { ...SHIPPED_RATES.labour, crew: luck.whole(3, 6), dayHours: luck.whole(6, 11) },
    welding: {
      ...SHIPPED_RATES.welding,
      machines: Array.from({ length: luck.whole(1, 3) }, (_, k) => machine(k + 1)),
      crews: luck.whole(1, 2),
      productivity: { height: 1, crowding: luck.between(1, 1.3), weather: 1 },
      clock: {
        start: `0${luck.whole(5, 9)}:${luck.whole(0, 5)}0`,
        breaks: Array.from({ length: luck.whole(0, 3) }, () => ({
          at: `${luck.whole(10, 17)}:${luck.whole(0, 5)}0`,
          minutes: luck.whole(1, 6) * 10,
        })),
      },
    },
  };
}

/** Some hours of the day blow, some are cold, some are damp. */
function stormy(day: number, luck: Luck) {
  const hours = [5, 8, 11, 14].map((hour) => ({
    at: `${String(hour).padStart(2, '0')}:${luck.whole(0, 5)}0`,
    speed: luck.next() < 0.3 ? luck.whole(4, 14) : null,
    celsius: luck.next() < 0.3 ? luck.whole(2, 20) : null,
    humidity: luck.next() < 0.5 ? luck.whole(50, 99) : null,
  }));
  return { day, from: null, speed: null, celsius: null, humidity: null, hours };
}

describe('days', () => {
  it(`hold on ${DEEP ? 4000 : 1000} generated jobs, every third with courses moved, fourth adhered, fifth far end first`, () => {
    let tooLong = 0;
    let shortened = 0;
    for (let seed = 1; seed <= (DEEP ? 4000 : 1000); seed++) {
      const luck = seeded(seed * 7);
      const area = 60e6 * Math.pow(15, luck.next());
      const roof = generatedRoof(seed, { area });
      const fall = luck.next() < 0.5 ? null : { downhill: luck.between(0, 359), ratio: null };
      const input = workInput({ ...roof, fall }, layoutSpec({ direction: luck.whole(0, 3) * 45 }));
      const rates = ratesBy(seed);
      const order = seed % 5 === 0 ? ('high to low' as const) : ('low to high' as const);
      const wind = seed % 7 === 0 ? luck.between(0, 359) : null;
      const adhered = seed % 4 === 0;
      const plan = planWelds([input], weldRules(rates, { patches: luck.next() < 0.5, order }));
      const moved =
        seed % 3 === 0
          ? [1, 2].map(() => {
              const sheet = input.layout.sheets[luck.whole(0, input.layout.sheets.length - 1)];
              const [a, , c] = sheet?.corners ?? [];
              const at = [((a?.[0] ?? 0) + (c?.[0] ?? 0)) / 2, ((a?.[1] ?? 0) + (c?.[1] ?? 0)) / 2] as const;
              return { roof: input.roof.id, at, day: luck.whole(1, 9) };
            })
          : [];
      const forecast = seed % 6 === 0 ? [1, 2, 4].map((day) => stormy(day, luck)) : [];
      const work = planOf([input], plan, rules(rates, { adhered, order, wind, forecast }), moved);
      if (work.findings.some(({ rule }) => rule === 'hours-lost')) shortened++;
      const planned = {
        rates,
        adhered,
        first: order === 'high to low' ? ('over' as const) : ('under' as const),
      };
      expect(faultsOfWork([input], plan, work, planned), `seed ${seed}`).toEqual([]);
      expect(work.days.length, `seed ${seed}`).toBeGreaterThanOrEqual(work.leastDays);
      const minutes = work.days.reduce((sum, day) => sum + day.minutes, 0);
      expect(minutes, `seed ${seed}`).toBeGreaterThanOrEqual(work.leastMinutes - 0.001);
      if (work.findings.some((finding) => finding.rule === 'work-over-a-day')) tooLong++;
    }
    // The days of these crews hold the work; a generator that slips past the check of hours would show here.
    expect(tooLong).toBeLessThan(10);
    expect(shortened).toBeGreaterThan(50);
  }, 120_000);
});

describe('moved courses', () => {
  it('are planned alike from the days before them and from nothing, on 200 jobs in all weathers', () => {
    let kept = 0;
    for (let seed = 1; seed <= 200; seed++) {
      const luck = seeded(seed * 11);
      const input = workInput(generatedRoof(seed, { area: 60e6 * Math.pow(15, luck.next()) }));
      const rates = ratesBy(seed);
      const forecast = seed % 2 === 0 ? [1, 2, 4, 5].map((day) => stormy(day, luck)) : [];
      const plan = planWelds([input], weldRules(rates));
      const { pieces, dayRules, unmoved } = orderWork([input], plan, rules(rates, { forecast }));
      const moved = Array.from({ length: luck.whole(1, 3) }, () => {
        const at = luck.whole(0, input.layout.sheets.length - 1);
        const course = input.layout.sheets[at]?.course ?? 0;
        return { roof: input.roof.id, course, name: '', day: luck.whole(1, 9) };
      });
      const anew = planDays(pieces, dayRules, moved);
      const after = planDays(pieces, dayRules, moved, unmoved);
      expect(after, `seed ${seed}`).toEqual(anew);
      kept += after.days.filter((day) => unmoved.days.includes(day)).length;
    }
    expect(kept).toBeGreaterThan(50);
  }, 60_000);
});

describe('rows along edges and water from both sides', () => {
  const rowed = { sheets: 2, width: 1500 };
  const bare = roofSpec(rectangle(40_000, 30_000));
  const roof = built({
    ...bare,
    outline: { ...bare.outline, edges: bare.outline.edges.map((edge) => ({ ...edge, perimeter: rowed })) },
    fittings: [{ id: 'd', kind: 'drain', at: [20_000, 15_000], size: 150 }],
  });
  const rolls = [
    { id: 'field', width: 3000, length: 30_000, cost: 0 },
    { id: 'narrow', width: 1500, length: 20_000, cost: 0 },
  ];
  const input = workInput(roof, layoutSpec({ rolls }));

  it.each(['low to high', 'high to low', { windward: 90 }, { windward: 270 }] as const)(
    'laid %j the days stand before the checker, the rows before their field',
    (order) => {
      const rates = ratesBy(3);
      const plan = planWelds([input], weldRules(rates, { order }));
      const work = planOf([input], plan, rules(rates, { order }));
      const rising = order === 'low to high' || (typeof order === 'object' && order.windward === 270);
      const first = rising ? ('under' as const) : ('over' as const);
      expect(faultsOfWork([input], plan, work, { rates, adhered: false, first })).toEqual([]);
      const bands = work.days.flatMap((day) => day.sheets.map(({ name }) => name.includes('-')));
      expect(bands).toContain(true);
      expect(bands.lastIndexOf(true)).toBeLessThan(bands.indexOf(false));
    },
  );
  it('a move of a row finds that row and no course of the field at the same height', () => {
    const row = input.layout.sheets.find((sheet) => sheet.band !== 'F');
    const [a, , c] = row?.corners ?? [];
    if (!row || !a || !c) throw new Error('the roof has rows along its edges');
    const at = [(a[0] + c[0]) / 2, (a[1] + c[1]) / 2] as const;
    const plan = planWelds([input], weldRules(SHIPPED_RATES));
    const work = planOf([input], plan, rules(SHIPPED_RATES), [{ roof: 'roof', at, day: 3 }]);
    const day = work.days.find(({ sheets }) => sheets.some(({ sheet }) => sheet === row.id));
    expect(day?.number).toBeGreaterThanOrEqual(3);
  });
});

describe('a warehouse of 30 × 60 m', () => {
  const roof = built({
    ...roofSpec(rectangle(30_000, 60_000)),
    fittings: [{ id: 'd', kind: 'drain', at: [15_000, 30_000], size: 150 }],
  });
  const input = workInput(roof);
  const plan = planWelds([input], weldRules(SHIPPED_RATES));
  const on = (changes: Partial<WorkRules>, moved: readonly MovedPlace[] = []) =>
    planOf([input], plan, rules(SHIPPED_RATES, changes), moved);
  const free = on({});
  const says = (work: typeof free, rule: string) =>
    work.findings.find((finding) => finding.rule === rule)?.message ?? '';

  it('skips weekends and lost days', () => {
    const dates = free.days.map((day) => day.date);
    expect(dates.slice(0, 5)).toEqual(['2026-03-02', '2026-03-03', '2026-03-05', '2026-03-06', '2026-03-09']);
  });
  it('knows no date without a start', () => {
    expect(on({ calendar: { ...WEEK, start: null } }).days[0]?.date).toBeNull();
  });
  it('ends every day but the last on a side lap of the whole roof', () => {
    const open = free.days.filter((day) => !day.sheets.some((sheet) => sheet.course === 21));
    const laying = open.filter((day) => day.sheets.length > 0);
    expect(laying.length).toBeGreaterThan(3);
    for (const day of laying) expect(day.night).toMatchObject({ whole: true, length: 30_000 });
    expect(free.days.at(-1)?.night).toBeNull();
  });
  it('says when no drain works in the evening yet', () => {
    expect(says(free, 'no-working-drain')).toMatch(/no drain, scupper, gutter or eave lies in the part/);
  });
  const middle = (course: number) => [15_000, (course - 0.5) * 2880] as const;
  it('moves a course to a later day, and what lies over it waits', () => {
    const later = on({}, [{ roof: 'roof', at: middle(2), day: 4 }]);
    const dayOf = (course: number) =>
      later.days.find((day) => day.sheets.some((s) => s.course === course))?.number;
    expect(dayOf(1)).toBe(1);
    expect(dayOf(2)).toBe(4);
    expect(dayOf(3)).toBeGreaterThanOrEqual(4);
    expect(says(later, 'moved-courses-cost')).toMatch(/ends on day \d+ instead of \d+/);
  });
  it('cannot lay a course before those under it, and says so', () => {
    const early = on({}, [{ roof: 'roof', at: middle(20), day: 1 }]);
    expect(early.days).toEqual(free.days);
    expect(says(early, 'moved-too-early')).toMatch(/Course C20 cannot be laid on day 1/);
  });
  it('a move whose place is gone is said and not guessed', () => {
    const gone = on({}, [{ roof: 'roof', at: [0, 500_000], day: 2 }]);
    expect(says(gone, 'moved-course-gone')).toMatch(/no course lies at this place any more/);
    expect(gone.days).toEqual(free.days);
  });
  it('shows the conflict of an access at the low side until a person chooses', () => {
    const access = { roof: 'roof', at: [15_000, 0] as const };
    expect(says(on({ access }), 'access-at-the-start')).toMatch(/Choose: low to high .* or from the far end/);
    expect(says(on({ access, orderChosen: true }), 'access-at-the-start')).toBe('');
    expect(says(on({ access: { roof: 'roof', at: [15_000, 60_000] } }), 'access-at-the-start')).toBe('');
  });
  it('a person may choose the far end first: the high course is laid first', () => {
    const order = 'high to low' as const;
    const far = planWelds([input], weldRules(SHIPPED_RATES, { order }));
    const work = planOf([input], far, rules(SHIPPED_RATES, { order, orderChosen: true }));
    expect(work.days[0]?.sheets[0]?.course).toBe(21);
  });
  it('says which piece of work no day holds', () => {
    const short = { ...SHIPPED_RATES, labour: { ...SHIPPED_RATES.labour, crew: 1, dayHours: 1 } };
    const work = planOf([input], plan, rules(short));
    expect(work.findings[0]).toMatchObject({ rule: 'work-over-a-day', severity: 'error' });
    expect(work.days.flatMap((day) => day.runs)).toHaveLength(plan.runs.length);
  });
  it('bonding asks for warmth and for distance from the dew point', () => {
    const at = (celsius: number, humidity: number | null) =>
      rules(
        {
          ...SHIPPED_RATES,
          welding: {
            ...SHIPPED_RATES.welding,
            conditions: { celsius, humidity, surface: 'new and clean' },
          },
        },
        { adhered: true },
      );
    const rulesSaid = (asked: WorkRules) => planOf([input], plan, asked).findings.map(({ rule }) => rule);
    expect(rulesSaid(at(3, null))).toContain('too-cold-to-bond');
    expect(rulesSaid(at(12, 95))).toContain('dew-point-near');
    expect(rulesSaid(at(12, 40))).not.toContain('dew-point-near');
  });
});
