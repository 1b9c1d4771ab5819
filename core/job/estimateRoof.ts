// In: the job and one of its roofs. Out: that roof through the chain, as far as it gets. Promise: a roof that cannot
// be built or laid carries its faults and stops there; nothing of a fault is guessed away.
import { FLASHING_FOOT_MM, listDetails } from '../details/listDetails';
import type { Details } from '../details/types';
import { fastenerLength } from '../fastening/fastenerLength';
import { placeFasteners } from '../fastening/placeFasteners';
import { layMoney, jointCost } from '../price/layMoney';
import { asBuilt } from '../roof/asBuilt';
import { buildRoof } from '../roof/buildRoof';
import type { MeasuredEdge } from '../roof/asBuilt';
import type { Roof, RoofSpec } from '../roof/types';
import { findSeams } from '../seams/findSeams';
import { patchesOf } from '../seams/patchesOf';
import { layRoof } from '../sheets/layRoof';
import { productsOf } from '../sheets/listCuts';
import { patchOffcuts } from '../sheets/patchOffcuts';
import { refitLayout, type LyingSheet } from '../sheets/refitLayout';
import { reuseOffcuts, withStripLaps, type ReusedStrip } from '../sheets/reuseOffcuts';
import type { Solver } from '../sheets/stock/solver';
import type { Layout, LayoutFault, LayoutSpec } from '../sheets/types';
import { verifyLayout } from '../verify/verifyLayout';
import type { WorkInput } from '../welding/workLoads';
import { mmPerPointOf, roofScale } from './pageScale';
import { readLying } from './readLying';
import { readLayoutSpec, readMeasured, readRoll, readRoof, readSpacing } from './readRoof';
import { refitFindings } from './refitFindings';
import type { RoofEstimate } from './result';
import type { Job, JobEdge, JobRoof } from './schema';

/** The steps that work roof by roof. A caller may hand in the same steps with a memory (see reuse.ts). */
export const ROOF_STEPS = {
  readRoof,
  readMeasured,
  readLying,
  asBuilt,
  readRoll,
  readLayoutSpec,
  readSpacing,
  layMoney,
  buildRoof,
  listDetails,
  layRoof,
  refitLayout,
  reuseOffcuts,
  lapStrips,
  findSeams,
  patchesOf,
  patchOffcuts,
  placeFasteners,
  fastenerLength,
  verifyLayout,
  roofWork,
};
export type RoofSteps = typeof ROOF_STEPS;

type NotNull<T> = { readonly [K in keyof T]: NonNullable<T[K]> };
type Laid = 'roof' | 'details' | 'layout' | 'seams' | 'fastening' | 'fastener';
export type SoundRoof = Omit<RoofEstimate, Laid> & NotNull<Pick<RoofEstimate, Laid>>;

export function isSound(roof: RoofEstimate): roof is SoundRoof {
  return roof.fastening !== null;
}

export function estimateRoof(
  job: Job,
  record: JobRoof,
  patches: boolean,
  steps: RoofSteps,
  solver: Solver | null = null,
): RoofEstimate {
  const { system, rates } = job;
  const found = roofScale(job, record);
  const none = {
    roof: null,
    details: null,
    layout: null,
    refit: null,
    reused: [],
    cutPatches: [],
    seams: null,
    fastening: null,
    fastener: null,
  };
  const head = {
    id: record.id,
    letter: record.letter,
    name: record.name,
    page: record.page,
    mmPerPoint: 'mmPerPoint' in found ? found.mmPerPoint : 0,
  };
  if (!('mmPerPoint' in found)) {
    const message =
      'straddles' in found
        ? found.why
        : `The page “${job.pages[record.page]?.name ?? record.page}” has no scale yet. Set it on the Plan stage.`;
    return { ...head, ...none, ...stoppedBy([{ where: 'scale', message }], record) };
  }
  const scale = found.mmPerPoint;

  const drawn = readJobRoof(job, record, steps.readRoof) as RoofSpec;
  const measured = measuredOn(job, record, steps.readMeasured);
  const spec = measured.length === 0 ? drawn : steps.asBuilt(drawn, measured);
  const built = steps.buildRoof(spec);
  if ('faults' in built) return { ...head, ...none, ...stoppedBy(built.faults, record) };

  const { roof } = built;
  const wanted = steps.listDetails(roof, rates.flashingRoll.length);
  const prefix = Object.keys(job.roofs).length > 1 ? `${record.letter}-` : '';
  const roll = steps.readRoll(system, rates.rolls);
  const layoutSpec = steps.readLayoutSpec(system, roll, rates.rolls, record.laying, scale, prefix);
  const joint = jointCost(steps.layMoney(rates, patches), roll.width);
  const lying = steps.readLying(job.issues, job.log, record.id);
  const asked = { roof, drawn: spec === drawn ? roof : drawn, layoutSpec, joint, lying, solver };
  const laid = layAsMeasured(asked, steps);
  if ('faults' in laid) return { ...head, ...none, roof, details: wanted, ...stoppedBy(laid.faults, record) };

  const { layout, refit } = laid;
  const offcuts = servesFlashings(system, layoutSpec.trade) ? layout.cutList : NO_OFFCUTS;
  const reused = steps.reuseOffcuts(offcuts, productsOf(layout), wanted.flashings);
  const details = steps.lapStrips(wanted, reused);
  const seams = steps.findSeams(roof, layout);
  const cutPatches = steps.patchOffcuts(offcuts, productsOf(layout), reused, steps.patchesOf(seams));
  const spacing = steps.readSpacing(system, rates.edgeFastenerSpacing, record.fastening);
  const fastening = steps.placeFasteners(roof, layout, seams, spacing);
  const fastener = steps.fastenerLength(roof.deck, rates.fastenerLengths);
  const findings = [...laid.findings, ...steps.verifyLayout(roof, layout, seams, fastening, spacing)];
  return {
    ...head,
    faults: [],
    roof,
    details,
    layout,
    refit,
    reused,
    cutPatches,
    seams,
    fastening,
    fastener,
    findings,
  };
}

const NO_OFFCUTS: Pick<Layout['cutList'], 'rolls'> = { rolls: [] };

/** Whether flashings and patches come out of offcuts first: they are the same membrane, and its back is smooth. */
export function servesFlashings(system: Job['system'], { strip }: LayoutSpec['trade']): boolean {
  return system.flashing === 'offcuts first' && strip === null;
}

interface ToLay {
  /** As built. */
  readonly roof: Roof;
  /** As drawn: another spec where edges were measured. */
  readonly drawn: Roof | RoofSpec;
  readonly layoutSpec: LayoutSpec;
  readonly joint: number;
  readonly lying: readonly LyingSheet[];
  readonly solver: Solver | null;
}

type LaidRoof =
  | (Pick<RoofEstimate, 'refit' | 'findings'> & { readonly layout: Layout })
  | { readonly faults: readonly LayoutFault[] };

/** The roof is laid as drawn, so that labels and laps keep their places, and then cut to what was measured. Where that
 * leaves no way and nothing lies yet, it is laid anew as it was measured. */
function layAsMeasured({ roof, drawn, layoutSpec, joint, lying, solver }: ToLay, steps: RoofSteps): LaidRoof {
  const plain = (on: Roof): LaidRoof => {
    const laid = steps.layRoof(on, layoutSpec, joint, solver);
    return 'faults' in laid ? laid : { layout: laid.layout, refit: null, findings: [] };
  };
  if (drawn === roof && lying.length === 0) return plain(roof);
  const before = drawn === roof ? { roof } : steps.buildRoof(drawn as RoofSpec);
  for (const on of 'roof' in before && before.roof !== roof ? [before.roof, roof] : [roof]) {
    const laid = plain(on);
    if ('faults' in laid) return laid;
    const refit = steps.refitLayout(laid.layout, roof, lying);
    if (refit === null) continue;
    const { layout, unkept, ...became } = refit;
    if (lying.length > 0 || unkept.length === 0)
      return { layout, refit: became, findings: refitFindings(roof.id, unkept) };
  }
  return plain(roof);
}

/** What was measured of a roof's own edges and those of its openings. */
export function measuredOn(
  job: Job,
  record: JobRoof,
  read: RoofSteps['readMeasured'] = readMeasured,
): readonly MeasuredEdge[] {
  const edge = (id: string) => job.edges[id] as JobEdge;
  const sides = Object.values(job.openings).flatMap((o) => (o.roof === record.id ? o.ring.map(edge) : []));
  return read(record.outline.map(edge), sides);
}

/** The roof's spec out of the job's tables; null where no scale holds for it. */
export function readJobRoof(
  job: Job,
  record: JobRoof,
  read: RoofSteps['readRoof'] = readRoof,
): RoofSpec | null {
  const scale = mmPerPointOf(job, record);
  if (scale === null) return null;
  const edge = (id: string) => job.edges[id] as JobEdge;
  const openings = Object.values(job.openings).filter((o) => o.roof === record.id);
  const fittings = Object.values(job.fittings).filter((f) => f.roof === record.id);
  const sides = openings.flatMap((o) => o.ring.map(edge));
  return read(record, scale, record.outline.map(edge), openings, sides, fittings);
}

/** The details as they are once strips out of offcuts bring laps of their own. */
function lapStrips(details: Details, strips: readonly ReusedStrip[]): Details {
  return strips.length === 0
    ? details
    : { ...details, flashings: withStripLaps(details.flashings, strips, FLASHING_FOOT_MM) };
}

/** What welding takes of a roof, in one. */
function roofWork(
  roof: WorkInput['roof'],
  layout: WorkInput['layout'],
  seams: WorkInput['seams'],
  details: WorkInput['details'],
  fastening: WorkInput['fastening'],
): WorkInput {
  return { roof, layout, seams, details, fastening };
}

/** A roof that stops here is missing from every figure, and that is said as loudly as any other error. */
function stoppedBy(
  faults: RoofEstimate['faults'],
  { id, name }: JobRoof,
): Pick<RoofEstimate, 'faults' | 'findings'> {
  return {
    faults,
    findings: faults.map((fault) => ({
      rule: 'rule' in fault ? fault.rule : 'not-laid',
      severity: 'error',
      roof: id,
      at: 'at' in fault ? fault.at : null,
      ids: [],
      message: `“${name}” is not in the figures: ${fault.message}`,
      source: 'a roof is estimated whole or not at all',
    })),
  };
}
