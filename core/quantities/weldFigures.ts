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
  const left = m(runs.reduce((total, run) => total + run.byHand, 0));
  const machine = m(by('machine').reduce((total, run) => total + run.length - run.byHand, 0));
  const hand = sum(by('hand')) + left;
  const flashing = of(['flashing']);
  const detail = of(['corner', 'boot', 't-joint', 'target', 'slit']);
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
      sum(seams.endLaps.map((lap) => ({ length: lap.length * lap.welds }))),
      'm',
      `${seams.endLaps.length} ${seams.endLaps.some((lap) => lap.welds === 2) ? 'strips over butted ends, two welds each' : 'end laps across their sheets'}, clipped to the roof`,
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
      'count.targets',
      'Target sheets at drains',
      seams.targets.length,
      'pieces',
      'one for each drain that laps come too near to',
      seams.targets.map(({ id }) => id),
    ),
    make(
      'weld.slits',
      'Slits under strips',
      sum(seams.slits),
      'm',
      `${seams.slits.length} slits to what no sheet can be dropped over; their strips take two welds each`,
      seams.slits.map(({ id }) => id),
    ),
    make(
      'edge.cut',
      'Cut edges sealed',
      m(seams.cutEdge),
      'm',
      'cut edges of reinforced sheets that lie on top: at end laps, and of slit sheets',
      [],
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
      `${detail.length} corners, boots, T-joint patches, target sheets and slits`,
      detail.map((run) => run.seam),
    ),
    make(
      'weld.machine',
      'Welded by machine',
      machine,
      'm',
      `${by('machine').length} weld runs on flat laps, less what the machine leaves at its stops`,
      by('machine').flatMap((run) => run.seams),
    ),
    make(
      'weld.hand',
      'Welded by hand',
      hand,
      'm',
      `${by('hand').length} weld runs: short laps, upstands and details; and ${say(left)} m at the stops of machines`,
      by('hand').map((run) => run.seam),
    ),
    make(
      'weld.total',
      'Weld',
      sum(runs),
      'm',
      `${say(machine)} m by machine + ${say(hand)} m by hand`,
      runs.flatMap((run) => run.seams),
    ),
  ];
}
