// Machines beside each other, waiting, what slows the work, and the least there is, worked by hand.
import { describe, expect, it } from 'vitest';
import type { Rates } from '../../../core/rates/schema';
import { SHIPPED_RATES } from '../../../core/rates/shipped';
import type { WorkRules } from '../../../core/welding/orderWork';
import { machinesAtOnce, planWelds } from '../../../core/welding/planWelds';
import { built, rectangle, roofSpec } from '../../support/roofs';
import { bareRates, planOf, weldRules, workInput, workRules } from '../../support/welding';

const EAVES = { kind: 'eave', upstand: 0 } as const;
const roofOf = (width: number, height: number) =>
  workInput(built(roofSpec(rectangle(width, height), [], EAVES)));
const machine = (factor: number, handed: 'left' | 'right' = 'right') => ({
  name: `Machine × ${factor}`,
  factor,
  handed,
  amps: 20,
});

function planned(input: ReturnType<typeof roofOf>, rates: Rates, changes: Partial<WorkRules> = {}) {
  const plan = planWelds([input], weldRules(rates));
  return { plan, work: planOf([input], plan, workRules(rates, changes)) };
}

const taskOf = ({ work }: ReturnType<typeof planned>, name: string, day = 0) =>
  work.days[day]?.tasks.find((task) => task.name === name)?.minutes ?? 0;

describe('machines beside each other', () => {
  // Five courses of 3 m on 14.5 m: four laps of 30 m.
  const input = roofOf(30_000, 14_500);

  it('the machine that is free first takes the next lap: a slow and a fast one', () => {
    // Slow: 30 m at 1.5 m/min ÷ 0.5 = 40 min. Fast: 20 min, and 20.6 with the walk back of 30.1 m at 50 m/min.
    // So the second lap goes to the fast one, which is free again at 20, before the slow one at 40; then 40 < 40.6.
    const rates = bareRates({}, { machines: [machine(0.5), machine(1)] });
    expect(planned(input, rates).plan.runs.map((run) => run.machine)).toEqual([0, 1, 1, 0]);
  });
  it('two alike share the laps, and at no time is one ahead by more than a lap with its walk', () => {
    const rates = bareRates({}, { machines: [machine(1), machine(1)] });
    const clocks = [0, 0];
    for (const run of planned(input, rates).plan.runs) {
      clocks[run.machine ?? 0] = (clocks[run.machine ?? 0] ?? 0) + run.weldMinutes / 0.5 + run.walkMinutes;
      expect(Math.abs((clocks[0] ?? 0) - (clocks[1] ?? 0))).toBeLessThan(22);
    }
  });
  it('each drives the way its own hand asks for', () => {
    const rates = bareRates({}, { machines: [machine(1, 'right'), machine(1, 'left')] });
    for (const run of planned(input, rates).plan.runs)
      expect(Math.sign(run.to[0] - run.from[0])).toBe(run.machine === 0 ? 1 : -1);
  });
  it('only as many run as there are people for: two people, two to a machine', () => {
    const three = bareRates({}, { machines: [machine(1), machine(1), machine(1)] });
    const rates = { ...three, labour: { ...three.labour, crew: 2 } };
    expect(machinesAtOnce(rates)).toBe(1);
    const { plan, work } = planned(input, rates);
    expect(new Set(plan.runs.map((run) => run.machine))).toEqual(new Set([0]));
    expect(work.supply.atOnce).toBe(1);
    expect(work.findings.find(({ rule }) => rule === 'machines-without-hands')?.message).toMatch(
      /^3 machines are listed and the crew has people for 1/,
    );
    expect(machinesAtOnce({ ...three, labour: { ...three.labour, crew: 1 } })).toBe(1);
  });
  it('a day with two machines holds more than a day with one, where the machine is what is short', () => {
    // 200 min a lap: one machine welds two of the four in a day of 480 min, two weld all four.
    const days = (machines: Rates['welding']['machines']) => {
      const rates = bareRates({ efficiency: 0.05 }, { machines });
      return planned(input, { ...rates, labour: { ...rates.labour, crew: 12 } }).work.days.length;
    };
    expect([days([machine(1)]), days([machine(1), machine(1)])]).toEqual([2, 1]);
  });
});

describe('waiting for sheets to lie', () => {
  const still = (changes: Partial<Rates['welding']> = {}) => {
    const rates = bareRates({}, { relaxing: 20, ...changes });
    return { ...rates, labour: { ...rates.labour, perFastener: 0 } };
  };
  it('a sheet alone, nothing else to do: 20 min × 4 people', () => {
    expect(taskOf(planned(roofOf(30_000, 2_500), still()), 'Waiting for sheets to lie')).toBeCloseTo(80, 9);
  });
  it('bonded, two coats that dry 15 min each: (20 + 30) min × 4 people', () => {
    const work = planned(roofOf(30_000, 2_500), still(), { adhered: true });
    expect(taskOf(work, 'Waiting for sheets to lie')).toBeCloseTo(200, 9);
  });
  it('fastening the sheet fills it: what it takes is taken off', () => {
    const work = planned(roofOf(30_000, 2_500), {
      ...still(),
      labour: { ...SHIPPED_RATES.labour, perFastener: 0.2 },
    });
    const fastening = taskOf(work, 'Fastening');
    expect(fastening).toBeGreaterThan(20);
    expect(taskOf(work, 'Waiting for sheets to lie')).toBeCloseTo(80 - fastening, 9);
  });
  it('a second sheet takes 225 person-minutes to lay, more than the 80 that would be waited', () => {
    expect(taskOf(planned(roofOf(30_000, 5_000), still()), 'Waiting for sheets to lie')).toBe(0);
  });
});

describe('what slows the work', () => {
  it('height 1.1, crowding 1.2, weather 1.25: each on top of those before, together 1.65', () => {
    const input = roofOf(30_000, 5_000);
    const plain = bareRates();
    const slow = bareRates({}, { productivity: { height: 1.1, crowding: 1.2, weather: 1.25 } });
    const own = [
      'Waiting for sheets to lie',
      'Test strips',
      'Heating up and cooling',
      'Closing for the night',
    ];
    const worked = (rates: Rates) =>
      planned(input, rates).work.days[0]?.tasks.reduce(
        (sum, task) => sum + (own.includes(task.name) ? 0 : task.minutes),
        0,
      ) ?? 0;
    const base = worked(plain);
    const [height, crowding, weather] = planned(input, slow).work.days[0]?.slowed ?? [];
    expect(height?.minutes).toBeCloseTo(0.1 * base, 6);
    expect(crowding?.minutes).toBeCloseTo(1.1 * 0.2 * base, 6);
    expect(weather?.minutes).toBeCloseTo(1.32 * 0.25 * base, 6);
    expect(worked(slow)).toBeCloseTo(1.65 * base, 6);
  });
});

describe('the least there is', () => {
  it('one lap, one day: the plan is the least itself', () => {
    const { work } = planned(roofOf(30_000, 5_000), bareRates());
    expect(work.days).toHaveLength(1);
    expect(work.leastMinutes).toBeCloseTo(work.days[0]?.minutes ?? NaN, 6);
    expect(work.leastDays).toBe(1);
  });
  it('takes every lap by the faster machine, though the slower one welds it', () => {
    const input = roofOf(30_000, 5_000);
    const { plan, work } = planned(input, bareRates({}, { machines: [machine(0.5), machine(1)] }));
    expect(plan.runs[0]?.machine).toBe(0);
    // 20 min of welding instead of 10, ÷ 0.5, by two people.
    expect((work.days[0]?.minutes ?? NaN) - work.leastMinutes).toBeCloseTo(40, 6);
  });
});
