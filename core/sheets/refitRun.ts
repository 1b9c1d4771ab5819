// In: the pieces of one run as they were to lie, which of them lie already, and where the run really begins and ends.
// Out: its pieces for the roof as measured. Promise: what lies is not moved; laps inside the run stay where they are
// unless a piece would come out too short or longer than its roll; a lap that comes anew keeps off what its neighbours
// ask for, and off what only advises where that leaves a way.
import type { Span } from '../geometry/points';
import { GRID_MM } from '../geometry/tolerances';
import { fromSteps, onGrid, steps } from './cutRuns';
import { freeCut } from './freeCut';
import type { StaggerRules, Stretch } from './slide';

/** A piece of a run; `sheet` is what it was cut as, null for one that comes anew. */
export interface Piece {
  readonly sheet: string | null;
  readonly along: Span;
  readonly lies: boolean;
}

export interface PieceRules {
  readonly course: number;
  /** mm. */
  readonly roll: number;
  readonly endLap: number;
  readonly minPiece: number;
  readonly splice: StaggerRules;
  /** What the centres of new laps keep off in this course: most first, then what may not be given up. */
  readonly keptOff: readonly (readonly Stretch[])[];
}

export interface RefitRun {
  readonly pieces: readonly Piece[];
  /** By how much the pieces that lie stop short of the run's low and high end, mm; 0 where they reach. */
  readonly short: readonly [number, number];
}

export function refitRun(before: readonly Piece[], span: Span, rules: PieceRules): RefitRun {
  const [from, to] = [down(span[0]), up(span[1])];
  const low = lowEnd(before, from, rules);
  // The high end is the low end seen from the other side.
  const both = mirrored(lowEnd(mirrored(low), -to, rules));
  const [first, last] = [both[0], both.at(-1)];
  const pieces = both.flatMap((piece) => withinRoll(piece, rules));
  return {
    pieces,
    short: [
      first?.lies ? Math.max(0, onGrid(first.along[0] - from)) : 0,
      last?.lies ? Math.max(0, onGrid(to - last.along[1])) : 0,
    ],
  };
}

/** A run that was not there before, cut from its low end. */
export function cutNewRun(span: Span, rules: PieceRules): readonly Piece[] {
  return withinRoll({ sheet: null, along: [down(span[0]), up(span[1])], lies: false }, rules);
}

/** The first piece begins where the run does; one that comes out too short goes, and its neighbour reaches instead. */
function lowEnd(pieces: readonly Piece[], from: number, rules: PieceRules): readonly Piece[] {
  const [first, second, ...rest] = pieces;
  if (!first || first.lies) return pieces;
  const shorter = first.along[1] - from < Math.max(rules.minPiece, 2 * rules.endLap);
  if (second && shorter && (second.lies || second.along[1] - from <= rules.roll)) {
    if (!second.lies) return lowEnd([second, ...rest], from, rules);
    // What lies reaches as far by itself.
    if (second.along[0] <= from) return [second, ...rest];
  }
  return [{ ...first, along: [from, first.along[1]] }, ...pieces.slice(1)];
}

/** A piece that outgrew its roll keeps its place and gets others at its end, long enough to lay. Where there is no place
 * for a lap it is cut without looking, and what cannot be cut at all stays whole: the verifier holds that against it. */
function withinRoll(piece: Piece, rules: PieceRules): Piece[] {
  const [from, to] = piece.along;
  if (piece.lies || to - from <= rules.roll + GRID_MM / 2) return [piece];
  const run = { course: rules.course, from: steps(from), length: steps(to) - steps(from) };
  for (const kept of [...rules.keptOff, []]) {
    const lengths = freeCut(run, kept, rules.splice);
    if (!lengths) continue;
    let start = run.from;
    return lengths.map((length, k) => {
      const along: Span = [fromSteps(start), fromSteps(start + length)];
      start += length - rules.splice.lap;
      return { sheet: k === 0 ? piece.sheet : null, along, lies: false };
    });
  }
  return [piece];
}

const mirrored = (pieces: readonly Piece[]): readonly Piece[] =>
  [...pieces].reverse().map((piece) => ({ ...piece, along: [-piece.along[1], -piece.along[0]] }));

/** Outwards onto the grid, so that a piece never ends short. */
const down = (mm: number) => fromSteps(Math.floor(mm / GRID_MM + OUTWARD_NOISE));
const up = (mm: number) => fromSteps(Math.ceil(mm / GRID_MM - OUTWARD_NOISE));

/** Share of a grid step that is arithmetic and no length. */
const OUTWARD_NOISE = 0.01;
