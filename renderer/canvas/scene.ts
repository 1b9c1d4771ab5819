// Everything that one frame needs, gathered beforehand: the painter decides nothing.
import type { RoofDrawing } from '../../core/drawing/types';
import type { PagePoint } from '../../core/geometry/points';
import type { Estimate } from '../../core/job/result';
import type { Job, JobLine, JobScale, LengthCheck } from '../../core/job/schema';
import { mmPerPointOf } from '../../core/job/pageScale';
import { formatScale, ratioOf } from '../../core/units/scales';
import type { EdgeKind, FittingKind } from '../../core/roof/types';
import type { Selection } from '../document/picked';
import { ringsOnPage } from '../document/rings';
import type { Stage, ViewState } from '../document/view';
import type { Mark } from '../tools/types';
import type { Camera, Size } from './camera';
import type { Ink } from './ink';

export interface SceneEdge {
  readonly id: string;
  readonly from: PagePoint;
  readonly to: PagePoint;
  readonly kind: EdgeKind;
}

export interface Scene {
  readonly camera: Camera;
  readonly size: Size;
  readonly ink: Ink;
  readonly stage: Stage;
  /** The sheet of paper, in points; null before anything is imported. */
  readonly paper: Size | null;
  readonly drawings: readonly RoofDrawing[];
  /** The laid roof is older than the outline on screen. */
  readonly lagging: boolean;
  readonly edges: readonly SceneEdge[];
  readonly rings: readonly {
    readonly id: string;
    readonly owner: 'roof' | 'opening';
    readonly corners: readonly PagePoint[];
  }[];
  readonly fittings: readonly {
    readonly id: string;
    readonly kind: FittingKind;
    readonly at: PagePoint;
    /** In points; 0 where the page has no scale. */
    readonly size: number;
  }[];
  /** Expansion joints, tie-ins, phase lines and valleys. */
  readonly lines: readonly JobLine[];
  /** End laps that a person pinned; shown where sheets are. */
  readonly pins: readonly { readonly at: PagePoint; readonly picked: boolean }[];
  readonly corners: 'shown' | 'hidden';
  /** Edge lengths by the estimate: while a tool writes its own, those would stand beside them a moment late. */
  readonly lengths: 'shown' | 'hidden';
  readonly picked: ReadonlySet<string>;
  readonly pickedCorners: ReadonlySet<string>;
  readonly spots: readonly { readonly at: PagePoint; readonly severity: string }[];
  readonly scaleLines: readonly LengthCheck[];
  /** Parts of the page with a scale of their own, and which. */
  readonly regions: readonly { readonly low: PagePoint; readonly high: PagePoint; readonly says: string }[];
  readonly marks: readonly Mark[];
}

/** What the lower sheet asks of a scene; all of it can be sent to another thread. */
export type LowerScene = Pick<
  Scene,
  'camera' | 'size' | 'ink' | 'stage' | 'drawings' | 'lagging' | 'lengths' | 'picked'
>;

export function isLit({ picked }: LowerScene, drawing: RoofDrawing, id: string): boolean {
  return picked.size > 0 && picked.has(`${drawing.roof}/${id}`);
}

export interface SceneInput {
  readonly camera: Camera;
  readonly size: Size;
  readonly ink: Ink;
  readonly job: Job;
  readonly view: ViewState;
  readonly selection: Selection;
  readonly estimate: Estimate | null;
  readonly drawings: readonly RoofDrawing[];
  readonly lagging: boolean;
  readonly marks: readonly Mark[];
  readonly drawingTool: boolean;
}

export function gatherScene(input: SceneInput): Scene {
  const { job, view, estimate } = input;
  const page = view.page === null ? undefined : job.pages[view.page];
  const rings = page ? ringsOnPage(job, page.id) : [];
  const from = page?.scale?.from;
  return {
    camera: input.camera,
    size: input.size,
    ink: input.ink,
    stage: view.stage,
    paper: page ? { width: page.width, height: page.height } : null,
    drawings: input.drawings.filter((drawing) => drawing.page === page?.id && drawing.roof in job.roofs),
    lagging: input.lagging,
    edges: rings.flatMap((ring) =>
      ring.edges.map((edge, k) => ({
        id: edge.id,
        from: edge.at,
        to: ring.edges[(k + 1) % ring.edges.length]?.at ?? edge.at,
        kind: edge.kind,
      })),
    ),
    rings: rings.map((ring) => ({
      id: ring.id,
      owner: ring.owner,
      corners: ring.edges.map((e) => e.at),
    })),
    fittings: Object.values(job.fittings)
      .filter((fitting) => job.roofs[fitting.roof]?.page === page?.id)
      .map(({ id, kind, at, size, roof }) => {
        const mmPerPoint = mmPerPointOf(job, job.roofs[roof]);
        return { id, kind, at, size: mmPerPoint === null ? 0 : size / mmPerPoint };
      }),
    lines: Object.values(job.roofs).flatMap((roof) => (roof.page === page?.id ? roof.lines : [])),
    pins:
      view.stage === 'sheets'
        ? Object.values(job.roofs).flatMap((roof) =>
            (roof.page === page?.id ? (roof.laying.pins ?? []) : []).map((at, k) => ({
              at,
              picked: input.selection.some(
                (p) => p.kind === 'pin' && p.id === String(k) && p.roof === roof.id,
              ),
            })),
          )
        : [],
    corners: view.stage === 'roof' || input.drawingTool ? 'shown' : 'hidden',
    lengths: view.stage === 'roof' && !input.marks.some((mark) => mark.kind === 'text') ? 'shown' : 'hidden',
    picked: pickedIds(input),
    pickedCorners: new Set(input.selection.filter((p) => p.kind === 'corner').map((p) => p.id)),
    spots: page ? spotsOn(page.id, estimate) : [],
    scaleLines: view.stage === 'plan' && page ? [...measuredBy(from), ...page.checks] : [],
    regions:
      view.stage === 'plan'
        ? (page?.regions ?? []).map(({ low, high, scale }) => ({
            low,
            high,
            says: formatScale(ratioOf(scale.mmPerPoint), job.display),
          }))
        : [],
    marks: input.marks,
  };
}

function measuredBy(from: JobScale['from'] | undefined): readonly LengthCheck[] {
  if (from?.by === 'length') return [from];
  return from?.by === 'lengths' ? [from.across, from.up] : [];
}

/** What is picked or lit: bare for what the job names itself (edges, openings, fittings, roofs), and as
 * `roof/id` for what is laid on a roof. A weld lights its seam, a roll its sheets. */
function pickedIds({ job, selection, view, estimate }: SceneInput): ReadonlySet<string> {
  const ids = new Set<string>();
  const roofs = Object.values(job.roofs);
  const add = (roof: string, id: string): void => {
    ids.add(id);
    ids.add(`${roof}/${id}`);
    for (const run of estimate?.weldPlan.runs ?? [])
      if (run.id === id && run.roof === roof) for (const seam of run.seams) ids.add(`${roof}/${seam}`);
    const layout = estimate?.roofs.find((one) => one.id === roof)?.layout;
    const roll = layout?.cutList.rolls.find((one) => one.id === id);
    for (const piece of roll?.pieces ?? []) ids.add(`${roof}/${piece.sheet}`);
  };
  for (const one of selection) {
    if (one.kind === 'corner' || one.kind === 'pin') continue;
    if (one.roof === null) ids.add(one.id);
    else add(one.roof, one.id);
  }
  for (const id of view.lit) {
    const [, letter, bare] = /^([A-Z]{1,2})-(.+)$/.exec(id) ?? [];
    const lettered = roofs.find((roof) => roof.letter === letter);
    if (lettered && bare !== undefined) add(lettered.id, bare);
    else for (const roof of roofs) add(roof.id, id);
  }
  return ids;
}

function spotsOn(page: string, estimate: Estimate | null): Scene['spots'] {
  if (!estimate) return [];
  return estimate.findings.flatMap((finding) => {
    const roof = estimate.roofs.find((one) => one.id === finding.roof);
    if (!finding.at || !roof || roof.page !== page || finding.severity === 'advice') return [];
    return [
      {
        at: [finding.at[0] / roof.mmPerPoint, finding.at[1] / roof.mmPerPoint] as const,
        severity: finding.severity,
      },
    ];
  });
}
