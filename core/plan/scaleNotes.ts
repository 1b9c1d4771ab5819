// In: a page's notes. Out: the scales that they state, and the notes that say a drawing is not to scale. Promise: a
// fall such as 1:80 is not taken for a scale.
import { NAMED_SCALES, parseScale } from '../units/scales';
import { FOR_SHEET, otherSheet, SHEET_SIZES, sidesOf } from './sheetSizes';
import type { SheetSize } from './sheetSizes';
import type { Note } from './types';

export interface ScaleNote {
  /** On this page: a note for another sheet of the series is that times what the sheet was shrunk by. */
  readonly ratio: number;
  /** As it is written. */
  readonly written: number;
  readonly note: Note;
  /** The note itself calls it a scale. */
  readonly plain: boolean;
}

export function findScaleNotes(notes: readonly Note[], sheet: SheetSize | null = null): ScaleNote[] {
  return notes.flatMap((note) => {
    const said = saidIn(note);
    const written = scaleIn(said, notes, sheet);
    if (written === null) return [];
    const other = sheet && ratiosIn(said.text).length < 2 ? otherSheet(note.text, sheet) : null;
    const ratio = other?.inSeries ? written * other.shrunk : written;
    return [{ ratio, written, note, plain: SAYS_SCALE.test(note.text) }];
  });
}

export function findNotToScale(notes: readonly Note[]): Note[] {
  return notes.filter(({ text }) => /\bn\.?\s?t\.?\s?s\b|\bnot\s+to\s+scale\b/i.test(text));
}

const EQUATION = /(?:\d+[ -])?[\d/.½¼¾⅛⅜⅝⅞]+ ?["”″]\s*[=:]\s*\d+ ?['’′](?:\s*-?\s*\d+ ?["”″])?/;
/** A figure with its thousands apart, or in one. */
const FIGURE = String.raw`\d{1,3}(?:[ .,'’]\d{3})+(?!\d)|\d+`;
const RATIO = new RegExp(
  String.raw`(?<![\d:/.])1\s*[:/]\s*(?:${FIGURE})(?![\d:/]|\s*(?:["”″]|in\b|inch))`,
  'g',
);
/** The word for it in some of the languages that plans are written in, and the M that stands for it before a ratio. */
export const SAYS_SCALE =
  /scale|ma(?:ß|ss)stab|[ée]chelle|(?<!\p{L})[ée]ch(?:\.|\b)|escala|(?<!\p{L})esc\.|\bscala|schaal|skala|målestok|mittakaava|масштаб|\bm\.? ?=? ?(?=1 ?:)/iu;
/** A drawing's title, which names its scale without saying so. */
const TITLE =
  /\b(plan|section|elevation|detail|layout|view|grundriss|dachaufsicht|schnitt|ansicht|coupe|alzado|planta|pianta)\b/i;
const FALL = /fall|slope|grade|pitch|gradient|ramp|gefälle|pente/i;
/** Beside its ratio, the sheet that it holds for: 1:50 @ A1. */
const RATIO_FOR_SHEET = new RegExp(String.raw`1\s*[:/]\s*(${FIGURE})\s*${FOR_SHEET}`, 'gi');

function scaleIn({ note, text }: Said, notes: readonly Note[], sheet: SheetSize | null): number | null {
  const equation = EQUATION.exec(text);
  if (equation) return ratioOf(equation[0].replace(':', '=').trim());
  if (FALL.test(text)) return null;
  const forSheet = ratioForSheet(text, sheet);
  if (forSheet !== null) return forSheet;
  const [pair] = ratiosIn(text);
  const ratio = pair === undefined ? null : ratioOf(pair);
  if (ratio === null) return null;
  const named = NAMED_SCALES.some((scale) => scale.ratio === ratio);
  if (SAYS_SCALE.test(text) && !/bar/i.test(text)) return ratio >= 1 ? ratio : null;
  if (!named) return null;
  const onSheet = /@|\bat a[0-4]\b|\(a[0-4]\)/i.test(text);
  return onSheet || TITLE.test(text) || labelledScale(note, notes) ? ratio : null;
}

interface Said {
  readonly note: Note;
  /** The note's, its signs and units written in one way. */
  readonly text: string;
}

function saidIn(note: Note): Said {
  const text = note.text
    .replace(/[∶÷]/g, ':')
    .replace(/(?<=[\d½¼¾⅛⅜⅝⅞]) ?(?:inch(?:es)?\b|in(?:\.|\b))(?=\s*[=:])/i, '"')
    .replace(/(?<=[=:]\s*\d+) ?(?:feet\b|foot\b|ft(?:\.|\b))/i, "'");
  return { note, text };
}

/** Thousands put together: 1:1.000 and 1:1,000 are one thousand. */
function ratiosIn(text: string): string[] {
  return [...text.matchAll(RATIO)].map(([pair]) => pair.replace(/[ .,'’](?=\d{3}(?!\d))/g, ''));
}

/** Of scales for two sheet sizes, or for the sheet and another, the one for the sheet that this page is. */
function ratioForSheet(text: string, sheet: SheetSize | null): number | null {
  const pairs = [...text.matchAll(RATIO_FOR_SHEET)];
  const ratios = ratiosIn(text);
  if (pairs.length === 0 || ratios.length < 2 || !sheet) return null;
  const [, long = 0] = sidesOf(sheet);
  const own = pairs.find(
    ([, , name = '']) => Math.abs((SHEET_SIZES[name.toUpperCase()]?.[1] ?? 0) / long - 1) < SHEET_SLACK,
  );
  if (own) return ratioOf(`1:${own[1] ?? ''}`);
  const others = pairs.map((pair) => ratioOf(`1:${pair[1] ?? ''}`));
  return pairs.length > 1 ? null : (ratios.map(ratioOf).find((ratio) => !others.includes(ratio)) ?? null);
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
