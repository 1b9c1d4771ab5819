// In: lengths, a roll and the lap, the least piece, and the solver where there is one. Out: the pieces they are made
// of and the rolls these come from, where nothing says where on a roof they lie, so that no stagger binds. Promise:
// rolls are tried from the bound upwards, and the first way found is kept; the bound is proved.
import { splicedBound } from './bounds';
import { chain, chainInto, type OrderEffort, type Piece, type Splice, type SpliceRules } from './chain';
import { QUICK_SPLICE, spliceInto, splicePlain, type SpliceEffort } from './spliceRuns';
import { spliceSpilling } from './spill';
import { regather, type RegatherEffort } from './regather';
import { raisedBound } from './stock/raiseBound';
import type { Solver } from './stock/solver';
import { groupStock, type GroupedStock } from './stock/spliceStock';
import { weave, weaveAll } from './weave';

export interface Spliced extends Splice {
  readonly bound: number;
}

/** Work one attempt may do, counted in search steps. */
const SPLICE_WORK = 3_000_000;
/** From quick to thorough. */
const EFFORTS: readonly SpliceEffort[] = [
  QUICK_SPLICE,
  { shares: [0.25, 1], moreRolls: 3, groupWork: 3000 },
  { shares: [0.1, 0.5, 1], moreRolls: 1, groupWork: 20_000 },
  { shares: [0.5, 1], moreRolls: 6, groupWork: 20_000 },
  { shares: [1], moreRolls: 8, groupWork: 20_000 },
  { shares: [0.05, 0.2, 0.5, 0.8, 1], moreRolls: 2, groupWork: 40_000 },
];
const QUICK_GATHER: RegatherEffort = { manners: 5, trials: 60, more: 60, exchanges: 0, steps: 60_000_000 };
const THOROUGH_GATHER: RegatherEffort = {
  manners: 5,
  trials: 100,
  more: 4000,
  exchanges: 100_000_000,
  steps: 1_000_000_000,
};
/** Distinct lengths up to which the program over groups is asked. */
const MOST_COUNTED = 40;

export function spliceLengths(
  lengths: readonly number[],
  rules: SpliceRules,
  solver: Solver | null,
): Spliced {
  const plain = splicePlain(lengths, rules);
  let bound = splicedBound(lengths, rules.roll, rules.lap);
  if (plain.rolls <= bound && plain.joints === 0) return { ...plain, bound };
  const quick =
    fewestJoints([spliceSpilling(lengths, bound, rules), spliceAt(lengths, bound, rules, [QUICK_SPLICE])]) ??
    weaveAll(lengths, rules, bound) ??
    regather(lengths, bound, rules, QUICK_GATHER);
  if (quick) return { ...quick, bound };
  if (solver && new Set(lengths).size <= MOST_COUNTED) {
    const counted = groupStock(lengths, rules, bound, solver);
    bound = counted.bound;
    const splice = counted.groups && spliceGroups(lengths, counted.groups, rules);
    if (splice && splice.rolls <= bound) return { ...splice, bound };
  } else if (solver) bound = raisedBound(lengths, bound, rules, solver);
  for (let rolls = bound; rolls < plain.rolls; rolls++) {
    const splice =
      fewestJoints([spliceSpilling(lengths, rolls, rules), spliceAt(lengths, rolls, rules, EFFORTS)]) ??
      weaveAll(lengths, rules, rolls) ??
      regather(lengths, rolls, rules, rolls === bound ? THOROUGH_GATHER : QUICK_GATHER);
    if (splice) return { ...splice, bound };
  }
  return { ...plain, bound };
}

function fewestJoints(splices: readonly (Splice | null)[]): Splice | null {
  return splices.reduce((a, b) => (a && (!b || a.joints <= b.joints) ? a : b), null);
}

function spliceAt(
  lengths: readonly number[],
  rolls: number,
  rules: SpliceRules,
  efforts: readonly SpliceEffort[],
): Splice | null {
  for (const effort of efforts) {
    const splice = spliceInto(lengths, rolls, rules, effort, { left: SPLICE_WORK });
    if (splice) return splice;
  }
  return null;
}

/** Groups of few distinct lengths have few orders that differ. */
const MANY_ORDERS: OrderEffort = { orders: 20_000, lengths: 100 };

/** Each group a chain of its own. */
function spliceGroups(
  lengths: readonly number[],
  groups: NonNullable<GroupedStock['groups']>,
  rules: SpliceRules,
): Splice {
  const pieces: Piece[] = [];
  let rolls = 0;
  let joints = 0;
  for (const { members, rolls: asked } of groups) {
    const own = [...members].sort((a, b) => (lengths[b] as number) - (lengths[a] as number) || a - b);
    const [inOrder, whole] = [own.map((i) => lengths[i] as number), own.map(() => false)];
    const chained =
      chainInto(inOrder, whole, rules, asked, MANY_ORDERS) ??
      weave(inOrder, whole, rules, asked) ??
      chain(inOrder, whole, rules);
    for (const piece of chained.pieces)
      pieces.push({ run: own[piece.run] as number, roll: rolls + piece.roll, length: piece.length });
    rolls += chained.rolls;
    joints += chained.joints;
  }
  return { pieces, rolls, joints };
}
