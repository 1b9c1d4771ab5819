// In: a page's notes as the file holds them. Out: notes that a person reads as one, joined: a length is often written
// in pieces, feet, dash, inches and fraction, or with its letters set apart. Promise: what stands on other base lines or further off stays apart.
import type { Note } from './types';

export function joinNotes(notes: readonly Note[]): Note[] {
  const lines = new Map<string, Spaced[]>();
  for (const note of notes.map(closedUp)) {
    const key = `${Math.round(note.angle)}:${Math.round(across(note) / Math.max(0.5 * note.height, 0.5))}`;
    lines.set(key, [...(lines.get(key) ?? []), note]);
  }
  return [...lines.values()].flatMap(joinLine);
}

interface Spaced extends Note {
  /** Its letters stand apart, so that what follows may stand further off. */
  readonly spaced?: true;
}

/** Letters set apart come with a space behind each: S C A L E. */
function closedUp(note: Note): Spaced {
  const parts = note.text.split(' ');
  if (parts.length < 2 || parts.some((part) => [...part].length > 1)) return note;
  return { ...note, text: parts.join(''), spaced: true };
}

/** In text heights: pieces of one length follow each other closely; a column of a table is further away. */
const WORD_GAP = 0.45;
const SPACED_GAP = 1.1;

function joinLine(line: readonly Spaced[]): Note[] {
  const sorted = [...line].sort((a, b) => along(a) - along(b));
  const joined: Spaced[] = [];
  for (const note of sorted) {
    const last = joined.at(-1);
    const gap = last ? along(note) - along(last) - last.width : Infinity;
    const alike = last !== undefined && Math.abs(note.height / last.height - 1) < 0.2;
    const level = last !== undefined && Math.abs(across(note) - across(last)) < 0.2 * note.height;
    const most = last?.spaced && note.spaced ? SPACED_GAP : WORD_GAP;
    if (last && alike && level && gap < most * note.height && gap > -WORD_GAP * note.height) {
      const space = gap > 0.15 * note.height ? ' ' : '';
      joined[joined.length - 1] = {
        ...last,
        text: `${last.text}${space}${note.text}`,
        width: along(note) + note.width - along(last),
      };
    } else joined.push(note);
  }
  return joined.map(({ spaced: _spaced, ...note }) => note);
}

function along({ at, angle }: Note): number {
  const radians = (angle * Math.PI) / 180;
  return at[0] * Math.cos(radians) + at[1] * Math.sin(radians);
}

function across({ at, angle }: Note): number {
  const radians = (angle * Math.PI) / 180;
  return at[1] * Math.cos(radians) - at[0] * Math.sin(radians);
}
