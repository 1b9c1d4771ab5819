// What is to be drawn, as plain shapes in layers. The window paints them and the packs print them, so screen
// and paper agree; a style is a name, and each medium gives the name its ink.
import type { RoofPoint, RoofRing } from '../geometry/points';

export type ShapeStyle =
  | 'film' // one sheet, translucent, so that a lap is darker because it is two layers; `edge-row` in `detail`
  | 'sheet-edge'
  | 'roof-edge' // by kind: the edge's own kind is in `detail`
  | 'opening'
  | 'weld-machine' // solid
  | 'weld-hand' // dashed
  | 't-joint'
  | 'fastener'
  | 'fitting' // the kind is in `detail`
  | 'fall'
  | 'facet'
  | 'roof-line' // its kind is in `detail`
  | 'line-name'
  | 'clear' // what a drain keeps free of laps
  | 'flutes'
  | 'target'
  | 'slit'
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
      /** mm on the roof; 0 for a mark that is equally large at every zoom. */
      readonly size: number;
      readonly style: ShapeStyle;
      readonly id: string;
      readonly detail?: string;
    }
  /** Many equal marks on a line, packed: the k-th stands at `first + k · step` mm from `from`. */
  | {
      readonly kind: 'row';
      readonly from: RoofPoint;
      readonly to: RoofPoint;
      readonly first: number;
      readonly step: number;
      readonly count: number;
      readonly size: number;
      readonly style: ShapeStyle;
      readonly id: string;
    }
  | {
      readonly kind: 'text';
      readonly at: RoofPoint;
      readonly text: string;
      readonly angle: number;
      /** mm along the text in which it should fit, where it names something of that length. */
      readonly room?: number;
      readonly style: ShapeStyle;
      readonly id: string;
    };

export type LayerName =
  'film' | 'laps' | 'welds' | 'trade' | 'fasteners' | 'roof' | 'fittings' | 'labels' | 'dimensions';

export interface Layer {
  readonly name: LayerName;
  readonly shapes: readonly Shape[];
}

/** One roof's drawing, in roof millimetres. */
export interface RoofDrawing {
  readonly roof: string;
  readonly page: string;
  readonly mmPerPoint: number;
  /** Outline and openings (even-odd): film, laps, welds and fasteners are cut to it where they are painted. */
  readonly clip: readonly RoofRing[];
  readonly layers: readonly Layer[];
}
