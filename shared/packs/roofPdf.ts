// In: the job, its estimate and its drawings' bytes. Out: for each roof its sheets and its welds to a stated scale
// over the imported plan, with the quantities beside; then the welds in order. Promise: true to scale on paper.
import { drawRoof } from '../../core/drawing/drawRoof';
import type { LayerName, RoofDrawing } from '../../core/drawing/types';
import type { Estimate, RoofEstimate } from '../../core/job/result';
import type { Job, JobPage } from '../../core/job/schema';
import { composeMaps, correctedPage } from '../../core/plan/correction';
import { formatScale } from '../../core/units/scales';
import { MM, Pack } from './canvas';
import type { PackPage, Spot } from './canvas';
import { writeChalkLines } from './chalkLines';
import { writeCutLabels } from './cutLabels';
import { dayListWriter } from './dayLists';
import { dayMapWriter } from './dayMaps';
import { writeDaysAtAGlance } from './daysAtAGlance';
import { writeFastenerList } from './fastenerList';
import { drawScaleBar, fitRoof, type Fit } from './fitRoof';
import { writeJointList, writeProbeList } from './jointLists';
import { paintCorners } from './paintCorners';
import { paintRoof } from './paintRoof';
import { paperSize, RULES, writeFeet } from './paper';
import { embedPlanPage } from './planPage';
import type { PlanUnderlay } from './planPage';
import { COLUMN_WIDTH, writeColumn } from './roofColumn';
import { writeStripSheet } from './stripSheet';
import { writeWeldList } from './weldList';

export interface RoofPackInput {
  readonly job: Job;
  readonly estimate: Estimate;
  /** The imported drawings by their SHA-256. */
  readonly files: ReadonlyMap<string, Uint8Array>;
}

const MAP_NAMES = ['Sheets', 'Welds', 'Fasteners'] as const;
export type MapName = (typeof MAP_NAMES)[number];

interface MapLook {
  readonly layers: readonly LayerName[];
  readonly film: number;
  readonly edges: 'by kind' | 'thin';
}

const MAPS: Readonly<Record<MapName, MapLook>> = {
  Sheets: {
    layers: ['film', 'laps', 'trade', 'roof', 'fittings', 'labels', 'dimensions'],
    film: 0.13,
    edges: 'by kind',
  },
  Welds: { layers: ['film', 'welds', 'roof', 'fittings'], film: 0.05, edges: 'thin' },
  Fasteners: { layers: ['film', 'laps', 'fasteners', 'roof', 'fittings'], film: 0.05, edges: 'by kind' },
};

export async function roofPdf({ job, estimate, files }: RoofPackInput): Promise<Uint8Array> {
  const { about } = job;
  const title = `Layout and welds: ${about.name}`;
  const pack = await Pack.start({ title, subject: about.reference, date: about.date });
  for (const roof of estimate.roofs) {
    const underlay = await underlayOf(pack, job, roof, files);
    const drawing = drawRoof(roof, estimate.weldPlan, job.display);
    const maps = MAP_NAMES.filter((map) => map === 'Sheets' || (roof.layout && layerOf(drawing, map)));
    for (const map of maps) drawMap(pack, { job, estimate, roof, drawing, underlay, map });
  }
  if (estimate.workPlan.days.length > 0) writeDaysAtAGlance(pack, job, estimate);
  const [drawMaps, writeList] = [dayMapWriter(pack, job, estimate), dayListWriter(pack, job, estimate)];
  for (const day of estimate.workPlan.days) {
    drawMaps(day);
    writeList(day);
  }
  if (estimate.weldPlan.runs.length > 0 || pack.pages.length === 0) writeWeldList(pack, job, estimate);
  if (estimate.workPlan.days.length > 0) {
    writeChalkLines(pack, job, estimate);
    writeFastenerList(pack, job, estimate);
    writeStripSheet(pack, job, estimate);
    writeJointList(pack, job, estimate);
    writeProbeList(pack, job, estimate);
    writeCutLabels(pack, job, estimate);
  }
  writeFeet(pack, job);
  return pack.finish();
}

/** Whether a map would show anything of its own. */
function layerOf(drawing: RoofDrawing, map: MapName): boolean {
  const own = map === 'Welds' ? 'welds' : 'fasteners';
  return drawing.layers.some((layer) => layer.name === own && layer.shapes.length > 0);
}

type Underlay = PlanUnderlay | { readonly why: string } | null;

/** Null for a roof on a blank sheet. */
async function underlayOf(
  pack: Pack,
  job: Job,
  roof: RoofEstimate,
  files: ReadonlyMap<string, Uint8Array>,
): Promise<Underlay> {
  const page = job.pages[roof.page];
  const drawing = page?.drawing ? job.drawings[page.drawing] : undefined;
  if (!page || !drawing) return null;
  const bytes = files.get(drawing.sha256);
  if (!bytes) return { why: 'its file is not at hand' };
  const underlay = await embedPlanPage(pack, bytes, page.number);
  return 'ref' in underlay && page.correction ? setRight(underlay, page.correction) : underlay;
}

/** The roof was traced on the page as a person set it right, so the page lies beneath it in the same way. */
function setRight(underlay: PlanUnderlay, correction: NonNullable<JobPage['correction']>): PlanUnderlay {
  const { width, height, map } = correctedPage(underlay, correction);
  return { ...underlay, width, height, toDisplayed: composeMaps(map, underlay.toDisplayed) };
}

export interface RoofMap {
  readonly job: Job;
  readonly estimate: Estimate;
  readonly roof: RoofEstimate;
  readonly drawing: RoofDrawing;
  readonly underlay: Underlay;
  readonly map: MapName;
}

const MARGIN = 10 * MM;
const FOOT = 18 * MM;

function drawMap(pack: Pack, roofMap: RoofMap): void {
  const { job, roof, drawing, underlay, map } = roofMap;
  const size = paperSize(job.display, 'drawing');
  const page = pack.addPage(size.width, size.height);
  const frame = {
    low: [MARGIN, FOOT] as Spot,
    high: [size.width - MARGIN - COLUMN_WIDTH - 6 * MM, size.height - MARGIN] as Spot,
  };
  const fit = fitRoof(roof, frame.low, frame.high, job);
  const corners: Spot[] = [
    frame.low,
    [frame.high[0], frame.low[1]],
    frame.high,
    [frame.low[0], frame.high[1]],
  ];
  page.clipped([corners], () => {
    if (underlay && 'ref' in underlay) drawUnderlay(page, underlay, roof.mmPerPoint, fit);
    page.area([corners], 1, VEIL);
    paintRoof(page, drawing, {
      ...MAPS[map],
      scale: fit.scale,
      toPaper: fit.toPaper,
    });
    if (map === 'Welds') writeRunNumbers(page, roofMap, fit);
    if (map !== 'Sheets') paintCorners(page, roof, fit);
  });
  page.box(frame.low, frame.high, { stroke: RULES.firm });
  drawScaleBar(page, [frame.low[0] + 8 * MM, frame.low[1] + 7 * MM], fit.ratio, job);
  writeColumn(
    pack,
    page,
    [frame.high[0] + 6 * MM, frame.high[1]],
    roofMap,
    formatScale(fit.ratio, job.display),
  );
}

/** The plan is paled, so that the layout stands before it. */
const VEIL = 0.62;

/** Plan's user space → displayed page → roof millimetres → paper, as one matrix. */
function drawUnderlay(page: PackPage, underlay: PlanUnderlay, mmPerPoint: number, fit: Fit): void {
  const k = mmPerPoint * fit.scale;
  const [a, b, c, d, e, f] = underlay.toDisplayed;
  page.object(underlay.ref, 'Plan', [
    a * k,
    b * k,
    c * k,
    d * k,
    e * k + fit.origin[0],
    f * k + fit.origin[1],
  ]);
}

/** The number of each weld along a lap, as in the list; flashings and details are found by their edge. */
function writeRunNumbers(page: PackPage, { estimate, roof }: RoofMap, fit: Fit): void {
  for (const run of estimate.weldPlan.runs) {
    if (run.roof !== roof.id || (run.kind !== 'side-lap' && run.kind !== 'end-lap')) continue;
    const share = run.kind === 'side-lap' ? 0.3 : 0.62;
    const at = fit.toPaper([
      run.from[0] + (run.to[0] - run.from[0]) * share,
      run.from[1] + (run.to[1] - run.from[1]) * share,
    ]);
    const text = String(run.order);
    const style = { size: 5.6, weight: 'bold', align: 'middle' } as const;
    const half = page.widthOf(text, style) / 2 + 1.2;
    page.box([at[0] - half, at[1] - 3], [at[0] + half, at[1] + 3], { fill: 1, alpha: 0.92 });
    page.text([at[0], at[1] - 2], text, style);
  }
}
