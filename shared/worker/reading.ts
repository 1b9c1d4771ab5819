// What crosses between the window and the thread that reads one drawing. Large arrays are handed over, not copied.
import type { Correction } from '../../core/plan/correction';
import type { Linework } from '../../core/plan/types';
import type { Hiding } from '../../core/plan/hiding';
import type { PieceData } from '../../core/plan/pieces';
import type { StrokeKinds } from '../../core/plan/strokeKinds';
import type { ScaleReading } from '../../core/plan/scale';
import type { Failure } from '../errors/failure';

/** Part of a page, in points from its upper left, y down; `scale` is pixels to a point. */
export interface PagePart {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
  readonly scale: number;
}

/** `page`: all of it as the PDF library paints it. `lines`: the paths alone, from our own index. `rest`: what is not a
 * plain path: lettering, pictures, patterns. */
export type PictureOf = 'page' | 'lines' | 'rest';

/** Longer side of a page's small picture: twice what is shown, so that fine lines stay fine. */
export const THUMB_PX = 320;

export type ReaderRequest =
  | {
      readonly kind: 'open';
      readonly name: string;
      readonly bytes: ArrayBuffer;
      readonly password: string | null;
    }
  /** Sizes and names of pages. */
  | { readonly kind: 'describe'; readonly request: number; readonly pages: readonly number[] }
  | { readonly kind: 'read'; readonly page: number; readonly correction: Correction | null }
  | {
      readonly kind: 'paint';
      readonly request: number;
      readonly page: number;
      readonly of: PictureOf;
      readonly part: PagePart;
      readonly hiding: Hiding;
    }
  /** A small picture of a whole page that is not shown otherwise; answered by `painted`. */
  | {
      readonly kind: 'thumb';
      readonly request: number;
      readonly page: number;
      readonly correction: Correction | null;
    }
  | { readonly kind: 'cancel'; readonly request: number }
  /** Strokes are sorted for tracing anew, without what is hidden. */
  | { readonly kind: 'sort'; readonly page: number; readonly hiding: Hiding };

export interface PageFacts {
  readonly number: number;
  readonly width: number;
  readonly height: number;
  /** From the page's label or its title block; null where neither says anything. */
  readonly name: string | null;
}

/** How a page is best painted: small ones as the library does, heavy ones from our own index. */
export interface PageDrawn {
  readonly width: number;
  readonly height: number;
  readonly by: 'library' | 'index';
  /** Whether there is anything but plain paths. */
  readonly rest: boolean;
}

export interface SortedStrokes extends Omit<StrokeKinds, 'pieces'> {
  readonly pieces: PieceData;
}

export type ReaderReply =
  | { readonly kind: 'opened'; readonly pageCount: number }
  | { readonly kind: 'refused'; readonly failure: Failure }
  | { readonly kind: 'described'; readonly request: number; readonly pages: readonly PageFacts[] }
  | { readonly kind: 'progress'; readonly page: number; readonly operators: number }
  /** What was read so far of a page that takes long. */
  | {
      readonly kind: 'glimpse';
      readonly page: number;
      readonly width: number;
      readonly height: number;
      readonly picture: ImageBitmap;
    }
  | { readonly kind: 'drawn'; readonly page: number; readonly drawn: PageDrawn }
  /** What can be snapped to; the lettering comes after it. */
  | {
      readonly kind: 'lines';
      readonly page: number;
      readonly linework: Linework;
      readonly boxes: ArrayBuffer | null;
    }
  | {
      readonly kind: 'read';
      readonly page: number;
      readonly notes: Linework['notes'];
      readonly scale: ScaleReading;
    }
  | { readonly kind: 'unreadable'; readonly page: number; readonly failure: Failure }
  | {
      readonly kind: 'sorted';
      readonly page: number;
      readonly hiding: Hiding;
      readonly strokes: SortedStrokes;
    }
  /** Null: cancelled, or it could not be painted. */
  | { readonly kind: 'painted'; readonly request: number; readonly picture: ImageBitmap | null };
