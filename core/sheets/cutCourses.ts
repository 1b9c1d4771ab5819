// In: courses, their runs, the rolls and the lap rules. Out: every run cut, and per product how many rolls it takes
// and the least it could. Promise: the courses of the field are cut together; a closing course of narrower sheets is
// cut from rolls of its own, one of slit lanes out of the field rolls, and its end laps keep clear of the course
// below.
//
//   roll  ├──────────── full width ────────────┤├──── slab ────┤      A slab is slit into lanes: the pieces of a
//         │  C03.1            │  C04.2         ││── lane 1 ────│      closing run lie side by side in it.
//         │                   │                ││── lane 0 ────│
import { splicedBound } from './bounds';
import {
  cutRuns,
  fromSteps,
  runInPlace,
  spliceRules,
  steps,
  type CutEffort,
  type CutWays,
  type RunCuts,
  type Worth,
} from './cutRuns';
import { laneWidth } from './layCourses';
import { freeCut } from './freeCut';
import type { RunInPlace, StaggerRules } from './slide';
import { besideLaps, type KeptOff, type ZonesKept } from './stagger';
import type { Solver } from './stock/solver';
import type { CutWay, Closing, Course, LapRules, LayoutFault, RollProduct, Run } from './types';

export interface CourseCut {
  readonly run: Run;
  /** mm along the frame. */
  readonly from: number;
  readonly pieces: readonly {
    readonly roll: number;
    readonly start: number;
    readonly lane: number;
    readonly length: number;
  }[];
}

export interface CourseCuts {
  readonly runs: readonly CourseCut[];
  /** Rolls by product, numbered through: the field's first. */
  readonly products: readonly {
    readonly roll: RollProduct;
    readonly count: number;
    readonly lowerBound: number;
  }[];
  readonly joints: number;
  readonly ways: readonly CutWay[];
}

type Cut = CourseCuts | { readonly fault: LayoutFault };

export interface CutInput {
  readonly courses: readonly Course[];
  readonly runs: readonly Run[];
  readonly roll: RollProduct;
  readonly closing: Closing | null;
  readonly lap: LapRules;
  /** What an end lap of a full sheet costs, in the money of the rolls' cost; null: rolls decide, then joints. */
  readonly joint: number | null;
  /** Where there is one, rolls are counted exactly where joints are forbidden. */
  readonly solver?: Solver | null | undefined;
  readonly effort?: CutEffort | undefined;
  /** Of what comes out of the field's rolls alone. */
  readonly worth?: Worth | undefined;
  readonly zones: ZonesKept;
}

export function cutCourses(input: CutInput): Cut {
  const { courses, runs, roll, closing, lap } = input;
  const last = courses[courses.length - 1] as Course;
  if (closing?.kind === 'narrow' && last.roll === closing.roll.id && last.roll !== roll.id)
    return cutNarrow(input, closing.roll, last);
  if (last.lanes > 1) return cutRipped(input, last);
  const cuts = cutRuns(runs, roll, lap, waysFor(roll, input));
  return 'fault' in cuts
    ? cuts
    : {
        runs: cuts.runs.map(unslit),
        products: [{ roll, count: cuts.rolls, lowerBound: cuts.lowerBound }],
        joints: cuts.joints,
        ways: cuts.ways,
      };
}

/** How the runs of one product are cut, beside end laps that stand already. */
function waysFor(
  { cost }: RollProduct,
  { joint, zones, solver, effort, worth }: Pick<CutInput, 'joint' | 'zones' | 'solver' | 'effort' | 'worth'>,
  standing: KeptOff['standing'] = new Map(),
): CutWays {
  const money = joint === null ? null : { roll: cost, joint };
  return { money, keptOff: { ...zones, standing }, solver, effort, worth };
}

const unslit = ({ run, from, pieces }: RunCuts['runs'][number]): CourseCut => ({
  run,
  from,
  pieces: pieces.map((piece) => ({ ...piece, lane: 0 })),
});

function cutNarrow(input: CutInput, narrow: RollProduct, last: Course): Cut {
  const field = cutRuns(
    input.runs.filter((run) => run.course !== last.index),
    input.roll,
    input.lap,
    waysFor(input.roll, input),
  );
  if ('fault' in field) return field;
  const standing = lapsOf(field, last.index - 1, input.lap);
  const closing = cutRuns(
    input.runs.filter((run) => run.course === last.index),
    narrow,
    input.lap,
    waysFor(narrow, { ...input, worth: undefined }, standing),
  );
  if ('fault' in closing) return closing;
  const after = closing.runs.map(({ run, from, pieces }): CourseCut => ({
    run,
    from,
    pieces: pieces.map((piece) => ({ ...piece, lane: 0, roll: piece.roll + field.rolls })),
  }));
  return {
    runs: [...field.runs.map(unslit), ...after],
    products: [
      { roll: input.roll, count: field.rolls, lowerBound: field.lowerBound },
      { roll: narrow, count: closing.rolls, lowerBound: closing.lowerBound },
    ],
    joints: field.joints + closing.joints,
    ways: [],
  };
}

/** Centres of the end laps in one course, in grid steps. */
function lapsOf(cuts: RunCuts, course: number, lap: LapRules): KeptOff['standing'] {
  const centres: number[] = [];
  for (const { run, from, pieces } of cuts.runs) {
    if (run.course !== course) continue;
    let start = steps(from);
    for (const piece of pieces.slice(0, -1)) {
      start += steps(piece.length) - steps(lap.endLap);
      centres.push(start + steps(lap.endLap) / 2);
    }
  }
  return new Map([[course, centres]]);
}

/** Each run of the closing course becomes a slab as long as its pieces are when they lie side by side; slabs take
 * their turn on the rolls like any run, but whole. The number of pieces a run is made of is tried from the fewest. */
function cutRipped(input: CutInput, last: Course): Cut {
  const { roll, lap } = input;
  const rules = spliceRules(roll, lap);
  const field = input.runs.filter((run) => run.course !== last.index);
  const closing = input.runs
    .filter((run) => run.course === last.index)
    .map((run) => ({ run, place: runInPlace(run) }));
  const most = lap.joints === 'forbidden' ? 1 : last.lanes;
  let best: { readonly cut: CourseCuts; readonly cost: number } | null = null;
  let fault: LayoutFault | null = null;
  for (let pieces = 1; pieces <= most; pieces++) {
    const slabs = closing.map(({ place }) => slabOf(place, pieces, rules));
    if (slabs.some((slab) => slab === null)) continue;
    const tried = cutWithSlabs(input, field, closing, slabs as number[], last, rules);
    if ('fault' in tried) fault = tried.fault;
    else {
      const [product] = tried.products as [CourseCuts['products'][number]];
      const cost =
        input.joint === null
          ? product.count + tried.joints / (tried.runs.length * SHARE + 1)
          : product.count * roll.cost + tried.joints * input.joint;
      if (!best || cost < best.cost) best = { cut: tried, cost };
    }
  }
  if (best) return best.cut;
  return {
    fault: fault ?? {
      where: `course ${last.index}`,
      message: 'The closing course cannot be slit from this roll. Allow joints, or lay it with whole sheets.',
    },
  };
}

/** Joints count less than any roll where no money is given. */
const SHARE = 64;

/** Length of the slab for a run made of so many pieces, with room for its joints to keep clear; null where none. */
function slabOf(
  place: RunInPlace,
  pieces: number,
  { roll, lap, least, stagger }: StaggerRules,
): number | null {
  const even = Math.ceil((place.length + (pieces - 1) * lap) / pieces);
  const slab = pieces === 1 ? even : Math.min(roll, even + stagger);
  return slab > roll || (pieces > 1 && even < least) ? null : slab;
}

function cutWithSlabs(
  { roll, lap, ...input }: CutInput,
  field: readonly Run[],
  closing: readonly { readonly run: Run; readonly place: RunInPlace }[],
  slabs: readonly number[],
  last: Course,
  rules: StaggerRules,
): Cut {
  // A slab stands in for its run: far off along the frame, in a course of its own, and never cut.
  const stands = slabs.map((slab): Run => ({ course: last.index + 2, span: [0, fromSteps(slab)] }));
  const cuts = cutRuns([...field, ...stands], roll, lap, {
    ...waysFor(roll, input),
    wholeFrom: field.length,
  });
  if ('fault' in cuts) return cuts;
  const standing = lapsOf(cuts, last.index - 1, lap).get(last.index - 1) ?? [];
  const beside = [...besideLaps(standing, rules.stagger), ...(input.zones.laps.get(last.index) ?? [])];
  const clear = [...beside, ...(input.zones.advised.get(last.index) ?? [])];
  const width = laneWidth(roll, last.lanes);
  const runs: CourseCut[] = cuts.runs.slice(0, field.length).map(unslit);
  let joints = cuts.joints;
  for (const [i, { run, place }] of closing.entries()) {
    const slab = cuts.runs[field.length + i]?.pieces[0] as { roll: number; start: number };
    const slabRules = { ...rules, roll: slabs[i] as number };
    const lengths = freeCut(place, clear, slabRules) ?? freeCut(place, beside, slabRules);
    if (!lengths || lengths.length > last.lanes)
      return {
        fault: {
          where: `course ${last.index}`,
          message:
            'The end laps of the slit closing course cannot keep clear of the course below. Lay it with whole sheets, or allow a smaller stagger.',
        },
      };
    joints += lengths.length - 1;
    runs.push({
      run,
      from: fromSteps(place.from),
      pieces: lengths.map((length, k) => ({
        roll: slab.roll,
        start: slab.start,
        lane: k * width,
        length: fromSteps(length),
      })),
    });
  }
  const lanesMost = Math.max(1, Math.floor(roll.width / width));
  const need = [
    ...field.map((run) => runInPlace(run).length),
    ...closing.map(({ place }) => Math.ceil(place.length / lanesMost)),
  ];
  return {
    runs,
    // A lap across one lane takes no more than its share of the roll.
    products: [
      {
        roll,
        count: cuts.rolls,
        lowerBound: splicedBound(need, rules.roll, Math.floor(rules.lap / lanesMost)),
      },
    ],
    joints,
    ways: [],
  };
}
