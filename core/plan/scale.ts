// In: a page's lines and notes. Out: every scale that the page states or implies, best first, with the evidence, and
// what does not agree. Promise: dimensions that were measured outrank a note, which a wrong print size makes false;
// scaling the linework scales the reading.
import type { PagePoint } from '../geometry/points';
import { MM_PER_POINT } from '../units/scales';
import { findDimensions } from './dimensions';
import type { Dimension } from './dimensions';
import { buildPageIndex } from './pageIndex';
import type { PageIndex } from './pageIndex';
import { joinNotes } from './notes';
import { findParts } from './pageParts';
import { scalesOfParts } from './scaleRegions';
import { findScaleBars } from './scaleBars';
import type { ScaleBar } from './scaleBars';
import { findScaleNotes, SAYS_SCALE } from './scaleNotes';
import type { ScaleNote } from './scaleNotes';
import { AGREES, explains, voteOnScale } from './scaleVotes';
import type { Explained, Votes } from './scaleVotes';
import { warningsOf } from './scaleWarnings';
import type { ScaleWarning } from './scaleWarnings';
import type { Linework } from './types';

export interface ScaleEvidence {
  readonly text: string;
  readonly at: PagePoint;
  /** Points on the page, and what they stand for in mm. A note measures one point. */
  readonly measured: number;
  readonly stated: number;
  /** What was measured; absent from a note. */
  readonly line?: readonly [PagePoint, PagePoint];
}

export interface ScaleCandidate {
  readonly ratio: number;
  readonly from: 'note' | 'dimensions' | 'bar';
  readonly evidence: readonly ScaleEvidence[];
  /** Share of the page's readable dimensions that the ratio explains within 1 %; 0 where there are none. */
  readonly agreement: number;
}

export interface ScaleReading {
  readonly candidates: readonly ScaleCandidate[];
  /** How many dimensions could be read. */
  readonly dimensions: number;
  /** Dimensions that the best candidate does not explain. */
  readonly against: readonly ScaleEvidence[];
  readonly warnings: readonly ScaleWarning[];
  /** Parts of the page that are drawn at another scale than the best candidate's. */
  readonly regions: readonly RegionCandidate[];
}

/** A part of the page, by its lower left and upper right corner. */
export interface RegionCandidate extends Omit<ScaleCandidate, 'agreement' | 'from'> {
  readonly from: 'dimensions' | 'note';
  readonly low: PagePoint;
  readonly high: PagePoint;
}

export function findScale(linework: Linework, index: PageIndex = buildPageIndex(linework)): ScaleReading {
  const noted = findScaleNotes(joinNotes(linework.notes), linework);
  const bars = findScaleBars(index);
  const onBars = new Set(bars.flatMap((bar) => bar.labels.map((note) => note.at)));
  const dimensions = findDimensions(index).filter(({ note }) => !onBars.has(note.at));
  const votes = voteOnScale(dimensions, linework.notes, [
    ...noted.map(({ ratio }) => ratio),
    ...bars.map(({ ratio }) => ratio),
  ]);
  const agreementOf = (ratio: number): number =>
    dimensions.length === 0
      ? 0
      : dimensions.filter((dimension) => explains(ratio, dimension, votes.unit)).length / dimensions.length;
  const candidates = [...fromVotes(votes), ...fromBars(bars), ...fromNotes(noted), ...fromFile(linework)].map(
    (candidate) => ({
      ...candidate,
      agreement: agreementOf(candidate.ratio),
    }),
  );
  candidates.sort((a, b) => trustIn(b, candidates) - trustIn(a, candidates) || a.ratio - b.ratio);
  for (const candidate of asWritten(noted))
    if (!candidates.some(({ ratio }) => ratio === candidate.ratio))
      candidates.push({ ...candidate, agreement: agreementOf(candidate.ratio) });
  const best = candidates[0];
  const parts =
    best && (dimensions.length > 1 || noted.length > 1)
      ? scalesOfParts({
          index,
          parts: findParts(linework),
          dimensions,
          noted,
          unit: votes.unit,
          best: best.ratio,
        })
      : [];
  return {
    candidates,
    dimensions: dimensions.length,
    against: best ? against(best.ratio, dimensions, votes) : [],
    warnings: warningsOf({ linework, noted, bars, dimensions, votes, best: best?.ratio ?? null, parts }),
    regions: parts.map(({ ratio, from, low, high, explained, notes }) => ({
      ratio,
      from,
      low,
      high,
      evidence: [...explained.map(evidenceOf), ...notes.map(evidenceOfNote)],
    })),
  };
}

/** Where a candidate comes from, in words: “11 of 12 dimensions”, “the scale bar”, or the note itself. */
export function sourceOf({ from, evidence, agreement }: ScaleCandidate): string {
  if (from === 'bar') return 'the scale bar';
  if (from === 'note') return `“${evidence[0]?.text.trim() ?? ''}”`;
  const all = Math.round(evidence.length / (agreement || 1));
  return `${evidence.length} of ${all} dimensions`;
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

/** Fewer dimensions than this, of a page that has more, may agree by chance. */
const FEWEST_TRUSTED = 3;

/** A scale whose dimensions cover less than this share of the ground that another's cover is a detail's. */
const DETAIL_SHARE = 0.35;

function trustIn(candidate: ScaleCandidate, all: readonly ScaleCandidate[]): number {
  const seconded = all.filter(
    (other) => other.from !== candidate.from && Math.abs(other.ratio / candidate.ratio - 1) < AGREES,
  ).length;
  if (isDetail(candidate, all)) return candidate.agreement + 0.2;
  const strength = candidate.agreement + 0.5 * seconded;
  switch (candidate.from) {
    case 'dimensions':
      return strength + (candidate.evidence.length >= FEWEST_TRUSTED ? 2 * candidate.agreement + 0.3 : 0.2);
    case 'bar':
      return strength + 0.25;
    case 'note':
      return strength + 0.1 + 0.001 * candidate.evidence.length + (isPlain(candidate) ? 0.05 : 0);
  }
}

function isDetail(candidate: ScaleCandidate, all: readonly ScaleCandidate[]): boolean {
  if (candidate.from !== 'dimensions') return false;
  const ground = groundOf(candidate);
  return all.some(
    (other) =>
      other.from === 'dimensions' &&
      other.evidence.length >= FEWEST_TRUSTED &&
      ground < DETAIL_SHARE * groundOf(other),
  );
}

/** Of the box round all that was measured. */
function groundOf({ evidence }: ScaleCandidate): number {
  const ends = evidence.flatMap(({ line }) => line ?? []);
  const [xs, ys] = [ends.map(([x]) => x), ends.map(([, y]) => y)];
  return (Math.max(...xs) - Math.min(...xs)) * (Math.max(...ys) - Math.min(...ys));
}

function isPlain({ evidence }: ScaleCandidate): boolean {
  return evidence.some(({ text }) => SAYS_SCALE.test(text));
}

type Unweighed = Omit<ScaleCandidate, 'agreement'>;

function fromVotes({ votes }: Votes): Unweighed[] {
  return votes.map(({ ratio, explained }) => ({
    ratio,
    from: 'dimensions' as const,
    evidence: explained.map(evidenceOf),
  }));
}

function fromBars(bars: readonly ScaleBar[]): Unweighed[] {
  return bars.map((bar) => ({
    ratio: bar.ratio,
    from: 'bar' as const,
    evidence: [
      {
        text: bar.labels.map((note) => note.text.trim()).join(' '),
        at: bar.from,
        measured: bar.measured,
        stated: bar.stated,
        line: [bar.from, bar.to],
      },
    ],
  }));
}

/** What a note says that holds for another sheet than the page is: last, since it does not hold here. */
function asWritten(noted: readonly ScaleNote[]): Unweighed[] {
  return fromNotes(
    noted.flatMap((note) => (note.written === note.ratio ? [] : [{ ...note, ratio: note.written }])),
  );
}

function fromNotes(noted: readonly ScaleNote[]): Unweighed[] {
  const ratios = [...new Set(noted.map(({ ratio }) => ratio))];
  return ratios.map((ratio) => ({
    ratio,
    from: 'note' as const,
    evidence: noted.filter((one) => one.ratio === ratio).map(evidenceOfNote),
  }));
}

/** What the file says counts as a note: it is not measured. */
function fromFile({ fullSize }: Linework): Unweighed[] {
  if (!fullSize) return [];
  const { ratio, text } = fullSize;
  return [
    { ratio, from: 'note', evidence: [{ text, at: [0, 0], measured: 1, stated: ratio * MM_PER_POINT }] },
  ];
}

function against(ratio: number, dimensions: readonly Dimension[], votes: Votes): ScaleEvidence[] {
  return dimensions.flatMap((dimension) => {
    const [stretch] = dimension.stretches;
    if (!stretch || explains(ratio, dimension, votes.unit)) return [];
    const { states } = dimension;
    const stated = states.kind === 'stated' ? states.mm : states.value * votes.unit[states.kind];
    return [evidenceOf({ dimension, stretch, stated })];
  });
}

function evidenceOfNote({ note, ratio }: ScaleNote): ScaleEvidence {
  return { text: note.text, at: note.at, measured: 1, stated: ratio * MM_PER_POINT };
}

function evidenceOf({ dimension, stretch, stated }: Explained): ScaleEvidence {
  return {
    text: dimension.note.text,
    at: dimension.note.at,
    measured: stretch.length,
    stated,
    line: [stretch.from, stretch.to],
  };
}
