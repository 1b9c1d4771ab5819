// The input of `layout` as plain JSON, and what the chain's steps take of it. Lengths mm, angles degrees.
import type { RoofPoint } from '../geometry/points';
import type { LayMoney } from '../price/layMoney';
import type { EdgeKind, EdgeSpec, Fitting, LineKind, PerimeterRows, RoofSpec } from '../roof/types';
import type {
  CourseOrder,
  LayoutFault,
  LayoutSpec,
  RollProduct,
  TradeRule,
  TradeRules,
} from '../sheets/types';

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
    readonly clear?: number | undefined;
    readonly perimeterSheets?: number | undefined;
    readonly perimeterWidth?: number | undefined;
  }[];
  readonly falls: readonly {
    readonly outline: readonly RoofPoint[];
    readonly downhill: number;
    readonly ratio?: number | undefined;
  }[];
  readonly lines: readonly { readonly kind: LineKind; readonly from: RoofPoint; readonly to: RoofPoint }[];
  readonly drains: readonly {
    readonly at: RoofPoint;
    readonly clear?: number | undefined;
    readonly size?: number | undefined;
  }[];
  /** What a sheet cannot be dropped over: an opening by its number, or a place and a diameter. */
  readonly units: readonly {
    readonly opening?: number | undefined;
    readonly at?: RoofPoint | undefined;
    readonly size?: number | undefined;
    readonly blocks: 'tall' | 'live';
  }[];
  readonly flutes?: number | undefined;
  readonly endJoint: 'lap' | 'strip';
  readonly stripWidth?: number | undefined;
  readonly minWidth: number;
  readonly cornerClear: number;
  readonly reinforced: boolean;
  readonly off: readonly TradeRule[];
  readonly pins?:
    | { readonly endLaps?: readonly RoofPoint[] | undefined; readonly order?: CourseOrder | undefined }
    | undefined;
}

/** What the input points at and does not have. */
export function missingParts({ outline, openings, edges, units }: ContractRoof): LayoutFault[] {
  const edge = edges.find(({ edge: k }) => k >= outline.length);
  const unit = units.find(({ opening, at }) => (opening === undefined) === (at === undefined));
  const opening = units.find(({ opening: k }) => k !== undefined && k >= openings.length);
  return [
    ...(edge
      ? [
          {
            where: `edges`,
            message: `Edge ${edge.edge} is not there: the outline has edges 0 to ${outline.length - 1}. Give one of them.`,
          },
        ]
      : []),
    ...(unit
      ? [{ where: 'units', message: 'A unit needs either `opening` or `at`. Give one of them.' }]
      : []),
    ...(opening
      ? [
          {
            where: 'units',
            message: `Opening ${opening.opening} is not there: there are ${openings.length}. Give one of them.`,
          },
        ]
      : []),
  ];
}

export function roofSpecOf(given: ContractRoof): RoofSpec {
  const said = new Map(given.edges.map((edge) => [edge.edge, edge]));
  const ring = (corners: readonly RoofPoint[], prefix: string, kind: EdgeKind, allowance: number) => ({
    corners,
    edges: corners.map((_, k): EdgeSpec => ({
      id: `${prefix}${k}`,
      number: k,
      kind,
      upstand: 0,
      allowance,
    })),
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
        clear: said.get(k)?.clear ?? 0,
        perimeter: rowsOf(said.get(k)),
      })),
    },
    openings: given.openings.map((corners, i) => ({
      id: `opening ${i}`,
      name: `opening ${i}`,
      kind: 'courtyard',
      blocks: given.units.find((unit) => unit.opening === i)?.blocks ?? null,
      ...ring(corners, `opening ${i} edge `, 'curb', given.openingAllowance),
    })),
    fittings: [
      ...given.drains.map(({ at, clear, size = 0 }, i): Fitting => ({
        id: `drain ${i}`,
        kind: 'drain',
        at,
        size,
        ...(clear === undefined ? {} : { clear }),
      })),
      ...given.units.flatMap(({ at, size = 0, blocks }, i): Fitting[] =>
        at ? [{ id: `unit ${i}`, kind: 'post', at, size, blocks }] : [],
      ),
    ],
    lines: given.lines.map((line, i) => ({ id: `line ${i}`, ...line })),
    facets: given.falls.map(({ outline: ring, downhill, ratio = null }, i) => ({
      id: `fall ${i}`,
      ring,
      downhill,
      ratio,
    })),
    deck:
      given.flutes === undefined
        ? null
        : { kind: 'steel', flutes: given.flutes, pitch: null, flange: null, rib: null },
    fall: given.downhill === undefined ? null : { downhill: given.downhill, ratio: null },
  };
}

function rowsOf(edge: ContractRoof['edges'][number] | undefined): PerimeterRows | null {
  const { perimeterSheets, perimeterWidth } = edge ?? {};
  return perimeterSheets && perimeterWidth ? { sheets: perimeterSheets, width: perimeterWidth } : null;
}

export function layoutSpecOf(given: ContractRoof, roll: RollProduct): LayoutSpec {
  return {
    roll,
    rolls: rollsOf(given),
    sideLap: given.sideLap,
    lap: lapOf(given),
    trade: tradeOf(given),
    direction: given.direction,
    firstCourse: given.firstCourse ?? null,
    closing: null,
    prefix: '',
  };
}

/** Butted ends don't overlap, whatever the end lap says. */
export function lapOf(given: ContractRoof): LayoutSpec['lap'] {
  const { endLapStagger, minPiece, joints, cutAllowance } = given;
  const endLap = given.endJoint === 'strip' ? 0 : given.endLap;
  return { endLap, endLapStagger, minPiece, joints, cutAllowance };
}

export function tradeOf(given: ContractRoof): TradeRules {
  return {
    minWidth: given.minWidth,
    cornerClear: given.cornerClear,
    strip: given.endJoint === 'strip' ? (given.stripWidth ?? 0) : null,
    reinforced: given.reinforced,
    inLap: given.flutes !== undefined,
    off: given.off,
    pins: given.pins?.endLaps ?? [],
    order: given.pins?.order ?? null,
  };
}

export function rollsOf({ sheet, sheets, rates }: ContractRoof): RollProduct[] {
  if (sheets) return sheets.map((s) => ({ ...s, cost: s.cost ?? rates?.rollCost ?? 0 }));
  return sheet ? [{ id: 'sheet', ...sheet, cost: rates?.rollCost ?? 0 }] : [];
}

export const moneyOf = (rates: NonNullable<ContractRoof['rates']>): LayMoney => ({
  weldPerM: rates.weldPerM,
  handWeldPerM: rates.handWeldPerM ?? rates.weldPerM,
  perJoint: rates.jointCost,
  disposalPerM2: 0,
});
