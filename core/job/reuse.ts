// The chain with a memory: a step whose inputs are the same objects gives back the same object, so that a drag
// recomputes only what lies downstream of what moved, and what did not change is known by identity.
import { estimate, JOB_STEPS, type Steps } from './estimate';
import { ROOF_STEPS } from './estimateRoof';
import type { Solver } from '../sheets/stock/solver';
import type { Estimate } from './result';
import type { Job } from './schema';

/** Calls that a step remembers: enough for the roofs of a job and a drag's there and back; of one that takes all roofs
 * at once, there and back. */
const REMEMBERED = { roof: 24, job: 4 };

/** Jobs may come from another thread, as copies: what is alike in the job before is taken for the same. */
export function makeEstimator(): (job: Job, solver?: Solver | null) => Estimate {
  const steps = {
    ...rememberingAll(ROOF_STEPS, REMEMBERED.roof),
    ...rememberingAll(JOB_STEPS, REMEMBERED.job),
  } satisfies Steps;
  let before: Job | null = null;
  return (job, solver = null) => {
    before = sharing(before, job);
    return estimate(before, steps, solver);
  };
}

/** `after`, plain data, with every part that is alike in `before` replaced by that. */
function sharing<T>(before: unknown, after: T): T {
  if (before === after || !isObject(before) || !isObject(after)) return after;
  if (Array.isArray(before) !== Array.isArray(after)) return after;
  const [old, now] = [before as Fields, after as Fields];
  const keys = Object.keys(now);
  const shared = (Array.isArray(after) ? [] : {}) as Fields;
  let alike = keys.length === Object.keys(old).length;
  for (const key of keys) {
    shared[key] = sharing(old[key], now[key]);
    alike &&= shared[key] === old[key] && key in old;
  }
  return (alike ? before : shared) as T;
}

type Fields = Record<string, unknown>;
const isObject = (value: unknown): value is object => typeof value === 'object' && value !== null;

type Step = (...inputs: unknown[]) => unknown;

function rememberingAll<S extends object>(steps: S, most: number): S {
  return Object.fromEntries(
    Object.entries(steps).map(([name, step]) => [name, remembering(step as Step, most)]),
  ) as S;
}

function remembering(step: Step, most: number): Step {
  const calls: { readonly inputs: readonly unknown[]; readonly result: unknown }[] = [];
  return (...inputs) => {
    const at = calls.findIndex((call) => sameInputs(call.inputs, inputs));
    const call =
      at < 0 ? { inputs, result: step(...inputs) } : (calls.splice(at, 1)[0] as (typeof calls)[number]);
    calls.unshift(call);
    if (calls.length > most) calls.pop();
    return call.result;
  };
}

/** Same objects, or lists or records of the same objects. */
function sameInputs(a: readonly unknown[], b: readonly unknown[]): boolean {
  return a.length === b.length && a.every((input, i) => input === b[i] || sameFields(input, b[i]));
}

function sameFields(a: unknown, b: unknown): boolean {
  if (!isObject(a) || !isObject(b) || Array.isArray(a) !== Array.isArray(b)) return false;
  const keys = Object.keys(a);
  return (
    keys.length === Object.keys(b).length && keys.every((key) => (a as Fields)[key] === (b as Fields)[key])
  );
}
