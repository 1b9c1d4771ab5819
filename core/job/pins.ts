// In: a roof's results and the end laps that a person pinned on its page. Out: for each pin the lap that stands there,
// or null where it no longer applies. And which findings one layout has that another had not.
import type { PagePoint } from '../geometry/points';
import { distanceToStretch } from '../geometry/ring';
import type { EndLap, Seams } from '../seams/types';
import type { Finding } from '../verify/types';

export function lapsAtPins(
  seams: Seams,
  pins: readonly PagePoint[],
  mmPerPoint: number,
): readonly (EndLap | null)[] {
  return pins.map(([x, y]) => {
    const at = [x * mmPerPoint, y * mmPerPoint] as const;
    return seams.endLaps.find((lap) => distanceToStretch(at, lap.from, lap.to) <= PINNED_MM) ?? null;
  });
}

/** A pin lies on the grid of the roof, and its lap's centre line on the grid of its band: apart by arithmetic only. */
const PINNED_MM = 1;

/** Findings of `now` beyond as many of the same rule and words as `before` had. */
export function newFindings(before: readonly Finding[], now: readonly Finding[]): readonly Finding[] {
  const known = new Map<string, number>();
  const keyOf = ({ rule, roof, message }: Finding) => `${rule} ${roof} ${message}`;
  for (const finding of before) known.set(keyOf(finding), (known.get(keyOf(finding)) ?? 0) + 1);
  return now.filter((finding) => {
    const left = known.get(keyOf(finding)) ?? 0;
    known.set(keyOf(finding), left - 1);
    return left <= 0;
  });
}
