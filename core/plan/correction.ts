// A page set right: turned so that what should be level is, and stretched so that a point measures the same both ways.
// In: the page as it is displayed and its correction. Out: the corrected page and the map onto it. Promise: there and
// back gives the point; without a correction nothing changes.
import type { PagePoint } from '../geometry/points';

export interface Correction {
  /** Counter-clockwise, about the middle of the page. */
  readonly degrees: number;
  /** Up the page, after it was turned. */
  readonly stretch: number;
}

/** x' = a·x + c·y + e, y' = b·x + d·y + f. */
export type PageMap = readonly [a: number, b: number, c: number, d: number, e: number, f: number];

interface Size {
  readonly width: number;
  readonly height: number;
}

export const AS_IT_COMES: Correction = { degrees: 0, stretch: 1 };

/** Beyond this share a sheet was stretched when it was copied, and not only measured by hand. */
export const STRETCHED = 0.005;

/** The whole sheet stays on the corrected page, so that it grows by the corners that are turned out. */
export function correctedPage(
  { width, height }: Size,
  { degrees, stretch }: Correction,
): Size & { readonly map: PageMap } {
  const turned = (degrees * Math.PI) / 180;
  const [cos, sin] = [Math.cos(turned), Math.sin(turned)];
  const wide = width * Math.abs(cos) + height * Math.abs(sin);
  const tall = (width * Math.abs(sin) + height * Math.abs(cos)) * stretch;
  const [a, b, c, d] = [cos, sin * stretch, -sin, cos * stretch];
  return {
    width: wide,
    height: tall,
    map: [a, b, c, d, (wide - a * width - c * height) / 2, (tall - b * width - d * height) / 2],
  };
}

export function mapped([a, b, c, d, e, f]: PageMap, [x, y]: PagePoint): PagePoint {
  return [a * x + c * y + e, b * x + d * y + f];
}

/** From a page corrected in one way to the same page corrected in another. */
export function betweenCorrections(size: Size, from: Correction, to: Correction): PageMap {
  return composeMaps(correctedPage(size, to).map, inverse(correctedPage(size, from).map));
}

/** A direction in degrees, counter-clockwise from x, as the map turns it. */
export function mappedDirection([a, b, c, d]: PageMap, degrees: number): number {
  const turned = (degrees * Math.PI) / 180;
  const [x, y] = [Math.cos(turned), Math.sin(turned)];
  return (Math.atan2(b * x + d * y, a * x + c * y) * 180) / Math.PI;
}

/** The correction under which the line from a to b, as it now lies, is level or plumb, whichever is nearer. */
export function levelled(now: Correction, a: PagePoint, b: PagePoint): Correction {
  const lies = (Math.atan2((b[1] - a[1]) / now.stretch, b[0] - a[0]) * 180) / Math.PI;
  return { ...now, degrees: now.degrees - (lies - 90 * Math.round(lies / 90)) };
}

export interface KnownLength {
  readonly a: PagePoint;
  readonly b: PagePoint;
  /** mm. */
  readonly length: number;
}

/** Millimetres per point across and up the page, from two known lengths that run different ways; null where they run
 * too much alike, or where no pair of scales explains both. */
export function scalesBothWays(
  one: KnownLength,
  other: KnownLength,
): { readonly across: number; readonly up: number } | null {
  // (dx·across)² + (dy·up)² = length², for both: linear in the squares.
  const [p, q] = [one, other].map(({ a, b, length }) => ({
    x: (b[0] - a[0]) ** 2,
    y: (b[1] - a[1]) ** 2,
    square: length ** 2,
  }));
  if (!p || !q) return null;
  const det = p.x * q.y - q.x * p.y;
  if (Math.abs(det) < LEAST_APART * (p.x + p.y) * (q.x + q.y)) return null;
  const across = (p.square * q.y - q.square * p.y) / det;
  const up = (p.x * q.square - q.x * p.square) / det;
  return across > 0 && up > 0 ? { across: Math.sqrt(across), up: Math.sqrt(up) } : null;
}

/** Of the squared lengths: some 30° between the two, one of them along an edge of the sheet. */
const LEAST_APART = 0.25;

/** First the inner map, then the outer. */
export function composeMaps(outer: PageMap, inner: PageMap): PageMap {
  const [a, b, c, d] = outer;
  const [p, q, r, s, t, u] = inner;
  const [e, f] = mapped(outer, [t, u]);
  return [a * p + c * q, b * p + d * q, a * r + c * s, b * r + d * s, e, f];
}

function inverse([a, b, c, d, e, f]: PageMap): PageMap {
  const det = a * d - b * c;
  return [d / det, -b / det, -c / det, a / det, (c * f - d * e) / det, (b * e - a * f) / det];
}
