// What `estimate` gives back: the whole chain's results, roof by roof and then for the job.
import type { Details } from '../details/types';
import type { FastenerLength } from '../fastening/fastenerLength';
import type { Fastening } from '../fastening/types';
import type { Order } from '../order/types';
import type { Bid } from '../price/types';
import type { Quantities } from '../quantities/types';
import type { Roof, RoofFault } from '../roof/types';
import type { Seams } from '../seams/types';
import type { Refit } from '../sheets/refitLayout';
import type { CutPatch } from '../sheets/patchOffcuts';
import type { ReusedStrip } from '../sheets/reuseOffcuts';
import type { Layout, LayoutFault } from '../sheets/types';
import type { Finding } from '../verify/types';
import type { WeldPlan, WorkPlan } from '../welding/types';

/** One roof through the chain. A roof that cannot be built or laid carries its faults and nothing after them. */
export interface RoofEstimate {
  readonly id: string;
  readonly letter: string;
  readonly name: string;
  readonly page: string;
  /** Millimetres on the roof per point on its page: the way back to the drawing. */
  readonly mmPerPoint: number;
  readonly faults: readonly (RoofFault | LayoutFault)[];
  readonly roof: Roof | null;
  readonly details: Details | null;
  readonly layout: Layout | null;
  /** What became of the layout where edges were measured or sheets lie by the log; null where neither is so. */
  readonly refit: Omit<Refit, 'layout' | 'unkept'> | null;
  /** Flashing strips cut from offcuts. */
  readonly reused: readonly ReusedStrip[];
  /** Target sheets and the strips over slits, with the offcut that each is cut from. */
  readonly cutPatches: readonly CutPatch[];
  readonly seams: Seams | null;
  readonly fastening: Fastening | null;
  /** How long its fasteners are, as far as that is known. */
  readonly fastener: FastenerLength | null;
  readonly findings: readonly Finding[];
}

export interface Estimate {
  readonly roofs: readonly RoofEstimate[];
  /** Figures for the whole job, and by roof id. */
  readonly quantities: Quantities;
  readonly byRoof: Readonly<Record<string, Quantities>>;
  readonly weldPlan: WeldPlan;
  /** The runs by day. */
  readonly workPlan: WorkPlan;
  readonly order: Order;
  readonly bid: Bid;
  readonly findings: readonly Finding[];
}
