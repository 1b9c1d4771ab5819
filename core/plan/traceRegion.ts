// In: a page's lines and a point. Out: the closed shape around the point, with the islands in it as openings and the
// gaps that were bridged, or why none closes. Promise: the point is inside, and any point inside gives the same ring.
import type { PagePoint, PageRing } from '../geometry/points';
import { ringBounds, ringHolds } from '../geometry/ring';
import { arrange } from './arrangement';
import type { Arrangement } from './arrangement';
import { withLines } from './pageIndex';
import type { PageIndex } from './pageIndex';
import { edgeAlong, RAYS, rayHits } from './rays';
import { sortStrokes } from './strokeKinds';
import type { StrokeKinds } from './strokeKinds';
import { STROKE } from './strokes';
import { findOuter, isBorder } from './traceOuter';
import { findIslands } from './traceIslands';
import type { Island } from './traceIslands';
import { acrossOpening } from './wallEnds';
import type { Linework } from './types';
import { corneredRing, walkFace } from './walkFace';
import type { Cycle, HalfEdge } from './walkFace';

/** A page made ready for tracing; `sortStrokes` takes the longer part of a trace and is done once. */
export interface RegionIndex {
  /** Its lines, and after them those that close doorways. */
  readonly page: PageIndex;
  readonly strokes: StrokeKinds;
}

export interface RegionOptions {
  /** Gaps up to this many points are bridged. */
  readonly gap?: number;
  /** `outer`: the boundary of the whole drawn part around the point; lines inside it do not count. */
  readonly mode?: 'shape' | 'outer';
}

export interface PageGap {
  readonly from: PagePoint;
  readonly to: PagePoint;
}

export interface Region {
  readonly outline: PageRing;
  readonly openings: readonly PageRing[];
  readonly closedGaps: readonly PageGap[];
  /** Openings between ends of walls that the shape runs through: a gap as wide as they are closes them. */
  readonly openGaps: readonly PageGap[];
  /** Closed marks inside that were too small to be openings. */
  readonly smallMarks: number;
  /** Dashed, dimension and grid lines counted, because nothing closes without them. */
  readonly closedBy: 'drawn lines' | 'all lines';
}

export type RegionReading =
  | { readonly region: Region }
  /** `closesWith`: a wider gap, in points, with which a shape closes round the point. */
  | { readonly refusal: string; readonly closesWith?: number };

export function traceRegion(index: RegionIndex, at: PagePoint, options: RegionOptions = {}): RegionReading {
  const { width, height } = index.page.linework;
  const gap = options.gap ?? DEFAULT_GAP;
  if (!(at[0] >= 0 && at[0] <= width && at[1] >= 0 && at[1] <= height))
    return { refusal: `the point lies outside the page, which is ${round(width)} × ${round(height)} points` };
  if (index.page.linework.widths.length === 0)
    return { refusal: 'the page has no lines, so there is nothing to close: trace it by hand' };
  const { mode = 'shape' } = options;
  const reading = traceWithin(index, at, gap, mode);
  if ('region' in reading && !(mode === 'shape' && ranOut(reading.region, index.page.linework)))
    return reading;
  const closesWith = gapThatCloses(index, at, gap, mode);
  if (closesWith === null) return reading;
  const refusal =
    'region' in reading
      ? `within gaps of ${round(gap)} points only the border of the sheet closes round it: allow wider gaps`
      : reading.refusal;
  return { refusal, closesWith };
}

/** Without the lines that are hidden. */
export function buildRegionIndex(page: PageIndex): RegionIndex {
  return regionIndexOf(page, sortStrokes(page));
}

/** For whoever had the strokes sorted in another thread. */
export function regionIndexOf(page: PageIndex, strokes: StrokeKinds): RegionIndex {
  const { kinds, doorways } = strokes;
  if (doorways.length === 0) return { page, strokes };
  const longer = new Uint8Array(kinds.length + doorways.length / 4);
  longer.set(kinds);
  return { page: withLines(page, doorways), strokes: { ...strokes, kinds: longer } };
}

export const DEFAULT_GAP = 2;

function traceWithin(index: RegionIndex, at: PagePoint, gap: number, mode: 'shape' | 'outer'): RegionReading {
  if (mode === 'outer') return outerRegion(index, at, gap);
  const drawn = shapeAround(index, at, gap, 0);
  if (drawn.found) return { region: { ...drawn.found, closedBy: 'drawn lines' } };
  const all = shapeAround(index, at, gap, STROKE.dashed | STROKE.annotation | STROKE.grid);
  if (all.found) return { region: { ...all.found, closedBy: 'all lines' } };
  return { refusal: drawn.why };
}

/** Of the sheet: a border keeps no wider margin. */
const MARGIN = 0.12;

/** Whether a shape is no more than the sheet's border, the click having run out through an opening in the drawing. */
function ranOut({ outline, openGaps }: Region, page: Linework): boolean {
  if (!isBorder(outline, page)) return false;
  const { x, y } = ringBounds([outline]);
  const margins = [x[0] / page.width, 1 - x[1] / page.width, y[0] / page.height, 1 - y[1] / page.height];
  return openGaps.length > 0 || margins.every((margin) => margin < MARGIN);
}

/** A gap said with few figures must still be wide enough. */
export const AMPLE = 1.02;

/** Points: what is tried where nothing closes, as long as a place on the page then has few neighbours. */
const WIDER_GAPS = [4, 8, 16, 32, 64];
const MOST_NEIGHBOURS = 60;

/** A little more than the widest gap that had to be bridged where something closes; null where nothing does. */
function gapThatCloses(
  index: RegionIndex,
  at: PagePoint,
  gap: number,
  mode: 'shape' | 'outer',
): number | null {
  const { linework } = index.page;
  const drawn = index.strokes.kinds.reduce((sum, kind) => sum + (kind === 0 ? 1 : 0), 0);
  const density = drawn / (linework.width * linework.height);
  for (const wider of WIDER_GAPS) {
    if (wider <= gap || (2 * wider) ** 2 * density > MOST_NEIGHBOURS) continue;
    const reading = traceWithin(index, at, wider, mode);
    if ('refusal' in reading || isBorder(reading.region.outline, linework)) continue;
    const widths = reading.region.closedGaps.map(({ from, to }) =>
      Math.hypot(to[0] - from[0], to[1] - from[1]),
    );
    return Math.min(wider, Math.ceil(AMPLE * Math.max(gap, ...widths) * 10) / 10);
  }
  return null;
}

/** Of the same-point distance: how far a corner may lie off the line of its neighbours and still be none. */
const CORNER_SLACK = 1;

type Found = Omit<Region, 'closedBy'>;

function shapeAround(
  { page, strokes }: RegionIndex,
  at: PagePoint,
  gap: number,
  counted: number,
): { readonly found: Found | null; readonly why: string } {
  const { kinds, samePoint } = strokes;
  const counts = (k: number): boolean => ((kinds[k] ?? 0) & ~counted) === 0;
  const arrangement = arrange(page, { counts, samePoint, gap });
  const slack = CORNER_SLACK * samePoint;
  let why = 'no line of the drawing lies all round it';
  for (const ray of RAYS) {
    const outer = outlineAlong(page, arrangement, counts, at, ray);
    if (typeof outer === 'string') {
      why = outer;
      continue;
    }
    const islands = findIslands({ page, strokes, arrangement, outline: outer.cycle, face: outer.holes });
    // The ray left the shape through a gap that was bridged: what it met beyond lies round the shape.
    if (islands.islands.some(({ ring }) => ringHolds(ring, at))) continue;
    const openings = islands.openings.map(({ ring }) =>
      [...corneredRing([...ring].reverse(), slack)].reverse(),
    );
    const gaps = [outer.cycle, ...islands.openings].flatMap(({ nodes }) => gapsIn(page, arrangement, nodes));
    return {
      found: {
        outline: corneredRing(outer.cycle.ring, slack),
        openings,
        closedGaps: gaps,
        openGaps: openGapsIn({ page, strokes }, arrangement, [outer.cycle, ...islands.openings], counts, gap),
        smallMarks: islands.small,
      },
      why: '',
    };
  }
  return {
    found: null,
    why: `${why} within gaps of ${round(gap)} points: allow wider gaps, or pick a point inside a closed shape`,
  };
}

interface Outline {
  readonly cycle: Cycle;
  /** Islands that the same walk passed. */
  readonly holes: readonly Island[];
}

/** Looks along a ray for the first line whose near side bounds a face around the point. */
function outlineAlong(
  page: PageIndex,
  arrangement: Arrangement,
  counts: (k: number) => boolean,
  at: PagePoint,
  ray: PagePoint,
): Outline | string {
  const islands: Cycle[] = [];
  const passed = new Set<number>();
  let met = 0;
  for (const { segment, spot } of rayHits(page, counts, at, ray)) {
    const edge = edgeAlong(arrangement, segment, spot, ray);
    if (!edge || passed.has(edgeKey(edge))) continue;
    if (islands.some(({ ring }) => ringHolds(ring, spot))) continue;
    if (++met > MOST_HITS) return 'the lines around it are too dense to follow, and nothing closes';
    const face = walkFace(arrangement, edge);
    if (!face) return 'the shape around it has more corners than can be followed';
    for (const one of face.passed) passed.add(edgeKey(one));
    const holds = face.cycles.find(({ area, ring }) => area > 0 && ringHolds(ring, at));
    if (holds) {
      const others = face.cycles.filter((cycle) => cycle !== holds && cycle.area < 0);
      return { cycle: holds, holes: [...islands, ...others].filter(({ area }) => area < 0) };
    }
    islands.push(...face.cycles.filter(({ area }) => area < 0));
  }
  return 'the lines around it do not close';
}

const MOST_HITS = 4000;

function edgeKey([a, b]: HalfEdge): number {
  return Math.min(a, b) * 2 ** 26 + Math.max(a, b);
}

function gapsIn({ linework }: PageIndex, arrangement: Arrangement, nodes: readonly number[]): PageGap[] {
  const drawn = linework.widths.length;
  const closesDoor = (from: number, to: number): boolean =>
    drawn < linework.segments.length / 4 &&
    arrangement.through(from).some((k) => k >= drawn && arrangement.through(to).includes(k));
  return nodes.flatMap((from, i) => {
    const to = nodes[(i + 1) % nodes.length] ?? from;
    return arrangement.isBridge(from, to) || closesDoor(from, to)
      ? [{ from: arrangement.at(from), to: arrangement.at(to) }]
      : [];
  });
}

/** In symbol sizes: a wider opening between two walls is none of a door. */
const WIDEST_OPENING = 16;

function openGapsIn(
  { page, strokes: { samePoint, symbolSize } }: RegionIndex,
  arrangement: Arrangement,
  [outer, ...islands]: readonly [Cycle, ...Cycle[]],
  counts: (k: number) => boolean,
  gap: number,
): PageGap[] {
  const { segments } = page.linework;
  const lines = { segments, boxes: page.boxes, counts, samePoint };
  const found: PageGap[] = [];
  for (const node of [outer, ...islands].flatMap(({ nodes }) => nodes))
    for (const k of arrangement.through(node)) {
      const cuts = arrangement.nodesOn(k);
      const end = cuts[0]?.node === node ? 0 : cuts.at(-1)?.node === node ? 1 : null;
      const beyond = end === null ? null : acrossOpening(lines, k, end, WIDEST_OPENING * symbolSize);
      if (!beyond) continue;
      const from = arrangement.at(node);
      const to: PagePoint = [beyond.x, beyond.y];
      const wide = Math.hypot(to[0] - from[0], to[1] - from[1]);
      const middle: PagePoint = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2];
      // An opening has two faces and is met from either side.
      const known = found.some((one) => {
        const [x, y] = [(one.from[0] + one.to[0]) / 2, (one.from[1] + one.to[1]) / 2];
        return Math.hypot(x - middle[0], y - middle[1]) < wide;
      });
      const inside = ringHolds(outer.ring, middle) && !islands.some(({ ring }) => ringHolds(ring, middle));
      if (wide > gap && !known && inside) found.push({ from, to });
    }
  return found;
}

function outerRegion({ page, strokes }: RegionIndex, at: PagePoint, gap: number): RegionReading {
  const { kinds, samePoint } = strokes;
  // Hatching and small marks lie inside what they fill or stand on: they add nothing to an outer boundary.
  const counts = (k: number): boolean => kinds[k] === 0;
  const arrangement = arrange(page, { counts, samePoint, gap });
  const outer = findOuter({ page, strokes, arrangement, at });
  if ('refusal' in outer) return outer;
  return {
    region: {
      outline: corneredRing(outer.cycle.ring, CORNER_SLACK * samePoint),
      openings: [],
      closedGaps: gapsIn(page, arrangement, outer.cycle.nodes),
      openGaps: [],
      smallMarks: 0,
      closedBy: 'drawn lines',
    },
  };
}

function round(points: number): string {
  return String(Math.round(points * 10) / 10);
}
