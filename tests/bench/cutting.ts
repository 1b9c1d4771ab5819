// Cutting: rolls and joints against first-fit-decreasing and against one long chain on the same sets, and how often
// the bound is met.
import { cutRuns } from '../../core/sheets/cutRuns';
import { chain } from '../../core/sheets/chain';
import { spliceLengths } from '../../core/sheets/spliceLengths';
import { bestFit } from '../../core/sheets/fill';
import { packWhole } from '../../core/sheets/stock/packWhole';
import type { Solver } from '../../core/sheets/stock/solver';
import { loadSolver } from '../../shared/solver/highs';
import { firstFitSplit } from '../support/plainWays';
import { seeded, type Luck } from '../support/random';
import { ms, timeByTurns, type Row, type Timing } from './measure';

/** Tenths of a millimetre: rolls of 30 m, end laps of 80 mm, pieces of 1.5 m at least. */
const RULES = { roll: 300_000, lap: 800, least: 15_000 };

const SETS: readonly (readonly [name: string, make: (luck: Luck) => () => number])[] = [
  ['1 to 45 m', (luck) => () => luck.whole(10_000, 450_000)],
  ['10 to 29 m', (luck) => () => luck.whole(100_000, 290_000)],
  ['17 to 19.5 m', (luck) => () => luck.whole(170_000, 195_000)],
  ['29 to 90 m', (luck) => () => luck.whole(290_000, 900_000)],
  ['six lengths', ofLengths(6)],
];

function ofLengths(count: number): (luck: Luck) => () => number {
  return (luck) => {
    const kinds = Array.from({ length: count }, () => luck.whole(10_000, 450_000));
    return () => kinds[luck.whole(0, count - 1)] as number;
  };
}

export async function benchCutting(quick: boolean): Promise<Row[]> {
  const solver = await loadSolver();
  const rows: Row[] = [];
  for (const [name, make] of SETS)
    for (const count of [10, 60, 300]) rows.push(sharesRow(name, make, count, quick ? 10 : 100, solver));
  rows.push(wholeRow(quick ? 4 : 20, solver));
  for (const count of [60, 1000]) {
    const luck = seeded(count);
    const runs = Array.from({ length: count }, (_, i) => {
      const from = luck.between(0, 3000);
      return { course: i + 1, span: [from, from + luck.between(1000, 45_000)] as const };
    });
    const roll = { id: 'roll', width: 3000, length: 30_000, cost: 0 };
    const lap = {
      endLap: 80,
      endLapStagger: 300,
      minPiece: 1500,
      joints: 'allowed',
      cutAllowance: 0,
    } as const;
    const lengths = runs.map(({ span }) => Math.ceil((span[1] - span[0]) * 10));
    const [took, plain] = timeByTurns(
      [() => cutRuns(runs, roll, lap, { money: null }), () => firstFitSplit(lengths, RULES)],
      quick ? 5 : 15,
    ) as [Timing, Timing];
    rows.push({
      name: `cut of ${count} runs of 1 to 45 m with staggered joints`,
      figure: `${ms(took)}; first fit without stagger ${ms(plain)}`,
    });
  }
  return rows;
}

function sharesRow(
  name: string,
  make: (luck: Luck) => () => number,
  count: number,
  sets: number,
  solver: Solver,
): Row {
  let [met, worst, rolls, joints, chainRolls, chainJoints, fitRolls, fitJoints] = [0, 0, 0, 0, 0, 0, 0, 0];
  const took: number[] = [];
  for (let seed = 1; seed <= sets; seed++) {
    const next = make(seeded(seed * 1000 + count));
    const lengths = Array.from({ length: count }, next);
    const start = performance.now();
    const cut = spliceLengths(lengths, RULES, solver);
    took.push(performance.now() - start);
    if (cut.rolls === cut.bound) met++;
    worst = Math.max(worst, cut.rolls - cut.bound);
    rolls += cut.rolls;
    joints += cut.joints;
    const sorted = [...lengths].sort((a, b) => b - a);
    const chained = chain(
      sorted,
      sorted.map(() => false),
      RULES,
    );
    chainRolls += chained.rolls;
    chainJoints += chained.joints;
    const fitted = firstFitSplit(lengths, RULES);
    fitRolls += fitted.rolls;
    fitJoints += fitted.joints;
  }
  return {
    name: `${count} runs of ${name}, joints allowed`,
    figure:
      `at the bound ${met} of ${sets}, at most ${worst} above, median ${median(took).toFixed(2)} ms; ` +
      `rolls ${(rolls / chainRolls).toFixed(4)} and joints ${(joints / Math.max(1, chainJoints)).toFixed(3)} of one long chain's, ` +
      `${(rolls / fitRolls).toFixed(4)} and ${(joints / Math.max(1, fitJoints)).toFixed(3)} of first fit's, longest first and split where the roll ends`,
    ratio: {
      value: Math.min(chainRolls, fitRolls) / rolls,
      atLeast: 1,
      against: 'as few rolls as the better plain way takes',
    },
  };
}

const median = (list: readonly number[]) => [...list].sort((a, b) => a - b)[list.length >> 1] as number;

function wholeRow(sets: number, solver: Solver): Row {
  let [proved, rolls, fitted, slowest] = [0, 0, 0, 0];
  for (let seed = 1; seed <= sets; seed++) {
    const luck = seeded(seed);
    const kinds = Array.from({ length: 60 }, () => luck.whole(40_000, 150_000));
    const lengths = Array.from({ length: 200 }, () => kinds[luck.whole(0, 59)] as number);
    const start = performance.now();
    const packed = packWhole(lengths, RULES.roll, solver);
    slowest = Math.max(slowest, performance.now() - start);
    if (packed.bins === packed.bound) proved++;
    rolls += packed.bins;
    fitted += bestFit(lengths, RULES.roll).bins;
  }
  return {
    name: '200 pieces of 60 lengths from 4 to 15 m, joints forbidden',
    figure:
      `proved optimal ${proved} of ${sets}, slowest ${slowest.toFixed(0)} ms; ` +
      `rolls ${(rolls / fitted).toFixed(4)} of best fit, longest first`,
  };
}
