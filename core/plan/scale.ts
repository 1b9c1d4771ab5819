// In: linework. Out: the scales that the page states in words, best first, with the notes behind them; and a check
// of a scale against a length that a person knows. Promise: a fall such as 1:80 is not taken for a scale.
import type { PagePoint } from '../geometry/points';
import { NAMED_SCALES, parseScale } from '../units/scales';
import type { Linework, Note } from './types';

export interface ScaleEvidence {
  readonly text: string;
  readonly at: PagePoint;
}

export interface ScaleCandidate {
  readonly ratio: number;
  readonly from: 'note';
  readonly evidence: readonly ScaleEvidence[];
}

export interface ScaleReading {
  /** The note said most plainly and most often comes first. */
  readonly candidates: readonly ScaleCandidate[];
}

export function findScale(linework: Pick<Linework, 'notes'>): ScaleReading {
  const found = new Map<number, { evidence: ScaleEvidence[]; plain: number }>();
  for (const note of linework.notes) {
    const ratio = scaleIn(note, linework.notes);
    if (ratio === null) continue;
    const entry = found.get(ratio) ?? { evidence: [], plain: 0 };
    entry.evidence.push({ text: note.text, at: note.at });
    if (/scale/i.test(note.text)) entry.plain++;
    found.set(ratio, entry);
  }
  const candidates = [...found]
    .sort(([a, x], [b, y]) => y.plain - x.plain || y.evidence.length - x.evidence.length || a - b)
    .map(([ratio, { evidence }]) => ({ ratio, from: 'note' as const, evidence }));
  return { candidates };
}

export interface LengthComparison {
  /** mm on the roof between the two points, at the scale that is set. */
  readonly measured: number;
  /** Measured less stated, mm. */
  readonly offBy: number;
  /** Of the stated length. */
  readonly percent: number;
}

/** How far a scale is off on a length that is known otherwise. */
export function checkLength(check: {
  readonly mmPerPoint: number;
  readonly a: PagePoint;
  readonly b: PagePoint;
  /** mm. */
  readonly length: number;
}): LengthComparison {
  const measured = Math.hypot(check.b[0] - check.a[0], check.b[1] - check.a[1]) * check.mmPerPoint;
  const offBy = measured - check.length;
  return { measured, offBy, percent: (100 * offBy) / check.length };
}

/** Millimetres on the roof per point, from two points and the length between them; null where they are one point. */
export function scaleFromLength(a: PagePoint, b: PagePoint, lengthMm: number): number | null {
  const points = Math.hypot(b[0] - a[0], b[1] - a[1]);
  return points > 0 && lengthMm > 0 ? lengthMm / points : null;
}

const EQUATION = /[\d/. ]+["”″]\s*=\s*\d+['’′](?:\s*-?\s*\d+["”″])?/;
const RATIO = /(?<![\d:/])1\s*[:/]\s*\d[\d ,]*(?![\d:/])/;

function scaleIn(note: Note, notes: readonly Note[]): number | null {
  const equation = EQUATION.exec(note.text);
  if (equation) return ratioOf(equation[0].trim());
  const pair = RATIO.exec(note.text);
  if (!pair || /fall|slope|grade|pitch/i.test(note.text)) return null;
  const ratio = ratioOf(pair[0].trim());
  if (ratio === null || !NAMED_SCALES.some((scale) => scale.ratio === ratio)) return null;
  return /scale|@|\bat a[0-4]\b/i.test(note.text) || labelledScale(note, notes) ? ratio : null;
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
