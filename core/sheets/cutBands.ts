// In: the courses and runs of all bands, the rolls and the rules. Out: every run cut. Promise: the rows along edges
// are cut first, from rolls slit into lanes as wide as they are, and keep their end laps off the field's lap lines;
// the field is cut after, and keeps its end laps off theirs; both off valleys, drains and corners of openings where
// that leaves a way.
import { splicedBound } from './bounds';
import { cutCourses, type CourseCut, type CourseCuts, type CutInput } from './cutCourses';
import { runInPlace, spliceRules } from './cutRuns';
import { cutInStages, type RowsCut, type RowsToCut } from './cutRows';
import { centresOfCuts, keepOffRows, zonesOf } from './offBands';
import type { Course, LayoutFault, Run } from './types';

export interface BandsToCut extends RowsToCut, Pick<CutInput, 'closing' | 'worth'> {}

export function cutBands(input: BandsToCut): CourseCuts | { readonly fault: LayoutFault } {
  const { bands, laid, roll, closing, lap, joint, solver, effort, worth } = input;
  const edgeBands = new Set(bands.filter(({ kind }) => kind !== 'field').map(({ id }) => id));
  const zones = zonesOf(input);
  const course = new Map(laid.courses.map((c) => [c.index, c]));
  const inRows = (index: number) => edgeBands.has((course.get(index) as Course).band);
  const field = {
    courses: edgeBands.size === 0 ? laid.courses : laid.courses.filter(({ band }) => !edgeBands.has(band)),
    runs: edgeBands.size === 0 ? laid.runs : laid.runs.filter((run) => !inRows(run.course)),
  };
  const cutField = () => cutCourses({ ...field, roll, closing, lap, joint, solver, effort, worth, zones });
  if (edgeBands.size === 0) return cutField();

  const cutRows = cutInStages(
    input,
    laid.runs.filter((run) => inRows(run.course)),
    zones,
  );
  if ('fault' in cutRows) return cutRows;
  const lapsOfRows = centresOfCuts(
    cutRows.flatMap(({ cuts }) => cuts.runs),
    lap,
  );
  keepOffRows(input, zones.laps, lapsOfRows, ({ kind }) => kind === 'field');
  const cut = field.runs.length === 0 ? { runs: [], products: [], joints: 0, ways: [] } : cutField();
  return 'fault' in cut ? cut : together(input, cut, field.runs, cutRows);
}

/** Lanes on their rolls after the field's rolls; of one product the bound is over all that is cut from it. */
function together(
  { roll, lap }: BandsToCut,
  field: CourseCuts,
  fieldRuns: readonly Run[],
  rows: readonly RowsCut[],
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
