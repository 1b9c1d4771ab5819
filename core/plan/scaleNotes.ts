// In: a page's notes. Out: the scales that they state, and the notes that say a drawing is not to scale. Promise: a
// fall such as 1:80 is not taken for a scale.
import { NAMED_SCALES, parseScale } from '../units/scales';
import { FOR_SHEET, SHEET_SIZES } from './sheetSizes';
import type { Note } from './types';

export interface ScaleNote {
  readonly ratio: number;
  readonly note: Note;
  /** The note itself calls it a scale. */
  readonly plain: boolean;
}

export function findScaleNotes(notes: readonly Note[], sheet: SheetSize | null = null): ScaleNote[] {
  return notes.flatMap((note) => {
    const ratio = scaleIn(note, notes, sheet);
    return ratio === null ? [] : [{ ratio, note, plain: SAYS_SCALE.test(note.text) }];
  });
}

/** In points. */
export interface SheetSize {
  readonly width: number;
  readonly height: number;
}

export function findNotToScale(notes: readonly Note[]): Note[] {
  return notes.filter(({ text }) => /\bn\.?\s?t\.?\s?s\b|\bnot\s+to\s+scale\b/i.test(text));
}

const EQUATION = /(?:\d+[ -])?[\d/.½¼¾⅛⅜⅝⅞]+ ?["”″]\s*=\s*\d+ ?['’′](?:\s*-?\s*\d+ ?["”″])?/;
const RATIO = /(?<![\d:/.])1\s*[:/]\s*\d[\d ,]*(?![\d:/])/;
/** The word for it in some of the languages that plans are written in, and the M that stands for it before a ratio. */
export const SAYS_SCALE =
  /scale|ma(?:ß|ss)stab|[ée]chelle|\b[ée]ch\.|escala|\bscala|schaal|skala|målestok|mittakaava|масштаб|\bm\.? ?=? ?(?=1 ?:)/i;
/** A drawing's title, which names its scale without saying so. */
const TITLE =
  /\b(plan|section|elevation|detail|layout|view|grundriss|dachaufsicht|schnitt|ansicht|coupe|alzado|planta|pianta)\b/i;
const FALL = /fall|slope|grade|pitch|gradient|ramp|gefälle|pente/i;
/** Beside its ratio, the sheet that it holds for: 1:50 @ A1. */
const RATIO_FOR_SHEET = new RegExp(String.raw`1\s*[:/]\s*(\d[\d ,]*?)\s*${FOR_SHEET}`, 'gi');

function scaleIn(note: Note, notes: readonly Note[], sheet: SheetSize | null): number | null {
  const equation = EQUATION.exec(note.text);
  if (equation) return ratioOf(equation[0].trim());
  if (FALL.test(note.text)) return null;
  const forSheet = ratioForSheet(note.text, sheet);
  if (forSheet !== null) return forSheet;
  const pair = RATIO.exec(note.text);
  const ratio = pair && ratioOf(pair[0].trim());
  if (ratio === null) return null;
  const named = NAMED_SCALES.some((scale) => scale.ratio === ratio);
  if (SAYS_SCALE.test(note.text) && !/bar/i.test(note.text)) return ratio >= 1 ? ratio : null;
  if (!named) return null;
  const onSheet = /@|\bat a[0-4]\b|\(a[0-4]\)/i.test(note.text);
  return onSheet || TITLE.test(note.text) || labelledScale(note, notes) ? ratio : null;
}

/** Of two scales for two sheet sizes, the one for the sheet that this page is. */
function ratioForSheet(text: string, sheet: SheetSize | null): number | null {
  const pairs = [...text.matchAll(RATIO_FOR_SHEET)];
  if (pairs.length < 2 || !sheet) return null;
  const long = (Math.max(sheet.width, sheet.height) * 25.4) / 72;
  const own = pairs.find(
    ([, , name = '']) => Math.abs((SHEET_SIZES[name.toUpperCase()]?.[1] ?? 0) / long - 1) < SHEET_SLACK,
  );
  return own ? ratioOf(`1:${own[1] ?? ''}`) : null;
}

const SHEET_SLACK = 0.03;

function ratioOf(text: string): number | null {
  const parsed = parseScale(text);
  return 'ratio' in parsed ? parsed.ratio : null;
}

/** In a title block the word stands beside or above its value. */
const LABEL_REACH = 8;

function labelledScale(note: Note, notes: readonly Note[]): boolean {
  return notes.some(
    (other) =>
      /^(?:scales?\b|ma(?:ß|ss)stab|[ée]chelle|escala\b|schaal|skala|масштаб)/i.test(other.text) &&
      Math.hypot(other.at[0] - note.at[0], other.at[1] - note.at[1]) <=
        LABEL_REACH * Math.max(note.height, other.height),
  );
}
