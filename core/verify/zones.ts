// Fasteners against the zones that an engineer gave: how close they stand along a row, and how far apart the rows are.
// Where a place lies is found anew, from its distance to edges.
import type { FasteningZone } from '../fastening/zones';
import type { Edge } from '../roof/types';
import type { Flat, Rect } from './cover';
import { distanceTo, isOnRoof, placesAlong, type Evidence, type Say, ringsOf } from './evidence';
import { TOLERANCE_MM } from './rules';

/** Rows in a zone are looked at every so far along a sheet, mm. */
const STEP_MM = 500;
/** A corner turns left by more than this sine. */
const TURN_SINE = 0.17;
const PARTED: readonly Edge['kind'][] = ['expansion', 'phase', 'tie-in'];

export function checkZones({ given, bands }: Evidence, say: Say): void {
  const { zones, inLap } = given.spacing;
  if (!zones || inLap === null || (!zones.perimeter && !zones.corner)) return;
  const zoneAt = zoneFinder(given.roof.edges, zones);
  for (const row of given.rows) {
    if (row.where !== 'lap' || row.step === 0) continue;
    const length = Math.hypot(row.to[0] - row.from[0], row.to[1] - row.from[1]);
    const at = (far: number): Flat => [
      row.from[0] + ((row.to[0] - row.from[0]) * far) / length,
      row.from[1] + ((row.to[1] - row.from[1]) * far) / length,
    ];
    const starts = Array.from({ length: Math.max(0, row.count - 1) }, (_, k) => row.first + k * row.step);
    const gaps = [...(row.first > TOLERANCE_MM ? [0] : []), ...starts];
    const wide = gaps.find((start) => {
      const zone = zoneAt(at(start + row.step / 2));
      return zone !== null && row.step > zone.spacing + TOLERANCE_MM;
    });
    if (wide === undefined) continue;
    const place = at(wide + row.step / 2);
    say(
      'fastener-gap',
      place,
      [row.id],
      `A gap of ${row.step.toFixed(0)} mm in ${row.id}; the engineer's zone here asks for ${zoneAt(place)?.spacing} mm.`,
    );
  }
  for (const [name, zone] of Object.entries(zones)) {
    const most = (zone as FasteningZone | undefined)?.rows;
    if (most === undefined) continue;
    const rings = ringsOf(given.roof);
    const apart = ({ v0, v1 }: Rect) => v1 - v0 - given.rules.sideLap;
    // A course of the field, as cut, may reach over rows along an edge: what holds the place there is the row.
    const heldBetween = (place: Flat) =>
      bands.some(({ flat, rects }) => {
        const [u, v] = flat(place);
        return rects.some(
          (r) => apart(r) <= most + TOLERANCE_MM && u >= r.u0 && u <= r.u1 && v >= r.v0 && v <= r.v1,
        );
      });
    const far = bands.flatMap((band) =>
      band.rects
        .filter((rect) => apart(rect) > most + TOLERANCE_MM)
        .filter(({ u0, u1, v0, v1 }) =>
          [v0 + STEP_MM / 10, (v0 + v1) / 2, v1 - STEP_MM / 10].some((v) =>
            placesAlong(band.back([u0, v]), band.back([u1, v]), STEP_MM).some(
              (place) => zoneAt(place) === zone && isOnRoof(rings, place) && !heldBetween(place),
            ),
          ),
        ),
    );
    const [first] = far;
    if (first)
      say(
        'rows-apart',
        null,
        far.map(({ id }) => id),
        `In the ${name} the engineer asks for rows at most ${most} mm apart, and in ${far.length} ${far.length === 1 ? 'sheet' : 'sheets'} there they stand ${apart(first).toFixed(0)} mm apart. Give the edges rows of narrower sheets on the Roof stage, or a row between under a welded strip.`,
      );
  }
}

function zoneFinder(
  edges: readonly Edge[],
  { perimeter, corner }: NonNullable<Evidence['given']['spacing']['zones']>,
): (place: Flat) => FasteningZone | null {
  const outline = edges.filter(({ ring }) => ring === 0);
  const outer = outline.filter(({ kind }) => !PARTED.includes(kind));
  const corners = outline.flatMap((next, k) => {
    const before = outline[(k + outline.length - 1) % outline.length] as Edge;
    if (PARTED.includes(before.kind) || PARTED.includes(next.kind)) return [];
    return squareTo(before, next.to) > TURN_SINE * next.length ? [[before, next] as const] : [];
  });
  return (place) => {
    if (
      corner &&
      corners.some((pair) => pair.every((edge) => Math.abs(squareTo(edge, place)) <= corner.depth))
    )
      return corner;
    if (perimeter && outer.some(({ from, to }) => distanceTo(from, to, place) <= perimeter.depth))
      return perimeter;
    return null;
  };
}

/** How far a place is to the left of an edge's line. */
function squareTo({ from, to, length }: Edge, [x, y]: Flat): number {
  return ((to[0] - from[0]) * (y - from[1]) - (to[1] - from[1]) * (x - from[0])) / length;
}
