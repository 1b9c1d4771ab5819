// Law: the verifier holds nothing against layouts of every kind of roof with the rules of the trade on, but what the
// roof itself leaves no way out of; and that is shown, case by case, from the roof's own geometry.
import { describe, expect, it } from 'vitest';
import { placeFasteners } from '../../../core/fastening/placeFasteners';
import type { RoofPoint } from '../../../core/geometry/points';
import type { Roof, RoofLine } from '../../../core/roof/types';
import { waterAt } from '../../../core/roof/water';
import { findSeams } from '../../../core/seams/findSeams';
import type { EndLap, Seams, SideLap } from '../../../core/seams/types';
import { layRoof } from '../../../core/sheets/layRoof';
import type { Layout } from '../../../core/sheets/types';
import type { Finding } from '../../../core/verify/types';
import { verifyLayout } from '../../../core/verify/verifyLayout';
import { DEEP } from '../../support/deep';
import { tradeCase } from '../../support/trade';

const CASES = DEEP ? 10_000 : 500;

/** Seeds that once failed, and with what. */
const ONCE_WRONG = [
  // Laps between rows, and rows' corners, ended on the field in one spot with its own laps.
  9075, 14177,
  // Laps of rows faced the water beside a drain, where the other way round none would.
  3052, 8465,
  // Rows of two edges left a strip of 1.5 mm between them, and were lapped across it as if it were not there.
  8275,
  // An expansion joint stopped at a ring without area that growing the roof had left.
  8827,
];

const SEEDS = [
  ...Array.from({ length: CASES }, (_, k) => k + 1),
  ...ONCE_WRONG.filter((seed) => seed > CASES),
];

describe(`on ${CASES} generated roofs of every kind, with the rules of the trade`, () => {
  it(
    'nothing of severity error is held against the layout but what the roof leaves no way out of',
    () => {
      const kinds = new Set<string>();
      const wrong: string[] = [];
      for (const seed of SEEDS) {
        const { kind, roof, spec } = tradeCase(seed);
        const laid = layRoof(roof, spec);
        if ('faults' in laid) throw new Error(`seed ${seed}: ${laid.faults[0]?.message}`);
        const seams = findSeams(roof, laid.layout);
        const spacing = { inLap: 300, atEdge: 300 };
        const fastening = placeFasteners(roof, laid.layout, seams, spacing);
        for (const finding of verifyLayout(roof, laid.layout, seams, fastening, spacing))
          if (finding.severity === 'error' && !unavoidable(finding, roof, laid.layout, seams))
            wrong.push(`seed ${seed}, ${kind}: ${finding.rule}: ${finding.message}`);
        kinds.add(kind);
      }
      expect(wrong).toEqual([]);
      expect(kinds.size).toBe(8);
    },
    DEEP ? 3_600_000 : 300_000,
  );
});

function unavoidable({ rule, ids }: Finding, roof: Roof, layout: Layout, seams: Seams): boolean {
  // A nook narrower than the rows of the edges round it.
  if (rule === 'four-sheets')
    return (
      new Set(ids.map((id) => /^E\d+/.exec(id)?.[0] ?? id)).size === ids.length &&
      ids.every((id) => id.startsWith('E'))
    );
  const lap = [...seams.sideLaps, ...seams.endLaps].find(({ id }) => id === ids[0]);
  if (!lap) return false;
  if (rule === 'lap-faces-water-low') return lapsTheBetterWay(lap, roof, layout, seams);
  if (rule === 'lap-in-valley') {
    const valley = roof.lines.find(({ id }) => id === ids[1]) as RoofLine;
    // Rows along an edge lie where the person asked for them.
    if (lap.kind === 'end') return !canKeepOff(valley, lap, layout);
    // A valley at a slight angle that takes up more than one course can hold always meets a lap.
    const { frame, spec } = layout;
    const across = Math.abs(
      (valley.to[1] - valley.from[1]) * frame.cos - (valley.to[0] - valley.from[0]) * frame.sin,
    );
    return lap.id.includes('E') || across + 2 * 300 > spec.roll.width - 2 * spec.sideLap;
  }
  return false;
}

/** Whether the lap's run can be cut with every end lap 300 mm off the valley: the longest piece each time, up to the
 * last place that is clear. Tried every 50 mm; where only neighbouring end laps forbid it that is not seen. */
function canKeepOff(valley: RoofLine, lap: EndLap, layout: Layout): boolean {
  const sheet = layout.sheets.find(({ id }) => id === lap.between[0]);
  const pieces = layout.sheets.filter((other) => other.course === sheet?.course && other.run === sheet?.run);
  const frame = layout.bands.find(({ id }) => id === sheet?.band)?.frame;
  if (!sheet || !frame) return true;
  const [start, end] = [
    Math.min(...pieces.map(({ along }) => along[0])),
    Math.max(...pieces.map(({ along }) => along[1])),
  ];
  const flat = ([x, y]: RoofPoint) => [x * frame.cos + y * frame.sin, y * frame.cos - x * frame.sin] as const;
  const [a, b] = [flat(valley.from), flat(valley.to)];
  const { length: roll } = layout.spec.roll;
  const { endLap, minPiece } = layout.spec.lap;
  const clear = (u: number) =>
    Array.from({ length: 401 }, (_, i) => i / 400).every((t) => {
      const [pu, pv] = [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t];
      const dv = Math.max(0, sheet.across[0] - pv, pv - sheet.across[1]);
      return Math.hypot(pu - u, dv) >= 300 + endLap / 2;
    });
  for (let from = start; end - from > roll;) {
    let u = Math.min(from + roll - endLap / 2, end - minPiece);
    while (u > from + minPiece && !clear(u)) u -= 50;
    if (u <= from + minPiece) return false;
    from = u - endLap / 2;
  }
  return true;
}

/** All laps between the same two courses go the same way; of the two ways the one with less water against it. Within
 * a piece of an end lap the water at its middle decides. */
function lapsTheBetterWay(lap: SideLap | EndLap, roof: Roof, layout: Layout, seams: Seams): boolean {
  if (lap.kind === 'end') {
    // It faces the water only where planes meet across it: at its middle it does not.
    return against(lap, roof, layout) <= 0;
  }
  const line = seams.sideLaps.filter((other) =>
    lap.betweenBands
      ? other.betweenBands &&
        (other.id.includes('|C') || other.id.includes('|F')) ===
          (lap.id.includes('|C') || lap.id.includes('|F'))
      : !other.betweenBands &&
        (layout.spec.trade.strip !== null
          ? bandOf(other, layout) === bandOf(lap, layout)
          : other.course === lap.course),
  );
  if (lap.betweenBands && !lap.id.includes('|C') && !lap.id.includes('|F')) return true;
  return line.reduce((sum, other) => sum + against(other, roof, layout), 0) <= 1;
}

const bandOf = (lap: SideLap | EndLap, layout: Layout) =>
  layout.courses.find(({ index }) => index === lap.course)?.band;

/** Metres of lap that face the water less those that shed it, weighed by the slope across the lap. */
function against(lap: SideLap | EndLap, roof: Roof, layout: Layout): number {
  // Of a lap between bands only the row, the first, is sure to lie on its own side of the line.
  const seen = lap.kind === 'side' && lap.betweenBands ? lap.between[0] : lap.over;
  const over = layout.sheets.find(({ id }) => id === seen);
  if (!over || lap.length === 0) return 0;
  const length = Math.hypot(lap.to[0] - lap.from[0], lap.to[1] - lap.from[1]);
  const normal: RoofPoint = [-(lap.to[1] - lap.from[1]) / length, (lap.to[0] - lap.from[0]) / length];
  const middle: RoofPoint = [(lap.from[0] + lap.to[0]) / 2, (lap.from[1] + lap.to[1]) / 2];
  const centre = over.corners.reduce<[number, number]>(
    (sum, [x, y]) => [sum[0] + x / 4, sum[1] + y / 4],
    [0, 0],
  );
  const side =
    (seen === lap.over ? 1 : -1) *
    Math.sign((centre[0] - middle[0]) * normal[0] + (centre[1] - middle[1]) * normal[1]);
  const places = lap.kind === 'end' ? [0.5] : Array.from({ length: 200 }, (_, i) => (i + 0.5) / 200);
  let sum = 0;
  for (const t of places) {
    const place: RoofPoint = [
      lap.from[0] + (lap.to[0] - lap.from[0]) * t,
      lap.from[1] + (lap.to[1] - lap.from[1]) * t,
    ];
    const water = waterAt(roof, place);
    if (water === null) continue;
    const angle = (water * Math.PI) / 180;
    // Water that runs towards the over sheet runs into the lap.
    sum += (Math.cos(angle) * normal[0] + Math.sin(angle) * normal[1]) * side * (lap.length / places.length);
  }
  return sum;
}
