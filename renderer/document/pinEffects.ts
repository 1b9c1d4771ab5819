// What a moved end lap brings: the findings that the layout has now and had not before a person's hand was on it.
import { newFindings } from '../../core/job/pins';
import type { Finding } from '../../core/verify/types';
import type { Job } from '../../core/job/schema';
import type { DocumentState } from './editor';
import type { Results } from './results';
import { createStore } from './store';
import type { Store } from './store';

export interface PinEffect {
  /** Under the hand, or let go since. */
  readonly moving: boolean;
  readonly broken: readonly Finding[];
}

interface Laid {
  readonly job: Job;
  readonly findings: readonly Finding[];
}

/** null where the last change was no pin's. */
export function followPins(document: Store<DocumentState>, results: Store<Results>): Store<PinEffect | null> {
  const effect = createStore<PinEffect | null>(null);
  let calm: Laid | null = null;
  let settledPins: Laid | null = null;
  const look = (): void => {
    const { job, revision, gesture } = document.get();
    const { estimate, revision: known } = results.get();
    if (!estimate || known !== revision) return;
    if (!calm || !differsInPinsOnly(calm.job, job)) {
      calm = { job, findings: estimate.findings };
      settledPins = null;
      effect.set(null);
      return;
    }
    if (calm.job === job) return effect.set(null);
    effect.set({ moving: gesture !== null, broken: newFindings(calm.findings, estimate.findings) });
    if (gesture === null) settledPins = { job, findings: estimate.findings };
  };
  document.subscribe((now, before) => {
    // A new gesture is compared with what stood before it, not with the pins before the last one.
    if (now.gesture !== null && before.gesture === null && settledPins) calm = settledPins;
    look();
  });
  results.subscribe(look);
  look();
  return effect;
}

function differsInPinsOnly(before: Job, now: Job): boolean {
  if (before === now) return true;
  const { roofs: was, ...rest } = before;
  const { roofs: is, ...others } = now;
  const same = (Object.keys(rest) as (keyof typeof rest)[]).every((key) => rest[key] === others[key]);
  if (!same || Object.keys(was).length !== Object.keys(is).length) return false;
  return Object.values(is).every((roof) => {
    const old = was[roof.id];
    return old === roof || (old !== undefined && bare(old) === bare(roof));
  });
}

const bare = (roof: Job['roofs'][string]): string =>
  JSON.stringify({ ...roof, laying: { ...roof.laying, pins: [] } });
