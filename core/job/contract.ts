// The layout engine's face to other programs: plain JSON in, plain JSON out. Lengths of laps in metres, areas in m²,
// everything else in millimetres, as the automation contract says.
import { jointCost } from '../price/layMoney';
import { boughtArea, cutArea, lappedArea } from '../quantities/laps';
import { buildRoof } from '../roof/buildRoof';
import type { Roof, RoofFault } from '../roof/types';
import type { RoofPoint } from '../geometry/points';
import { GRID_MM } from '../geometry/tolerances';
import { findSeams } from '../seams/findSeams';
import type { EndLap, Seams, SideLap } from '../seams/types';
import { searchLayout } from '../search/searchLayout';
import { searchWork } from '../search/searchWork';
import type { SearchReport } from '../search/types';
import { layRoof } from '../sheets/layRoof';
import { specFaults } from '../sheets/specFaults';
import type { Solver } from '../sheets/stock/solver';
import type { Layout, LayoutFault, LayoutSpec, Sheet } from '../sheets/types';
import type { Finding } from '../verify/types';
import { rulesOf } from '../verify/evidence';
import { verify } from '../verify/verifyLayout';
import {
  lapOf,
  missingParts,
  layoutSpecOf,
  moneyOf,
  roofSpecOf,
  rollsOf,
  tradeOf,
  type ContractRoof,
} from './contractInput';

interface ContractLap {
  readonly id: string;
  readonly between: [string, string];
  readonly over: string;
  readonly overlap: number;
  readonly from: [number, number];
  readonly to: [number, number];
  /** m */
  readonly length: number;
  /** Welds along it where it is not one: two under the strip over butted ends. */
  readonly welds?: number | undefined;
}

export interface ContractSheet {
  readonly id: string;
  readonly band: string;
  readonly course: number;
  readonly corners: [number, number][];
  readonly width: number;
  readonly length: number;
  readonly cut: Sheet['cut'];
  readonly longEdges: ['factory' | 'cut', 'factory' | 'cut'];
  readonly selvedge?: 'low' | 'high' | undefined;
  readonly roll: string;
}

export interface ContractLayout {
  readonly direction: number;
  readonly firstCourse: number;
  readonly precision: number;
  readonly sheets: ContractSheet[];
  readonly sideLaps: ContractLap[];
  readonly endLaps: ContractLap[];
  readonly tJoints: { readonly id: string; readonly at: [number, number] }[];
  /** m; an end lap counts once for each weld along it. */
  readonly weld: {
    readonly sideLap: number;
    readonly endLap: number;
    readonly target: number;
    readonly slit: number;
    readonly total: number;
  };
  readonly targets: {
    readonly id: string;
    readonly drain: string;
    readonly at: [number, number];
    readonly side: number;
  }[];
  readonly slits: {
    readonly id: string;
    readonly sheet: string;
    readonly unit: string;
    readonly from: [number, number];
    readonly to: [number, number];
    /** m */
    readonly length: number;
  }[];
  /** m of cut edge of a reinforced sheet that shows and is sealed. */
  readonly cutEdge: number;
  readonly area: {
    readonly roof: number;
    readonly membraneCut: number;
    readonly membraneBought: number;
    readonly lap: number;
    readonly offcut: number;
  };
  readonly rolls: { readonly count: number; readonly lowerBound: number; readonly areaBound: number };
  /** The plain way of cutting and the one with the fewest rolls found, with what rolls and end laps cost. */
  readonly ways: { readonly rolls: number; readonly joints: number; readonly cost: number | null }[];
  readonly findings: Finding[];
}

export type ContractAnswer =
  { readonly layout: ContractLayout } | { readonly faults: readonly (RoofFault | LayoutFault)[] };

/** With a solver, rolls are counted exactly where joints are forbidden, and bounds are higher where it proves them. */
export function layContract(given: ContractRoof, solver: Solver | null = null): ContractAnswer {
  const missing = missingParts(given);
  if (missing.length > 0) return { faults: missing };
  const built = buildRoof(roofSpecOf(given));
  if ('faults' in built) return built;
  const { roof } = built;
  const chosen = chooseLayout(given, roof);
  if ('faults' in chosen) return chosen;
  const { spec } = chosen;
  const joint = given.rates ? jointCost(moneyOf(given.rates), spec.roll.width) : null;
  const laid = layRoof(roof, spec, joint, solver);
  if ('faults' in laid) return laid;
  return { layout: contractLayout(roof, laid.layout, findSeams(roof, laid.layout), joint) };
}

/** Where anything is left to choose (direction, roll, closing course) the search chooses it. */
function chooseLayout(
  given: ContractRoof,
  roof: Roof,
): { readonly spec: LayoutSpec } | { readonly faults: readonly LayoutFault[] } {
  const rolls = rollsOf(given);
  const [only] = rolls;
  if (!only)
    return {
      faults: [{ where: 'sheet', message: 'There is no roll to lay. Give `sheet`, or a list of `sheets`.' }],
    };
  const spec = layoutSpecOf(given, only);
  const faults = rolls.flatMap((roll) => specFaults({ ...spec, roll }));
  if (faults.length > 0) return { faults };
  if (given.direction !== 'auto' && rolls.length === 1 && given.rip === 'forbidden') return { spec };
  const search = searchLayout(roof, {
    rolls,
    field: null,
    rip: given.rip,
    sideLap: spec.sideLap,
    lap: spec.lap,
    trade: spec.trade,
    money: given.rates ? moneyOf(given.rates) : null,
    pinned: {
      direction: given.direction === 'auto' ? null : given.direction,
      firstCourse: given.firstCourse ?? (given.direction === 'auto' ? null : 0),
      closings: null,
    },
    work: searchWork(roof),
  });
  const best = finished(search).best[0];
  // Nothing can be cut: laying it anyway says why in words.
  if (!best) return { spec };
  return { spec: { ...spec, roll: best.roll, closing: best.closing, ...best.rules } };
}

function finished(search: ReturnType<typeof searchLayout>): SearchReport {
  for (;;) {
    const step = search.next();
    if (step.done) return step.value;
  }
}

/** The same, for a roof of a job that has been laid already. */
export function contractLayout(
  roof: Roof,
  layout: Layout,
  seams: Seams,
  joint: number | null = null,
): ContractLayout {
  const numbers = new Map(layout.courses.map(({ index, number }) => [index, number]));
  const bought = boughtArea(layout);
  const cut = cutArea(layout.sheets);
  const metres = (list: readonly number[]) => list.reduce((sum, length) => sum + length, 0) / 1000;
  const side = metres(seams.sideLaps.map((lap) => lap.length));
  const end = metres(seams.endLaps.map((lap) => lap.length * lap.welds));
  const target = metres(seams.targets.map(({ weld }) => weld));
  // A strip over a slit is welded on both sides of it.
  const slit = metres(seams.slits.map(({ length }) => 2 * length));
  const findings = verify({
    roof,
    direction: layout.rules.direction,
    sheets: layout.sheets,
    seams,
    rows: [],
    rules: rulesOf(layout.spec),
    spacing: NO_FASTENERS,
  });
  return {
    direction: layout.rules.direction,
    firstCourse: layout.rules.firstCourse,
    precision: GRID_MM,
    sheets: layout.sheets.map((sheet) => contractSheet(sheet, numbers)),
    sideLaps: seams.sideLaps.map(contractLap),
    endLaps: seams.endLaps.map(contractLap),
    tJoints: seams.tJoints.map(({ id, at }) => ({ id, at: pair(at) })),
    weld: { sideLap: side, endLap: end, target, slit, total: side + end + target + slit },
    targets: seams.targets.map(({ id, drain, at, side }) => ({ id, drain, at: pair(at), side })),
    slits: seams.slits.map((cut) => ({
      ...cut,
      from: pair(cut.from),
      to: pair(cut.to),
      length: cut.length / 1000,
    })),
    cutEdge: seams.cutEdge / 1000,
    area: {
      roof: roof.area / 1e6,
      membraneCut: cut / 1e6,
      membraneBought: bought / 1e6,
      lap: lappedArea(layout, seams) / 1e6,
      offcut: (bought - cut) / 1e6,
    },
    rolls: {
      count: layout.cutList.rolls.length,
      lowerBound: layout.cutList.lowerBound,
      areaBound: layout.cutList.areaBound,
    },
    ways: layout.ways.map((way) => ({
      ...way,
      cost: joint === null ? null : way.rolls * layout.spec.roll.cost + way.joints * joint,
    })),
    findings: [...findings],
  };
}

/** The verifier on a layout that anybody made: only its coordinates and names are believed. */
export function checkContract(
  given: ContractRoof,
  layout: ContractLayout,
): { readonly findings: readonly Finding[] } | { readonly faults: readonly (RoofFault | LayoutFault)[] } {
  const built = buildRoof(roofSpecOf(given));
  if ('faults' in built) return built;
  const rolls = rollsOf(given);
  if (rolls.length === 0)
    return {
      faults: [
        { where: 'sheet', message: 'There is no roll to hold the sheets against. Give `sheet` or `sheets`.' },
      ],
    };
  const course = new Map(layout.sheets.map((sheet) => [sheet.id, sheet.course]));
  const seamOf = (lap: ContractLap) => ({
    ...lap,
    length: lap.length * 1000,
    course: course.get(lap.between[0]) ?? 0,
  });
  const findings = verify({
    roof: built.roof,
    direction: layout.direction,
    sheets: layout.sheets.map((sheet) => ({ ...sheet, selvedge: sheet.selvedge ?? null })),
    seams: {
      sideLaps: layout.sideLaps.map((lap): SideLap => ({ kind: 'side', ...seamOf(lap) })),
      endLaps: layout.endLaps.map((lap): EndLap => ({
        kind: 'end',
        ...seamOf(lap),
        welds: lap.welds === 2 ? 2 : 1,
      })),
      targets: layout.targets.map((target) => ({ ...target, weld: 4 * target.side })),
      slits: layout.slits.map((slit) => ({ ...slit, length: slit.length * 1000 })),
      cutEdge: layout.cutEdge * 1000,
    },
    rows: [],
    rules: { sideLap: given.sideLap, lap: lapOf(given), trade: tradeOf(given), products: rolls },
    spacing: NO_FASTENERS,
  });
  return { findings };
}

const pair = ([x, y]: RoofPoint): [number, number] => [x, y];

const NO_FASTENERS = { inLap: null, atEdge: 0 };

function contractSheet(sheet: Sheet, numbers: ReadonlyMap<number, number>): ContractSheet {
  const { id, band, course, corners, width, length, cut, longEdges, selvedge } = sheet;
  return {
    id,
    band,
    course: numbers.get(course) ?? course,
    corners: corners.map(pair),
    width,
    length,
    cut,
    longEdges: [...longEdges],
    ...(selvedge === null ? {} : { selvedge }),
    roll: cut.roll,
  };
}

function contractLap(lap: SideLap | EndLap): ContractLap {
  const { id, between, over, overlap, from, to, length } = lap;
  const metres = { id, between: [...between] as [string, string], over, overlap, length: length / 1000 };
  const twice = lap.kind === 'end' && lap.welds === 2 ? { welds: 2 } : {};
  return { ...metres, from: pair(from), to: pair(to), ...twice };
}
