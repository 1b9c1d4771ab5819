// What crosses between the window and its estimator. Every request bears a number that its reply repeats.
import type { RoofDrawing } from '../../core/drawing/types';
import type { Estimate } from '../../core/job/result';
import type { Job } from '../../core/job/schema';
import type { PackName } from '../packs/packNames';

export type EstimatorRequest =
  | { readonly kind: 'drawings'; readonly port: MessagePort }
  | { readonly kind: 'estimate'; readonly revision: number; readonly job: Job }
  | {
      readonly kind: 'pack';
      readonly request: number;
      readonly pack: PackName;
      readonly job: Job;
      readonly drawings: ReadonlyMap<string, Uint8Array>;
    };

export type EstimatorReply =
  | {
      readonly kind: 'estimate';
      readonly revision: number;
      readonly estimate: Estimate;
      readonly drawings: readonly RoofDrawing[];
      /** Cut in haste: the exact cut of the same job follows unless another job comes before. */
      readonly exactFollows: boolean;
    }
  | {
      readonly kind: 'exact';
      readonly revision: number;
      readonly estimate: Estimate;
      readonly drawings: readonly RoofDrawing[];
    }
  /** The cut in haste stands. */
  | { readonly kind: 'noExact'; readonly revision: number; readonly message: string }
  | { readonly kind: 'failed'; readonly revision: number; readonly message: string }
  | {
      readonly kind: 'packed';
      readonly request: number;
      readonly name: PackName;
      readonly bytes: Uint8Array;
    }
  | { readonly kind: 'packFailed'; readonly request: number; readonly message: string };
