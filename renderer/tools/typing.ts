// What a person types over the plan: a length, or a length and an angle as `30000 < 45`.
import { parseAngle } from '../../core/units/angles';
import { mmPerPointAt } from '../../core/job/pageScale';
import { formatLength, parseLength } from '../../core/units/lengths';
import type { PagePoint } from '../../core/geometry/points';
import type { ToolView } from './types';

export type TypedSide =
  { readonly points: number; readonly angle: number | null } | { readonly fault: string };

/** A typed side in page points, by the scale where it starts; the angle is null where none was typed. */
export function readTypedSide(text: string, from: PagePoint, view: ToolView): TypedSide {
  const mmPerPoint = mmPerPointAt(view.page, from);
  if (!mmPerPoint) return { fault: 'The page has no scale yet: set it on the Plan stage first.' };
  const [lengthText = '', angleText] = text.split('<');
  const length = parseLength(lengthText, view.job.display);
  if ('fault' in length) return length;
  if (length.mm <= 0) return { fault: 'A side has a length: type more than zero.' };
  if (angleText === undefined) return { points: length.mm / mmPerPoint, angle: null };
  const angle = parseAngle(angleText);
  if ('fault' in angle) return angle;
  return { points: length.mm / mmPerPoint, angle: angle.degrees };
}

/** From `a` towards `b`, or along a typed angle. Null where there is no direction. */
export function along(
  a: PagePoint,
  b: PagePoint | null,
  side: { points: number; angle: number | null },
): PagePoint | null {
  if (side.angle !== null) {
    const turned = (side.angle * Math.PI) / 180;
    return [a[0] + side.points * Math.cos(turned), a[1] + side.points * Math.sin(turned)];
  }
  if (!b) return null;
  const run = Math.hypot(b[0] - a[0], b[1] - a[1]);
  if (run === 0) return null;
  return [a[0] + ((b[0] - a[0]) / run) * side.points, a[1] + ((b[1] - a[1]) / run) * side.points];
}

/** A distance on the page as a person reads it: on the roof by the scale at a place of it, or in points where none
 * is set. */
export function sayDistance(points: number, at: PagePoint, view: ToolView): string {
  const mmPerPoint = mmPerPointAt(view.page, at);
  return mmPerPoint !== null
    ? formatLength(points * mmPerPoint, view.job.display)
    : `${points.toFixed(1)} pt on the sheet`;
}
