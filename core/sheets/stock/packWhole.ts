// In: lengths that are cut in one piece, a roll, and the solver where there is one. Out: the roll of each, and a proof
// of how few rolls will do. Promise: with the solver the classical cutting-stock problem is solved by column
// generation and a dive, and the bound is proved by prices; without it the constructive cut and L2 stand.
import { bestFit, fillBest } from '../fill';
import { dive, type Complete } from './dive';
import { openGroupProgram } from './program';
import { provePrices, thresholdProof, type Proof } from './proof';
import type { Solver } from './solver';
import { groupsOf, mergeLengths, type Merged, type Pattern, type Stock } from './stock';

export interface Packed {
  /** The roll of each length, from 0. */
  readonly bin: readonly number[];
  readonly bins: number;
  readonly bound: number;
  /** A price for each distinct length, longest first, in rolls: no set that fits a roll is worth more than 1. */
  readonly prices: readonly { readonly length: number; readonly price: number }[];
}

/** Counted work of one cut: steps of the searches for groups, programs solved, nodes of the whole-number search. */
const EXACT_WORK = 6_000_000;
const QUICK_WORK = 30_000_000;
const PROOF_WORK = 6_000_000;
const FILL_WORK = 3000;
const DIVE = { aside: 8, programs: 1000 };
const NODES = 400;

export function packWhole(lengths: readonly number[], roll: number, solver: Solver | null): Packed {
  const merged = mergeLengths(lengths, [{ room: roll, cost: 1 }], 'none');
  const { stock, divisor, members } = merged;
  const plain = constructive(stock, lengths, merged);
  let proof = thresholdProof(stock);
  let patterns = plain;
  if (solver && lengths.length > 0 && proof.bound < patterns.length) {
    const better = solve(stock, plain, proof.bound, solver);
    if (better.proof && better.proof.bound > proof.bound) proof = better.proof;
    patterns = better.patterns;
  }
  return {
    ...binsOf(patterns, members, lengths.length),
    bound: proof.bound,
    prices: stock.lengths.map((length, i) => ({ length: length * divisor, price: proof.prices[i] ?? 0 })),
  };
}

/** The better of best fit, longest first, and of filling roll after roll. */
function constructive(stock: Stock, lengths: readonly number[], merged: Merged): readonly Pattern[] {
  const fitted = bestFitted(stock, lengths, merged);
  const area = Math.ceil(demandOf(stock, stock.wanted) / (stock.sizes[0] as Stock['sizes'][number]).room);
  const fill = fillRolls(stock);
  for (let most = area; most < Math.min(area + 2, fitted.length); most++) {
    const filled = fill(stock.wanted, most);
    if (filled) return filled;
  }
  return fitted;
}

const demandOf = ({ lengths }: Stock, wanted: readonly number[]) =>
  wanted.reduce((sum, n, i) => sum + n * (lengths[i] as number), 0);

function bestFitted(stock: Stock, lengths: readonly number[], { members }: Merged): Pattern[] {
  const { room } = stock.sizes[0] as Stock['sizes'][number];
  const kind = new Array<number>(lengths.length);
  members.forEach((list, i) => list.forEach((m) => (kind[m] = i)));
  const { bin, bins } = bestFit(
    kind.map((i) => stock.lengths[i] as number),
    room,
  );
  const counts = Array.from({ length: bins }, () => stock.lengths.map(() => 0));
  bin.forEach((b, m) => {
    const own = counts[b] as number[];
    const i = kind[m] as number;
    own[i] = (own[i] as number) + 1;
  });
  return counts.map((own): Pattern => ({ counts: own, cost: 1 }));
}

/** Roll after roll: the longest that is left, and with it what fills the roll but for its share of what may be spared;
 * long ones first, so that the short ones are there to the end. */
export function fillRolls(stock: Stock): Complete {
  const { room } = stock.sizes[0] as Stock['sizes'][number];
  return (wanted, most) => {
    const spare = most * room - demandOf(stock, wanted);
    if (spare < 0) return null;
    for (const share of SHARES) {
      const found = fillOnce(stock, wanted, most, share);
      if (found) return found;
    }
    return null;
  };
}

/** Shares of its part of the spare length that a roll may leave empty. */
const SHARES = [1, 0.5, 0] as const;

function fillOnce(stock: Stock, wanted: readonly number[], most: number, share: number): Pattern[] | null {
  const { room } = stock.sizes[0] as Stock['sizes'][number];
  const flat = wanted.flatMap((n, i) => Array.from({ length: n }, () => i));
  const size = flat.map((i) => stock.lengths[i] as number);
  const usable = flat.map(() => true);
  const found: Pattern[] = [];
  let spare = most * room - demandOf(stock, wanted);
  for (let first = 0; first < flat.length; first++) {
    if (!usable[first]) continue;
    if (found.length >= most) return null;
    usable[first] = false;
    const left = room - (size[first] as number);
    const may = (Math.max(0, spare) / (most - found.length)) * share;
    const { picked, sum } = fillBest(size, usable, left, left - may, { left: FILL_WORK });
    spare -= left - sum;
    if (spare < 0) return null;
    const counts = stock.lengths.map(() => 0);
    for (const k of [first, ...picked]) {
      usable[k] = false;
      const i = flat[k] as number;
      counts[i] = (counts[i] as number) + 1;
    }
    found.push({ counts, cost: 1 });
  }
  return found;
}

interface Solved {
  readonly patterns: readonly Pattern[];
  readonly proof: Proof | null;
}

function solve(stock: Stock, plain: readonly Pattern[], least: number, solver: Solver): Solved {
  const program = openGroupProgram(stock, plain, solver, {
    exact: { left: EXACT_WORK },
    quick: { left: QUICK_WORK },
  });
  try {
    const root = program.solve(stock.wanted, 'all');
    const proof = root && provePrices(stock, root.prices, { left: PROOF_WORK });
    const target = Math.max(least, proof?.bound ?? 0);
    if (plain.length <= target) return { patterns: plain, proof };
    const found = dive(stock, program, target, fillRolls(stock), DIVE);
    if (found) return { patterns: found, proof };
    const whole = program.solveWhole(stock.wanted, NODES, plain.length);
    return { patterns: whole ? groupsOf(stock, whole, program.patterns) : plain, proof };
  } finally {
    program.close();
  }
}

/** Members of each length are dealt out in their order. */
function binsOf(
  patterns: readonly Pattern[],
  members: readonly (readonly number[])[],
  count: number,
): Pick<Packed, 'bin' | 'bins'> {
  const dealt = members.map(() => 0);
  const bin = new Array<number>(count).fill(-1);
  patterns.forEach(({ counts }, b) =>
    counts.forEach((n, i) => {
      for (let k = 0; k < n; k++) {
        const at = dealt[i] as number;
        bin[(members[i] as readonly number[])[at] as number] = b;
        dealt[i] = at + 1;
      }
    }),
  );
  return { bin, bins: patterns.length };
}
