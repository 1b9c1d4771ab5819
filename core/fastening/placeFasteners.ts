// In: the seams, the roof, and the spacings. Out: fastener rows, packed as {line, first, step, count}. Promise: no
// gap in a row is wider than the spacing asked for, and every row in a lap stands on the sheet that goes under.
import type { RoofPoint } from '../geometry/points';
import { distance } from '../geometry/ring';
import { COUNT_NOISE, NOISE_MM } from '../geometry/tolerances';
import type { Edge, Roof } from '../roof/types';
import { acrossShare } from '../sheets/frame';
import type { Layout } from '../sheets/types';
import type { Seams, SideLap } from '../seams/types';
import type { FastenerRow, Fastening } from './types';

/** Middle of the plate from the covered sheet's own edge: 10–15 mm free and half a plate of 40–60 mm (common
 * practice, no source). */
export const PLATE_FROM_EDGE_MM = 35;

export interface FastenerSpacing {
  /** Along side laps, mm; null where the sheets are not fastened in the lap. */
  readonly inLap: number | null;
  /** Along the roof's own edges, mm; 0 for none. */
  readonly atEdge: number;
}

/** Edges where the field sheet goes on or is closed off by others: nothing is fastened there. */
const UNFASTENED: ReadonlySet<Edge['kind']> = new Set(['expansion', 'phase', 'tie-in']);

export function placeFasteners(
  roof: Roof,
  layout: Layout,
  seams: Seams,
  spacing: FastenerSpacing,
): Fastening {
  const rows: FastenerRow[] = [];
  if (spacing.inLap !== null) rows.push(...lapRows(layout, seams.sideLaps, spacing.inLap));
  if (spacing.atEdge > 0)
    for (const edge of roof.edges)
      if (!UNFASTENED.has(edge.kind))
        rows.push(row(`edge ${edge.id}`, 'edge', [edge.id], edge.from, edge.to, spacing.atEdge));
  return { rows, count: rows.reduce((sum, r) => sum + r.count, 0) };
}

/** Laps that follow on each other along one line are one row. */
function lapRows(layout: Layout, laps: readonly SideLap[], spacing: number): FastenerRow[] {
  const lowerGoesOver = acrossShare(layout.frame, layout.rules.downhill ?? NaN) > NOISE_MM;
  const rows: FastenerRow[] = [];
  let open: { from: RoofPoint; to: RoofPoint; course: number; ids: string[]; overlap: number } | null = null;
  const close = () => {
    if (!open) return;
    // From the lap's centre line to the plates: towards the edge of the sheet that goes under.
    const shift = (open.overlap / 2 - PLATE_FROM_EDGE_MM) * (lowerGoesOver ? -1 : 1);
    const by: RoofPoint = [-layout.frame.sin * shift, layout.frame.cos * shift];
    rows.push(row(`row ${open.ids[0]}`, 'lap', open.ids, moved(open.from, by), moved(open.to, by), spacing));
    open = null;
  };
  for (const lap of laps) {
    if (open && open.course === lap.course && distance(open.to, lap.from) <= NOISE_MM) {
      open.to = lap.to;
      open.ids.push(lap.id);
      continue;
    }
    close();
    open = { from: lap.from, to: lap.to, course: lap.course, ids: [lap.id], overlap: lap.overlap };
  }
  close();
  return rows;
}

const moved = ([x, y]: RoofPoint, [dx, dy]: RoofPoint): RoofPoint => [x + dx, y + dy];

/** count = ⌈length / spacing⌉ + 1, spread evenly, so that the last gap is no wider than the others. */
function row(
  id: string,
  where: FastenerRow['where'],
  along: readonly string[],
  from: RoofPoint,
  to: RoofPoint,
  spacing: number,
): FastenerRow {
  const length = distance(from, to);
  const gaps = Math.max(1, Math.ceil(length / spacing - COUNT_NOISE));
  return { id, along, where, from, to, first: 0, step: length / gaps, count: gaps + 1 };
}
