// In: the bands of a roof with their courses and runs, and rows already cut. Out: where the end laps of each course may
// not lie: near valleys, drains and corners of openings as advice; off what other bands' laps make a corner of.
import type { RoofPoint, Span } from '../geometry/points';
import { GRID_MM } from '../geometry/tolerances';
import type { Roof } from '../roof/types';
import { steps, type CutRun } from './cutRuns';
import { toFrame, toRoof } from './frame';
import { endLapZones } from './keepClear';
import type { LaidBands } from './layBands';
import { cornersOf, lapEndsOf, onBorder, type LappedGround } from './bandCorners';
import type { Stretch } from './slide';
import type { Band, LapRules, LayoutSpec, Sheet } from './types';

export interface BandsLaid {
  readonly roof: Roof;
  readonly bands: readonly Band[];
  readonly laid: Pick<LaidBands, 'courses' | 'runs'>;
  readonly lap: LapRules;
  readonly trade: LayoutSpec['trade'];
}

/** By course, in grid steps along it. */
export type OpenZones = Map<number, Stretch[]>;

export interface LapZones {
  /** No end lap lies here. */
  readonly laps: OpenZones;
  /** None lies here where another place is to be had. */
  readonly advised: OpenZones;
}

export function zonesOf({ roof, bands, laid, lap, trade }: BandsLaid): LapZones {
  const [laps, advised]: [OpenZones, OpenZones] = [new Map(), new Map()];
  const bare =
    roof.lines.length === 0 && trade.cornerClear === 0 && roof.fittings.every(({ kind }) => kind !== 'drain');
  const frames = new Map(bands.map((band) => [band.id, band]));
  if (!bare)
    for (const course of laid.courses) {
      const { frame } = frames.get(course.band) as Band;
      addTo(advised, course.index, endLapZones(roof, frame, course, lap.endLap, trade));
    }
  // A lap that a person put down keeps its neighbours' off.
  laid.runs.forEach((run) => {
    if (!run.continues) return;
    const centre = run.span[0] + lap.endLap / 2;
    const beside: Span = [centre - lap.endLapStagger, centre + lap.endLapStagger];
    for (const index of [run.course - 1, run.course + 1]) addTo(laps, index, [beside]);
  });
  bands.forEach((band, i) => {
    if (band.kind === 'field') return;
    const after = bands.filter((other, k) => other.part === band.part && (other.kind === 'field' || k > i));
    keepOffLater(band, after, laid, lap, laps);
  });
  keepOffCorners(bands, laid, lap, laps);
  return { laps, advised };
}

function addTo(zones: OpenZones, course: number, spans: readonly Span[]): void {
  if (spans.length === 0) return;
  const list = zones.get(course) ?? [];
  for (const [from, to] of spans) list.push([Math.floor(from / GRID_MM), Math.ceil(to / GRID_MM)]);
  zones.set(course, list);
}

/** The end laps of the innermost row keep off the places where the side laps of the bands that end on it reach it. */
function keepOffLater(
  edge: Band,
  after: readonly Band[],
  { courses, runs }: BandsLaid['laid'],
  lap: LapRules,
  laps: OpenZones,
): void {
  const inner = courses.filter(({ band }) => band === edge.id).at(-1);
  if (!inner) return;
  const v = inner.low + inner.width;
  const spans = runs.filter((run) => run.course === inner.index).map((run) => run.span);
  const [u0, u1] = [Math.min(...spans.map(([a]) => a)), Math.max(...spans.map(([, b]) => b))];
  const [from, to] = [toRoof(edge.frame, [u0, v]), toRoof(edge.frame, [u1, v])];
  for (const field of after) {
    const [a, b] = [toFrame(field.frame, from), toFrame(field.frame, to)];
    for (const course of courses) {
      if (course.band !== field.id || course.lapAbove === 0) continue;
      const line = course.low + course.width - course.lapAbove / 2;
      const t = (line - a[1]) / (b[1] - a[1]);
      if (!(t > 0 && t < 1)) continue;
      const at = u0 + t * (u1 - u0);
      const clear = lap.endLapStagger + course.lapAbove / 2;
      addTo(laps, inner.index, [[at - clear, at + clear]]);
    }
  }
}

/** The end laps of a band keep off the corners of the others and the ends of their laps on its border, and off where its
 * own side laps end on them. */
function keepOffCorners(
  bands: readonly Band[],
  { courses }: BandsLaid['laid'],
  lap: LapRules,
  laps: OpenZones,
): void {
  if (bands.every(({ kind }) => kind === 'field')) return;
  const known = bands.map((band) => {
    const own = courses.filter((course) => course.band === band.id);
    const lapped = own.filter(({ lapAbove }) => lapAbove > 0);
    const levels = lapped.map(({ low, width, lapAbove }) => low + width - lapAbove / 2);
    const ground: LappedGround = { ground: band.ground, frame: band.frame, levels };
    return { band, own, corners: cornersOf(ground), ends: lapEndsOf(ground) };
  });
  for (const { band, own, ends } of known) {
    const others = known.filter((other) => other.band !== band && other.band.part === band.part);
    const met = [
      ...onBorder(
        others.flatMap(({ corners }) => corners),
        band.ground,
      ),
      ...onBorder(
        ends,
        others.flatMap((other) => other.band.ground),
      ),
    ];
    for (const corner of met) {
      const [u, v] = toFrame(band.frame, corner);
      for (const { index, low, width } of own)
        if (v > low - lap.endLap && v < low + width + lap.endLap)
          addTo(laps, index, [[u - lap.endLapStagger, u + lap.endLapStagger]]);
    }
  }
}

/** Centres of end laps along the frames of their bands, mm, by course. */
export type LapCentres = ReadonlyMap<number, readonly number[]>;

/** The end laps of other bands keep off those of the rows that they lie beside. */
export function keepOffRows(
  { bands, laid, lap }: Pick<BandsLaid, 'bands' | 'laid' | 'lap'>,
  laps: OpenZones,
  centres: LapCentres,
  keeps: (band: Band) => boolean,
): void {
  const byId = new Map(bands.map((band) => [band.id, band]));
  for (const own of laid.courses) {
    const band = byId.get(own.band) as Band;
    if (band.kind === 'field') continue;
    for (const centre of centres.get(own.index) ?? []) {
      const at: RoofPoint = toRoof(band.frame, [centre, own.low + own.width]);
      for (const other of bands) {
        if (other === band || other.part !== band.part || !keeps(other)) continue;
        const [u, v] = toFrame(other.frame, at);
        const reach = lap.endLapStagger + lap.endLap;
        for (const beside of laid.courses)
          if (beside.band === other.id && v > beside.low - reach && v < beside.low + beside.width + reach)
            addTo(laps, beside.index, [[u - lap.endLapStagger, u + lap.endLapStagger]]);
      }
    }
  }
}

export function centresOfCuts(cuts: readonly CutRun[], lap: LapRules): LapCentres {
  const centres = new Map<number, number[]>();
  for (const cut of cuts) {
    const { course } = cut.run;
    centres.set(course, [...(centres.get(course) ?? []), ...lapCentres(cut, lap)]);
  }
  return centres;
}

/** Where along its course the middles of a run's end laps lie, mm. */
export function lapCentres({ from, pieces }: CutRun, { endLap }: LapRules): number[] {
  let start = steps(from);
  return pieces.slice(0, -1).map(({ length }) => {
    start += steps(length) - steps(endLap);
    return start * GRID_MM + endLap / 2;
  });
}

/** Of sheets in the order of their runs. */
export function centresOfSheets(sheets: readonly Pick<Sheet, 'course' | 'run' | 'along'>[]): LapCentres {
  const centres = new Map<number, number[]>();
  sheets.forEach((sheet, k) => {
    const next = sheets[k + 1];
    if (next?.course !== sheet.course || next.run !== sheet.run) return;
    centres.set(sheet.course, [...(centres.get(sheet.course) ?? []), (sheet.along[1] + next.along[0]) / 2]);
  });
  return centres;
}
