// Between the roof and a layout's frame: u runs along the courses, v across them (u turned by +90°).
import type { FramePoint, Ring, RoofPoint } from '../geometry/points';
import type { Frame } from './types';

/** `direction` in degrees counter-clockwise from +x. Right angles come out exact. */
export function frameOf(direction: number): Frame {
  const quarter = direction / 90;
  if (Number.isInteger(quarter)) {
    const cos = [1, 0, -1, 0][((quarter % 4) + 4) % 4] as number;
    const sin = [0, 1, 0, -1][((quarter % 4) + 4) % 4] as number;
    return { direction, cos, sin };
  }
  const angle = (direction * Math.PI) / 180;
  return { direction, cos: Math.cos(angle), sin: Math.sin(angle) };
}

export function toFrame(frame: Frame, [x, y]: RoofPoint): FramePoint {
  return [x * frame.cos + y * frame.sin, y * frame.cos - x * frame.sin];
}

export function toRoof(frame: Frame, [u, v]: FramePoint): RoofPoint {
  return [u * frame.cos - v * frame.sin, u * frame.sin + v * frame.cos];
}

export function ringToFrame(frame: Frame, ring: Ring<RoofPoint>): Ring<FramePoint> {
  return ring.map((point) => toFrame(frame, point));
}

/** How much of a walk along `heading` (degrees) goes up the courses: −1 … 1. */
export function acrossShare(frame: Frame, heading: number): number {
  return Math.sin(((heading - frame.direction) * Math.PI) / 180);
}

export function alongShare(frame: Frame, heading: number): number {
  return Math.cos(((heading - frame.direction) * Math.PI) / 180);
}
