// In: sheets with the cuts that they had, as far as they had any, and the rolls they came off. Out: every sheet's cut.
// Promise: what lies keeps its cut; another sheet stays on its roll where it still fits there, moves to what is left of
// a roll where it does not, and only then asks for a roll more.
import { GRID_MM } from '../geometry/tolerances';
import type { Cut, RollProduct } from './types';

export interface ToCut {
  readonly sheet: string;
  readonly length: number;
  readonly width: number;
  readonly product: RollProduct;
  /** null for a sheet that was not there before. */
  readonly cut: Cut | null;
  readonly lies: boolean;
}

export interface RollInHand {
  readonly id: string;
  readonly product: string;
}

interface Lane {
  readonly roll: string;
  readonly lane: number;
  readonly width: number;
  readonly length: number;
  readonly product: string;
  /** From one mm of the roll to another, in ascending order. */
  readonly taken: [number, number][];
}

export interface RefitCuts {
  readonly cuts: ReadonlyMap<string, Cut>;
  readonly rolls: readonly RollInHand[];
}

export function refitRolls(
  sheets: readonly ToCut[],
  inHand: readonly RollInHand[],
  prefix: string,
): RefitCuts {
  const cuts = new Map<string, Cut>();
  const rolls = [...inHand];
  const lanes = new Map<string, Lane>();
  const laneOf = ({ product, width }: ToCut, { roll, lane }: Pick<Cut, 'roll' | 'lane'>): Lane => {
    const key = `${roll} ${lane}`;
    const found = lanes.get(key) ?? {
      roll,
      lane,
      width,
      length: product.length,
      product: product.id,
      taken: [],
    };
    lanes.set(key, found);
    return found;
  };
  const put = (sheet: ToCut, lane: Lane, start: number) => {
    lane.taken.push([start, start + sheet.length]);
    lane.taken.sort((a, b) => a[0] - b[0]);
    cuts.set(sheet.sheet, { roll: lane.roll, start, lane: lane.lane });
  };
  for (const sheet of sheets)
    if (sheet.cut && sheet.lies) put(sheet, laneOf(sheet, sheet.cut), sheet.cut.start);
  const open = sheets.filter((sheet) => !sheet.lies);
  const own = open
    .filter((sheet) => sheet.cut !== null)
    .sort((a, b) => (a.cut?.start ?? 0) - (b.cut?.start ?? 0));
  const homeless: ToCut[] = open.filter((sheet) => sheet.cut === null);
  for (const sheet of own) {
    const lane = laneOf(sheet, sheet.cut as Cut);
    const start = firstGap(lane, sheet.length);
    if (start === null) homeless.push(sheet);
    else put(sheet, lane, start);
  }
  for (const sheet of homeless.sort((a, b) => b.length - a.length || (a.sheet < b.sheet ? -1 : 1))) {
    const fit = [...lanes.values()]
      .filter(({ product, width }) => product === sheet.product.id && Math.abs(width - sheet.width) < GRID_MM)
      .map((lane) => ({ lane, start: firstGap(lane, sheet.length) }))
      .find(({ start }) => start !== null);
    if (fit) put(sheet, fit.lane, fit.start as number);
    else {
      const id = `${prefix}R${rolls.length + 1}`;
      rolls.push({ id, product: sheet.product.id });
      put(sheet, laneOf(sheet, { roll: id, lane: 0 }), 0);
    }
  }
  return { cuts, rolls };
}

function firstGap({ taken, length }: Lane, wanted: number): number | null {
  let from = 0;
  for (const [start, end] of taken) {
    if (start - from >= wanted - GRID_MM / 2) return from;
    from = Math.max(from, end);
  }
  return length - from >= wanted - GRID_MM / 2 ? from : null;
}
