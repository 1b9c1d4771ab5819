// In: what was read of a page's scales. Out: what does not agree, in words, each with its place. A plan printed at the
// wrong size is the classic loss: the note still says what it said.
import type { PagePoint } from '../geometry/points';
import { formatScale } from '../units/scales';
import type { Dimension } from './dimensions';
import type { ScaleBar } from './scaleBars';
import { findNotToScale } from './scaleNotes';
import type { ScaleNote } from './scaleNotes';
import type { PartScale } from './scaleRegions';
import { AGREES } from './scaleVotes';
import type { Explained, Vote, Votes } from './scaleVotes';
import { otherSheet, sidesOf } from './sheetSizes';
import type { Linework } from './types';

export interface ScaleWarning {
  readonly kind:
    | 'not-to-scale'
    | 'note-disagrees'
    | 'bar-disagrees'
    | 'axes-differ'
    | 'several-scales'
    | 'sheet-size'
    | 'unit-assumed'
    | 'nothing-to-prove-it'
    | 'nothing-to-read';
  readonly message: string;
  readonly at: PagePoint | null;
}

interface Read {
  readonly linework: Linework;
  readonly noted: readonly ScaleNote[];
  readonly bars: readonly ScaleBar[];
  readonly dimensions: readonly Dimension[];
  readonly votes: Votes;
  readonly best: number | null;
  readonly parts: readonly PartScale[];
}

export function warningsOf(read: Read): ScaleWarning[] {
  return [
    ...disagreements(read),
    ...axes(read),
    ...severalScales(read),
    ...sheetSizes(read),
    ...findNotToScale(read.linework.notes).map((note) => ({
      kind: 'not-to-scale' as const,
      message: `“${note.text}”: a part of this sheet is not to scale; do not measure there`,
      at: note.at,
    })),
    ...assumedUnits(read),
    ...unproved(read),
    ...nothingRead(read),
  ];
}

function disagreements({ noted: all, bars, dimensions, votes, best, parts }: Read): ScaleWarning[] {
  const proved = votes.votes.filter(({ explained }) => explained.length >= 2);
  if (best === null) return [];
  const noted = all.filter((note) => !parts.some((part) => part.notes.includes(note)));
  const known = proved.length > 0 ? proved.map(({ ratio }) => ratio) : bars.map(({ ratio }) => ratio);
  if (known.length === 0) return [];
  const by =
    proved.length > 0
      ? `${proved[0]?.explained.length ?? 0} of ${dimensions.length} dimensions measure ${say(best)}`
      : `the scale bar measures ${say(best)}`;
  const off = (ratio: number): boolean => known.every((other) => Math.abs(ratio / other - 1) > AGREES);
  return [
    ...noted
      .filter(({ ratio }, k) => off(ratio) && noted.findIndex((one) => one.ratio === ratio) === k)
      .map(({ ratio, written, note }) => ({
        kind: 'note-disagrees' as const,
        message: `“${note.text.trim()}” says ${say(ratio)}${ratio === written ? '' : ' on a page of this size'}, but ${by}. The sheet may have been printed at another size`,
        at: note.at,
      })),
    ...bars
      .filter(({ ratio }) => proved.length > 0 && off(ratio))
      .map((bar) => ({
        kind: 'bar-disagrees' as const,
        message: `The scale bar measures ${say(bar.ratio)}, but ${by}`,
        at: bar.from,
      })),
  ];
}

/** In text: horizontal and upright dimensions apart, each needing this many to be heard. */
const HEARD = 2;
const AXES_DIFFER = 0.004;

function axes({ votes }: Read): ScaleWarning[] {
  const all = votes.votes.slice(0, 2).flatMap(({ explained }) => explained);
  const along = (one: Explained, axis: 0 | 1): boolean => {
    const { from, to, length } = one.stretch;
    return Math.abs(to[axis] - from[axis]) > 0.99 * length;
  };
  const across = all.filter((one) => along(one, 0));
  const up = all.filter((one) => along(one, 1));
  if (across.length < HEARD || up.length < HEARD) return [];
  const first = { across: exactRatio(across), up: exactRatio(up) };
  const apart = Math.abs(first.across / first.up - 1);
  // Each direction must agree within itself; else these are two details and no stretched page.
  const steady = [across, up].every((list) => spread(list) < AXES_DIFFER);
  if (!(apart > AXES_DIFFER) || !steady) return [];
  return [
    {
      kind: 'axes-differ',
      message: `The page is stretched: ${say(first.across)} across and ${say(first.up)} up the page. Set the scale in both directions`,
      at: null,
    },
  ];
}

function exactRatio(list: readonly Explained[]): number {
  const ratios = list.map(ratioOf).sort((a, b) => a - b);
  return ratios[Math.floor(ratios.length / 2)] ?? 0;
}

function spread(list: readonly Explained[]): number {
  const ratios = list.map(ratioOf);
  return Math.max(...ratios) / Math.min(...ratios) - 1;
}

function ratioOf({ stated, stretch }: Explained): number {
  return (stated / stretch.length / 25.4) * 72;
}

function severalScales({ votes, noted, parts, best }: Read): ScaleWarning[] {
  if (parts.length > 0)
    return parts.map(({ ratio, from, low, high, explained }) => ({
      kind: 'several-scales' as const,
      message: `A part of the sheet is drawn at ${say(ratio)}, by ${from === 'note' ? 'its own note' : counted(explained.length)}, and not at ${say(best ?? ratio)}: give it a region of its own`,
      at: [(low[0] + high[0]) / 2, (low[1] + high[1]) / 2],
    }));
  const voted = votes.votes.filter(({ explained }) => explained.length >= 3);
  const [first, ...others] = voted;
  const noteRatios = [...new Set(noted.map(({ ratio }) => ratio))];
  const measured = others.map((vote) => ({
    kind: 'several-scales' as const,
    message: `Another part of the sheet is drawn at ${say(vote.ratio)} (${vote.explained.length} dimensions): set a scale for the part that you measure`,
    at: placeOf(vote),
  }));
  if (measured.length > 0 || noteRatios.length < 2) return measured;
  return noted
    .filter(({ ratio }) => ratio !== (first?.ratio ?? noteRatios[0]))
    .slice(0, 1)
    .map(({ note }) => ({
      kind: 'several-scales' as const,
      message: `The sheet names several scales (${noteRatios.map(say).join(', ')}): check which one holds for the part that you measure`,
      at: note.at,
    }));
}

function counted(dimensions: number): string {
  return dimensions === 1 ? 'one dimension' : `${dimensions} dimensions`;
}

function placeOf({ explained }: Vote): PagePoint | null {
  return explained[0]?.dimension.note.at ?? null;
}

/** “1:100 @ A1” on a page that is another sheet: the scale is that times what the sheet was shrunk by. */
function sheetSizes({ noted, linework }: Read): ScaleWarning[] {
  const [short = 0, long = 0] = sidesOf(linework);
  return noted.slice(0, 4).flatMap(({ note, written }) => {
    const other = otherSheet(note.text, linework);
    if (!other) return [];
    return [
      {
        kind: 'sheet-size' as const,
        message: `“${note.text.trim()}” holds for ${other.name}, but the page is ${Math.round(long)} × ${Math.round(short)} mm: on it the scale is ${say(written * other.shrunk)}`,
        at: note.at,
      },
    ];
  });
}

function assumedUnits(read: Read): ScaleWarning[] {
  const { votes } = read;
  if (!votes.unitAssumed || votes.votes.length === 0) return [];
  return [
    {
      kind: 'unit-assumed',
      message: `No note names the unit of the dimensions: they were taken as ${takenAs(read)}`,
      at: null,
    },
  ];
}

/** Whole numbers and decimals may stand for different units. */
function takenAs({ dimensions, votes: { unit } }: Read): string {
  const has = (kind: 'whole' | 'decimal'): boolean => dimensions.some(({ states }) => states.kind === kind);
  const decimals = unit.decimal === unit.whole ? unit.name : 'metres';
  if (!has('decimal') || decimals === unit.name) return unit.name;
  return has('whole') ? `${unit.name}, those with decimals as ${decimals}` : decimals;
}

function unproved({ dimensions, noted, bars }: Read): ScaleWarning[] {
  if (dimensions.length > 0 || bars.length > 0 || noted.length === 0) return [];
  return [
    {
      kind: 'nothing-to-prove-it',
      message: 'No dimension on this sheet could be read, so nothing proves the note: check a known length',
      at: noted[0]?.note.at ?? null,
    },
  ];
}

function nothingRead({ linework, best }: Read): ScaleWarning[] {
  const { raster, widths, notes } = linework;
  if (best !== null || (!raster && widths.length === 0)) return [];
  const why = raster
    ? 'The page is a picture, and what is written on it cannot be read'
    : notes.length === 0
      ? 'Nothing on this page is text: what is written on it is drawn with lines and cannot be read'
      : 'No scale is written on this page, and no dimension on it could be read';
  return [
    {
      kind: 'nothing-to-read',
      message: `${why}. Set the scale by two points and the length that the drawing gives between them, and check it on a second one`,
      at: null,
    },
  ];
}

function say(ratio: number): string {
  return formatScale(ratio);
}
