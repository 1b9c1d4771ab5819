// Welding time, worked by hand: no extras, two laps, and each allowance alone.
import { describe, expect, it } from 'vitest';
import type { Rates } from '../../../core/rates/schema';
import type { WeldRun } from '../../../core/welding/types';
import {
  crewHours,
  machineSpeed,
  readBetween,
  taskHours,
  workedMinutes,
} from '../../../core/welding/weldSpeed';
import { built, layoutSpec, rectangle, roofSpec } from '../../support/roofs';
import { bareRates, weldRules, welded, workInput } from '../../support/welding';
import { planWelds } from '../../../core/welding/planWelds';

const EAVES = { kind: 'eave', upstand: 0 } as const;
const total = (run: WeldRun) =>
  run.weldMinutes +
  run.handMinutes +
  run.setupMinutes +
  run.walkMinutes +
  run.turnMinutes +
  run.slowMinutes +
  run.nozzleMinutes;

describe('one machine, one lap', () => {
  // Two courses of 3 m on 5 m: one lap of 30 m.
  const roof = built(roofSpec(rectangle(30_000, 5000), [], EAVES));
  const run = (rates: Rates) => {
    const { runs } = welded(roof, weldRules(rates));
    expect(runs).toHaveLength(1);
    return runs[0] as WeldRun;
  };

  it('no extras: length ÷ speed exactly, 30 m at 3 m/min is 10 min', () => {
    expect(total(run(bareRates()))).toBe(10);
    expect(welded(roof, weldRules(bareRates())).machineMinutes).toBe(10);
    expect(welded(roof, weldRules(bareRates())).handMinutes).toBe(0);
  });
  it.each<[string, Rates, number]>([
    ['set-up of 1.5 min', bareRates({ setupPerSeam: 1.5 }), 11.5],
    ['turning of 0.5 min', bareRates({}, { turning: 0.5 }), 10.5],
    ['a nozzle cleaned for 1 min every 50 m: 30 ÷ 50', bareRates({}, { nozzleCleaning: 1 }), 10.6],
    [
      '0.3 m by hand at its stop: 29.7 ÷ 3 + 0.3 ÷ 0.75',
      bareRates({ handLap: 0.75 }, { handAtStop: 300 }),
      9.9 + 0.4,
    ],
    [
      'air of 5 °C: speed × 0.75',
      bareRates({}, { conditions: { celsius: 5, humidity: null, surface: 'new and clean' } }),
      10 / 0.75,
    ],
    [
      'weathered sheet, cleaned: speed × 0.8',
      bareRates({}, { conditions: { celsius: 20, humidity: null, surface: 'cleaned after weathering' } }),
      10 / 0.8,
    ],
    [
      'a slower machine: speed × 0.5',
      bareRates({}, { machines: [{ name: 'Old', factor: 0.5, handed: 'right', amps: 16 }] }),
      20,
    ],
  ])('%s', (_name, rates, minutes) => expect(total(run(rates))).toBeCloseTo(minutes, 9));
  it('a sheet of 2.0 mm: speed × 0.75, each factor shown with its name', () => {
    const { speed, factors } = machineSpeed(bareRates(), { material: 'TPO', thickness: 2 }, 0);
    expect(speed).toBeCloseTo(2.25, 12);
    expect(factors.map(({ name }) => name)).toEqual(['TPO 2 mm', '20 °C', 'new and clean', 'Machine 1']);
  });
  it('a T-joint passed over slows by 0.25 min: the lower course has an end lap, the upper none', () => {
    // Lower course in two pieces, upper one too: run 2 sheets of 30 m on 40 m, joints staggered.
    const long = built(roofSpec(rectangle(40_000, 5000), [], EAVES));
    const slow = welded(long, weldRules(bareRates({}, { slowAtTJoint: 0.25 })));
    const passed = slow.runs.filter((each) => each.kind === 'side-lap' && each.tJoints > 0);
    expect(passed).toHaveLength(1);
    expect(passed[0]?.slowMinutes).toBeCloseTo(0.25, 9);
  });
});

describe('two parallel laps, a walk back, one T-joint and one stop', () => {
  // Courses of 3 m, lap 0.12: laps at 2.94 and 5.82 m. On 40 m each course is two pieces. Counted on the layout itself:
  // every end lap of a course stops the lap that closes it and slows the one above.
  const roof = built(roofSpec(rectangle(40_000, 8000), [], EAVES));
  const input = workInput(roof);
  const rates = bareRates(
    { setupPerSeam: 1.5, handLap: 0.75 },
    { slowAtTJoint: 0.25, handAtStop: 300, turning: 0.5 },
  );
  const plan = planWelds([input], weldRules(rates));
  const sides = plan.runs.filter((run) => run.kind === 'side-lap');

  it('each lap line stops once at the end lap of its upper course and passes one T-joint of its lower', () => {
    for (const course of [1, 2]) {
      const line = sides.filter((run) => run.course === course);
      expect(line).toHaveLength(2);
      expect(line.reduce((sum, run) => sum + run.tJoints, 0)).toBe(1);
      expect(line.reduce((sum, run) => sum + run.length, 0)).toBeCloseTo(40_000, 6);
    }
  });
  it('all parallel laps are welded the same way, and the walk between them counts', () => {
    for (const run of sides) expect(run.to[0] - run.from[0]).toBeGreaterThan(0);
    plan.runs.forEach((run, k) => {
      const machine = run.machine;
      const before = plan.runs
        .slice(0, k)
        .filter((each) => each.machine === machine)
        .at(-1);
      const walk = before ? Math.hypot(run.from[0] - before.to[0], run.from[1] - before.to[1]) : 0;
      expect(run.walkMinutes).toBeCloseTo(walk / 1000 / 50, 9);
    });
  });
  it('a lap by hand: two laps of 40 m in four goes', () => {
    // By machine (80 − 4 × 0.3) ÷ 3 = 26.267 min; by hand 4 × 0.3 ÷ 0.75 = 1.6; set down 4 × 1.5; turned 4 × 0.5;
    // two T-joints at 0.25.
    const sum = (part: (run: WeldRun) => number) => sides.reduce((all, run) => all + part(run), 0);
    expect(sum((run) => run.weldMinutes)).toBeCloseTo((80 - 1.2) / 3, 9);
    expect(sum((run) => run.handMinutes)).toBeCloseTo(1.6, 9);
    expect(sum((run) => run.setupMinutes)).toBeCloseTo(6, 9);
    expect(sum((run) => run.turnMinutes)).toBeCloseTo(2, 9);
    expect(sum((run) => run.slowMinutes)).toBeCloseTo(0.5, 9);
  });
  it('a machine handed the other way drives the other way', () => {
    const left = bareRates({}, { machines: [{ name: 'Left', factor: 1, handed: 'left', amps: 16 }] });
    for (const run of planWelds([input], weldRules(left)).runs)
      if (run.kind === 'side-lap') expect(run.to[0] - run.from[0]).toBeLessThan(0);
  });
});

describe('where a machine has no room', () => {
  it('a drain on the lap line leaves its clear zone to the hand and sets the machine down again', () => {
    // Bowl 200 mm, clear 300 mm: 0.8 m by hand, and 0.3 m at each of two stops.
    const roof = built({
      ...roofSpec(rectangle(30_000, 5000), [], EAVES),
      fittings: [{ id: 'd', kind: 'drain', at: [10_000, 2940], size: 200 }],
    });
    const [run] = welded(roof, weldRules(bareRates({}, { handAtStop: 300 }))).runs;
    expect(run?.setDowns).toBe(2);
    expect(run?.byHand).toBeCloseTo(800 + 600, 6);
    expect(run?.length).toBeCloseTo(30_000, 6);
  });
  it('a lap beside an upstand all the way is welded by hand', () => {
    // The lap lies at 2.94 m; a wall stands at 3.2 m.
    const roof = built(roofSpec(rectangle(30_000, 3200)));
    const side = welded(roof, weldRules(bareRates())).runs.find((run) => run.kind === 'side-lap');
    expect(side?.method).toBe('hand');
  });
  it('a lap shorter than the least for a machine is welded by hand: 1.5 m by machine, 1.4 m by hand', () => {
    const method = (width: number) =>
      welded(built(roofSpec(rectangle(width, 5000), [], EAVES)), weldRules(bareRates())).runs[0]?.method;
    expect(method(1500)).toBe('machine');
    expect(method(1400)).toBe('hand');
  });
});

describe('published rates (welding reference, section 5)', () => {
  it('16 000 ft² at 33 man-hours per 1 000: 66 man-days, 98.5 at 67 % efficiency', () => {
    expect(taskHours(16, 33, 1) / 8).toBeCloseTo(66, 9);
    expect(taskHours(16, 33, 1 / 0.67) / 8).toBeCloseTo(98.5, 1);
  });
  it('capacity 12 · 20 · 1.125 · 0.75 = 202.5 man-days', () => {
    expect(crewHours(12, 20, 9, 0.75) / 8).toBeCloseTo(202.5, 9);
  });
  it('323.1 m by machine, 40 m by hand, 4 tests: 388.7 min = 6.48 h', () => {
    const machine = workedMinutes(323.1 / 3, 0.5, 0);
    const hand = workedMinutes(40 / 0.5, 0.6, 0);
    expect(machine).toBeCloseTo(215.4, 9);
    expect(hand).toBeCloseTo(133.33, 2);
    expect((machine + hand + 4 * 10) / 60).toBeCloseTo(6.48, 2);
  });
  it('efficiency is the mean of its elements: (75 + 90 + 80 + 60 + 50) ÷ 5 = 71 %', () => {
    expect(workedMinutes(71, (0.75 + 0.9 + 0.8 + 0.6 + 0.5) / 5, 0)).toBeCloseTo(100, 9);
  });
  it('750 m: 300 min at 2.5 m/min, 187.5 at 4', () => {
    // 26 courses of 30 m less one lap's worth: checked on one long lap, 30 m × 25 = 750.
    const roof = built(roofSpec(rectangle(30_000, 25 * 2880 + 3000 - 60), [], EAVES));
    const minutes = (machine: number) =>
      welded(roof, weldRules(bareRates({ machine })), layoutSpec()).runs.reduce(
        (sum, run) => sum + run.weldMinutes,
        0,
      );
    expect(minutes(2.5)).toBeCloseTo(300, 6);
    expect(minutes(4)).toBeCloseTo(187.5, 6);
  });
  it('a table is read between its rows and held at its ends', () => {
    const rows = [[5, 0.75] as const, [20, 1] as const, [30, 1.1] as const];
    expect([-10, 5, 12.5, 20, 25, 40].map((x) => readBetween(rows, x))).toEqual([
      0.75, 0.75, 0.875, 1, 1.05, 1.1,
    ]);
  });
});
