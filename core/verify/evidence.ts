// What is verified, and what every check is handed: each band of the layout in a frame of the verifier's own making.
import type { Fastening } from '../fastening/types';
import type { FasteningZones } from '../fastening/zones';
import type { Roof } from '../roof/types';
import type { Seams } from '../seams/types';
import type { LayoutSpec, RollProduct, Sheet, TradeRules } from '../sheets/types';
import type { Flat, Rect } from './cover';
import type { RuleName } from './rules';

/** What is verified: plain results, so that a layout from outside can be held to the same rules. */
export interface Verified {
  readonly roof: Roof;
  readonly direction: number;
  readonly sheets: readonly SheetAsCut[];
  readonly seams: Pick<Seams, 'sideLaps' | 'endLaps' | 'targets' | 'slits' | 'cutEdge'>;
  readonly rows: Fastening['rows'];
  readonly rules: VerifiedRules;
  readonly spacing: Spacing;
}

export interface VerifiedRules extends Pick<LayoutSpec, 'sideLap' | 'lap' | 'trade'> {
  /** Every roll that a sheet may have come off. */
  readonly products: readonly RollProduct[];
}

/** The rules of a layout's own spec, as the verifier takes them. */
export function rulesOf({ sideLap, lap, trade, roll, rolls, closing }: LayoutSpec): VerifiedRules {
  return {
    sideLap,
    lap,
    trade,
    products: [roll, ...(closing?.kind === 'narrow' ? [closing.roll] : []), ...rolls],
  };
}

/** What the verifier believes of a sheet: its corners, what it says of its edges, and where it says it was cut. */
export type SheetAsCut = Pick<
  Sheet,
  'id' | 'band' | 'course' | 'corners' | 'width' | 'length' | 'cut' | 'longEdges' | 'selvedge'
>;

export interface Spacing {
  readonly inLap: number | null;
  readonly atEdge: number;
  /** As an engineer gave them. */
  readonly zones?: FasteningZones;
}

/** Says one finding, at a place on the roof. */
export type Say = (rule: RuleName, at: Flat | null, ids: readonly string[], message: string) => void;

/** A band as the verifier sees it: sheets as rectangles in a frame along the courses. */
export interface BandSeen {
  readonly id: string;
  readonly rects: readonly Rect[];
  readonly flat: (point: Flat) => Flat;
  readonly back: (point: Flat) => Flat;
  /** Roof and openings in the band's frame. */
  readonly rings: readonly (readonly Flat[])[];
}

export interface Evidence {
  readonly given: Verified;
  readonly bands: readonly BandSeen[];
  readonly bandOf: ReadonlyMap<string, BandSeen>;
  readonly sheetOf: ReadonlyMap<string, SheetAsCut>;
  readonly rectOf: ReadonlyMap<string, Rect>;
  readonly trade: TradeRules;
}

/** A frame turned by so many degrees, both ways. */
export function turnedBy(degrees: number): Pick<BandSeen, 'flat' | 'back'> {
  const angle = (degrees * Math.PI) / 180;
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  return {
    flat: ([x, y]) => [x * cos + y * sin, y * cos - x * sin],
    back: ([u, v]) => [u * cos - v * sin, u * sin + v * cos],
  };
}

/** The outline and every opening. */
export const ringsOf = ({ outline, openings }: Roof): readonly (readonly Flat[])[] => [
  outline,
  ...openings.map(({ ring }) => ring),
];

/** Even-odd over all rings: on the roof and in no opening. */
export function isOnRoof(rings: readonly (readonly Flat[])[], [x, y]: Flat): boolean {
  let inside = false;
  for (const ring of rings) {
    let a = ring[0] as Flat;
    for (let i = 1; i <= ring.length; i++) {
      const b = ring[i === ring.length ? 0 : i] as Flat;
      if (a[1] <= y !== b[1] <= y && x < a[0] + ((y - a[1]) * (b[0] - a[0])) / (b[1] - a[1]))
        inside = !inside;
      a = b;
    }
  }
  return inside;
}

export function distanceTo(a: Flat, b: Flat, p: Flat): number {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const square = dx * dx + dy * dy;
  const t = square === 0 ? 0 : Math.min(1, Math.max(0, ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / square));
  return Math.hypot(p[0] - a[0] - t * dx, p[1] - a[1] - t * dy);
}

/** Places along a stretch, its middle parts, no further apart than `step`. */
export function placesAlong(from: Flat, to: Flat, step: number): Flat[] {
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
  const count = Math.max(1, Math.ceil(length / step));
  return Array.from({ length: count }, (_, i): Flat => {
    const t = (i + 0.5) / count;
    return [from[0] + (to[0] - from[0]) * t, from[1] + (to[1] - from[1]) * t];
  });
}
