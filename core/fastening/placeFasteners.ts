// In: the seams, the roof, and the spacings. Out: fastener rows, packed as {line, first, step, count}. Promise: no
// gap in a row is wider than the spacing asked for, and every row in a lap stands on the sheet that goes under.
import type { RoofPoint } from '../geometry/points';
import { distance } from '../geometry/ring';
import { COUNT_NOISE, IN_LINE_SINE, NOISE_MM } from '../geometry/tolerances';
import type { Roof } from '../roof/types';
import { ALONG_DEG } from '../sheets/keepClear';
import type { Layout } from '../sheets/types';
import type { Seams, SideLap } from '../seams/types';
import type { FastenerRow, Fastening } from './types';
import { UNFASTENED, zonesAlong, type FasteningZones, type ZoneName } from './zones';

/** Middle of the plate from the covered sheet's own edge: 10–15 mm free and half a plate of 40–60 mm (common
 * practice, no source). */
export const PLATE_FROM_EDGE_MM = 35;

export interface FastenerSpacing {
  /** Along side laps, mm; null where the sheets are not fastened in the lap. */
  readonly inLap: number | null;
  /** Along the roof's own edges, mm; 0 for none. */
  readonly atEdge: number;
  /** What an engineer gave; left out where nobody did. */
  readonly zones?: FasteningZones;
}

export function placeFasteners(
  roof: Roof,
  layout: Layout,
  seams: Seams,
  spacing: FastenerSpacing,
): Fastening {
  const rows: FastenerRow[] = [];
  if (spacing.inLap !== null) {
    const deck = layout.spec.trade.off.includes('across-flutes') ? null : roof.deck;
    for (const one of lapRows(deck, seams.sideLaps))
      rows.push(...rowsByZone(roof, one, spacing.inLap, spacing.zones ?? NO_ZONES));
  }
  if (spacing.atEdge > 0)
    for (const edge of roof.edges)
      if (!UNFASTENED.has(edge.kind))
        rows.push(
          spread(
            { id: `edge ${edge.id}`, where: 'edge', along: [edge.id], from: edge.from, to: edge.to },
            'field',
            spacing.atEdge,
          ),
        );
  return { rows, count: rows.reduce((sum, r) => sum + r.count, 0) };
}

interface OpenRow extends Pick<SideLap, 'from' | 'to' | 'course' | 'overlap' | 'betweenBands'> {
  to: RoofPoint;
  readonly ids: string[];
  /** Whether the first of the two sheets goes under. */
  readonly firstUnder: boolean;
}

/** Laps that follow on each other along one line are one row. */
function lapRows(deck: Roof['deck'], laps: readonly SideLap[]): PlainRow[] {
  const rows: PlainRow[] = [];
  let open: OpenRow | null = null;
  const close = () => {
    if (!open) return;
    const by = toPlates(open, deck);
    rows.push({
      id: `row ${open.ids[0]}`,
      where: 'lap',
      along: open.ids,
      from: moved(open.from, by),
      to: moved(open.to, by),
    });
    open = null;
  };
  for (const lap of laps) {
    const firstUnder = lap.over === lap.between[1];
    if (
      open?.course === lap.course &&
      open.firstUnder === firstUnder &&
      open.betweenBands === lap.betweenBands &&
      distance(open.to, lap.from) <= NOISE_MM &&
      (!lap.betweenBands || inLine(open.from, open.to, lap.to))
    ) {
      open.to = lap.to;
      open.ids.push(lap.id);
      continue;
    }
    close();
    open = { ...lap, ids: [lap.id], firstUnder };
  }
  close();
  return rows;
}

/** From a lap's centre line to the plates: towards the edge of the sheet that goes under. The first sheet of a lap
 * lies to the right of its line, but for a lap between bands, whose line has the row's ground to its left. */
function toPlates({ from, to, overlap, firstUnder, betweenBands }: OpenRow, deck: Roof['deck']): RoofPoint {
  const length = distance(from, to);
  if (length === 0) return [0, 0];
  const left: RoofPoint = [-(to[1] - from[1]) / length, (to[0] - from[0]) / length];
  const towardsLeft = firstUnder === !betweenBands ? 1 : -1;
  const most = overlap / 2 - PLATE_FROM_EDGE_MM;
  const shift = onFlange(from, left, most * towardsLeft, Math.abs(most), deck) ?? most * towardsLeft;
  return [left[0] * shift, left[1] * shift];
}

/** For a row that runs along the flutes the shift nearest to `wanted` that brings it onto a top flange, as far as the
 * lap has room for plates; null where the row runs across, the ribs are not known, or none is in reach. */
function onFlange(
  from: RoofPoint,
  left: RoofPoint,
  wanted: number,
  most: number,
  deck: Roof['deck'],
): number | null {
  if (deck?.kind !== 'steel' || deck.flutes === null || !deck.pitch || !deck.rib) return null;
  const { pitch } = deck;
  const turn = (deck.flutes * Math.PI) / 180;
  const square: RoofPoint = [-Math.sin(turn), Math.cos(turn)];
  const share = left[0] * square[0] + left[1] * square[1];
  if (Math.abs(share) < Math.cos((ALONG_DEG * Math.PI) / 180)) return null;
  const off = (from[0] - deck.rib[0]) * square[0] + (from[1] - deck.rib[1]) * square[1];
  const rib = Math.round((off + wanted * share) / pitch);
  const shifts = [rib - 1, rib, rib + 1].map((k) => (k * pitch - off) / share);
  const fit = shifts.filter((shift) => Math.abs(shift) <= most);
  return fit.length === 0
    ? null
    : fit.reduce((a, b) => (Math.abs(b - wanted) < Math.abs(a - wanted) ? b : a));
}

function inLine(a: RoofPoint, b: RoofPoint, c: RoofPoint): boolean {
  const turn = (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0]);
  return Math.abs(turn) <= IN_LINE_SINE * distance(a, b) * distance(b, c);
}

const moved = ([x, y]: RoofPoint, [dx, dy]: RoofPoint): RoofPoint => [x + dx, y + dy];

type PlainRow = Pick<FastenerRow, 'id' | 'where' | 'along' | 'from' | 'to'>;

const NO_ZONES: FasteningZones = {};

/** A row in the stretches of its zones; where two meet they share the fastener that the first ends on. */
function rowsByZone(roof: Roof, row: PlainRow, inField: number, zones: FasteningZones): FastenerRow[] {
  if (!zones.perimeter && !zones.corner) return [spread(row, 'field', inField)];
  const { from, to } = row;
  const at = (share: number): RoofPoint => [
    from[0] + (to[0] - from[0]) * share,
    from[1] + (to[1] - from[1]) * share,
  ];
  return zonesAlong(roof, zones, from, to).map(({ zone, span }, k) => {
    const own = { ...row, id: k === 0 ? row.id : `${row.id} ${k + 1}`, from: at(span[0]), to: at(span[1]) };
    const asked = zone === 'field' ? inField : Math.min(inField, zones[zone]?.spacing ?? inField);
    const whole = spread(own, zone, asked);
    return k === 0 ? whole : { ...whole, first: whole.step, count: whole.count - 1 };
  });
}

/** count = ⌈length / spacing⌉ + 1, spread evenly, so that the last gap is no wider than the others. */
function spread({ id, where, along, from, to }: PlainRow, zone: ZoneName, spacing: number): FastenerRow {
  const length = distance(from, to);
  const gaps = Math.max(1, Math.ceil(length / spacing - COUNT_NOISE));
  return { id, where, along, from, to, zone, first: 0, step: length / gaps, count: gaps + 1 };
}
