// In: a page's notes. Out: the scales that they state, and the notes that say a drawing is not to scale. Promise: a
// fall such as 1:80 is not taken for a scale.
import { NAMED_SCALES, parseScale } from '../units/scales';
import type { Note } from './types';

export interface ScaleNote {
  readonly ratio: number;
  readonly note: Note;
  /** The note itself calls it a scale. */
  readonly plain: boolean;
}

export function findScaleNotes(notes: readonly Note[]): ScaleNote[] {
  return notes.flatMap((note) => {
    const ratio = scaleIn(note, notes);
    return ratio === null ? [] : [{ ratio, note, plain: /scale/i.test(note.text) }];
  });
}

export function findNotToScale(notes: readonly Note[]): Note[] {
  return notes.filter(({ text }) => /\bn\.?\s?t\.?\s?s\b|\bnot\s+to\s+scale\b/i.test(text));
}

const EQUATION = /(?:\d+[ -])?[\d/.½¼¾⅛⅜⅝⅞]+ ?["”″]\s*=\s*\d+ ?['’′](?:\s*-?\s*\d+ ?["”″])?/;
const RATIO = /(?<![\d:/.])1\s*[:/]\s*\d[\d ,]*(?![\d:/])/;

function scaleIn(note: Note, notes: readonly Note[]): number | null {
  const equation = EQUATION.exec(note.text);
  if (equation) return ratioOf(equation[0].trim());
  const pair = RATIO.exec(note.text);
  if (!pair || /fall|slope|grade|pitch|gradient|ramp/i.test(note.text)) return null;
  const ratio = ratioOf(pair[0].trim());
  if (ratio === null) return null;
  const named = NAMED_SCALES.some((scale) => scale.ratio === ratio);
  if (/scale/i.test(note.text) && !/bar/i.test(note.text)) return ratio >= 1 ? ratio : null;
  return named && (/@|\bat a[0-4]\b/i.test(note.text) || labelledScale(note, notes)) ? ratio : null;
}

function ratioOf(text: string): number | null {
  const parsed = parseScale(text);
  return 'ratio' in parsed ? parsed.ratio : null;
}

/** In a title block the word stands beside or above its value. */
const LABEL_REACH = 8;

function labelledScale(note: Note, notes: readonly Note[]): boolean {
  return notes.some(
    (other) =>
      /^scales?\b/i.test(other.text) &&
      Math.hypot(other.at[0] - note.at[0], other.at[1] - note.at[1]) <=
        LABEL_REACH * Math.max(note.height, other.height),
  );
}
