// The exact solver in the window: fetched the first time that a job forbids joints, and then kept. A failure is told
// once for each asking, and the next asking tries anew.
import type { Solver } from '../../core/sheets/stock/solver';

let loading: Promise<Solver> | null = null;

export function exactSolver(): Promise<Solver> {
  loading ??= load().catch((cause: unknown) => {
    loading = null;
    throw cause;
  });
  return loading;
}

/** A file of its own beside this one, so that a window that never needs it never reads it. */
async function load(): Promise<Solver> {
  const { loadSolver } = await import('../../shared/solver/highs');
  return loadSolver({ locateFile: (file) => new URL(`solver/${file}`, self.location.href).href });
}
