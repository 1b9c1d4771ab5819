// In: a roof, its layout, and the laps within its bands. Out: the laps of one band onto the rows along an edge, and the
// T-joints on them. Promise: the pieces on one line partition it; whatever lap reaches the line makes a T-joint there.
//
//   field     C07.1   │  C08.1   │  C09.1         Each band answers for cells, up to the centres of its laps. A line
//   ──────────────────┴──────────┴───────── line  is cut where a cell on either side changes.
//   row       E0-C02.1      │   E0-C02.2
import { chords, packRegion } from '../geometry/strips';
import type { RoofPoint, Span } from '../geometry/points';
import { distance } from '../geometry/ring';
import { lengthOfSpans, withoutSpans } from '../geometry/spans';
import { NOISE_MM } from '../geometry/tolerances';
import type { Roof } from '../roof/types';
import { waterAlong } from '../roof/water';
import { acrossShare, frameOf, ringToFrame, toFrame, toRoof } from '../sheets/frame';
import { lowStretches } from '../sheets/keepClear';
import type { Band, Frame, Layout, Sheet } from '../sheets/types';
import type { EndLap, SideLap, TJoint } from './types';

/** Beside a line, mm: far enough not to be on it. */
const BESIDE_MM = 2;
/** Beside a line, mm: past rounding to the grid, and in the band next to it though that be a strip hardly wider. */
const NEXT_TO_MM = 0.3;

interface Found {
  readonly laps: readonly SideLap[];
  readonly tJoints: readonly TJoint[];
}

export function findBandLaps(
  roof: Roof,
  layout: Layout,
  within: readonly (SideLap | EndLap)[],
  jointsBefore: number,
): Found {
  const edges = layout.bands.filter((band) => band.kind !== 'field');
  if (edges.length === 0) return { laps: [], tJoints: [] };
  const cells = new Map(layout.bands.map((band) => [band.id, cellsOf(band, layout)]));
  const lapOf = new Map(within.map((lap) => [pairKey(...lap.between), lap.id]));
  // The rows of one part of the roof are laid in their order, and before its field.
  const rank = (band: Band) => (band.kind === 'field' ? Infinity : layout.bands.indexOf(band));
  const lines = edges.flatMap((edge) =>
    linesOf(
      edge,
      layout.bands.filter((other) => other.part === edge.part && rank(other) > rank(edge)),
      layout.rules.sideLap / 2 + BESIDE_MM,
    ),
  );
  const fieldOver = fieldLiesOver(roof, layout, lines);
  const laps: SideLap[] = [];
  const tJoints: TJoint[] = [];
  const seen = new Map<string, number>();
  for (const line of lines) {
    let last: { readonly lap: SideLap; readonly row: string; readonly other: string } | null = null;
    for (const { from, to, row, other } of cutLine(line, cells)) {
      const pair = pairKey(row.id, other.id);
      const times = (seen.get(pair) ?? 0) + 1;
      seen.set(pair, times);
      const name = `${row.id}|${other.id}`;
      const otherOver = line.other.kind !== 'field' || fieldOver.get(line.edge.part) === true;
      const lap: SideLap = {
        kind: 'side',
        id: times === 1 ? name : `${name}#${times}`,
        between: [row.id, other.id],
        over: otherOver ? other.id : row.id,
        overlap: layout.rules.sideLap,
        from,
        to,
        length: distance(from, to),
        course: row.course,
        betweenBands: true,
      };
      laps.push(lap);
      if (last && distance(last.lap.to, from) <= BESIDE_MM)
        for (const [before, after] of [
          [last.row, row.id],
          [last.other, other.id],
        ] as const) {
          const crossing = before === after ? undefined : lapOf.get(pairKey(before, after));
          if (crossing)
            tJoints.push({
              id: `${layout.spec.prefix}T${jointsBefore + tJoints.length + 1}`,
              at: from,
              endLap: crossing,
              sideLap: lap.id,
            });
        }
      last = { lap, row: row.id, other: other.id };
    }
  }
  return { laps, tJoints };
}

const pairKey = (a: string, b: string) => (a < b ? `${a} ${b}` : `${b} ${a}`);

/** A stretch of the border of a row's ground with one other band beyond it. */
interface BandLine {
  readonly edge: Band;
  readonly other: Band;
  readonly from: RoofPoint;
  readonly to: RoofPoint;
  /** One step off the line, out of the row's ground. */
  readonly out: RoofPoint;
}

/** `least` leaves out the step of half a lap where a row that runs through is drawn in past a corner. */
function linesOf(edge: Band, others: readonly Band[], least: number): BandLine[] {
  const lines: BandLine[] = [];
  for (const ring of edge.ground)
    ring.forEach((a, i) => {
      const b = ring[(i + 1) % ring.length] as RoofPoint;
      const length = distance(a, b);
      if (length <= least) return;
      const frame = frameOf((Math.atan2(b[1] - a[1], b[0] - a[0]) * 180) / Math.PI);
      const [u0, v] = toFrame(frame, a);
      // The ground lies to the left of its border.
      for (const other of others) {
        const region = packRegion(other.ground.map((r) => ringToFrame(frame, r)));
        for (const [from, to] of chords(region, Float64Array.of(v - NEXT_TO_MM))[0] ?? []) {
          const [p, q] = [Math.max(from, u0), Math.min(to, u0 + length)];
          if (q - p > BESIDE_MM)
            lines.push({
              edge,
              other,
              from: toRoof(frame, [p, v]),
              to: toRoof(frame, [q, v]),
              out: [frame.sin * BESIDE_MM, -frame.cos * BESIDE_MM],
            });
        }
      }
    });
  return lines;
}

/** For each part of the roof whether its field lies over the rows: the way in which no lap faces the water beside a drain
 * or a valley, and where that does not tell, unless the water runs out of the rows into it. */
function fieldLiesOver(roof: Roof, layout: Layout, lines: readonly BandLine[]): Map<number, boolean> {
  const flows = new Map<number, Flows>();
  const sheds = !layout.spec.trade.off.includes('sheds-water');
  for (const line of lines) {
    if (line.other.kind !== 'field') continue;
    const before = flows.get(line.edge.part) ?? NO_FLOW;
    flows.set(line.edge.part, sheds ? added(before, flowsAcross(roof, line)) : before);
  }
  return new Map(
    [...flows].map(([part, { out, lowOut, lowIn }]) => {
      const [outBesideLow, inBesideLow] = [lowOut > LOW_MM, lowIn > LOW_MM];
      return [part, outBesideLow === inBesideLow ? !(out > NOISE_MM) : inBesideLow];
    }),
  );
}

/** Across laps of a field onto rows, mm of lap times the share of the fall: what runs out of the rows less what runs into
 * them, and either of these beside drains and valleys. */
interface Flows {
  readonly out: number;
  readonly lowOut: number;
  readonly lowIn: number;
}

const NO_FLOW: Flows = { out: 0, lowOut: 0, lowIn: 0 };

/** Less than this beside a drain or a valley is no water that runs across a lap there, mm. */
const LOW_MM = 1;

const added = (a: Flows, b: Flows): Flows => ({
  out: a.out + b.out,
  lowOut: a.lowOut + b.lowOut,
  lowIn: a.lowIn + b.lowIn,
});

function flowsAcross(roof: Roof, { from, to }: BandLine): Flows {
  // The row's ground lies to the left: up the frame the water runs into it.
  const frame = frameOf((Math.atan2(to[1] - from[1], to[0] - from[0]) * 180) / Math.PI);
  const flat = (point: RoofPoint) => toFrame(frame, point);
  const [[u0, v], [u1]] = [flat(from), flat(to)];
  const low = lowStretches(roof, frame, v);
  const [stretches] = waterAlong(roof, flat, Float64Array.of(v), [[[u0, u1]]]);
  return (stretches ?? []).reduce((sum, { span, downhill }) => {
    const share = acrossShare(frame, downhill);
    const length = span[1] - span[0];
    const besideLow = (length - lengthOfSpans(withoutSpans([span], low))) * Math.abs(share);
    return added(sum, {
      out: -length * share,
      lowOut: share < 0 ? besideLow : 0,
      lowIn: share > 0 ? besideLow : 0,
    });
  }, NO_FLOW);
}

interface Cells {
  readonly frame: Frame;
  /** Levels between courses, and each course's sheets with the stretch that each answers for. */
  readonly rows: readonly {
    readonly v: Span;
    readonly sheets: readonly { readonly sheet: Sheet; readonly u: Span }[];
  }[];
}

function cellsOf(band: Band, { courses, sheets }: Layout): Cells {
  const own = courses.filter((course) => course.band === band.id);
  return {
    frame: band.frame,
    rows: own.map((course, i) => {
      const below = own[i - 1];
      const row = sheets.filter((sheet) => sheet.course === course.index);
      return {
        v: [
          below ? course.low + below.lapAbove / 2 : -Infinity,
          i + 1 < own.length ? course.low + course.width - course.lapAbove / 2 : Infinity,
        ],
        sheets: row.map((sheet, k) => {
          const [before, after] = [row[k - 1], row[k + 1]];
          return {
            sheet,
            u: [
              before?.run === sheet.run ? (before.along[1] + sheet.along[0]) / 2 : -Infinity,
              after?.run === sheet.run ? (after.along[0] + sheet.along[1]) / 2 : Infinity,
            ],
          };
        }),
      };
    }),
  };
}

/** The stretches of a line on which neither neighbour changes. */
function cutLine(
  { edge, other, from, to, out }: BandLine,
  cells: ReadonlyMap<string, Cells>,
): { from: RoofPoint; to: RoofPoint; row: Sheet; other: Sheet }[] {
  const [own, beyond] = [cells.get(edge.id) as Cells, cells.get(other.id) as Cells];
  const outside = (point: RoofPoint): RoofPoint => [point[0] + out[0], point[1] + out[1]];
  const inside = (point: RoofPoint): RoofPoint => [point[0] - out[0], point[1] - out[1]];
  const stops = [
    0,
    ...changes(own, inside(from), inside(to)),
    ...changes(beyond, outside(from), outside(to)),
    1,
  ].sort((a, b) => a - b);
  const at = (t: number): RoofPoint => [from[0] + (to[0] - from[0]) * t, from[1] + (to[1] - from[1]) * t];
  const pieces: { from: RoofPoint; to: RoofPoint; row: Sheet; other: Sheet }[] = [];
  for (let k = 0; k + 1 < stops.length; k++) {
    const [a, b] = [stops[k] as number, stops[k + 1] as number];
    if ((b - a) * distance(from, to) <= NOISE_MM) continue;
    const middle = at((a + b) / 2);
    const row = ownerOf(own, inside(middle));
    const next = ownerOf(beyond, outside(middle));
    if (row && next) pieces.push({ from: at(a), to: at(b), row, other: next });
  }
  return pieces;
}

/** Where along a stretch the cell changes, as shares of it. */
function changes({ frame, rows }: Cells, from: RoofPoint, to: RoofPoint): number[] {
  const [a, b] = [toFrame(frame, from), toFrame(frame, to)];
  const found: number[] = [];
  const add = (value: number, p: number, q: number) => {
    const t = (value - p) / (q - p);
    if (Number.isFinite(t) && t > 0 && t < 1) found.push(t);
  };
  for (const row of rows) {
    for (const v of row.v) add(v, a[1], b[1]);
    const reached = Math.min(a[1], b[1]) <= row.v[1] && Math.max(a[1], b[1]) >= row.v[0];
    if (reached)
      for (const { sheet, u } of row.sheets) for (const end of [...u, ...sheet.along]) add(end, a[0], b[0]);
  }
  return found;
}

function ownerOf({ frame, rows }: Cells, point: RoofPoint): Sheet | undefined {
  const [u, v] = toFrame(frame, point);
  const row = rows.find((r) => v >= r.v[0] && v <= r.v[1]);
  return row?.sheets.find(
    ({ sheet, u: [from, to] }) => u >= Math.max(from, sheet.along[0]) && u <= Math.min(to, sheet.along[1]),
  )?.sheet;
}
