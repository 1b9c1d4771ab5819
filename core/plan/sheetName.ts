// In: a page's notes. Out: the sheet's number and title as its title block gives them, or nothing. Promise: what a
// label names comes before what merely looks like a number; without either no name is made up.
import type { Note } from './types';

export function sheetName(page: {
  readonly width: number;
  readonly height: number;
  readonly notes: readonly Note[];
}): string | null {
  // A title block stands along the right edge or the foot of the sheet, read the way the sheet is or turned with it.
  const block = page.notes.filter(({ at }) => at[0] > RIGHT * page.width || at[1] < FOOT * page.height);
  const number = under(block, NUMBER_LABEL, NUMBER) ?? loneNumber(block, page);
  const title = under(block, TITLE_LABEL, /\p{L}{3}/u);
  const parts = [number, title].filter((part) => part !== null);
  return parts.length === 0 ? null : parts.join(' ').slice(0, LONGEST);
}

const RIGHT = 0.7;
const FOOT = 0.22;
const LONGEST = 60;
const NUMBER_LABEL = /^(sheet|drawing|dwg|plan)\s*(no\.?|num(ber)?\.?|nr\.?|#|id)?\s*:?$/i;
const TITLE_LABEL = /^((drawing|sheet|dwg)\s*)?(title|name|drawing|content)\s*:?$/i;
/** Letters and digits in groups, such as A-101 or GS-A-120; digits in it, and no size, date or scale. */
const NUMBER = /^(?=.*\d)(?!A[0-5]$)(?!\d{4}-\d\d-\d\d$)[A-Z0-9]{1,8}([-._/ ][A-Z0-9]{1,8}){0,5}$/i;
const LONE_NUMBER = /^(?!A[0-5]$)[A-Z]{1,3}([-. ]?[A-Z]{1,3})?[-. ]?\d{2,4}([-.]\d{1,3})?$/;

/** The value that stands below a label, or beside it. */
function under(notes: readonly Note[], label: RegExp, value: RegExp): string | null {
  for (const named of notes) {
    if (!label.test(named.text.trim())) continue;
    const near = notes
      .filter((note) => note !== named && value.test(note.text.trim()) && !isLabel(note.text))
      .map((note) => ({ note, ...placeFrom(named, note) }))
      .filter(({ along, down }) => {
        const below = down > 0.5 && down < 6 && Math.abs(along) < 3;
        const beside = Math.abs(down) < 1 && along > 0 && along < 30;
        return below || beside;
      })
      .sort((a, b) => Math.hypot(a.along, a.down) - Math.hypot(b.along, b.down));
    const [first] = near;
    if (first) return first.note.text.trim();
  }
  return null;
}

function isLabel(text: string): boolean {
  return NUMBER_LABEL.test(text.trim()) || TITLE_LABEL.test(text.trim());
}

/** In label heights, along the label's own direction and below it. */
function placeFrom(label: Note, note: Note): { readonly along: number; readonly down: number } {
  const turned = (label.angle * Math.PI) / 180;
  const dx = (note.at[0] - label.at[0]) / label.height;
  const dy = (note.at[1] - label.at[1]) / label.height;
  return {
    along: dx * Math.cos(turned) + dy * Math.sin(turned),
    down: dx * Math.sin(turned) - dy * Math.cos(turned),
  };
}

/** The largest of what looks like a sheet number in the lower right corner. */
function loneNumber(
  notes: readonly Note[],
  { width, height }: { readonly width: number; readonly height: number },
): string | null {
  const corner = notes.filter(
    ({ at, text }) => at[0] > RIGHT * width && at[1] < FOOT * height && LONE_NUMBER.test(text.trim()),
  );
  const [largest] = [...corner].sort((a, b) => b.height - a.height || b.at[0] - a.at[0]);
  return largest ? largest.text.trim() : null;
}
