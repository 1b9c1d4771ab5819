// In: a roof. Out: the flashings, corners and boots that its edges and fittings ask for. Promise: metres of flashing
// are the edge metres that have an upstand; inside and outside corners are told apart.
import type { Edge, Fitting, Roof } from '../roof/types';
import { IN_LINE_SINE } from '../geometry/tolerances';
import type { Boot, Corner, Details, FlashingPiece } from './types';

/** The flashing's foot on the field sheet, mm: 75–100 (common practice, no source). */
export const FLASHING_FOOT_MM = 100;
/** Flange of a boot or collar beyond the pipe, mm: 75–100 (common practice, no source). */
const BOOT_FLANGE_MM = 90;
/** Least height of a base flashing, mm (guide specifications ask for 200 mm above the finished roof). */
const LEAST_UPSTAND_MM = 200;

const STANDS_UP: ReadonlySet<Edge['kind']> = new Set(['parapet', 'wall', 'curb']);

/** `flashingSheet` is the length of one flashing sheet, mm: a longer upstand needs a lap of its own. */
export function listDetails(roof: Roof, flashingSheet: number): Details {
  const corners = cornersOf(roof.edges);
  const byEdge = new Map<string, Corner[]>();
  for (const corner of corners)
    for (const id of corner.edges) {
      const list = byEdge.get(id);
      if (list) list.push(corner);
      else byEdge.set(id, [corner]);
    }
  const upright = roof.edges.filter((edge) => STANDS_UP.has(edge.kind) && edge.upstand > 0);
  return {
    flashings: upright.map((edge) => flashingOf(edge, byEdge.get(edge.id) ?? [], flashingSheet)),
    corners,
    boots: roof.fittings.map(bootOf),
    notes: notesOn(roof),
  };
}

/** The foot is welded along its outer edge, so each outside corner lengthens it by a foot on both sides and each
 * inside corner shortens it; upright laps stand at corners and between sheets. */
function flashingOf(edge: Edge, own: readonly Corner[], sheet: number): FlashingPiece {
  const ends = own.reduce((sum, corner) => sum + (corner.kind === 'outside' ? 1 : -1), 0);
  const foot = Math.max(0, edge.length + ends * FLASHING_FOOT_MM);
  const upright =
    Math.ceil(edge.length / sheet) - 1 + own.filter((corner) => corner.edges[0] === edge.id).length;
  return {
    id: `flashing ${edge.id}`,
    edge: edge.id,
    length: edge.length,
    height: edge.upstand + FLASHING_FOOT_MM,
    weld: foot + upright * edge.upstand,
  };
}

//   roof │ wall          A corner of the roof that juts out is an inside corner of the walls round it;
//   ─────┘               one that points in, as every corner of a free-standing curb does, is an outside corner.
function cornersOf(edges: readonly Edge[]): Corner[] {
  const corners: Corner[] = [];
  const firstOf = new Map<number, Edge>();
  for (const edge of edges) if (!firstOf.has(edge.ring)) firstOf.set(edge.ring, edge);
  edges.forEach((edge, i) => {
    const after = edges[i + 1];
    const next = after?.ring === edge.ring ? after : (firstOf.get(edge.ring) as Edge);
    if (!STANDS_UP.has(edge.kind) || !STANDS_UP.has(next.kind) || edge.upstand === 0 || next.upstand === 0)
      return;
    const turn =
      ((edge.to[0] - edge.from[0]) * (next.to[1] - next.from[1]) -
        (edge.to[1] - edge.from[1]) * (next.to[0] - next.from[0])) /
      (edge.length * next.length);
    if (Math.abs(turn) < IN_LINE_SINE) return;
    corners.push({
      id: `corner ${next.id}`,
      kind: turn > 0 ? 'inside' : 'outside',
      at: next.from,
      upstand: Math.min(edge.upstand, next.upstand),
      edges: [edge.id, next.id],
    });
  });
  return corners;
}

function bootOf(fitting: Fitting): Boot {
  const round = Math.PI * (fitting.size + 2 * BOOT_FLANGE_MM);
  const square = 4 * (fitting.size + 2 * BOOT_FLANGE_MM);
  return {
    id: `boot ${fitting.id}`,
    fitting: fitting.id,
    kind: fitting.kind,
    weld: fitting.kind === 'scupper' ? square : round,
  };
}

function notesOn(roof: Roof): string[] {
  const notes: string[] = [];
  const low = roof.edges.filter(
    (edge) => STANDS_UP.has(edge.kind) && edge.upstand > 0 && edge.upstand < LEAST_UPSTAND_MM,
  );
  if (low.length > 0)
    notes.push(
      `${low.length} upstand(s) are lower than ${LEAST_UPSTAND_MM} mm, the least that guide specifications ask for above the finished roof.`,
    );
  const flat = roof.edges.filter((edge) => STANDS_UP.has(edge.kind) && edge.upstand === 0);
  if (flat.length > 0)
    notes.push(`${flat.length} edge(s) stand up but have no upstand height: no flashing is counted there.`);
  return notes;
}
