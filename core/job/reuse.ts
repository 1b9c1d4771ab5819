// The chain with a memory: a step whose inputs are the same objects gives back the same object, so that a drag
// recomputes only what lies downstream of what moved, and what did not change is known by identity.
import { estimate } from './estimate';
import { ROOF_STEPS, type RoofSteps } from './estimateRoof';
import type { Estimate } from './result';
import type { Job } from './schema';

/** Calls each step remembers: enough for the roofs of a job and a drag's there and back. */
const REMEMBERED = 24;

export function makeEstimator(): (job: Job) => Estimate {
  const steps = Object.fromEntries(
    Object.entries(ROOF_STEPS).map(([name, step]) => [name, remembering(step as Step)]),
  ) as unknown as RoofSteps;
  return (job) => estimate(job, steps);
}

type Step = (...inputs: unknown[]) => unknown;

function remembering(step: Step): Step {
  const calls: { readonly inputs: readonly unknown[]; readonly result: unknown }[] = [];
  return (...inputs) => {
    const at = calls.findIndex((call) => sameInputs(call.inputs, inputs));
    const call =
      at < 0 ? { inputs, result: step(...inputs) } : (calls.splice(at, 1)[0] as (typeof calls)[number]);
    calls.unshift(call);
    if (calls.length > REMEMBERED) calls.pop();
    return call.result;
  };
}

/** Same objects, or lists of the same objects. */
function sameInputs(a: readonly unknown[], b: readonly unknown[]): boolean {
  return a.length === b.length && a.every((input, i) => input === b[i] || sameList(input, b[i]));
}

function sameList(a: unknown, b: unknown): boolean {
  return Array.isArray(a) && Array.isArray(b) && a.length === b.length && a.every((item, i) => item === b[i]);
}
