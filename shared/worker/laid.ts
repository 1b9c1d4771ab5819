// What crosses between the window and the thread that paints large roofs, and what that thread hears from the
// estimator directly: drawings of thousands of shapes never pass through the window for it.
import type { RoofDrawing } from '../../core/drawing/types';

export interface LaidRequest {
  readonly kind: 'paint';
  readonly request: number;
  readonly page: string;
  /** Roofs that still stand in the job. */
  readonly roofs: readonly string[];
  /** Everything else that the painter asks of a scene: plain data. */
  readonly scene: unknown;
  readonly ratio: number;
  /** Of the estimate whose drawings are to be painted; older ones are waited out. */
  readonly revision: number;
}

export type LaidMessage = LaidRequest | { readonly kind: 'estimator'; readonly port: MessagePort };

export interface LaidReply {
  readonly request: number;
  readonly picture: ImageBitmap;
}

/** Drawings of the exact cut count as so much later than those in haste that they replace. */
export const EXACT_LATER = 0.5;

export interface LaidDrawings {
  readonly revision: number;
  readonly drawings: readonly RoofDrawing[];
}
