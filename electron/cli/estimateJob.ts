// A whole job through the chain, for the verbs that take one. A roof that cannot be built or laid refuses the
// job: a total without it would be a wrong price that looks right.
import { contractLayout } from '../../core/job/contract';
import { estimate, STEPS } from '../../core/job/estimate';
import { isSound } from '../../core/job/estimateRoof';
import type { Estimate } from '../../core/job/result';
import type { Job } from '../../core/job/schema';
import { done, failed, type Outcome } from '../../shared/errors/failure';
import type { EstimateDocument } from '../../shared/verbs/estimate';
import { exactSolver } from './exactSolver';
import { refusedBy } from './faultWords';

/** Asked for once, for all the jobs of a folder. */
let solver: ReturnType<typeof exactSolver> | null = null;

export interface Estimated {
  readonly estimate: Estimate;
  readonly document: EstimateDocument;
}

export async function estimateJob(where: string, job: Job): Promise<Outcome<Estimated>> {
  if (Object.keys(job.roofs).length === 0) {
    return failed('out-of-range', where, 'there is no roof in the job', 'Trace one in the window and save');
  }
  solver ??= exactSolver();
  const exact = await solver;
  const result = estimate(job, STEPS, exact);
  for (const { name, faults } of result.roofs) {
    const [fault] = faults;
    if (fault) return refusedBy(`${where}: ${name}`, fault);
  }
  return done({ estimate: result, document: documentOf(result) });
}

/** 4 where a finding of severity error stands. */
export function statusOf(findings: readonly { readonly severity: string }[]): 0 | 4 {
  return findings.some(({ severity }) => severity === 'error') ? 4 : 0;
}

function documentOf(result: Estimate): EstimateDocument {
  return {
    roofs: result.roofs.filter(isSound).map(({ id, letter, name, roof, layout, seams, findings }) => {
      return {
        id,
        letter,
        name,
        area: roof.area / 1e6,
        perimeter: roof.perimeter,
        // The job's own findings, which know the fasteners as well.
        layout: { ...contractLayout(roof, layout, seams), findings: findings.map(plain) },
        quantities: result.byRoof[id] ?? [],
      };
    }),
    quantities: result.quantities,
    order: result.order,
    weldPlan: {
      ...result.weldPlan,
      runs: result.weldPlan.runs.map((run) => ({
        ...run,
        seams: [...run.seams],
        from: [run.from[0], run.from[1]],
        to: [run.to[0], run.to[1]],
        length: run.length / 1000,
        byHand: run.byHand / 1000,
      })),
      days: result.workPlan.days.map(plainDay),
      leastDays: result.workPlan.leastDays,
      leastMinutes: result.workPlan.leastMinutes,
      method: result.workPlan.method,
    },
    bid: result.bid,
    findings: result.findings.map(plain),
  };
}

function plainDay(day: Estimate['workPlan']['days'][number]): EstimateDocument['weldPlan']['days'][number] {
  return {
    ...day,
    sheets: day.sheets.map((sheet) => ({ ...sheet })),
    runs: [...day.runs],
    tasks: day.tasks.map((task) => ({ ...task })),
    slowed: day.slowed.map((part) => ({ ...part })),
    machineMinutes: [...day.machineMinutes],
    strips: day.strips.map((strip) => ({ ...strip })),
    clock: {
      start: day.clock.start,
      end: day.clock.end,
      worked: day.clock.worked.map(([from, to]) => [from, to]),
      pauses: day.clock.pauses.map((pause) => ({ ...pause })),
    },
    steps: day.steps.map((step) => ({ ...step })),
    night: day.night && { ...day.night, length: day.night.length / 1000, cutBack: day.night.cutBack / 1e6 },
    weld: day.weld / 1000,
  };
}

function plain(finding: Estimate['findings'][number]): EstimateDocument['findings'][number] {
  return { ...finding, at: finding.at ? [finding.at[0], finding.at[1]] : null, ids: [...finding.ids] };
}
