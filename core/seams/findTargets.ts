// In: a roof, its layout and laps. Out: the target sheets: one for each drain that some lap comes too near to. Promise:
// none where the rule is switched off or every lap keeps clear.
import { distanceToStretch } from '../geometry/ring';
import type { Roof } from '../roof/types';
import { DRAIN_CLEAR_MM } from '../sheets/keepClear';
import type { Layout } from '../sheets/types';
import type { EndLap, SideLap, TargetSheet } from './types';

/** A target sheet reaches this far past the clear distance, rounded up to the step, mm (common practice, no source). */
const BEYOND_MM = 100;
const STEP_MM = 50;

export function findTargets(
  roof: Roof,
  { spec }: Layout,
  sideLaps: readonly SideLap[],
  endLaps: readonly EndLap[],
): TargetSheet[] {
  if (spec.trade.off.includes('drain-clear')) return [];
  const drains = roof.fittings.filter(({ kind }) => kind === 'drain');
  const targets: TargetSheet[] = [];
  for (const drain of drains) {
    const clear = drain.size / 2 + (drain.clear ?? DRAIN_CLEAR_MM);
    const near = (lap: SideLap | EndLap) =>
      lap.length > 0 && distanceToStretch(drain.at, lap.from, lap.to) - reachOf(lap, spec) < clear;
    if (!sideLaps.some(near) && !endLaps.some(near)) continue;
    const side = targetSide(drain.size, drain.clear ?? DRAIN_CLEAR_MM);
    targets.push({
      id: `${spec.prefix}target ${targets.length + 1}`,
      drain: drain.id,
      at: drain.at,
      side,
      weld: 4 * side,
    });
  }
  return targets;
}

export function targetSide(bowl: number, clear: number): number {
  return Math.ceil((bowl + 2 * (clear + BEYOND_MM)) / STEP_MM) * STEP_MM;
}

/** From a lap's centre line to its edge; butted ends reach as far as their strip. */
const reachOf = (lap: SideLap | EndLap, { trade }: Layout['spec']) =>
  (lap.kind === 'end' && trade.strip !== null ? trade.strip : lap.overlap) / 2;
