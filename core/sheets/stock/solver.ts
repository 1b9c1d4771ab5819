// The linear-programming solver as the cutting steps see it: plain numbers in, plain numbers out, synchronous. The
// adapter that loads one lives outside core; without one the constructive cut and its bound stand.

export interface Solver {
  /** Opens a program: minimise cost, every row's sum at least its `atLeast`, every column from 0 up. */
  open(atLeast: readonly number[]): OpenProgram;
}

/** A program that is kept: grown, changed and solved again from where it stood. Close it when done. */
export interface OpenProgram {
  /** New columns take the next numbers. */
  add(columns: readonly ProgramColumn[]): void;
  changeRows(atLeast: readonly number[]): void;
  /** Columns that may not be used have `most` 0; Infinity where nothing holds them. */
  changeMost(most: readonly number[]): void;
  /** Null where there is no solution or the solver gave up. */
  solve(): ProgramSolution | null;
  /** In whole numbers, within so many nodes of the solver's search; null where none was found below `below`. */
  solveWhole(nodes: number, below: number): readonly number[] | null;
  close(): void;
}

export interface ProgramColumn {
  readonly cost: number;
  readonly rows: readonly number[];
  readonly values: readonly number[];
}

export interface ProgramSolution {
  readonly value: number;
  /** One for each column. */
  readonly amounts: readonly number[];
  /** One for each row: what one more of it would cost. */
  readonly prices: readonly number[];
}
