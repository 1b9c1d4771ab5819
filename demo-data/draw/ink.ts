// A drawing as a list of inked items in millimetres on paper, y up. The PDF writer and the scan painter both
// read it, so that the scan is a scan of the same drawing.

export type Place = readonly [x: number, y: number];

export interface Pen {
  /** Line width in mm. */
  readonly width: number;
  /** 0 black … 1 white. */
  readonly grey?: number;
  /** Lengths of dash and gap in turn, mm. */
  readonly dash?: readonly number[];
}

export type InkLayer = 'SHEET' | 'GRID' | 'ROOF' | 'FITTINGS' | 'HATCH' | 'DIMENSIONS' | 'TEXT';

export interface Lettering {
  /** Height of the type in mm. */
  readonly size: number;
  readonly align?: 'left' | 'middle' | 'right';
  readonly angle?: number;
  readonly weight?: 'regular' | 'bold';
  readonly grey?: number;
}

export type Ink =
  | {
      readonly kind: 'path';
      readonly layer: InkLayer;
      readonly points: readonly Place[];
      readonly closed: boolean;
      readonly pen: Pen | null;
      /** Grey of the fill, null for none. */
      readonly fill: number | null;
    }
  | {
      readonly kind: 'circle';
      readonly layer: InkLayer;
      readonly at: Place;
      readonly radius: number;
      readonly pen: Pen | null;
      readonly fill: number | null;
    }
  | {
      readonly kind: 'text';
      readonly layer: InkLayer;
      readonly at: Place;
      readonly text: string;
      readonly style: Lettering;
    };

/** Line widths of ISO 128-2 for a sheet with a 0.7 mm thick line. */
export const PENS = {
  edge: { width: 0.7 },
  opening: { width: 0.5 },
  thin: { width: 0.25 },
  fitting: { width: 0.35 },
  hair: { width: 0.13, grey: 0.25 },
  hatch: { width: 0.09, grey: 0.55 },
  dimension: { width: 0.18 },
  grid: { width: 0.13, grey: 0.3, dash: [9, 1.5, 1, 1.5] },
  hidden: { width: 0.18, grey: 0.2, dash: [2.5, 1.2] },
  frame: { width: 0.7 },
  rule: { width: 0.25 },
} as const satisfies Record<string, Pen>;

export class Paper {
  readonly items: Ink[] = [];

  constructor(
    readonly width: number,
    readonly height: number,
  ) {}

  line(layer: InkLayer, from: Place, to: Place, pen: Pen): void {
    this.items.push({ kind: 'path', layer, points: [from, to], closed: false, pen, fill: null });
  }

  path(layer: InkLayer, points: readonly Place[], pen: Pen): void {
    this.items.push({ kind: 'path', layer, points, closed: false, pen, fill: null });
  }

  ring(layer: InkLayer, points: readonly Place[], pen: Pen | null, fill: number | null = null): void {
    this.items.push({ kind: 'path', layer, points, closed: true, pen, fill });
  }

  box(layer: InkLayer, low: Place, high: Place, pen: Pen | null, fill: number | null = null): void {
    this.ring(layer, [low, [high[0], low[1]], high, [low[0], high[1]]], pen, fill);
  }

  circle(layer: InkLayer, at: Place, radius: number, pen: Pen | null, fill: number | null = null): void {
    this.items.push({ kind: 'circle', layer, at, radius, pen, fill });
  }

  text(layer: InkLayer, at: Place, text: string, style: Lettering): void {
    this.items.push({ kind: 'text', layer, at, text, style });
  }
}

export function plus(a: Place, b: Place): Place {
  return [a[0] + b[0], a[1] + b[1]];
}

export function times(a: Place, by: number): Place {
  return [a[0] * by, a[1] * by];
}

/** Unit vector from a to b. */
export function towards(a: Place, b: Place): Place {
  const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
  return [(b[0] - a[0]) / length, (b[1] - a[1]) / length];
}

/** Turned by +90°. */
export function leftOf([x, y]: Place): Place {
  return [-y, x];
}
