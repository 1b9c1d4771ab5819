// In: the job. Out: a function that says which of some dotted paths still carry a shipped value. Promise: a figure
// that a person set is never called assumed, and one that nobody set always is.
import { sayAssumed } from '../quantities/assumptions';
import type { Job } from './schema';

export function assumedIn(job: Pick<Job, 'confirmed'>): (...paths: string[]) => string | null {
  return (...paths) => {
    const open = paths.filter(
      (path) => !job.confirmed.some((set) => set === path || set.startsWith(`${path}.`)),
    );
    return sayAssumed(open.map(words));
  };
}

/** `rates.speeds.setupPerSeam` → “setup per seam”. */
function words(path: string): string {
  const last = path.split('.').at(-1) ?? path;
  return last.replace(/([A-Z])/g, ' $1').toLowerCase();
}
