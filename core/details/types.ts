// What edges, openings and fittings ask for beside the field sheets.
export interface FlashingPiece {
  readonly id: string;
  readonly edge: string;
  /** Length along the edge and height of the sheet (upstand plus foot), mm. */
  readonly length: number;
  readonly height: number;
  /** Hand weld along the foot and up its laps, mm. */
  readonly weld: number;
}

export interface Corner {
  readonly id: string;
  readonly kind: 'inside' | 'outside';
  readonly at: readonly [number, number];
  readonly upstand: number;
  readonly edges: readonly [string, string];
}

export interface Boot {
  readonly id: string;
  readonly fitting: string;
  readonly kind: 'pipe' | 'drain' | 'scupper' | 'post' | 'anchor';
  /** Hand weld round it, mm. */
  readonly weld: number;
}

export interface Details {
  readonly flashings: readonly FlashingPiece[];
  readonly corners: readonly Corner[];
  readonly boots: readonly Boot[];
  /** What was assumed because the job does not say it. */
  readonly notes: readonly string[];
}
