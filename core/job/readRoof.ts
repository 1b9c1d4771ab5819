// In: the job's records of one roof and its page. Out: the specs that `buildRoof` and `layRoof` take. Promise:
// page points become roof millimetres on the grid; nothing else is decided here.
import type { FastenerSpacing } from '../fastening/placeFasteners';
import type { PagePoint } from '../geometry/points';
import { toRoofPoint } from '../plan/toRoof';
import type { MeasuredEdge } from '../roof/asBuilt';
import type { OpeningSpec, RingSpec, RoofSpec } from '../roof/types';
import type { Closing, LayoutSpec, RollProduct } from '../sheets/types';
import type { Job, JobEdge, JobFastening, JobFitting, JobOpening, JobRoof, JobSystem } from './schema';

export function readRoof(
  roof: JobRoof,
  mmPerPoint: number,
  outline: readonly JobEdge[],
  openings: readonly JobOpening[],
  sides: readonly JobEdge[],
  fittings: readonly JobFitting[],
): RoofSpec {
  const place = (at: PagePoint) => toRoofPoint(at, mmPerPoint);
  const ring = (edges: readonly JobEdge[]): RingSpec => ({
    corners: edges.map((edge) => place(edge.at)),
    edges: edges.map(({ id, kind, upstand, allowance, clear = 0, perimeter = null }, number) => ({
      id,
      kind,
      upstand,
      allowance,
      clear,
      perimeter,
      number: number + 1,
    })),
  });
  const byId = new Map(sides.map((edge) => [edge.id, edge]));
  return {
    id: roof.id,
    name: roof.name,
    outline: ring(outline),
    openings: openings.map((opening): OpeningSpec => ({
      id: opening.id,
      name: opening.name,
      kind: opening.kind,
      blocks: opening.blocks ?? null,
      ...ring(opening.ring.map((id) => byId.get(id) as JobEdge)),
    })),
    fittings: fittings.map(({ id, kind, at, size, clear, blocks = null }) => ({
      id,
      kind,
      at: place(at),
      size,
      blocks,
      ...(clear === undefined ? {} : { clear }),
    })),
    fall: roof.fall,
    lines: roof.lines.map(({ id, kind, from, to }) => ({ id, kind, from: place(from), to: place(to) })),
    facets: roof.facets.map((facet) => ({ ...facet, ring: facet.ring.map(place) })),
    deck: roof.deck && { ...roof.deck, rib: roof.deck.rib && place(roof.deck.rib) },
  };
}

/** The edges that were measured on site. */
export function readMeasured(
  outline: readonly JobEdge[],
  sides: readonly JobEdge[],
): readonly MeasuredEdge[] {
  return [...outline, ...sides].flatMap(({ id, measured }) => (measured ? [{ edge: id, ...measured }] : []));
}

/** The field roll that the job lays; the job's own checks see to it that it is there. */
export function readRoll(system: JobSystem, rolls: Job['rates']['rolls']): RollProduct {
  return productOf(system.roll, rolls);
}

/** Every roll on offer. */
export function readRolls(rolls: Job['rates']['rolls']): RollProduct[] {
  return rolls.map(({ id }) => productOf(id, rolls));
}

function productOf(id: string, rolls: Job['rates']['rolls']): RollProduct {
  const roll = rolls.find((r) => r.id === id);
  if (!roll) throw new Error(`the roll ${id} is not among the products`);
  return { id: roll.id, width: roll.width, length: roll.length, cost: Number(roll.price) };
}

export function readClosing(
  closing: JobRoof['laying']['closing'],
  rolls: Job['rates']['rolls'],
): Closing | null {
  return closing?.kind === 'narrow' ? { kind: 'narrow', roll: productOf(closing.roll, rolls) } : closing;
}

export function readLayoutSpec(
  system: JobSystem,
  roll: RollProduct,
  rolls: Job['rates']['rolls'],
  laying: JobRoof['laying'],
  mmPerPoint: number,
  prefix: string,
): LayoutSpec {
  const fleece = system.backing === 'fleece';
  return {
    roll,
    closing: readClosing(laying.closing, rolls),
    rolls: readRolls(rolls),
    sideLap: system.sideLap,
    lap: {
      // Butted ends don't overlap.
      endLap: fleece ? 0 : system.endLap,
      endLapStagger: system.endLapStagger,
      minPiece: system.minPiece,
      joints: system.joints,
      cutAllowance: system.cutAllowance,
    },
    trade: {
      minWidth: system.minWidth,
      cornerClear: system.cornerClear,
      strip: fleece ? system.stripWidth : null,
      reinforced: system.reinforced,
      inLap: system.attachment === 'fastened in the lap',
      off: system.rulesOff,
      pins: (laying.pins ?? []).map((at) => toRoofPoint(at, mmPerPoint)),
      order: laying.order ?? null,
    },
    direction: laying.direction,
    firstCourse: laying.firstCourse,
    prefix,
  };
}

/** Fasteners in the lap only where the system asks for them; at edges always. */
export function readSpacing(system: JobSystem, atEdge: number, zones: JobFastening = {}): FastenerSpacing {
  return {
    inLap: system.attachment === 'fastened in the lap' ? system.fastenerSpacing : null,
    atEdge,
    zones,
  };
}
