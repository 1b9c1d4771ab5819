// Where a roof lies on paper: the largest scale of the trade at which it fits, and the bar that proves it.
import type { RoofPoint } from '../../core/geometry/points';
import type { RoofEstimate } from '../../core/job/result';
import type { Job } from '../../core/job/schema';
import { NAMED_SCALES } from '../../core/units/scales';
import { MM } from './canvas';
import type { PackPage, Spot } from './canvas';
import { TYPE } from './paper';

export interface Fit {
  readonly ratio: number;
  /** Points on paper per millimetre on the roof. */
  readonly scale: number;
  readonly toPaper: (point: RoofPoint) => Spot;
  readonly origin: Spot;
}

/** The largest scale of the trade at which the roof, with some air, fits the frame. */
export function fitRoof(roof: RoofEstimate, low: Spot, high: Spot, job: Job): Fit {
  return fitPlaces(roof.roof?.outline ?? [[0, 0]], low, high, job);
}

/** The same for some places of a roof. */
export function fitPlaces(corners: readonly RoofPoint[], low: Spot, high: Spot, job: Job): Fit {
  const xs = corners.map((corner) => corner[0]);
  const ys = corners.map((corner) => corner[1]);
  const [left, right] = [Math.min(...xs), Math.max(...xs)];
  const [bottom, top] = [Math.min(...ys), Math.max(...ys)];
  const air = 20 * MM;
  const fits = (ratio: number) =>
    ((right - left) * MM) / ratio <= high[0] - low[0] - air &&
    ((top - bottom) * MM) / ratio <= high[1] - low[1] - 1.3 * air;
  const scales = NAMED_SCALES.filter((named) => named.system === job.display && named.ratio >= 40);
  const largest = scales.at(-1)?.ratio ?? 2500;
  let ratio = scales.find((named) => fits(named.ratio))?.ratio ?? largest;
  while (!fits(ratio)) ratio *= 2;
  const scale = MM / ratio;
  const origin: Spot = [
    (low[0] + high[0]) / 2 - ((left + right) / 2) * scale,
    (low[1] + high[1]) / 2 + 3 * MM - ((bottom + top) / 2) * scale,
  ];
  return { ratio, scale, origin, toPaper: ([x, y]) => [origin[0] + x * scale, origin[1] + y * scale] };
}

/** Four steps of a round length, about 40 mm long in all. */
export function drawScaleBar(page: PackPage, at: Spot, ratio: number, job: Job): void {
  const unit = job.display === 'metric' ? 1000 : 304.8;
  const steps = [0.5, 1, 2, 5, 10, 20, 50, 100, 200];
  const step = steps.find((each) => (each * unit * MM) / ratio >= 8 * MM) ?? 200;
  const wide = (step * unit * MM) / ratio;
  page.box([at[0] - 4, at[1] - 6], [at[0] + 4 * wide + 44, at[1] + 13], { fill: 1, alpha: 0.9 });
  for (let k = 0; k < 4; k++)
    page.box([at[0] + k * wide, at[1]], [at[0] + (k + 1) * wide, at[1] + 3.4], {
      stroke: { width: 0.5 },
      fill: k % 2 === 0 ? 0 : 1,
    });
  for (let k = 0; k <= 4; k++) {
    const last = k === 4 ? (job.display === 'metric' ? ' m' : ' ft') : '';
    page.text([at[0] + k * wide, at[1] + 6], `${k * step}${last}`, { ...TYPE.small, align: 'middle' });
  }
}
