// In: the courses and runs of all bands, the rolls and the rules. Out: every run cut. Promise: the rows along edges
// are cut first, from rolls slit into lanes as wide as they are, and keep their end laps off the field's lap lines;
// the field is cut after, and keeps its end laps off theirs; both off valleys, drains and corners of openings where
// that leaves a way.
import type { RoofPoint, Span } from '../geometry/points';
import { GRID_MM } from '../geometry/tolerances';
import type { Roof } from '../roof/types';
import { splicedBound } from './bounds';
import { cutCourses, type CourseCut, type CourseCuts, type CutInput } from './cutCourses';
import { cutRuns, runInPlace, spliceRules, steps } from './cutRuns';
import { toFrame, toRoof } from './frame';
import { endLapZones } from './keepClear';
import type { LaidBands } from './layBands';
import type { Stretch } from './slide';
import type { Band, Course, LayoutFault, LayoutSpec, RollProduct, Run } from './types';

export interface BandsToCut extends Pick<
  CutInput,
  'roll' | 'closing' | 'lap' | 'joint' | 'solver' | 'effort'
> {
  readonly roof: Roof;
  readonly bands: readonly Band[];
  readonly laid: LaidBands;
  readonly trade: LayoutSpec['trade'];
  /** Every roll on offer, for rows along edges as wide as one. */
  readonly rolls: readonly RollProduct[];
}

export function cutBands(input: BandsToCut): CourseCuts | { readonly fault: LayoutFault } {
  const { bands, laid, roll, closing, lap, joint, solver, effort } = input;
  const edgeBands = new Set(bands.filter(({ kind }) => kind === 'edge').map(({ id }) => id));
  const zones = zonesOf(input);
  const course = new Map(laid.courses.map((c) => [c.index, c]));
  const inRows = (index: number) => edgeBands.has((course.get(index) as Course).band);
  const field = {
    courses: edgeBands.size === 0 ? laid.courses : laid.courses.filter(({ band }) => !edgeBands.has(band)),
    runs: edgeBands.size === 0 ? laid.runs : laid.runs.filter((run) => !inRows(run.course)),
  };
  if (edgeBands.size === 0) return cutCourses({ ...field, roll, closing, lap, joint, solver, effort, zones });

  const rows = laid.runs.filter((run) => inRows(run.course));
  const groups = groupBy(rows, (run) => {
    const { roll: product, lanes } = course.get(run.course) as Course;
    return `${product}/${lanes}`;
  });
  const cutRows: {
    readonly product: RollProduct;
    readonly lanes: number;
    readonly width: number;
    readonly cuts: Rows;
  }[] = [];
  for (const runs of groups) {
    const { roll: id, lanes, width } = course.get((runs[0] as Run).course) as Course;
    const product = input.rolls.find((other) => other.id === id) ?? roll;
    const money = joint === null ? null : { roll: product.cost / lanes, joint };
    const cuts = cutRuns(runs, product, lap, {
      money,
      keptOff: { ...zones, standing: new Map() },
      solver,
      effort,
    });
    if ('fault' in cuts) return cuts;
    cutRows.push({ product, lanes, width, cuts });
  }
  keepOffRows(
    input,
    zones.laps,
    cutRows.flatMap(({ cuts }) => cuts.runs),
  );
  const cutField =
    field.runs.length === 0
      ? { runs: [], products: [], joints: 0, ways: [] }
      : cutCourses({ ...field, roll, closing, lap, joint, solver, effort, zones });
  if ('fault' in cutField) return cutField;
  return together(input, cutField, field.runs, cutRows);
}

type Rows = Exclude<ReturnType<typeof cutRuns>, { readonly fault: LayoutFault }>;

function groupBy<T>(list: readonly T[], keyOf: (item: T) => string): T[][] {
  const groups = new Map<string, T[]>();
  for (const item of list) {
    const group = groups.get(keyOf(item));
    if (group) group.push(item);
    else groups.set(keyOf(item), [item]);
  }
  return [...groups.values()];
}

/** Lanes on their rolls after the field's rolls; of one product the bound is over all that is cut from it. */
function together(
  { roll, lap }: BandsToCut,
  field: CourseCuts,
  fieldRuns: readonly Run[],
  rows: readonly { product: RollProduct; lanes: number; width: number; cuts: Rows }[],
): CourseCuts {
  const products = field.products.map((product) => ({ ...product }));
  const runs: CourseCut[] = [...field.runs];
  const need = new Map<string, number[]>([[roll.id, fieldRuns.map((run) => runInPlace(run).length)]]);
  let joints = field.joints;
  let before = products.reduce((sum, { count }) => sum + count, 0);
  for (const { product, lanes, width, cuts } of rows) {
    const count = Math.ceil(cuts.rolls / lanes);
    for (const { run, from, pieces } of cuts.runs)
      runs.push({
        run,
        from,
        pieces: pieces.map((piece) => ({
          ...piece,
          roll: before + Math.floor(piece.roll / lanes),
          lane: laneAt(piece.roll % lanes, lanes, width, product.width),
        })),
      });
    before += count;
    joints += cuts.joints;
    const own = cuts.runs.map(({ run }) => Math.ceil(runInPlace(run).length / lanes));
    need.set(product.id, [...(need.get(product.id) ?? []), ...own]);
    products.push({ roll: product, count, lowerBound: Math.ceil(cuts.lowerBound / lanes) });
  }
  const bounded = products.map((product, i) => {
    // Where one product serves several groups the first entry carries the bound of all of them.
    const first = products.findIndex((other) => other.roll.id === product.roll.id) === i;
    const shared = products.filter((other) => other.roll.id === product.roll.id).length > 1;
    if (!shared) return product;
    const { roll: length, lap: endLap } = spliceRules(product.roll, lap);
    // A lap across one lane takes no more than its share of the roll.
    const most = Math.max(1, ...rows.filter((r) => r.product.id === product.roll.id).map((r) => r.lanes));
    const bound = splicedBound(need.get(product.roll.id) ?? [], length, Math.floor(endLap / most));
    return { ...product, lowerBound: first ? bound : 0 };
  });
  return { runs, products: bounded, joints, ways: [] };
}

/** Lanes lie from one edge of the roll, and the last along the other, so that both have a factory edge. */
const laneAt = (lane: number, lanes: number, width: number, roll: number) =>
  lanes > 1 && lane === lanes - 1 ? roll - width : lane * width;

type OpenZones = Map<number, Stretch[]>;

function zonesOf({ roof, bands, laid, lap, trade }: BandsToCut): { laps: OpenZones; advised: OpenZones } {
  const [laps, advised]: [OpenZones, OpenZones] = [new Map(), new Map()];
  const bare =
    roof.lines.length === 0 && trade.cornerClear === 0 && roof.fittings.every(({ kind }) => kind !== 'drain');
  const frames = new Map(bands.map((band) => [band.id, band]));
  if (!bare)
    for (const course of laid.courses) {
      const { frame } = frames.get(course.band) as Band;
      addTo(advised, course.index, endLapZones(roof, frame, course, lap.endLap, trade));
    }
  // A lap that a person put down keeps its neighbours' off.
  laid.runs.forEach((run) => {
    if (!run.continues) return;
    const centre = run.span[0] + lap.endLap / 2;
    const beside: Span = [centre - lap.endLapStagger, centre + lap.endLapStagger];
    for (const index of [run.course - 1, run.course + 1]) addTo(laps, index, [beside]);
  });
  bands.forEach((band, i) => {
    if (band.kind !== 'edge') return;
    const after = bands.filter((other, k) => other.part === band.part && (other.kind === 'field' || k > i));
    keepOffLater(band, after, laid, lap, laps);
  });
  return { laps, advised };
}

function addTo(zones: OpenZones, course: number, spans: readonly Span[]): void {
  if (spans.length === 0) return;
  const list = zones.get(course) ?? [];
  for (const [from, to] of spans) list.push([Math.floor(from / GRID_MM), Math.ceil(to / GRID_MM)]);
  zones.set(course, list);
}

/** The end laps of the innermost row keep off the places where the side laps of the bands that end on it reach it. */
function keepOffLater(
  edge: Band,
  after: readonly Band[],
  { courses, runs }: LaidBands,
  lap: BandsToCut['lap'],
  laps: OpenZones,
): void {
  const inner = courses.filter(({ band }) => band === edge.id).at(-1);
  if (!inner) return;
  const v = inner.low + inner.width;
  const spans = runs.filter((run) => run.course === inner.index).map((run) => run.span);
  const [u0, u1] = [Math.min(...spans.map(([a]) => a)), Math.max(...spans.map(([, b]) => b))];
  const [from, to] = [toRoof(edge.frame, [u0, v]), toRoof(edge.frame, [u1, v])];
  for (const field of after) {
    const [a, b] = [toFrame(field.frame, from), toFrame(field.frame, to)];
    for (const course of courses) {
      if (course.band !== field.id || course.lapAbove === 0) continue;
      const line = course.low + course.width - course.lapAbove / 2;
      const t = (line - a[1]) / (b[1] - a[1]);
      if (!(t > 0 && t < 1)) continue;
      const at = u0 + t * (u1 - u0);
      const clear = lap.endLapStagger + course.lapAbove / 2;
      addTo(laps, inner.index, [[at - clear, at + clear]]);
    }
  }
}

/** The field's end laps keep off those of the rows that they lie beside. */
function keepOffRows({ bands, laid, lap }: BandsToCut, laps: OpenZones, cut: Rows['runs']): void {
  const course = new Map(laid.courses.map((c) => [c.index, c]));
  const byId = new Map(bands.map((band) => [band.id, band]));
  for (const { run, from, pieces } of cut) {
    const own = course.get(run.course) as Course;
    const band = byId.get(own.band) as Band;
    let start = steps(from);
    for (const piece of pieces.slice(0, -1)) {
      start += steps(piece.length) - steps(lap.endLap);
      const centre = start * GRID_MM + lap.endLap / 2;
      const at: RoofPoint = toRoof(band.frame, [centre, own.low + own.width]);
      for (const field of bands) {
        if (field.kind !== 'field' || field.part !== band.part) continue;
        const [u, v] = toFrame(field.frame, at);
        const reach = lap.endLapStagger + lap.endLap;
        for (const other of laid.courses)
          if (other.band === field.id && v > other.low - reach && v < other.low + other.width + reach)
            addTo(laps, other.index, [[u - lap.endLapStagger, u + lap.endLapStagger]]);
      }
    }
  }
}
