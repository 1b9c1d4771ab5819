// The table of contents: a job goes in, every figure comes out. Each line calls one step of the chain; each step's
// own file says what comes in, what goes out and what it promises.
import { orderMaterials } from '../order/orderMaterials';
import { priceBid } from '../price/priceBid';
import { measureJob, measureRoof } from '../quantities/measure';
import type { Quantities } from '../quantities/types';
import type { Solver } from '../sheets/stock/solver';
import { SEVERITY_ORDER } from '../verify/rules';
import { orderWork } from '../welding/orderWork';
import { planWelds } from '../welding/planWelds';
import { planWork } from '../welding/planWork';
import { assumedIn } from './assumed';
import { estimateRoof, isSound, ROOF_STEPS, type RoofSteps } from './estimateRoof';
import { mmPerPointOf } from './pageScale';
import { readMoved, readWork } from './readWork';
import type { Estimate } from './result';
import type { Job } from './schema';

/** The steps that take all roofs at once. A caller may hand in all steps with a memory (see reuse.ts). */
export const JOB_STEPS = { readWork, planWelds, orderWork };
export type Steps = RoofSteps & typeof JOB_STEPS;
export const STEPS: Steps = { ...ROOF_STEPS, ...JOB_STEPS };

/** With a solver sheets are cut from the fewest rolls wherever it proves them. */
export function estimate(job: Job, steps: Steps = STEPS, solver: Solver | null = null): Estimate {
  const { system, rates } = job;
  const rules = { rates, assumed: assumedIn(job) };
  const patches = patchesIn(job);
  const roofs = Object.values(job.roofs).map((roof) => estimateRoof(job, roof, patches, steps, solver));
  const sound = roofs.filter(isSound);

  const toWeld = sound.map((r) => steps.roofWork(r.roof, r.layout, r.seams, r.details, r.fastening));
  // Apart from the rest, so that a course that is moved changes nothing before the days.
  const work = { ...job.work, moved: NOTHING_MOVED };
  const accessScale = mmPerPointOf(job, job.roofs[work.access?.roof ?? '']);
  const workRules = steps.readWork(system, rates, work, accessScale);
  const weldPlan = steps.planWelds(toWeld, { rates, sheet: system, patches, order: workRules.order });
  const workPlan = planWork(steps.orderWork(toWeld, weldPlan, workRules), readMoved(job));
  const measured = sound.map((roof) => ({
    letter: roof.letter,
    id: roof.id,
    quantities: measureRoof(
      {
        ...roof,
        welds: weldPlan.runs.filter((run) => run.roof === roof.id),
        adhered: system.attachment === 'adhered',
        days: workPlan.byRoof.find((share) => share.roof === roof.id) ?? null,
      },
      rules,
    ),
  }));
  const quantities: Quantities = measureJob(measured, weldPlan, workPlan);
  const order = orderMaterials(quantities, {
    rates: rates,
    attachment: system.attachment,
    patches,
    assumed: rules.assumed,
  });
  const bid = priceBid(order, quantities, rates, rules.assumed);
  const findings = [...roofs.flatMap((roof) => roof.findings), ...workPlan.findings];
  return {
    roofs,
    quantities,
    byRoof: Object.fromEntries(measured.map(({ id, quantities: own }) => [id, own])),
    weldPlan,
    workPlan,
    order,
    bid,
    findings: findings.sort(
      (a, b) => SEVERITY_ORDER.indexOf(a.severity) - SEVERITY_ORDER.indexOf(b.severity),
    ),
  };
}

const NOTHING_MOVED: Job['work']['moved'] = [];

/** T-joints of thicker TPO get a patch, thinner sheet and PVC are chamfered (common practice, no source), mm. */
const PATCHED_FROM_MM = 1.5;

export function patchesIn({ system }: Pick<Job, 'system'>): boolean {
  return system.material === 'TPO' && system.thickness >= PATCHED_FROM_MM;
}
