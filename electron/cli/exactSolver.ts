// The exact solver for the verbs that cut, loaded once, or null with a word on standard error where it cannot be:
// then the constructive cut and its own bound stand.
import type { Solver } from '../../core/sheets/stock/solver';

export async function exactSolver(): Promise<Solver | null> {
  try {
    const { loadSolver } = await import('../../shared/solver/highs');
    return await loadSolver();
  } catch (cause) {
    const why = cause instanceof Error ? cause.message.split('\n')[0] : String(cause);
    process.stderr.write(
      `lapstrake: solver: it could not be loaded (${why}). Cutting goes on without it: more rolls than needed are possible, and the least is claimed only where the simpler bound proves it.\n`,
    );
    return null;
  }
}
