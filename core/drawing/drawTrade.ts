// In: a roof and its seams. Out: shapes for what the rules of the trade act on: lines, parts with their falls, what
// drains keep clear, flutes, target sheets and slits. Promise: each carries the id of what it shows.
import type { RoofPoint } from '../geometry/points';
import type { Fall, Fitting, LineKind, Roof } from '../roof/types';
import type { Seams } from '../seams/types';
import { formatFall, toRadians, turn } from '../units/angles';
import type { Display } from '../units/lengths';
import { openestPoint } from './places';
import type { Shape } from './types';

export function drawTrade(roof: Roof, seams: Seams | null, display: Display): readonly Shape[] {
  return [
    ...roof.facets.flatMap((facet): Shape[] => {
      const room = openestPoint({ outline: facet.ring, openings: [] });
      return [
        { kind: 'area', rings: [facet.ring], style: 'facet', id: facet.id },
        fallArrow(facet.id, room, facet.downhill),
        fallLabel(facet.id, room, facet, display),
      ];
    }),
    ...roof.fittings.flatMap(clearCircle),
    ...roof.lines.flatMap(({ id, kind, from, to }): Shape[] => [
      { kind: 'line', from, to, style: 'roof-line', id, detail: kind },
      lineName(id, kind, from, to),
    ]),
    ...fluteMark(roof),
    ...(seams ? patches(seams) : []),
  ];
}

const LONGEST_ARROW = 6000;
/** Names stand beside their line, mm. */
const LIFT = 500;

interface Room {
  readonly at: RoofPoint;
  readonly clear: number;
}

/** The arrow points the way water runs, at the spot farthest from every edge. */
export function fallArrow(id: string, { at, clear }: Room, downhill: number): Shape {
  const half = Math.min(LONGEST_ARROW, clear) / 2;
  const step: RoofPoint = [Math.cos(toRadians(downhill)) * half, Math.sin(toRadians(downhill)) * half];
  return {
    kind: 'line',
    from: [at[0] - step[0], at[1] - step[1]],
    to: [at[0] + step[0], at[1] + step[1]],
    style: 'fall',
    id,
  };
}

export function fallLabel(id: string, { at }: Room, { downhill, ratio }: Fall, display: Display): Shape {
  const angle = readable(downhill);
  return {
    kind: 'text',
    at: lifted(at, angle, LIFT),
    text: ratio === null ? 'falls' : `falls ${formatFall(ratio, display)}`,
    angle,
    style: 'fall',
    id,
  };
}

/** What a drain keeps clear of laps, where the job says how far: from the rim of its bowl. */
function clearCircle({ id, kind, at, size, clear }: Fitting): Shape[] {
  if (kind !== 'drain' || clear === undefined || clear === 0) return [];
  return [{ kind: 'mark', at, size: size + 2 * clear, style: 'clear', id }];
}

const LINE_NAMES: Readonly<Record<LineKind, string>> = {
  expansion: 'expansion joint',
  'tie-in': 'tie-in',
  phase: 'phase line',
  valley: 'valley',
};

function lineName(id: string, kind: LineKind, from: RoofPoint, to: RoofPoint): Shape {
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
  const angle = readable((Math.atan2(to[1] - from[1], to[0] - from[0]) * 180) / Math.PI);
  const middle: RoofPoint = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2];
  return {
    kind: 'text',
    at: lifted(middle, angle, LIFT),
    text: LINE_NAMES[kind],
    angle,
    room: length,
    style: 'line-name',
    id,
  };
}

/** Three strokes along the flutes, a little off the roof's open middle where its fall stands. */
const FLUTE = { half: 900, apart: 150, aside: 1500 };

function fluteMark({ id, deck, ...roof }: Roof): Shape[] {
  if (!deck || deck.flutes === null) return [];
  const { at, clear } = openestPoint(roof);
  const [cos, sin] = [Math.cos(toRadians(deck.flutes)), Math.sin(toRadians(deck.flutes))];
  const aside = Math.min(FLUTE.aside, clear / 2);
  const place = (u: number, v: number): RoofPoint => [
    at[0] + u * cos - (v - aside) * sin,
    at[1] + u * sin + (v - aside) * cos,
  ];
  const half = Math.min(FLUTE.half, clear / 2);
  const angle = readable(deck.flutes);
  return [
    ...[-1, 0, 1].map((k): Shape => ({
      kind: 'line',
      from: place(-half, k * FLUTE.apart),
      to: place(half, k * FLUTE.apart),
      style: 'flutes',
      id: `${id}.flutes`,
    })),
    {
      kind: 'text',
      at: lifted(place(0, 0), angle, LIFT),
      text: 'flutes',
      angle,
      style: 'fall',
      id: `${id}.flutes`,
    },
  ];
}

/** Target sheets over drains, and slits with the strip welded over them. */
function patches({ targets, slits }: Seams): Shape[] {
  return [
    ...targets.map(({ id, at, side }): Shape => {
      const h = side / 2;
      const corners: RoofPoint[] = [
        [at[0] - h, at[1] - h],
        [at[0] + h, at[1] - h],
        [at[0] + h, at[1] + h],
        [at[0] - h, at[1] + h],
      ];
      return { kind: 'area', rings: [corners], style: 'target', id };
    }),
    ...slits.map(({ id, from, to }): Shape => ({ kind: 'line', from, to, style: 'slit', id })),
  ];
}

function lifted(at: RoofPoint, angle: number, by: number): RoofPoint {
  return [at[0] - Math.sin(toRadians(angle)) * by, at[1] + Math.cos(toRadians(angle)) * by];
}

/** Turns a direction so that text along it is read from below or from the right. */
export function readable(degrees: number): number {
  const angle = turn(degrees, 180);
  return angle > 90 ? angle - 180 : angle;
}
