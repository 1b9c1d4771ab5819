// End laps under the hand: where one stands on its page, and the pin that moving it along its course makes.
import type { Command } from '../../core/job/commands/types';
import type { Estimate } from '../../core/job/result';
import { mmPerPointOf } from '../../core/job/pageScale';
import { lapsAtPins } from '../../core/job/pins';
import type { EndLap } from '../../core/seams/types';
import type { Job } from '../../core/job/schema';
import type { PagePoint } from '../../core/geometry/points';
import { toPagePoint } from '../../core/plan/toRoof';
import type { Picked } from '../document/picked';
import type { EndLapPlace, ToolView } from './types';

export function findEndLap(job: Job, estimate: Estimate | null, picked: Picked): EndLapPlace | null {
  const laid = estimate?.roofs.find((one) => one.id === picked.roof);
  const roof = job.roofs[picked.roof ?? ''];
  if (!laid?.seams || !laid.layout || !roof) return null;
  const pins = roof.laying.pins ?? [];
  const standing = lapsAtPins(laid.seams, pins, laid.mmPerPoint);
  if (picked.kind === 'pin') {
    const index = Number(picked.id);
    const at = pins[index];
    if (!at) return null;
    const { cos, sin } = laid.layout.frame;
    return { roof: roof.id, at, along: alongOf(standing[index] ?? null) ?? [cos, sin], pin: index };
  }
  const lap = laid.seams.endLaps.find(({ id }) => id === picked.id);
  const along = alongOf(lap ?? null);
  if (picked.kind !== 'lap' || !lap || !along) return null;
  const [from, to] = [toPagePoint(lap.from, laid.mmPerPoint), toPagePoint(lap.to, laid.mmPerPoint)];
  const pin = standing.indexOf(lap);
  return {
    roof: roof.id,
    at: [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2],
    along,
    pin: pin < 0 ? null : pin,
  };
}

/** A course runs square to its end laps. */
function alongOf(lap: EndLap | null): PagePoint | null {
  if (!lap) return null;
  const [dx, dy] = [lap.to[0] - lap.from[0], lap.to[1] - lap.from[1]];
  const run = Math.hypot(dx, dy);
  return run === 0 ? null : [dy / run, -dx / run];
}

/** The pin that a moved lap becomes: other end laps may take over its name, so that the pin stays picked. */
export function pinOf(lap: EndLapPlace, job: Job): Picked {
  const index = lap.pin ?? job.roofs[lap.roof]?.laying.pins?.length ?? 0;
  return { kind: 'pin', id: String(index), roof: lap.roof };
}

/** The lap goes along its course only, in steps of 10 mm. */
export function pinMoved(lap: EndLapPlace, by: PagePoint, view: ToolView): readonly Command[] {
  const mmPerPoint = mmPerPointOf(view.job, view.job.roofs[lap.roof]);
  if (!mmPerPoint) return [];
  const mm = (by[0] * lap.along[0] + by[1] * lap.along[1]) * mmPerPoint;
  const steps = (Math.round(mm / STEP_MM) * STEP_MM) / mmPerPoint;
  if (steps === 0) return [];
  const at: PagePoint = [lap.at[0] + lap.along[0] * steps, lap.at[1] + lap.along[1] * steps];
  return [{ kind: 'pinEndLap', roof: lap.roof, at, instead: lap.pin }];
}

const STEP_MM = 10;
