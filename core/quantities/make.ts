// The one way to write a quantity, and what every file of figures is handed.
import type { Details } from '../details/types';
import type { FastenerLength } from '../fastening/fastenerLength';
import type { Fastening } from '../fastening/types';
import type { Rates } from '../rates/schema';
import type { Roof } from '../roof/types';
import type { Seams } from '../seams/types';
import type { CutPatch } from '../sheets/patchOffcuts';
import type { ReusedStrip } from '../sheets/reuseOffcuts';
import type { Layout } from '../sheets/types';
import { formatNumber } from '../units/numbers';
import type { RoofDays, WeldRun } from '../welding/types';
import type { Quantity, QuantityUnit } from './types';

export interface Measured {
  readonly roof: Roof;
  readonly layout: Layout;
  readonly reused: readonly ReusedStrip[];
  readonly cutPatches: readonly CutPatch[];
  readonly seams: Seams;
  readonly details: Details;
  readonly fastening: Fastening;
  readonly fastener: FastenerLength;
  /** The runs of this roof only. */
  readonly welds: readonly WeldRun[];
  readonly adhered: boolean;
  /** This roof's share of what each day asks for beside its work. */
  readonly days: RoofDays | null;
}

export interface MeasureRules {
  readonly rates: Rates;
  /** Says which of some dotted paths are still shipped values, or null where all were set. */
  readonly assumed: (...paths: string[]) => string | null;
}

type Make = (
  key: string,
  label: string,
  value: number,
  unit: QuantityUnit,
  formula: string,
  from?: readonly string[],
  assumed?: string | null,
) => Quantity;

export const make: Make = (key, label, value, unit, formula, from = [], assumed = null) => ({
  key,
  label,
  value,
  unit,
  formula,
  from,
  assumed,
});

export const m2 = (mm2: number) => mm2 / 1e6;
export const m = (mm: number) => mm / 1000;
export const say = (value: number, decimals = 2) => formatNumber(value, decimals);
