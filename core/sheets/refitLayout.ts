// In: a layout of the roof as drawn, the roof as measured, and the sheets that lie already. Out: that layout on the
// roof as measured, with what became of each sheet. Promise: a sheet that lies is not moved; every other keeps its
// label, its course, its laps and its roll as far as they hold; whatever cannot be kept is told.
import type { RoofPoint, Span } from '../geometry/points';
import { middleOf } from '../geometry/ring';
import { GRID_MM } from '../geometry/tolerances';
import type { Roof } from '../roof/types';
import { placeBands, type LaidBefore } from './bands';
import { areaBound } from './bounds';
import { onGrid } from './cutRuns';
import { toFrame } from './frame';
import { centresOfSheets, keepOffRows, zonesOf } from './offBands';
import { turnBands, type TurnedBand } from './layBands';
import { listCuts } from './listCuts';
import { slitEdges } from './makeSheets';
import { refitBand, SAME_MM, type BandFit, type Lying, type Unkept } from './refitBand';
import { refitRolls, type ToCut } from './refitRolls';
import { boundedRolls, refitSheets } from './refitSheets';
import type { Band, Course, Cut, Layout, Run, Sheet } from './types';

/** A sheet as it lies on the roof by the log. */
export interface LyingSheet {
  readonly id: string;
  readonly corners: readonly RoofPoint[];
}

export interface ChangedSheet {
  readonly sheet: string;
  /** mm; null before for a sheet that is new, and after for one that is not laid any more. */
  readonly was: number | null;
  readonly is: number | null;
}

export interface Refit {
  readonly layout: Layout;
  readonly kept: readonly string[];
  readonly changed: readonly ChangedSheet[];
  readonly unkept: readonly Unkept[];
}

/** null where the roof as measured no longer falls into the same bands; it is then laid anew. */
export function refitLayout(layout: Layout, roof: Roof, lying: readonly LyingSheet[]): Refit | null {
  const { spec, rules } = layout;
  const unkept: Unkept[] = [];
  const held = findLying(layout, lying, unkept);
  const places = placeBands(roof, spec.sideLap, laidBefore(layout, held));
  const turned = turnBands(roof, places, rules.direction, spec);
  if (turned.map(({ band }) => band.id).join() !== layout.bands.map(({ id }) => id).join()) return null;
  const bands = refitBands(layout, roof, turned, held, unkept);
  return finish(layout, roof, turned, bands, held, unkept);
}

/** The parts and rows of a layout, and where the rows are of which sheets lie. */
function laidBefore({ bands, courses, sheets }: Layout, held: Lying): LaidBefore {
  const rows = bands.filter(({ kind }) => kind !== 'field');
  const lies = ({ id }: Band) => sheets.some((sheet) => sheet.band === id && held.has(sheet.id));
  // Of one edge's rows in several parts of the roof: E3, E3b.
  const edgeOf = ({ id }: Band) => id.replace(/[a-z]$/, '');
  const count = 1 + Math.max(...bands.map(({ part }) => part));
  return {
    parts: Array.from({ length: count }, (_, part) =>
      bands.filter((band) => band.part === part).flatMap(({ ground }) => ground),
    ),
    order: [...new Set(rows.map(edgeOf))],
    lying: new Map(
      rows.filter(lies).map((band) => {
        const first = courses.find((course) => course.band === band.id) as Course;
        return [edgeOf(band), { frame: band.frame, low: first.low }];
      }),
    ),
  };
}

const isOfField = ({ kind }: Band) => kind === 'field';
const isOfRows = (band: Band) => !isOfField(band);

/** The rows along edges before the field, as when the roof was laid: the field's end laps keep off theirs. */
function refitBands(
  layout: Layout,
  roof: Roof,
  turned: readonly TurnedBand[],
  held: Lying,
  unkept: Unkept[],
): readonly BandFit[] {
  const { lap, trade } = layout.spec;
  const bands = turned.map(({ band }) => band);
  const zones = zonesOf({ roof, bands, laid: layout, lap, trade });
  const standing = new Map(centresOfSheets(layout.sheets));
  const fits = new Map<TurnedBand, BandFit>();
  for (const isNow of [isOfRows, isOfField]) {
    keepOffRows({ bands, laid: layout, lap }, zones.laps, standing, isNow);
    for (const one of turned.filter(({ band }) => isNow(band)))
      fits.set(one, refitBand(layout, one, turned.length, held, unkept, { zones, standing }));
  }
  return turned.map((one) => fits.get(one) as BandFit);
}

/** Which sheets of the layout are those that lie: the same strip, the same laps within the run. */
function findLying(layout: Layout, lying: readonly LyingSheet[], unkept: Unkept[]): Lying {
  const found = new Map<string, Span>();
  for (const { id, corners } of lying) {
    const own = layout.sheets.find((sheet) => liesAs(layout, sheet, corners));
    if (own) found.set(own.id, alongOf(layout, own, corners));
    else unkept.push({ kind: 'lies elsewhere', sheet: id, at: middleOf(corners) });
  }
  return found;
}

function liesAs(layout: Layout, sheet: Sheet, corners: readonly RoofPoint[]): boolean {
  const { frame } = layout.bands.find(({ id }) => id === sheet.band) as Layout['bands'][number];
  const vs = corners.map((corner) => toFrame(frame, corner)[1]);
  const near = (a: number, b: number) => Math.abs(a - b) < SAME_MM;
  if (!near(Math.min(...vs), sheet.across[0]) || !near(Math.max(...vs), sheet.across[1])) return false;
  const [from, to] = alongOf(layout, sheet, corners);
  const row = layout.sheets.filter(({ course, run }) => course === sheet.course && run === sheet.run);
  const first = row.every(({ along }) => along[0] >= sheet.along[0]);
  const last = row.every(({ along }) => along[1] <= sheet.along[1]);
  const overlap = Math.min(to, sheet.along[1]) - Math.max(from, sheet.along[0]);
  return (
    2 * overlap > sheet.length && (first || near(from, sheet.along[0])) && (last || near(to, sheet.along[1]))
  );
}

function alongOf(layout: Layout, { band }: Sheet, corners: readonly RoofPoint[]): Span {
  const { frame } = layout.bands.find(({ id }) => id === band) as Layout['bands'][number];
  const us = corners.map((corner) => toFrame(frame, corner)[0]);
  return [onGrid(Math.min(...us)), onGrid(Math.max(...us))];
}

function finish(
  layout: Layout,
  roof: Roof,
  turned: readonly TurnedBand[],
  fits: readonly BandFit[],
  held: Lying,
  unkept: readonly Unkept[],
): Refit {
  const { spec } = layout;
  const before = new Map(layout.sheets.map((sheet) => [sheet.id, sheet]));
  const courses = fits.flatMap((fit) => fit.courses);
  const placed = fits.flatMap(({ runs }, b) => refitSheets(layout, turned[b] as TurnedBand, runs, before));
  const { cuts, rolls } = refitRolls(
    placed.map(({ sheet, product }): ToCut => ({
      sheet: sheet.id,
      length: sheet.length,
      width: sheet.width,
      product,
      cut: before.get(sheet.id)?.cut ?? null,
      lies: held.has(sheet.id),
    })),
    layout.cutList.rolls,
    spec.prefix,
  );
  const byIndex = new Map(courses.map((course) => [course.index, course]));
  const sheets = placed.map(({ sheet }): Sheet => {
    const cut = cuts.get(sheet.id) as Cut;
    const was = held.has(sheet.id) ? before.get(sheet.id) : undefined;
    const course = byIndex.get(sheet.course) as Course;
    // Off another lane of its roll a sheet has other edges.
    const longEdges = was?.longEdges ?? slitEdges(cut.lane, course, byIndex.get(sheet.course - 1));
    return { ...sheet, longEdges, cut };
  });
  const runs = fits.flatMap((fit) =>
    fit.runs.map(({ course, span }): Run => ({ course: course.index, span })),
  );
  const used = new Set(sheets.map(({ cut }) => cut.roll));
  const last = rolls.reduce((most, { id }, k) => (used.has(id) ? k : most), 0);
  const products = boundedRolls(layout, courses, runs, rolls.slice(0, last + 1));
  const largest = products
    .map(({ roll }) => roll)
    .reduce((a, b) => (b.width * b.length > a.width * a.length ? b : a));
  return {
    layout: {
      ...layout,
      bands: turned.map(({ band }) => band),
      courses,
      runs,
      sheets,
      cutList: listCuts(sheets, products, spec.prefix, areaBound(roof.area, largest)),
      ways: [],
    },
    kept: sheets.filter(({ id }) => held.has(id)).map(({ id }) => id),
    changed: changes(layout.sheets, sheets),
    unkept,
  };
}

function changes(before: readonly Sheet[], after: readonly Sheet[]): readonly ChangedSheet[] {
  const now = new Map(after.map((sheet) => [sheet.id, sheet]));
  const was = new Map(before.map((sheet) => [sheet.id, sheet]));
  return [
    ...after.flatMap((sheet): ChangedSheet[] => {
      const old = was.get(sheet.id);
      if (old && Math.abs(old.length - sheet.length) < GRID_MM / 2) return [];
      return [{ sheet: sheet.id, was: old?.length ?? null, is: sheet.length }];
    }),
    ...before
      .filter(({ id }) => !now.has(id))
      .map((sheet): ChangedSheet => ({ sheet: sheet.id, was: sheet.length, is: null })),
  ];
}
