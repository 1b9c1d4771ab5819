// In: the runs of the rows along edges, and where their end laps may not lie. Out: every one cut, from rolls slit into
// lanes as wide as the rows. Promise: where rows of opposite edges meet no end lap of the one lies beside the other's.
import { GRID_MM } from '../geometry/tolerances';
import type { CutInput } from './cutCourses';
import { cutRuns, type CutRun, type RunCuts } from './cutRuns';
import {
  centresOfCuts,
  keepOffRows,
  lapCentres,
  type BandsLaid,
  type LapZones,
  type OpenZones,
} from './offBands';
import type { Course, LayoutFault, RollProduct, Run } from './types';

export interface RowsToCut extends BandsLaid, Pick<CutInput, 'roll' | 'joint' | 'solver' | 'effort'> {
  /** Every roll on offer, for rows along edges as wide as one. */
  readonly rolls: readonly RollProduct[];
}

/** Rows of one width, in lanes of one product. */
export interface RowsCut {
  readonly product: RollProduct;
  readonly lanes: number;
  readonly width: number;
  readonly cuts: RunCuts;
}

type Fault = { readonly fault: LayoutFault };

/** All rows are cut together; but where the end laps of two bands come to lie beside each other the later of the two
 * is cut after the other, and keeps off its laps. */
export function cutInStages(input: RowsToCut, rows: readonly Run[], zones: LapZones): RowsCut[] | Fault {
  const bandOf = new Map(input.laid.courses.map(({ index, band }) => [index, band]));
  const stageOf = new Map(input.bands.map(({ id }) => [id, 0]));
  const stage = (band: string) => stageOf.get(band) as number;
  for (;;) {
    const laps: OpenZones = new Map([...zones.laps].map(([course, list]) => [course, [...list]]));
    const done: RowsCut[] = [];
    const clashing: (readonly [before: string, after: string])[] = [];
    for (let at = 0; at <= Math.max(...stageOf.values()); at++) {
      const now = rows.filter(({ course }) => stage(bandOf.get(course) as string) === at);
      const cut = cutGroups(input, now, { ...zones, laps });
      if ('fault' in cut) return cut;
      const runs = cut.flatMap(({ cuts }) => cuts.runs);
      clashing.push(...clashesIn(input, runs));
      keepOffRows(input, laps, centresOfCuts(runs, input.lap), ({ id }) => stage(id) > at);
      done.push(...cut);
    }
    if (clashing.length === 0) return done;
    // Each time round some band comes later, and none ever comes later than all before it: this ends.
    for (const [before, after] of clashing) stageOf.set(after, stage(before) + 1);
  }
}

/** Pairs of bands of which the later has an end lap where it should keep off the other's. */
function clashesIn(input: RowsToCut, cut: readonly CutRun[]): (readonly [before: string, after: string])[] {
  const bandOf = new Map(input.laid.courses.map(({ index, band }) => [index, band]));
  const runsOf = (id: string) => cut.filter(({ run }) => bandOf.get(run.course) === id);
  return input.bands.flatMap((before, i) => {
    const laps: OpenZones = new Map();
    keepOffRows(
      input,
      laps,
      centresOfCuts(runsOf(before.id), input.lap),
      (band) => input.bands.indexOf(band) > i,
    );
    const hit = cut.filter((one) => {
      const near = laps.get(one.run.course) ?? [];
      const within = (centre: number) => near.some(([a, b]) => centre > a * GRID_MM && centre < b * GRID_MM);
      return near.length > 0 && lapCentres(one, input.lap).some(within);
    });
    return [...new Set(hit.map(({ run }) => bandOf.get(run.course) as string))].map(
      (after) => [before.id, after] as const,
    );
  });
}

function cutGroups(
  { laid, roll, rolls, lap, joint, solver, effort }: RowsToCut,
  rows: readonly Run[],
  zones: LapZones,
): RowsCut[] | Fault {
  const course = new Map(laid.courses.map((c) => [c.index, c]));
  const groups = groupBy(rows, (run) => {
    const { roll: product, lanes, width } = course.get(run.course) as Course;
    return `${product}/${lanes}/${width}`;
  });
  const cut: RowsCut[] = [];
  for (const runs of groups) {
    const { roll: id, lanes, width } = course.get((runs[0] as Run).course) as Course;
    const product = rolls.find((other) => other.id === id) ?? roll;
    const money = joint === null ? null : { roll: product.cost / lanes, joint };
    const cuts = cutRuns(runs, product, lap, {
      money,
      keptOff: { ...zones, standing: new Map() },
      solver,
      effort,
    });
    if ('fault' in cuts) return cuts;
    cut.push({ product, lanes, width, cuts });
  }
  return cut;
}

function groupBy<T>(list: readonly T[], keyOf: (item: T) => string): T[][] {
  const groups = new Map<string, T[]>();
  for (const item of list) {
    const group = groups.get(keyOf(item));
    if (group) group.push(item);
    else groups.set(keyOf(item), [item]);
  }
  return [...groups.values()];
}
