// What is to be drawn, as plain shapes in layers. The window paints them and the packs print them, so screen
// and paper agree; a style is a name, and each medium gives the name its ink.
import type { RoofPoint, RoofRing } from '../geometry/points';

export type ShapeStyle =
  | 'film' // one sheet, translucent, so that a lap is darker because it is two layers
  | 'sheet-edge'
  | 'roof-edge' // by kind: the edge's own kind is in `detail`
  | 'opening'
  | 'weld-machine' // solid
  | 'weld-hand' // dashed
  | 't-joint'
  | 'fastener'
  | 'fitting' // the kind is in `detail`
  | 'fall'
  | 'label'
  | 'dimension';

export type Shape =
  | {
      readonly kind: 'area';
      readonly rings: readonly RoofRing[];
      readonly style: ShapeStyle;
      readonly id: string;
      readonly detail?: string;
    }
  | {
      readonly kind: 'line';
      readonly from: RoofPoint;
      readonly to: RoofPoint;
      readonly style: ShapeStyle;
      readonly id: string;
      readonly detail?: string;
    }
  | {
      readonly kind: 'mark';
      readonly at: RoofPoint;
      readonly size: number;
      readonly style: ShapeStyle;
      readonly id: string;
      readonly detail?: string;
    }
  | {
      readonly kind: 'text';
      readonly at: RoofPoint;
      readonly text: string;
      readonly angle: number;
      readonly style: ShapeStyle;
      readonly id: string;
    };

export type LayerName = 'film' | 'laps' | 'welds' | 'fasteners' | 'roof' | 'fittings' | 'labels';

export interface Layer {
  readonly name: LayerName;
  readonly shapes: readonly Shape[];
}

/** One roof's drawing, in roof millimetres. */
export interface RoofDrawing {
  readonly roof: string;
  readonly page: string;
  readonly mmPerPoint: number;
  readonly layers: readonly Layer[];
}
