// The layout engine's face to other programs: plain JSON in, plain JSON out. Lengths of laps in metres, areas in m²,
// everything else in millimetres, as the automation contract says.
import { jointCost, type LayMoney } from '../price/layMoney';
import { boughtArea, cutArea, lappedArea } from '../quantities/laps';
import { buildRoof } from '../roof/buildRoof';
import type { EdgeKind, EdgeSpec, Roof, RoofFault, RoofSpec } from '../roof/types';
import type { RoofPoint } from '../geometry/points';
import { GRID_MM } from '../geometry/tolerances';
import { findSeams } from '../seams/findSeams';
import type { EndLap, Seams, SideLap } from '../seams/types';
import { searchLayout } from '../search/searchLayout';
import { searchWork } from '../search/searchWork';
import type { SearchReport } from '../search/types';
import { layRoof } from '../sheets/layRoof';
import { specFaults } from '../sheets/specFaults';
import type { Layout, LayoutFault, LayoutSpec, RollProduct, Sheet } from '../sheets/types';
import type { Finding } from '../verify/types';
import { rulesOf } from '../verify/evidence';
import { verify } from '../verify/verifyLayout';

export interface ContractRoof {
  readonly outline: readonly RoofPoint[];
  readonly openings: readonly (readonly RoofPoint[])[];
  /** One roll, or several to choose among or mix. */
  readonly sheet?: { readonly width: number; readonly length: number } | undefined;
  readonly sheets?:
    | readonly {
        readonly id: string;
        readonly width: number;
        readonly length: number;
        readonly cost?: number | undefined;
      }[]
    | undefined;
  /** With these, money decides; without, rolls, then joints, then weld metres. */
  readonly rates?:
    | {
        readonly rollCost?: number | undefined;
        readonly weldPerM: number;
        readonly handWeldPerM?: number | undefined;
        readonly jointCost: number;
      }
    | undefined;
  readonly rip: 'allowed' | 'forbidden';
  readonly sideLap: number;
  readonly endLap: number;
  readonly endLapStagger: number;
  readonly minPiece: number;
  readonly edgeAllowance: number;
  readonly openingAllowance: number;
  readonly cutAllowance: number;
  readonly joints: 'allowed' | 'forbidden';
  readonly direction: number | 'auto';
  readonly firstCourse?: number | undefined;
  readonly downhill?: number | undefined;
  readonly edges: readonly {
    readonly edge: number;
    readonly kind?: EdgeKind | undefined;
    readonly allowance?: number | undefined;
  }[];
}

interface ContractLap {
  readonly id: string;
  readonly between: [string, string];
  readonly over: string;
  readonly overlap: number;
  readonly from: [number, number];
  readonly to: [number, number];
  /** m */
  readonly length: number;
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
  readonly weld: { readonly sideLap: number; readonly endLap: number; readonly total: number };
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

export function layContract(given: ContractRoof): ContractAnswer {
  const built = buildRoof(roofSpecOf(given));
  if ('faults' in built) return built;
  const { roof } = built;
  const chosen = chooseLayout(given, roof);
  if ('faults' in chosen) return chosen;
  const { spec } = chosen;
  const joint = given.rates ? jointCost(moneyOf(given.rates), spec.roll.width) : null;
  const laid = layRoof(roof, spec, joint);
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
    money: given.rates ? moneyOf(given.rates) : null,
    pinned: {
      direction: given.direction === 'auto' ? null : given.direction,
      firstCourse: given.firstCourse ?? (given.direction === 'auto' ? null : 0),
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

function rollsOf({ sheet, sheets, rates }: ContractRoof): RollProduct[] {
  if (sheets) return sheets.map((s) => ({ ...s, cost: s.cost ?? rates?.rollCost ?? 0 }));
  return sheet ? [{ id: 'sheet', ...sheet, cost: rates?.rollCost ?? 0 }] : [];
}

const moneyOf = (rates: NonNullable<ContractRoof['rates']>): LayMoney => ({
  weldPerM: rates.weldPerM,
  handWeldPerM: rates.handWeldPerM ?? rates.weldPerM,
  perJoint: rates.jointCost,
  disposalPerM2: 0,
});

/** The same, for a roof of a job that has been laid already. */
export function contractLayout(
  roof: Roof,
  layout: Layout,
  seams: Seams,
  joint: number | null = null,
): ContractLayout {
  const bought = boughtArea(layout);
  const cut = cutArea(layout.sheets);
  const [side, end] = [seams.sideLaps, seams.endLaps].map(
    (laps) => laps.reduce((sum, lap) => sum + lap.length, 0) / 1000,
  ) as [number, number];
  const findings = verify({
    roof,
    direction: layout.rules.direction,
    downhill: layout.rules.downhill,
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
    sheets: layout.sheets.map(contractSheet),
    sideLaps: seams.sideLaps.map(contractLap),
    endLaps: seams.endLaps.map(contractLap),
    tJoints: seams.tJoints.map(({ id, at }) => ({ id, at: pair(at) })),
    weld: { sideLap: side, endLap: end, total: side + end },
    area: {
      roof: roof.area / 1e6,
      membraneCut: cut / 1e6,
      membraneBought: bought / 1e6,
      lap: lappedArea(layout) / 1e6,
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
    downhill: given.downhill ?? null,
    sheets: layout.sheets,
    seams: {
      sideLaps: layout.sideLaps.map((lap): SideLap => ({ kind: 'side', ...seamOf(lap) })),
      endLaps: layout.endLaps.map((lap): EndLap => ({ kind: 'end', ...seamOf(lap) })),
    },
    rows: [],
    rules: { sideLap: given.sideLap, lap: lapOf(given), products: rolls },
    spacing: NO_FASTENERS,
  });
  return { findings };
}

const pair = ([x, y]: RoofPoint): [number, number] => [x, y];

const NO_FASTENERS = { inLap: null, atEdge: 0 };

function contractSheet({ id, band, course, corners, width, length, cut, longEdges }: Sheet): ContractSheet {
  return {
    id,
    band,
    course,
    corners: corners.map(pair),
    width,
    length,
    cut,
    longEdges: [...longEdges],
    roll: cut.roll,
  };
}

function contractLap({ id, between, over, overlap, from, to, length }: SideLap | EndLap): ContractLap {
  return { id, between: [...between], over, overlap, from: pair(from), to: pair(to), length: length / 1000 };
}

function roofSpecOf(given: ContractRoof): RoofSpec {
  const said = new Map(given.edges.map((edge) => [edge.edge, edge]));
  const ring = (corners: readonly RoofPoint[], prefix: string, kind: EdgeKind, allowance: number) => ({
    corners,
    edges: corners.map((_, k): EdgeSpec => ({ id: `${prefix}${k}`, kind, upstand: 0, allowance })),
  });
  const outline = ring(given.outline, 'edge ', 'eave', given.edgeAllowance);
  return {
    id: 'roof',
    name: 'roof',
    outline: {
      ...outline,
      edges: outline.edges.map((edge, k) => ({
        ...edge,
        kind: said.get(k)?.kind ?? edge.kind,
        allowance: said.get(k)?.allowance ?? edge.allowance,
      })),
    },
    openings: given.openings.map((corners, i) => ({
      id: `opening ${i}`,
      name: `opening ${i}`,
      kind: 'courtyard',
      ...ring(corners, `opening ${i} edge `, 'curb', given.openingAllowance),
    })),
    fittings: [],
    fall: given.downhill === undefined ? null : { downhill: given.downhill, ratio: null },
  };
}

function layoutSpecOf(given: ContractRoof, roll: RollProduct): LayoutSpec {
  return {
    roll,
    sideLap: given.sideLap,
    lap: lapOf(given),
    direction: given.direction,
    firstCourse: given.firstCourse ?? null,
    closing: null,
    prefix: '',
  };
}

function lapOf({ endLap, endLapStagger, minPiece, joints, cutAllowance }: ContractRoof): LayoutSpec['lap'] {
  return { endLap, endLapStagger, minPiece, joints, cutAllowance };
}
