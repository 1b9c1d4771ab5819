// In: a page's lines and notes. Out: its scale bars: rows of figures that rise evenly from nought, each over a mark of
// the bar. Promise: what is measured is the bar's own marks, not where the figures happen to stand.
import { MM_PER_FOOT } from '../units/lengths';
import { NAMED_SCALES, MM_PER_POINT } from '../units/scales';
import { plainText } from '../units/numbers';
import type { PagePoint } from '../geometry/points';
import { segmentAt } from './pageIndex';
import type { PageIndex } from './pageIndex';
import { usualRatio } from './scaleVotes';
import type { Note } from './types';

export interface ScaleBar {
  readonly ratio: number;
  /** From the mark at nought to the mark at the last figure. */
  readonly from: PagePoint;
  readonly to: PagePoint;
  readonly measured: number;
  /** mm. */
  readonly stated: number;
  readonly labels: readonly Note[];
  /** The unit is written nowhere: it was taken because the ratio is then a usual one. */
  readonly unitAssumed: boolean;
}

export function findScaleBars(index: PageIndex): ScaleBar[] {
  const figures = index.linework.notes.flatMap(figureOf);
  return figures
    .filter(({ value }) => value === 0)
    .flatMap((nought) => barFrom(index, nought, figures) ?? []);
}

interface Figure {
  readonly note: Note;
  readonly value: number;
  /** mm. */
  readonly unit: number | null;
  readonly middle: PagePoint;
}

const UNITS: Readonly<Record<string, number>> = {
  mm: 1,
  cm: 10,
  m: 1000,
  metres: 1000,
  meters: 1000,
  km: 1e6,
  "'": MM_PER_FOOT,
  ft: MM_PER_FOOT,
  feet: MM_PER_FOOT,
  '\'-0"': MM_PER_FOOT,
};

function figureOf(note: Note): Figure[] {
  const match = /^(\d+(?:[.,]\d+)?) ?(mm|cm|m|km|metres|meters|'(?:-0")?|ft|feet)?\.?$/i.exec(
    plainText(note.text),
  );
  if (!match) return [];
  const value = Number((match[1] ?? '').replace(',', '.'));
  const unit = match[2] === undefined ? null : (UNITS[match[2].toLowerCase()] ?? null);
  const [ux, uy] = direction(note);
  const middle: PagePoint = [note.at[0] + (ux * note.width) / 2, note.at[1] + (uy * note.width) / 2];
  return [{ note, value, unit, middle }];
}

/** In text heights. */
const LEVEL = 0.5;
const MARK_REACH = 1.6;
const BAND = 4;
const LEAST_FIGURES = 3;

function barFrom(index: PageIndex, nought: Figure, figures: readonly Figure[]): ScaleBar | null {
  const { note } = nought;
  const [ux, uy] = direction(note);
  const place = (point: PagePoint): readonly [number, number] => {
    const dx = point[0] - nought.middle[0];
    const dy = point[1] - nought.middle[1];
    return [dx * ux + dy * uy, dy * ux - dx * uy];
  };
  const row = figures
    .filter(
      (other) =>
        other.value > 0 &&
        Math.abs(other.note.height / note.height - 1) < 0.25 &&
        Math.abs(other.note.angle - note.angle) < 1 &&
        Math.abs(place(other.middle)[1]) < LEVEL * note.height &&
        place(other.middle)[0] > note.height,
    )
    .sort((a, b) => place(a.middle)[0] - place(b.middle)[0]);
  const rising = evenlyRising(row, (figure) => place(figure.middle)[0]);
  const last = rising.at(-1);
  if (!last || rising.length + 1 < LEAST_FIGURES) return null;
  const marks = marksNear(index, nought, place(last.middle)[0]);
  const start = nearestMark(marks, 0, note.height);
  const end = nearestMark(marks, place(last.middle)[0], note.height);
  if (start === null || end === null) return null;
  const measured = end - start;
  const written =
    [...rising].reverse().find((figure) => figure.unit !== null)?.unit ?? unitBeside(index, last, place);
  const unit = written ?? likelyUnit(last.value / measured);
  if (unit === null) return null;
  const stated = last.value * unit;
  const at = (s: number): PagePoint => [nought.middle[0] + s * ux, nought.middle[1] + s * uy];
  return {
    ratio: usualRatio(stated / measured / MM_PER_POINT),
    from: at(start),
    to: at(end),
    measured,
    stated,
    labels: [note, ...rising.map((figure) => figure.note)],
    unitAssumed: written === null,
  };
}

/** The longest start of the row whose figures stand where their values ask. */
function evenlyRising(row: readonly Figure[], placeOf: (figure: Figure) => number): Figure[] {
  for (const first of row.slice(0, 3)) {
    const step = placeOf(first) / first.value;
    const kept: Figure[] = [];
    for (const figure of row) {
      const slack = figure.unit === null ? 0.8 : 1.5;
      const due = step * figure.value;
      const rises = figure.value > (kept.at(-1)?.value ?? 0);
      const off = Math.abs(placeOf(figure) - due);
      if (rises && off < slack * figure.note.height && off < 0.1 * due) kept.push(figure);
    }
    if (kept.length + 1 >= LEAST_FIGURES) return kept;
  }
  return [];
}

/** Places along the row where lines of the bar begin, end or cross it. */
function marksNear(index: PageIndex, nought: Figure, reach: number): number[] {
  const h = nought.note.height;
  const [ux, uy] = direction(nought.note);
  const [x, y] = nought.middle;
  const corners = [-2 * h, reach + 2 * h].flatMap((s) =>
    [-BAND * h, BAND * h].map((t): PagePoint => [x + s * ux - t * uy, y + s * uy + t * ux]),
  );
  const xs = corners.map((corner) => corner[0]);
  const ys = corners.map((corner) => corner[1]);
  const marks: number[] = [];
  for (const k of index.boxes.search([Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)])) {
    const [x1, y1, x2, y2] = segmentAt(index.linework.segments, k);
    for (const [px, py] of [
      [x1, y1],
      [x2, y2],
    ] as const) {
      const s = (px - x) * ux + (py - y) * uy;
      const t = (py - y) * ux - (px - x) * uy;
      if (Math.abs(t) <= BAND * h) marks.push(s);
    }
  }
  return marks;
}

function nearestMark(marks: readonly number[], due: number, h: number): number | null {
  let best: number | null = null;
  for (const mark of marks)
    if (
      Math.abs(mark - due) < MARK_REACH * h &&
      (best === null || Math.abs(mark - due) < Math.abs(best - due))
    )
      best = mark;
  return best;
}

/** A unit that stands by itself behind the last figure. */
function unitBeside(
  index: PageIndex,
  last: Figure,
  place: (point: PagePoint) => readonly [number, number],
): number | null {
  const [from] = place(last.middle);
  for (const note of index.linework.notes) {
    const unit = UNITS[plainText(note.text).toLowerCase().replace(/\.$/, '')];
    const [s, t] = place(note.at);
    const h = last.note.height;
    if (unit !== undefined && Math.abs(t) < 2 * h && s > from && s < from + last.note.width + 4 * h)
      return unit;
  }
  return null;
}

/** Metres, or else feet, where the ratio is then one that plans are drawn at. */
function likelyUnit(valuePerPoint: number): number | null {
  for (const unit of [1000, MM_PER_FOOT]) {
    const ratio = (valuePerPoint * unit) / MM_PER_POINT;
    if (NAMED_SCALES.some((scale) => Math.abs(scale.ratio / ratio - 1) < 0.005)) return unit;
  }
  return null;
}

function direction(note: Note): PagePoint {
  const radians = (note.angle * Math.PI) / 180;
  return [Math.cos(radians), Math.sin(radians)];
}
