// In: a page's lines and notes. Out: each readable dimension with the stretches its text may measure, the likeliest
// first. Promise: a dimension is a length in words beside a line that is marked at both ends; everything is judged by
// the height of the text, so that a drawing scaled as a whole reads the same.
import type { PagePoint } from '../geometry/points';
import { boxOf, isCurve, placeOn, pointAt } from './dimensionLine';
import type { Carrier } from './dimensionLine';
import { NEAR, SAME_SPOT, terminators } from './dimensionMarks';
import { readDimensionText } from './dimensionText';
import type { DimensionText } from './dimensionText';
import { distance } from './lines';
import { joinNotes } from './notes';
import { segmentAt } from './pageIndex';
import type { PageIndex } from './pageIndex';
import type { Note } from './types';

export interface Stretch {
  readonly from: PagePoint;
  readonly to: PagePoint;
  /** Points on the page. */
  readonly length: number;
  /** 0 to 1: how surely the text measures this stretch. */
  readonly weight: number;
}

export interface Dimension {
  readonly note: Note;
  readonly states: DimensionText;
  readonly stretches: readonly Stretch[];
}

export function findDimensions(index: PageIndex): Dimension[] {
  return joinNotes(index.linework.notes).flatMap((note) => {
    const states = readDimensionText(note.text);
    if (!states || !(note.height > 0)) return [];
    const stretches = stretchesOf(index, note);
    return (stretches[0]?.weight ?? 0) >= READABLE ? [{ note, states, stretches }] : [];
  });
}

/** Middle of a note's lettering. */
export function middleOf(note: Note): PagePoint {
  const [ux, uy] = unit(note.angle);
  const along = note.width / 2;
  const up = CAP_MIDDLE * note.height;
  return [note.at[0] + along * ux - up * uy, note.at[1] + along * uy + up * ux];
}

const READABLE = 0.5;
const MOST_STRETCHES = 8;
/** Half the height of capitals, in text heights. */
const CAP_MIDDLE = 0.35;
/** In text heights, with the habits of ISO 129-1 and room around them: text stands above its line or breaks it. */
const BESIDE = 2.2;
/** From here two terminators make a dimension line; a plain crossing of lines does not. */
const STRONG = 0.85;
const MOST_PIECES = 80;

function stretchesOf(index: PageIndex, note: Note): Stretch[] {
  const middle = middleOf(note);
  const found = carriersNear(index, note, middle).flatMap((carrier) => pairsOn(index, carrier, note));
  found.sort((a, b) => b.weight - a.weight || a.length - b.length);
  return found.slice(0, MOST_STRETCHES);
}

function carriersNear(index: PageIndex, note: Note, middle: PagePoint): Carrier[] {
  const h = note.height;
  const text = unit(note.angle);
  const reach = note.width / 2 + 1.5 * h;
  const side = BESIDE * h;
  const wide = Math.abs(text[0]) * reach + Math.abs(text[1]) * side;
  const tall = Math.abs(text[1]) * reach + Math.abs(text[0]) * side;
  const [x, y] = middle;
  const carriers: Carrier[] = [];
  for (const k of index.boxes.search([x - wide, y - tall, x + wide, y + tall])) {
    if (isCurve(index, k)) continue;
    const line = segmentAt(index.linework.segments, k);
    const length = Math.hypot(line[2] - line[0], line[3] - line[1]);
    if (length < 0.8 * h) continue;
    const along: PagePoint = [(line[2] - line[0]) / length, (line[3] - line[1]) / length];
    const turn = Math.abs(along[0] * text[1] - along[1] * text[0]);
    const aligned = turn < 0.05;
    const off = Math.abs((x - line[0]) * along[1] - (y - line[1]) * along[0]);
    // Level text across an upright line breaks the line; level text along a line stands above or breaks it.
    if (off > (aligned ? side : 0.5 * h)) continue;
    const past = aligned ? reach : (note.width / 2) * (1 - turn) + 1.5 * h;
    const start = (line[0] - x) * along[0] + (line[1] - y) * along[1];
    if (start > past || start + length < -past) continue;
    const foot: PagePoint = [line[0] - start * along[0], line[1] - start * along[1]];
    if (carriers.some((known) => sameCarrier(known, foot, along, h))) continue;
    const [low, high] = extended(index, { foot, along, low: start, high: start + length }, past, h);
    if (low < 0 && high > 0) carriers.push({ foot, along, low, high, away: off / h, aligned });
  }
  return carriers;
}

function sameCarrier(known: Carrier, foot: PagePoint, along: PagePoint, h: number): boolean {
  const turn = Math.abs(known.along[0] * along[1] - known.along[1] * along[0]);
  return turn < 0.01 && distance(known.foot, foot) < NEAR * h;
}

/** Grows a piece over all that lie in line with it: end to end, and once over the gap that the text breaks. */
function extended(
  index: PageIndex,
  start: Pick<Carrier, 'foot' | 'along' | 'low' | 'high'>,
  gap: number,
  h: number,
): [number, number] {
  let { low, high } = start;
  const above = (): number => (high > 0 ? high + NEAR * h : gap);
  const below = (): number => (low < 0 ? low - NEAR * h : -gap);
  for (let turns = 0; turns < MOST_PIECES; turns++) {
    const before = high - low;
    for (const [a, b] of inLine(index, start, [below(), above()], h)) {
      if (b > high && a <= above()) high = b;
      if (a < low && b >= below()) low = a;
    }
    if (high - low <= before) break;
  }
  return [low, high];
}

function inLine(
  index: PageIndex,
  { foot, along }: Pick<Carrier, 'foot' | 'along'>,
  [low, high]: readonly [number, number],
  h: number,
): [number, number][] {
  const found: [number, number][] = [];
  for (const k of index.boxes.search(boxOf(foot, along, low, high, SAME_SPOT * h))) {
    if (isCurve(index, k)) continue;
    const line = segmentAt(index.linework.segments, k);
    const a = placeOn(foot, along, [line[0], line[1]]);
    const b = placeOn(foot, along, [line[2], line[3]]);
    if (Math.max(Math.abs(a.off), Math.abs(b.off)) > SAME_SPOT * h) continue;
    found.push([Math.min(a.at, b.at), Math.max(a.at, b.at)]);
  }
  return found;
}

function pairsOn(index: PageIndex, carrier: Carrier, note: Note): Stretch[] {
  const h = note.height;
  const spots = terminators(index, carrier, h).filter((spot) => spot.strength >= STRONG);
  const before = spots.filter((spot) => spot.at < 0).reverse();
  const after = spots.filter((spot) => spot.at > 0);
  const pairs: Stretch[] = [];
  for (const [i, a] of before.slice(0, 3).entries())
    for (const [j, b] of after.slice(0, 3).entries()) {
      const length = b.at - a.at;
      const astray = Math.abs(a.at + b.at) / 2 / length;
      const centred = astray < 0.06 || Math.abs(a.at + b.at) / 2 < 0.6 * h ? 1 : astray < 0.3 ? 0.7 : 0.4;
      const next = i + j === 0 ? 1 : centred === 1 ? 0.6 : 0.3;
      const near = 1 - 0.12 * Math.min(carrier.away, BESIDE);
      const weight = centred * next * near * (carrier.aligned ? 1 : 0.9);
      pairs.push({
        from: pointAt(carrier, a.at),
        to: pointAt(carrier, b.at),
        length,
        weight,
      });
    }
  return pairs;
}

function unit(degrees: number): PagePoint {
  const quarter = Math.round(degrees / 90);
  if (Math.abs(degrees - 90 * quarter) < 1e-9)
    return (
      (
        [
          [1, 0],
          [0, 1],
          [-1, 0],
          [0, -1],
        ] as const
      )[((quarter % 4) + 4) % 4] ?? [1, 0]
    );
  const radians = (degrees * Math.PI) / 180;
  return [Math.cos(radians), Math.sin(radians)];
}
