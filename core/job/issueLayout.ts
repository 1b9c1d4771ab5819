// In: a job's estimate, a number and a date. Out: the layout frozen for the crew and the supplier. Promise: nothing
// that is laid later changes it; every seam carries its place on the roof, so that a later issue can be held against it.
import type { RoofPoint } from '../geometry/points';
import type { WeldRun } from '../welding/types';
import { isSound } from './estimateRoof';
import type { Estimate } from './result';
import type { JobIssue } from './schema';

export interface IssueHead {
  readonly id: string;
  readonly number: number;
  /** YYYY-MM-DD, from outside. */
  readonly date: string;
  readonly note: string;
}

export type Issued = { readonly issue: JobIssue } | { readonly refusal: string };

export function issueLayout(estimate: Estimate, head: IssueHead): Issued {
  const out = estimate.roofs.filter((roof) => !isSound(roof));
  if (estimate.roofs.length === 0)
    return { refusal: 'There is no roof to issue. Trace one on the Roof stage.' };
  if (out.length > 0)
    return {
      refusal: `${out.map((roof) => `“${roof.name}”`).join(', ')} is not laid, and a layout is issued whole or not at all. Clear its faults first.`,
    };
  const errors = estimate.findings.filter((finding) => finding.severity === 'error');
  if (errors.length > 0)
    return {
      refusal: `${errors.length === 1 ? 'An error stands' : `${errors.length} errors stand`} against this layout: ${errors[0]?.message ?? ''} Clear the errors first; warnings may stand.`,
    };
  const dayOfRun = new Map(estimate.workPlan.days.flatMap((day) => day.runs.map((run) => [run, day.number])));
  const dayOfSheet = new Map(
    estimate.workPlan.days.flatMap((day) => day.sheets.map((s) => [`${s.roof}/${s.sheet}`, day.number])),
  );
  const roofs = estimate.roofs.filter(isSound).map(({ id, letter, name, layout, seams }) => {
    const runs = new Map<string, WeldRun>();
    for (const run of estimate.weldPlan.runs)
      if (run.roof === id) for (const seam of run.seams) runs.set(seam, run);
    return {
      roof: id,
      letter,
      name,
      sheets: layout.sheets.map((sheet) => ({
        id: sheet.id,
        course: sheet.course,
        roll: sheet.cut.roll,
        length: sheet.length,
        day: dayOfSheet.get(`${id}/${sheet.id}`) ?? 0,
        corners: sheet.corners.map(pair),
      })),
      seams: [...seams.sideLaps, ...seams.endLaps].map((lap) => {
        const run = runs.get(lap.id) as WeldRun;
        return {
          id: lap.id,
          kind: lap.kind === 'side' ? ('side-lap' as const) : ('end-lap' as const),
          run: run.id,
          order: run.order,
          method: run.method,
          day: dayOfRun.get(run.id) ?? 0,
          between: lap.between,
          from: pair(lap.from),
          to: pair(lap.to),
          length: lap.length,
        };
      }),
    };
  });
  return { issue: { ...head, roofs } };
}

const pair = ([x, y]: RoofPoint): readonly [number, number] => [x, y];
