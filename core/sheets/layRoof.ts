// In: a roof and a layout's spec. Out: its courses, runs, sheets and cut list. Promise: the steps layCourses →
// spanCourses → cutCourses in one direction, or in the better of two: along the roof's longest edge and across it.
import { GRID_MM, SAME_DIRECTION_DEG } from '../geometry/tolerances';
import type { Roof } from '../roof/types';
import { hasFalls } from '../roof/water';
import { formatMoney } from '../units/figures';
import { placeBands, type BandPlace } from './bands';
import { areaBound } from './bounds';
import { cutBands } from './cutBands';
import type { CourseCuts } from './cutCourses';
import { frameOf } from './frame';
import { layBands, turnBands, type LaidBands } from './layBands';
import { listCuts } from './listCuts';
import { makeSheets } from './makeSheets';
import { whoLiesOver } from './overSheets';
import { specFaults } from './specFaults';
import type { Solver } from './stock/solver';
import type { Band, CutWay, Layout, LayoutFault, LayoutSpec, LayRules } from './types';

export type Laid = { readonly layout: Layout } | { readonly faults: readonly LayoutFault[] };

/** `joint` is what one end lap costs in the money of `spec.roll.cost`; without it rolls decide, then joints. With a
 * solver, rolls are counted exactly where joints are forbidden, and bounds are higher where it proves them. */
export function layRoof(
  roof: Roof,
  spec: LayoutSpec,
  joint: number | null = null,
  solver: Solver | null = null,
): Laid {
  const faults = specFaults(spec, roof);
  if (faults.length > 0) return { faults };
  const places = placeBands(roof, spec.sideLap);
  const directions = spec.direction === 'auto' ? autoDirections(roof, spec.trade) : [spec.direction];
  let best: Attempt | null = null;
  const refused: LayoutFault[] = [];
  for (const direction of directions) {
    const attempt = layInDirection(roof, places, spec, direction, { joint, solver });
    if ('fault' in attempt) refused.push(attempt.fault);
    else if (!best || isBetter(attempt, best, joint)) best = attempt;
  }
  if (!best) return { faults: refused.slice(0, 1) };
  return { layout: finish(roof, spec, best, directions.length > 1, joint) };
}

interface Attempt {
  readonly rules: LayRules;
  readonly bands: readonly Band[];
  readonly laid: LaidBands;
  readonly cuts: CourseCuts;
  /** mm of run, as a tie-break. */
  readonly length: number;
}

function layInDirection(
  roof: Roof,
  places: readonly BandPlace[],
  spec: LayoutSpec,
  direction: number,
  { joint, solver }: { readonly joint: number | null; readonly solver: Solver | null },
): Attempt | { readonly fault: LayoutFault } {
  const { roll, rolls, closing, sideLap, lap, trade } = spec;
  const turned = turnBands(roof, places, direction, spec);
  const bands = turned.map(({ band }) => band);
  const spanned = layBands(turned, { ...spec, pins: trade.pins });
  const laid = { ...spanned, courses: whoLiesOver(roof, bands, spanned.courses, trade) };
  const cuts = cutBands({ roof, bands, laid, roll, rolls, closing, lap, joint, solver, trade });
  if ('fault' in cuts) return cuts;
  return {
    rules: { direction, firstCourse: laid.firstCourse, sideLap, downhill: roof.fall?.downhill ?? null },
    bands,
    laid,
    cuts,
    length: laid.runs.reduce((sum, run) => sum + run.span[1] - run.span[0], 0),
  };
}

/** In money where a joint has a price; else fewer rolls, then fewer joints, then less to lay. */
function isBetter(a: Attempt, b: Attempt, joint: number | null): boolean {
  const rolls = ({ cuts }: Attempt) => cuts.products.reduce((sum, { count }) => sum + count, 0);
  const cost = ({ cuts }: Attempt) =>
    cuts.products.reduce((sum, { roll, count }) => sum + count * roll.cost, 0) + cuts.joints * (joint ?? 0);
  const order = [
    joint === null ? 0 : cost(a) - cost(b),
    rolls(a) - rolls(b),
    a.cuts.joints - b.cuts.joints,
    a.length - b.length,
  ];
  return (order.find((difference) => difference !== 0) ?? 0) < 0;
}

/** Along the longest edge and across it, in [0, 180); over flutes that are known, fastened courses run across them. */
export function autoDirections(roof: Roof, trade: LayoutSpec['trade']): number[] {
  const across = decksDirection(roof, trade);
  if (across !== null) return [across];
  const longest = roof.edges
    .filter((e) => e.ring === 0)
    .reduce((a, b) => (b.length > a.length + GRID_MM ? b : a));
  const angle =
    (Math.atan2(longest.to[1] - longest.from[1], longest.to[0] - longest.from[0]) * 180) / Math.PI;
  const along = tidyAngle(((angle % 180) + 180) % 180);
  return [along, tidyAngle((along + 90) % 180)];
}

/** The direction that the deck dictates, or null where it leaves the choice. */
export function decksDirection({ deck }: Roof, trade: LayoutSpec['trade']): number | null {
  if (deck?.kind !== 'steel' || deck.flutes === null) return null;
  if (!trade.inLap || trade.off.includes('across-flutes')) return null;
  return tidyAngle((((deck.flutes + 90) % 180) + 180) % 180);
}

function tidyAngle(angle: number): number {
  const whole = Math.round(angle);
  return Math.abs(angle - whole) < SAME_DIRECTION_DEG ? whole % 180 : angle;
}

function finish(
  roof: Roof,
  spec: LayoutSpec,
  attempt: Attempt,
  chosen: boolean,
  joint: number | null,
): Layout {
  const { rules, bands, cuts } = attempt;
  const { courses, runs } = attempt.laid;
  const sheets = makeSheets(bands, courses, cuts.runs, spec);
  const notes: string[] = [];
  const said = rules.direction.toFixed(1).replace(/\.0$/, '');
  if (chosen)
    notes.push(`Direction ${said}° was chosen: the better of the longest edge's and the one across it.`);
  if (cuts.ways.length > 0) notes.push(sayWays(cuts.ways, spec.roll.cost, joint));
  notes.push(...whatWasNotGiven(roof, spec));
  const largest = cuts.products
    .map(({ roll }) => roll)
    .reduce((a, b) => (b.width * b.length > a.width * a.length ? b : a));
  return {
    roof: roof.id,
    spec,
    rules,
    frame: frameOf(rules.direction),
    bands,
    courses,
    runs,
    sheets,
    cutList: listCuts(sheets, cuts.products, spec.prefix, areaBound(roof.area, largest)),
    ways: cuts.ways,
    notes,
  };
}

function whatWasNotGiven(roof: Roof, { trade }: LayoutSpec): string[] {
  const notes: string[] = [];
  if (!hasFalls(roof))
    notes.push('No fall was given: the higher course lies over the lower. Check this against the drains.');
  if (roof.deck?.kind === 'steel' && roof.deck.flutes === null && trade.inLap)
    notes.push('Flute direction not given: courses fastened in their laps run across the flutes. Check it.');
  return notes;
}

/** The trade-off that a person should see: fewer rolls take more end laps, and the cheaper need not be the fewer. */
function sayWays(ways: readonly CutWay[], roll: number, joint: number | null): string {
  const said = ways.map(({ rolls, joints }) => {
    const cost =
      joint === null
        ? ''
        : ` (${formatMoney((rolls * roll + joints * joint).toFixed(2))} for rolls and laps)`;
    return `${rolls} rolls with ${joints} end laps${cost}`;
  });
  return `These runs can be cut from ${said.join(' or from ')}; ${joint === null ? 'fewer rolls were taken, then fewer laps' : 'the cheaper was taken'}.`;
}
