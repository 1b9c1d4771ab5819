// Metres of weld, by what is joined and by who welds it.
import type { EndLap, SideLap } from '../seams/types';
import type { WeldRun } from '../welding/types';
import { m, make, say, type Measured } from './make';
import type { Quantity } from './types';

export function weldFigures({ seams, welds: runs }: Measured): Quantity[] {
  const sum = (list: readonly { readonly length: number }[]) =>
    m(list.reduce((total, lap) => total + lap.length, 0));
  const ids = (list: readonly (SideLap | EndLap)[]) => list.map((lap) => lap.id);
  const of = (kinds: readonly WeldRun['kind'][]) => runs.filter((run) => kinds.includes(run.kind));
  const by = (method: WeldRun['method']) => runs.filter((run) => run.method === method);
  const flashing = of(['flashing']);
  const detail = of(['corner', 'boot', 't-joint']);
  return [
    make(
      'weld.side',
      'Side laps',
      sum(seams.sideLaps),
      'm',
      `${seams.sideLaps.length} side laps, each as long as the roof under it`,
      ids(seams.sideLaps),
    ),
    make(
      'weld.end',
      'End laps',
      sum(seams.endLaps),
      'm',
      `${seams.endLaps.length} end laps across their sheets, clipped to the roof`,
      ids(seams.endLaps),
    ),
    make(
      'count.endLaps',
      'End laps',
      seams.endLaps.length,
      'pieces',
      'one for each joint of two pieces in a run',
      ids(seams.endLaps),
    ),
    make(
      'count.tJoints',
      'T-joints',
      seams.tJoints.length,
      'pieces',
      'where an end lap meets a side lap',
      seams.tJoints.map((t) => t.id),
    ),
    make(
      'weld.upstand',
      'Upstand welds',
      sum(flashing),
      'm',
      `${flashing.length} flashings: foot, and laps at corners and between sheets`,
      flashing.map((run) => run.seam),
    ),
    make(
      'weld.detail',
      'Detail welds',
      sum(detail),
      'm',
      `${detail.length} corners, boots and T-joint patches`,
      detail.map((run) => run.seam),
    ),
    make(
      'weld.machine',
      'Welded by machine',
      sum(by('machine')),
      'm',
      `${by('machine').length} weld runs on flat laps of at least 1.5 m`,
      by('machine').map((run) => run.seam),
    ),
    make(
      'weld.hand',
      'Welded by hand',
      sum(by('hand')),
      'm',
      `${by('hand').length} weld runs: short laps, upstands and details`,
      by('hand').map((run) => run.seam),
    ),
    make(
      'weld.total',
      'Weld',
      sum(runs),
      'm',
      `${say(sum(by('machine')))} m by machine + ${say(sum(by('hand')))} m by hand`,
      runs.map((run) => run.seam),
    ),
  ];
}
