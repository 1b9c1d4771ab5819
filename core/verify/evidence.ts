// What is verified, and what every check is handed: the layout in a frame of the verifier's own making.
import type { Fastening } from '../fastening/types';
import type { Roof } from '../roof/types';
import type { Seams } from '../seams/types';
import type { LayoutSpec, RollProduct, Sheet } from '../sheets/types';
import type { Flat, Rect } from './cover';
import type { RuleName } from './rules';

/** What is verified: plain results, so that a layout from outside can be held to the same rules. */
export interface Verified {
  readonly roof: Roof;
  readonly direction: number;
  /** Which way water runs, degrees; null where not given. */
  readonly downhill: number | null;
  readonly sheets: readonly SheetAsCut[];
  readonly seams: Pick<Seams, 'sideLaps' | 'endLaps'>;
  readonly rows: Fastening['rows'];
  readonly rules: VerifiedRules;
  readonly spacing: Spacing;
}

export interface VerifiedRules extends Pick<LayoutSpec, 'sideLap' | 'lap'> {
  /** Every roll that a sheet may have come off. */
  readonly products: readonly RollProduct[];
}

/** The rules of a layout's own spec, as the verifier takes them. */
export function rulesOf({ sideLap, lap, roll, closing }: LayoutSpec): VerifiedRules {
  return { sideLap, lap, products: closing?.kind === 'narrow' ? [roll, closing.roll] : [roll] };
}

/** What the verifier believes of a sheet: its corners, and where it says it was cut. */
export type SheetAsCut = Pick<Sheet, 'id' | 'course' | 'corners' | 'width' | 'length' | 'cut'>;

export interface Spacing {
  readonly inLap: number | null;
  readonly atEdge: number;
}

/** Says one finding; places are frame points (u, v). */
export type Say = (rule: RuleName, at: Flat | null, ids: readonly string[], message: string) => void;

/** What every check is handed: the layout in a frame of the verifier's own making. */
export interface Evidence {
  readonly given: Verified;
  readonly rects: readonly Rect[];
  readonly rings: readonly (readonly Flat[])[];
  readonly flat: (point: readonly [number, number]) => Flat;
}
