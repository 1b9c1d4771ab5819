// In: a roof, the sheets, seams and fastener rows of a finished layout, and the rules it was to keep. Out: findings,
// worst first, each with a place. Promise: it re-derives what it needs from coordinates with plain arithmetic of its
// own; no finding for a sound layout, one for each fault.
import type { Fastening } from '../fastening/types';
import type { Edge, Roof } from '../roof/types';
import type { Seams } from '../seams/types';
import type { Layout } from '../sheets/types';
import { firstFourfold, firstUncovered, type Flat, type Rect } from './cover';
import { checkEndLaps, checkPieces, checkSideLaps } from './laps';
import { rulesOf, type Evidence, type Say, type SheetAsCut, type Spacing, type Verified } from './evidence';
import { RULES, SEVERITY_ORDER, TOLERANCE_MM } from './rules';
import { checkDrains, checkFasteners, checkSeamMetres } from './seams';
import type { Finding } from './types';

export function verifyLayout(
  roof: Roof,
  layout: Layout,
  seams: Seams,
  fastening: Fastening,
  spacing: Spacing,
): readonly Finding[] {
  const { direction, downhill } = layout.rules;
  return verify({
    roof,
    direction,
    downhill,
    sheets: layout.sheets,
    seams,
    rows: fastening.rows,
    rules: rulesOf(layout.spec),
    spacing,
  });
}

export function verify(given: Verified): readonly Finding[] {
  const angle = (given.direction * Math.PI) / 180;
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  const flat = ([x, y]: readonly [number, number]): Flat => [x * cos + y * sin, y * cos - x * sin];
  const findings: Finding[] = [];
  const say: Say = (rule, at, ids, message) =>
    findings.push({
      rule,
      severity: RULES[rule].severity,
      source: RULES[rule].source,
      roof: given.roof.id,
      at: at && [at[0] * cos - at[1] * sin, at[0] * sin + at[1] * cos],
      ids,
      message,
    });

  const evidence: Evidence = {
    given,
    flat,
    rects: given.sheets.map((sheet) => rectOf(sheet, flat, say)),
    rings: [given.roof.outline, ...given.roof.openings.map((o) => o.ring)].map((ring) => ring.map(flat)),
  };
  checkCover(evidence, say);
  checkSideLaps(evidence, say);
  checkEndLaps(evidence, say);
  checkPieces(evidence, say);
  checkSeamMetres(evidence, say);
  checkDrains(evidence, say);
  checkFasteners(evidence, say);
  return findings.sort((a, b) => SEVERITY_ORDER.indexOf(a.severity) - SEVERITY_ORDER.indexOf(b.severity));
}

function rectOf(sheet: SheetAsCut, flat: Evidence['flat'], say: Say): Rect {
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
      points[0] ?? null,
      [sheet.id],
      `Sheet ${sheet.id} is no rectangle of ${sheet.length} × ${sheet.width} mm along the courses.`,
    );
  return rect;
}

function checkCover({ given, rects, rings, flat }: Evidence, say: Say): void {
  const bare = firstUncovered(rings, rects, TOLERANCE_MM);
  if (bare) say('uncovered', bare, [], 'A part of the roof lies under no sheet here.');
  for (const edge of given.roof.edges) {
    if (edge.allowance === 0) continue;
    const beyond = firstUncovered([beyondEdge(edge).map(flat)], rects, TOLERANCE_MM);
    if (beyond)
      say(
        'uncovered',
        beyond,
        [edge.id],
        `The allowance of ${edge.allowance} mm past an edge lies under no sheet here.`,
      );
  }
  const fourfold = firstFourfold(rects, TOLERANCE_MM);
  if (fourfold)
    say(
      'four-sheets',
      fourfold.at,
      fourfold.ids,
      `Four sheets lie on each other here: ${fourfold.ids.join(', ')}.`,
    );
}

/** The stretch outside an edge (right of its direction) as wide as its allowance. */
function beyondEdge({ from, to, length, allowance }: Edge): Flat[] {
  const [nx, ny] = [((to[1] - from[1]) / length) * allowance, (-(to[0] - from[0]) / length) * allowance];
  return [from, to, [to[0] + nx, to[1] + ny], [from[0] + nx, from[1] + ny]];
}
