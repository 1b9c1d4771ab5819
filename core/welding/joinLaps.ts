// In: the laps of a roof, and when each can be closed. Out: what a machine runs over in one go. Promise: every lap is in
// exactly one joined lap, and a joined lap runs along one line under one upper sheet and is closed at one time: a
// T-joint of the lower course is passed over, an end lap of the upper one stops the machine, for there the edge that it
// welds begins anew; and no lap stays open to wait for the next one's sheet.
import { distance } from '../geometry/ring';
import { IN_LINE_SINE, NOISE_MM } from '../geometry/tolerances';
import type { EndLap, SideLap } from '../seams/types';
import type { RoofPoint } from '../geometry/points';

export interface JoinedLap {
  readonly kind: 'side-lap' | 'end-lap';
  readonly seams: readonly string[];
  /** The sheets of its first lap; the later of each lap's sheets is the same. */
  readonly between: readonly [string, string];
  readonly course: number;
  readonly over: string;
  readonly from: RoofPoint;
  readonly to: RoofPoint;
  /** A strip over butted ends is welded twice along its length. */
  readonly length: number;
}

/** `laps` line by line and along each line, as `findSeams` lists them; `closedBy` names the later of a lap's sheets by
 * its place in the order of laying. */
export function joinLaps(laps: readonly SideLap[], closedBy: (lap: SideLap) => number): JoinedLap[] {
  const joined: JoinedLap[] = [];
  let group: SideLap[] = [];
  const close = () => {
    const [first] = group;
    const last = group.at(-1);
    if (!first || !last) return;
    joined.push({
      kind: 'side-lap',
      seams: group.map((lap) => lap.id),
      between: first.between,
      course: first.course,
      over: first.over,
      from: first.from,
      to: last.to,
      length: group.length === 1 ? first.length : group.reduce((sum, lap) => sum + lap.length, 0),
    });
  };
  for (const lap of laps) {
    const last = group.at(-1);
    if (
      last &&
      !(
        last.over === lap.over &&
        last.course === lap.course &&
        closedBy(last) === closedBy(lap) &&
        last.betweenBands === lap.betweenBands &&
        distance(last.to, lap.from) <= NOISE_MM &&
        (!lap.betweenBands || inLine(last, lap))
      )
    ) {
      close();
      group = [];
    }
    group.push(lap);
  }
  close();
  return joined;
}

function inLine(a: SideLap, b: SideLap): boolean {
  const turn = (a.to[0] - a.from[0]) * (b.to[1] - b.from[1]) - (a.to[1] - a.from[1]) * (b.to[0] - b.from[0]);
  return Math.abs(turn) <= IN_LINE_SINE * a.length * b.length;
}

export function endLapAlone(lap: EndLap): JoinedLap {
  return {
    kind: 'end-lap',
    seams: [lap.id],
    between: lap.between,
    course: lap.course,
    over: lap.over,
    from: lap.from,
    to: lap.to,
    length: lap.length * lap.welds,
  };
}
