// In: a page's dimensions and scale notes, and the ratio that holds for the page. Out: the parts of the page that are
// drawn at another one, each with what shows it. Promise: a part is told only where its own dimensions agree among
// themselves and the page's ratio explains none of them, or where it bears a note of its own below it.
import type { PagePoint } from '../geometry/points';
import { NAMED_SCALES } from '../units/scales';
import type { Dimension } from './dimensions';
import { middleOf } from './dimensions';
import type { PageIndex } from './pageIndex';
import { overlap } from './pageParts';
import type { PagePart, PageParts } from './pageParts';
import type { ScaleNote } from './scaleNotes';
import { AGREES, explains, voteAmong } from './scaleVotes';
import type { BareUnit, Explained } from './scaleVotes';

export interface PartScale {
  readonly ratio: number;
  readonly from: 'dimensions' | 'note';
  /** Lower left and upper right corner of the part. */
  readonly low: PagePoint;
  readonly high: PagePoint;
  readonly explained: readonly Explained[];
  readonly notes: readonly ScaleNote[];
}

interface Read {
  readonly index: PageIndex;
  readonly parts: PageParts;
  readonly dimensions: readonly Dimension[];
  readonly noted: readonly ScaleNote[];
  readonly unit: BareUnit;
  readonly best: number;
}

export function scalesOfParts(read: Read): PartScale[] {
  const { parts, dimensions, noted, best } = read;
  const byPart = new Map<PagePart, { dimensions: Dimension[]; notes: ScaleNote[] }>();
  const of = (part: PagePart) => {
    const known = byPart.get(part) ?? { dimensions: [], notes: [] };
    byPart.set(part, known);
    return known;
  };
  for (const dimension of dimensions) {
    const part = parts.at(placeOf(dimension));
    if (part) of(part).dimensions.push(dimension);
  }
  for (const note of noted) {
    const part = partAbove(note, parts);
    if (part) of(part).notes.push(note);
  }
  const found: PartScale[] = [];
  for (const [part, own] of byPart) {
    const scale = ownScale(part, own, read);
    if (scale && !sameRatio(scale.ratio, best)) found.push(scale);
  }
  return found.filter((one) => !found.some((other) => other !== one && overlap(one, other)));
}

/** Fewer dimensions than this agree by chance; two do where the ratio is a usual one, one where a note says it too. */
const ENOUGH = 3;

function ownScale(
  part: PagePart,
  own: { readonly dimensions: readonly Dimension[]; readonly notes: readonly ScaleNote[] },
  { index, unit, best }: Read,
): PartScale | null {
  const [note] = own.notes;
  const byPage = own.dimensions.filter((dimension) => explains(best, dimension, unit)).length;
  const vote = voteAmong(own.dimensions, unit);
  const agreed = vote?.explained.length ?? 0;
  const seconded = vote && own.notes.some(({ ratio }) => sameRatio(ratio, vote.ratio));
  const needed = seconded ? 1 : vote && isUsual(vote.ratio) ? ENOUGH - 1 : ENOUGH;
  if (
    vote &&
    !sameRatio(vote.ratio, best) &&
    agreed >= needed &&
    agreed > 2 * byPage &&
    2 * agreed > own.dimensions.length
  )
    return {
      ratio: vote.ratio,
      from: 'dimensions',
      ...grown(part),
      explained: vote.explained,
      notes: own.notes.filter(({ ratio }) => sameRatio(ratio, vote.ratio)),
    };
  // The note alone: nothing measured speaks for another scale.
  const named = note !== undefined && own.notes.every(({ ratio }) => sameRatio(ratio, note.ratio));
  if (named && byPage === 0 && agreed === 0 && isDrawn(part, index))
    return { ratio: note.ratio, from: 'note', ...grown(part), explained: [], notes: own.notes };
  return null;
}

/** A title block has nearly as much lettering as lines. */
const LINES_PER_NOTE = 5;

function isDrawn({ low, high }: PagePart, { boxes, linework }: PageIndex): boolean {
  const inside = ([x, y]: PagePoint): boolean => x > low[0] && x < high[0] && y > low[1] && y < high[1];
  const notes = linework.notes.filter((note) => inside(middleOf(note))).length;
  return boxes.search([low[0], low[1], high[0], high[1]]).length >= LINES_PER_NOTE * (notes + 1);
}

function isUsual(ratio: number): boolean {
  return NAMED_SCALES.some((named) => Math.abs(named.ratio / ratio - 1) < 1e-9);
}

function sameRatio(a: number, b: number): boolean {
  return Math.abs(a / b - 1) <= AGREES;
}

function placeOf({ note, stretches: [stretch] }: Dimension): PagePoint {
  if (!stretch) return middleOf(note);
  return [(stretch.from[0] + stretch.to[0]) / 2, (stretch.from[1] + stretch.to[1]) / 2];
}

/** In text heights: how far below the drawing its title stands at most. */
const BELOW = 8;
/** A part smaller than this many text heights is no drawing but a box in the title block. */
const LEAST_PART = 8;

/** The drawing whose title a scale note belongs to: the nearest one above it. */
function partAbove({ note }: ScaleNote, { parts }: PageParts): PagePart | null {
  const [x, y] = middleOf(note);
  let nearest: { readonly part: PagePart; readonly away: number } | null = null;
  for (const part of parts) {
    const { low, high } = part;
    const least = LEAST_PART * note.height;
    if (high[0] - low[0] < least || high[1] - low[1] < least) continue;
    if (x < low[0] - 2 * note.height || x > high[0] + 2 * note.height) continue;
    const away = low[1] - y;
    // A title may also stand within the lowest part of what it names.
    if (away < -0.15 * (high[1] - low[1]) || away > BELOW * note.height) continue;
    if (!nearest || Math.abs(away) < nearest.away) nearest = { part, away: Math.abs(away) };
  }
  return nearest?.part ?? null;
}

/** A little air, so that corners on the border of the drawing lie inside. */
const AIR = 3;

function grown({ low, high }: PagePart): Pick<PartScale, 'low' | 'high'> {
  return { low: [low[0] - AIR, low[1] - AIR], high: [high[0] + AIR, high[1] + AIR] };
}
