// In: runs by length and number, a roll, and whether they may be joined. Out: every roll with its pieces and what is
// left of it, and a lower bound with its proof. Promise: pieces fit their rolls, those of a run reach its length with
// their laps, rolls ≥ bound, and `optimal` says that they are equal.
import { COUNT_NOISE } from '../geometry/tolerances';
import { canSplice, type SpliceRules } from './chain';
import { spliceLengths } from './spliceLengths';
import { packWhole, type Packed } from './stock/packWhole';
import type { Solver } from './stock/solver';
import type { LayoutFault } from './types';

/** Lengths in mm. */
export interface CutOrder {
  readonly rollLength: number;
  readonly endLap: number;
  readonly minPiece: number;
  readonly joints: 'allowed' | 'forbidden';
  readonly runs: readonly { readonly id: string; readonly length: number; readonly count: number }[];
}

export interface CutAnswer {
  readonly rolls: readonly {
    readonly id: string;
    readonly pieces: readonly {
      readonly run: string;
      readonly copy: number;
      readonly part: number;
      readonly length: number;
    }[];
    readonly offcut: number;
  }[];
  readonly rollCount: number;
  readonly lowerBound: number;
  readonly joints: number;
  readonly optimal: boolean;
  readonly proof: {
    readonly by: string;
    readonly prices: readonly { readonly length: number; readonly price: number }[];
  };
}

export function cutLengths(
  order: CutOrder,
  solver: Solver | null,
): CutAnswer | { readonly fault: LayoutFault } {
  const scale = scaleOf(order);
  const grid = gridOf(order, scale);
  const copies = order.runs.flatMap((run, i) =>
    Array.from({ length: run.count }, (_, copy) => ({
      id: run.id,
      copy: copy + 1,
      length: grid.lengths[i] as number,
    })),
  );
  const fault = faultIn(order, grid);
  if (fault) return { fault };
  const lengths = copies.map(({ length }) => length);
  const cut = order.joints === 'forbidden' ? whole(lengths, grid, solver) : spliced(lengths, grid, solver);

  const rolls = Array.from({ length: cut.rolls }, (_, k) => ({
    id: `R${k + 1}`,
    pieces: [] as CutAnswer['rolls'][number]['pieces'][number][],
    left: grid.roll,
  }));
  const parts = copies.map(() => 0);
  for (const { run, roll, length } of cut.pieces) {
    const { id, copy } = copies[run] as (typeof copies)[number];
    const part = ((parts[run] as number) += 1);
    const own = rolls[roll] as (typeof rolls)[number];
    own.pieces.push({ run: id, copy, part, length: length / scale });
    own.left -= length;
  }
  return {
    rolls: rolls.map(({ id, pieces, left }) => ({ id, pieces, offcut: left / scale })),
    rollCount: cut.rolls,
    lowerBound: cut.bound,
    joints: cut.joints,
    optimal: cut.rolls === cut.bound,
    proof: {
      by: cut.by,
      prices: cut.prices.map(({ length, price }) => ({ length: length / scale, price })),
    },
  };
}

/** Steps per mm, the fewest at which every given length is a whole number of steps, down to a ten-thousandth. */
function scaleOf({ rollLength, endLap, minPiece, runs }: CutOrder): number {
  const given = [rollLength, endLap, minPiece, ...runs.map((run) => run.length)];
  const whole = (scale: number) =>
    given.every((mm) => Math.abs(mm * scale - Math.round(mm * scale)) < COUNT_NOISE * scale);
  return SCALES.find(whole) ?? FINEST;
}

const FINEST = 10_000;
const SCALES = [1, 10, 100, 1000] as const;

interface Grid extends SpliceRules {
  readonly lengths: readonly number[];
}

/** What is finer than the finest step goes to the safe side. */
function gridOf({ rollLength, endLap, minPiece, runs }: CutOrder, scale: number): Grid {
  const up = (mm: number) => Math.ceil(mm * scale - COUNT_NOISE * scale);
  const lap = up(endLap);
  return {
    roll: Math.floor(rollLength * scale + COUNT_NOISE * scale),
    lap,
    // A piece shorter than two laps would put its two end laps on top of each other.
    least: Math.max(1, up(minPiece), 2 * lap),
    lengths: runs.map((run) => up(run.length)),
  };
}

function faultIn({ rollLength, endLap, joints, runs }: CutOrder, grid: Grid): LayoutFault | null {
  if (joints === 'allowed' && grid.lap >= grid.roll)
    return {
      where: 'endLap',
      message: `An end lap of ${endLap} mm is as long as the roll (${rollLength} mm). Give a shorter lap.`,
    };
  const k = grid.lengths.findIndex(
    (length) => length > grid.roll && (joints === 'forbidden' || !canSplice(length, grid)),
  );
  const run = runs[k];
  if (!run) return null;
  return {
    where: `runs[${k}]`,
    message:
      joints === 'forbidden'
        ? `Run ${run.id} of ${run.length} mm is longer than the roll (${rollLength} mm) and joints are forbidden. Allow joints, or give a longer roll.`
        : `Run ${run.id} of ${run.length} mm cannot be made of pieces that the roll holds and that are long enough. Allow a shorter piece, or give a longer roll.`,
  };
}

interface Cut {
  readonly pieces: readonly { readonly run: number; readonly roll: number; readonly length: number }[];
  readonly rolls: number;
  readonly joints: number;
  readonly bound: number;
  readonly by: string;
  readonly prices: Packed['prices'];
}

function whole(lengths: readonly number[], { roll }: Grid, solver: Solver | null): Cut {
  const { bin, bins, bound, prices } = packWhole(lengths, roll, solver);
  return {
    pieces: lengths.map((length, run) => ({ run, roll: bin[run] as number, length })),
    rolls: bins,
    joints: 0,
    bound,
    by: 'a price for each length: no pieces that fit a roll are worth more than 1, so the rolls are at least the total price, rounded up',
    prices,
  };
}

function spliced(lengths: readonly number[], grid: Grid, solver: Solver | null): Cut {
  return {
    ...spliceLengths(lengths, grid, solver),
    by: 'runs spliced through k rolls hold k rolls less k − 1 laps: a price for each length under which no such group is worth more than its rolls, the total rounded up',
    prices: [],
  };
}
