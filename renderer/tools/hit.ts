// What lies under the pointer, in the order a hand means it: a corner before its edge, a lap before its sheet.
import type { Shape, RoofDrawing } from '../../core/drawing/types';
import type { PagePoint } from '../../core/geometry/points';
import type { Job } from '../../core/job/schema';
import type { Picked, PickedKind } from '../document/picked';
import { distance, isInside, nearestOn, ringsOnPage } from '../document/rings';
import type { Stage } from '../document/view';

const REACH_PX = { corner: 9, fitting: 10, joint: 8, edge: 6, lap: 6 } as const;

export interface HitRequest {
  readonly at: PagePoint;
  readonly page: string;
  readonly pxPerPoint: number;
  readonly stage: Stage;
}

export function hitTest(job: Job, drawings: readonly RoofDrawing[], request: HitRequest): Picked | null {
  const { stage } = request;
  const onRoof = () => hitFitting(job, request) ?? hitCornerOrEdge(job, request) ?? hitLine(job, request);
  if (stage === 'plan' || stage === 'roof') return onRoof() ?? hitRing(job, request);
  const laid = drawings.filter((drawing) => drawing.page === request.page);
  return (
    hitPin(job, request) ??
    hitLaid(laid, request) ??
    onRoof() ??
    hitSheet(laid, request) ??
    hitRing(job, request)
  );
}

function hitFitting(job: Job, { at, page, pxPerPoint }: HitRequest): Picked | null {
  const on = Object.values(job.fittings).filter((f) => job.roofs[f.roof]?.page === page);
  const found = nearest(on, (f) => distance(f.at, at), REACH_PX.fitting / pxPerPoint);
  return found && { kind: 'fitting', id: found.id, roof: found.roof };
}

function hitCornerOrEdge(job: Job, { at, page, pxPerPoint }: HitRequest): Picked | null {
  const sides = ringsOnPage(job, page).flatMap((ring) =>
    ring.edges.map((edge, k) => ({
      edge,
      to: ring.edges[(k + 1) % ring.edges.length]?.at ?? edge.at,
      roof: ring.roof,
    })),
  );
  const corner = nearest(sides, ({ edge }) => distance(edge.at, at), REACH_PX.corner / pxPerPoint);
  if (corner) return { kind: 'corner', id: corner.edge.id, roof: corner.roof };
  const side = nearest(
    sides,
    ({ edge, to }) => distance(nearestOn(edge.at, to, at), at),
    REACH_PX.edge / pxPerPoint,
  );
  return side && { kind: 'edge', id: side.edge.id, roof: side.roof };
}

function hitPin(job: Job, { at, page, pxPerPoint }: HitRequest): Picked | null {
  const pins = Object.values(job.roofs)
    .filter((roof) => roof.page === page)
    .flatMap((roof) => (roof.laying.pins ?? []).map((pin, k) => ({ pin, id: String(k), roof: roof.id })));
  const found = nearest(pins, ({ pin }) => distance(pin, at), REACH_PX.joint / pxPerPoint);
  return found && { kind: 'pin', id: found.id, roof: found.roof };
}

function hitLine(job: Job, { at, page, pxPerPoint }: HitRequest): Picked | null {
  const lines = Object.values(job.roofs)
    .filter((roof) => roof.page === page)
    .flatMap((roof) => roof.lines.map((line) => ({ ...line, roof: roof.id })));
  const off = (line: { from: PagePoint; to: PagePoint }) => distance(nearestOn(line.from, line.to, at), at);
  const found = nearest(lines, off, REACH_PX.edge / pxPerPoint);
  return found && { kind: 'line', id: found.id, roof: found.roof };
}

/** Openings before the roof that holds them. */
function hitRing(job: Job, { at, page }: HitRequest): Picked | null {
  const inside = ringsOnPage(job, page).filter((ring) =>
    isInside(
      ring.edges.map((e) => e.at),
      at,
    ),
  );
  const ring = inside.find((one) => one.owner === 'opening') ?? inside[0];
  return ring ? { kind: ring.owner, id: ring.id, roof: ring.roof } : null;
}

function hitLaid(drawings: readonly RoofDrawing[], request: HitRequest): Picked | null {
  for (const drawing of drawings) {
    const reach = (REACH_PX.joint / request.pxPerPoint) * drawing.mmPerPoint;
    const here = [request.at[0] * drawing.mmPerPoint, request.at[1] * drawing.mmPerPoint] as const;
    const shapes = drawing.layers.flatMap((layer) => layer.shapes);
    const joint = nearest(
      shapes.filter((s) => s.kind === 'mark' && s.style === 't-joint'),
      (s) => offShape(s, here),
      reach,
    );
    if (joint) return { kind: 't-joint', id: joint.id, roof: drawing.roof };
    const lap = nearest(
      shapes.filter((s) => s.kind === 'line' && (s.detail === 'side-lap' || s.detail === 'end-lap')),
      (s) => offShape(s, here),
      reach,
    );
    if (lap) return { kind: 'lap', id: lap.id, roof: drawing.roof };
  }
  return null;
}

function hitSheet(drawings: readonly RoofDrawing[], { at }: HitRequest): Picked | null {
  for (const drawing of drawings) {
    const here = [at[0] * drawing.mmPerPoint, at[1] * drawing.mmPerPoint] as const;
    if (!insideAll(drawing.clip, here)) continue;
    for (const layer of drawing.layers)
      for (const shape of [...layer.shapes].reverse()) {
        if (shape.kind !== 'area' || shape.style !== 'film') continue;
        if (insideAll(shape.rings, here)) return picked('sheet', shape.id, drawing.roof);
      }
  }
  return null;
}

/** An odd count of rings around the point: inside the outline and in none of its holes. */
const insideAll = (rings: RoofDrawing['clip'], at: readonly [number, number]): boolean =>
  rings.filter((ring) => isInside(ring, at)).length % 2 === 1;

const picked = (kind: PickedKind, id: string, roof: string): Picked => ({ kind, id, roof });

function offShape(shape: Shape, at: readonly [number, number]): number {
  if (shape.kind === 'line') return distance(nearestOn(shape.from, shape.to, at), at);
  return shape.kind === 'mark' ? distance(shape.at, at) : Infinity;
}

function nearest<T>(items: readonly T[], off: (item: T) => number, within: number): T | null {
  let best: T | null = null;
  let least = within;
  for (const item of items) {
    const away = off(item);
    if (away > least) continue;
    least = away;
    best = item;
  }
  return best;
}
