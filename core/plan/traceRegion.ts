// In: a page's lines and a point. Out: the closed shape around the point, with the islands in it as openings and the
// gaps that were bridged, or why none closes. Promise: the point is inside, and any point inside gives the same ring.
import type { PagePoint, PageRing } from '../geometry/points';
import { ringHolds } from '../geometry/ring';
import { arrange } from './arrangement';
import type { Arrangement } from './arrangement';
import type { PageIndex } from './pageIndex';
import { edgeAlong, RAYS, rayHits } from './rays';
import { sortStrokes } from './strokeKinds';
import type { StrokeKinds } from './strokeKinds';
import { STROKE } from './strokes';
import { findOuter } from './traceOuter';
import { findIslands } from './traceIslands';
import type { Island } from './traceIslands';
import { corneredRing, walkFace } from './walkFace';
import type { Cycle, HalfEdge } from './walkFace';

/** A page made ready for tracing; `sortStrokes` takes the longer part of a trace and is done once. */
export interface RegionIndex {
  readonly page: PageIndex;
  readonly strokes: StrokeKinds;
}

export interface RegionOptions {
  /** Gaps up to this many points are bridged. */
  readonly gap?: number;
  /** `outer`: the boundary of the whole drawn part around the point; lines inside it do not count. */
  readonly mode?: 'shape' | 'outer';
}

export interface Region {
  readonly outline: PageRing;
  readonly openings: readonly PageRing[];
  readonly closedGaps: readonly { readonly from: PagePoint; readonly to: PagePoint }[];
  /** Closed marks inside that were too small to be openings. */
  readonly smallMarks: number;
  /** Dashed, dimension and grid lines counted, because nothing closes without them. */
  readonly closedBy: 'drawn lines' | 'all lines';
}

export type RegionReading = { readonly region: Region } | { readonly refusal: string };

export function traceRegion(index: RegionIndex, at: PagePoint, options: RegionOptions = {}): RegionReading {
  const { width, height } = index.page.linework;
  const gap = options.gap ?? DEFAULT_GAP;
  if (!(at[0] >= 0 && at[0] <= width && at[1] >= 0 && at[1] <= height))
    return { refusal: `the point lies outside the page, which is ${round(width)} × ${round(height)} points` };
  if (index.page.linework.widths.length === 0)
    return { refusal: 'the page has no lines, so there is nothing to close: trace it by hand' };
  if (options.mode === 'outer') return outerRegion(index, at, gap);
  const drawn = shapeAround(index, at, gap, 0);
  if (drawn.found) return { region: { ...drawn.found, closedBy: 'drawn lines' } };
  const all = shapeAround(index, at, gap, STROKE.dashed | STROKE.annotation | STROKE.grid);
  if (all.found) return { region: { ...all.found, closedBy: 'all lines' } };
  return { refusal: drawn.why };
}

/** Without the lines that are hidden. */
export function buildRegionIndex(page: PageIndex): RegionIndex {
  return { page, strokes: sortStrokes(page) };
}

export const DEFAULT_GAP = 2;

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
    const gaps = [outer.cycle, ...islands.openings].flatMap(({ nodes }) => gapsIn(arrangement, nodes));
    return {
      found: {
        outline: corneredRing(outer.cycle.ring, slack),
        openings,
        closedGaps: gaps,
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

function gapsIn(
  arrangement: Arrangement,
  nodes: readonly number[],
): { readonly from: PagePoint; readonly to: PagePoint }[] {
  return nodes.flatMap((from, i) => {
    const to = nodes[(i + 1) % nodes.length] ?? from;
    return arrangement.isBridge(from, to) ? [{ from: arrangement.at(from), to: arrangement.at(to) }] : [];
  });
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
      closedGaps: gapsIn(arrangement, outer.cycle.nodes),
      smallMarks: 0,
      closedBy: 'drawn lines',
    },
  };
}

function round(points: number): string {
  return String(Math.round(points * 10) / 10);
}
