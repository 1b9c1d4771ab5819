// In: a roof, the sheets, seams and fastener rows of a finished layout, and the rules it was to keep. Out: findings,
// worst first, each with a place. Promise: it re-derives what it needs from coordinates with plain arithmetic of its
// own; no finding for a sound layout, one for each fault.
import type { Fastening } from '../fastening/types';
import type { Edge, Roof } from '../roof/types';
import type { Seams } from '../seams/types';
import type { Layout } from '../sheets/types';
import { firstFourfold, firstUncovered, type Flat, type Rect } from './cover';
import { checkCutEdges, checkFlutes, checkSelvedges } from './edges';
import {
  rulesOf,
  turnedBy,
  type BandSeen,
  type Evidence,
  type Say,
  type SheetAsCut,
  type Spacing,
  type Verified,
  ringsOf,
} from './evidence';
import { checkBandLines, checkEndLaps, checkPieces, checkRows, checkSideLaps } from './laps';
import {
  checkBesideEdges,
  checkLeastWidth,
  checkLines,
  checkOpeningCorners,
  checkUnits,
  checkPins,
} from './places';
import { ALONG_DEG, RULES, SEVERITY_ORDER, TOLERANCE_MM, type Rule } from './rules';
import { checkFasteners, checkSeamMetres } from './seams';
import { firstBare, type Quad } from './slanted';
import type { Finding } from './types';
import { checkDrains, checkValleys, checkWater } from './water';
import { checkZones } from './zones';

export function verifyLayout(
  roof: Roof,
  layout: Layout,
  seams: Seams,
  fastening: Fastening,
  spacing: Spacing,
): readonly Finding[] {
  return verify({
    roof,
    direction: layout.rules.direction,
    sheets: layout.sheets,
    seams,
    rows: fastening.rows,
    rules: rulesOf(layout.spec),
    spacing,
  });
}

const CHECKS = [
  checkSideLaps,
  checkEndLaps,
  checkRows,
  checkBandLines,
  checkPieces,
  checkSeamMetres,
  checkWater,
  checkValleys,
  checkDrains,
  checkBesideEdges,
  checkOpeningCorners,
  checkLeastWidth,
  checkLines,
  checkUnits,
  checkPins,
  checkSelvedges,
  checkCutEdges,
  checkFlutes,
  checkFasteners,
  checkZones,
] as const;

export function verify(given: Verified): readonly Finding[] {
  const findings: Finding[] = [];
  const { off } = given.rules.trade;
  const say: Say = (rule, at, ids, message) => {
    const { severity, source, off: switched }: Rule = RULES[rule];
    if (switched && off.includes(switched)) return;
    findings.push({ rule, severity, source, roof: given.roof.id, at: at && [at[0], at[1]], ids, message });
  };
  const evidence = gather(given, say);
  checkCover(evidence, say);
  for (const check of CHECKS) check(evidence, say);
  return findings.sort((a, b) => SEVERITY_ORDER.indexOf(a.severity) - SEVERITY_ORDER.indexOf(b.severity));
}

function gather(given: Verified, say: Say): Evidence {
  const rings = ringsOf(given.roof);
  const byBand = new Map<string, SheetAsCut[]>();
  for (const sheet of given.sheets) {
    const list = byBand.get(sheet.band);
    if (list) list.push(sheet);
    else byBand.set(sheet.band, [sheet]);
  }
  const bandOf = new Map<string, BandSeen>();
  const rectOf = new Map<string, Rect>();
  const bands = [...byBand].map(([id, sheets]): BandSeen => {
    const frame = turnedBy(bandDirection(id, sheets, given));
    const rects = sheets.map((sheet) => rectIn(sheet, frame, say));
    const band: BandSeen = { id, rects, ...frame, rings: rings.map((ring) => ring.map(frame.flat)) };
    for (const rect of rects) {
      bandOf.set(rect.id, band);
      rectOf.set(rect.id, rect);
    }
    return band;
  });
  const sheetOf = new Map(given.sheets.map((sheet) => [sheet.id, sheet]));
  return { given, bands, bandOf, rectOf, sheetOf, trade: given.rules.trade };
}

/** The field runs in the layout's direction. The rows along an edge run as their sheets lie, as long as that is along
 * the edge; several edges nearly in line share their rows. A sheet across a bend runs inwards, halfway between the
 * edges that meet there. */
function bandDirection(id: string, [first]: readonly SheetAsCut[], { roof, direction }: Verified): number {
  const [, number, across] = /^E(\d+)(X?)[a-z]?$/.exec(id) ?? [];
  const outer = roof.edges.filter((e) => e.ring === 0);
  const at = outer.findIndex((e) => String(e.number) === number);
  const edge = outer[at];
  if (!edge) return direction;
  const heading = (from: Flat, to: Flat) => (Math.atan2(to[1] - from[1], to[0] - from[0]) * 180) / Math.PI;
  const turned = (from: number, to: number) => ((to - from + 540) % 360) - 180;
  const before = outer[(at + outer.length - 1) % outer.length] ?? edge;
  const own = heading(edge.from, edge.to);
  const bend = turned(heading(before.from, before.to), own);
  const due = across ? own - bend / 2 + 90 : own;
  const [a, b] = first?.corners ?? [];
  const lies = a && b ? heading(a, b) : due;
  return Math.abs(turned(due, lies)) <= ALONG_DEG ? lies : due;
}

function rectIn(sheet: SheetAsCut, { flat, back }: Pick<BandSeen, 'flat' | 'back'>, say: Say): Rect {
  const points = sheet.corners.map(flat);
  const us = points.map((p) => p[0]);
  const vs = points.map((p) => p[1]);
  const rect = {
    id: sheet.id,
    course: sheet.course,
    u0: Math.min(...us),
    u1: Math.max(...us),
    v0: Math.min(...vs),
    v1: Math.max(...vs),
  };
  const square = points.every(
    ([u, v]) =>
      Math.min(Math.abs(u - rect.u0), Math.abs(u - rect.u1)) < TOLERANCE_MM &&
      Math.min(Math.abs(v - rect.v0), Math.abs(v - rect.v1)) < TOLERANCE_MM,
  );
  const sized =
    Math.abs(rect.u1 - rect.u0 - sheet.length) < TOLERANCE_MM &&
    Math.abs(rect.v1 - rect.v0 - sheet.width) < TOLERANCE_MM;
  if (!square || !sized)
    say(
      'not-square',
      points[0] ? back(points[0]) : null,
      [sheet.id],
      `Sheet ${sheet.id} is no rectangle of ${sheet.length} × ${sheet.width} mm along the courses.`,
    );
  return rect;
}

/** All sheets in the field's frame: as rectangles where they all lie square to it, else as they lie. */
function checkCover({ given, bands }: Evidence, say: Say): void {
  const { flat, back } = turnedBy(given.direction);
  const rings = ringsOf(given.roof).map((ring) => ring.map(flat));
  const quads = bands.flatMap((band) =>
    band.rects.map((r): Quad => {
      const corners: Flat[] = [
        [r.u0, r.v0],
        [r.u1, r.v0],
        [r.u1, r.v1],
        [r.u0, r.v1],
      ];
      return { id: r.id, corners: corners.map((corner) => flat(band.back(corner))) };
    }),
  );
  const rects = quads.map(asRect);
  const square = rects.every((rect) => rect !== null);
  const bareIn = (polygon: readonly (readonly Flat[])[]) =>
    square ? firstUncovered(polygon, rects as Rect[], TOLERANCE_MM) : firstBare(polygon, quads, TOLERANCE_MM);
  const bare = bareIn(rings);
  if (bare) say('uncovered', back(bare), [], 'A part of the roof lies under no sheet here.');
  for (const edge of given.roof.edges) {
    if (edge.allowance === 0) continue;
    const beyond = bareIn([beyondEdge(edge).map(flat)]);
    if (beyond)
      say(
        'uncovered',
        back(beyond),
        [edge.id],
        `The allowance of ${edge.allowance} mm past an edge lies under no sheet here.`,
      );
  }
  for (const band of bands) {
    const fourfold = firstFourfold(band.rects, TOLERANCE_MM);
    if (fourfold)
      say(
        'four-sheets',
        band.back(fourfold.at),
        fourfold.ids,
        `Four sheets lie on each other here: ${fourfold.ids.join(', ')}.`,
      );
  }
}

/** A quad whose sides run along the frame, or null. */
function asRect({ id, corners }: Quad): Rect | null {
  const us = corners.map((p) => p[0]);
  const vs = corners.map((p) => p[1]);
  const [u0, u1, v0, v1] = [Math.min(...us), Math.max(...us), Math.min(...vs), Math.max(...vs)];
  const square = corners.every(
    ([u, v]) => Math.min(u - u0, u1 - u) < TOLERANCE_MM / 10 && Math.min(v - v0, v1 - v) < TOLERANCE_MM / 10,
  );
  return square ? { id, course: 0, u0, u1, v0, v1 } : null;
}

/** The stretch outside an edge (right of its direction) as wide as its allowance. */
function beyondEdge({ from, to, length, allowance }: Edge): Flat[] {
  const [nx, ny] = [((to[1] - from[1]) / length) * allowance, (-(to[0] - from[0]) / length) * allowance];
  return [from, to, [to[0] + nx, to[1] + ny], [from[0] + nx, from[1] + ny]];
}
