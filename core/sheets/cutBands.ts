// In: the courses and runs of all bands, the rolls and the rules. Out: every run cut. Promise: the rows along edges
// are cut first, from rolls slit into lanes as wide as they are, and keep their end laps off the field's lap lines;
// the field is cut after, and keeps its end laps off theirs; both off valleys, drains and corners of openings where
// that leaves a way.
import type { Roof } from '../roof/types';
import { splicedBound } from './bounds';
import { cutCourses, type CourseCut, type CourseCuts, type CutInput } from './cutCourses';
import { cutRuns, runInPlace, spliceRules } from './cutRuns';
import { centresOfCuts, keepOffRows, zonesOf } from './lapZones';
import type { LaidBands } from './layBands';
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
    const { roll: product, lanes, width } = course.get(run.course) as Course;
    return `${product}/${lanes}/${width}`;
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
    centresOfCuts(
      cutRows.flatMap(({ cuts }) => cuts.runs),
      lap.endLap,
    ),
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
